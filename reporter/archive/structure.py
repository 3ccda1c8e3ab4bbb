"""The structure tree as PDF objects: `Element` values become StructTreeRoot, ParentTree and all pointers.

Comes in: the open file and the tree that typesetting recorded. Goes out: the file, changed in place. Page
contents are neither read nor changed.
"""

from __future__ import annotations

from typing import Any

import pikepdf
from pikepdf import Array, Dictionary, Name, Object, String

from reporter.archive.wording import storable
from reporter.model.pages import Element, Linked, Marked

_PRINT = 4
_NEEDS_ID = {"Note"}
"""ISO 14289-1, 7.9."""
_PLAIN = "", 1, 1
"""Scope, columns and rows of a cell, and of anything else, of which nothing has to be said."""


def plant(pdf: pikepdf.Pdf, tree: Element) -> None:
    """Give the file its structure tree (ISO 32000-1, 14.7) and let pages and annotations point back into it.

    ParentTree keys: pages by their number from 0, then annotations in reading order. Raises IndexError when
    the tree names a page or an annotation that the file lacks.
    """
    planting = _Planting(pdf)
    root = planting.root
    document, _ = planting.element(tree, root)
    root.K = Array([document])
    planting.close()
    pdf.Root.StructTreeRoot = root


class _Numbers(dict[int, Object]):
    """The one object of each number: made anew for every element each takes 130 bytes."""

    def __missing__(self, number: int) -> Object:
        with pikepdf.explicit_conversion():
            return self.setdefault(number, Array([number])[0])


class _Planting:
    """One walk over the tree, and what it learns about pages, annotations and names."""

    def __init__(self, pdf: pikepdf.Pdf) -> None:
        self.pdf = pdf
        self.root = pdf.make_indirect(Dictionary(Type=Name.StructTreeRoot))
        self.pages = [page.obj for page in pdf.pages]
        self.rows = [Array() for _ in self.pages]
        self.numbers = _Numbers()
        self.annotation_owners: list[Object] = []
        self.named: list[Object] = []
        self.names: dict[str, Name] = {}
        self.cells: dict[tuple[str, int, int], Dictionary] = {}

    def element(self, element: Element, parent: Object) -> tuple[Object, int | None]:
        """Make one element and all below it; also tell the page on which its content begins."""
        made = self.pdf.make_indirect(Dictionary())
        page = next((kid.page for kid in element.kids if isinstance(kid, Marked)), None)
        kids: list[Object | int] = []
        for kid in element.kids:
            if isinstance(kid, Element):
                child, child_page = self.element(kid, made)
                kids.append(child)
                page = child_page if page is None else page
            elif isinstance(kid, Marked):
                kids.append(self._mark(kid, made, page))
            else:
                kids.append(self._annotation(kid, made))
                page = kid.page if page is None else page
        held = self._described(element, made, parent)
        if kids:
            held["/K"] = kids[0] if len(kids) == 1 else Array(kids)
        if page is not None:
            held["/Pg"] = self.pages[page]
        # Names in it are shared with other elements; set one by one each would be copied, at 220 bytes a name.
        self.pdf._replace_object(made.objgen, Dictionary(held))  # noqa: SLF001 - there is no public way
        return made, page

    def close(self) -> None:
        """Write the way back from pages and annotations to their elements, and the names of elements."""
        numbers: list[Object | int] = []
        for key, (page, row) in enumerate(zip(self.pages, self.rows, strict=True)):
            page.StructParents = key
            page.Tabs = Name.S
            numbers += [key, self.pdf.make_indirect(row)]
        for key, owner in enumerate(self.annotation_owners, len(self.pages)):
            numbers += [key, owner]
        self.root.ParentTree = self.pdf.make_indirect(Dictionary(Nums=Array(numbers)))
        self.root.ParentTreeNextKey = len(self.pages) + len(self.annotation_owners)
        if self.named:
            names = [part for element in self.named for part in (element.ID, element)]
            self.root.IDTree = self.pdf.make_indirect(Dictionary(Names=Array(names)))

    def _mark(self, mark: Marked, owner: Object, page: int | None) -> Object | int:
        row = self.rows[mark.page]
        row.extend(Array([None] * (mark.mcid + 1 - len(row))))
        row[mark.mcid] = owner
        if mark.page == page:
            return self.numbers[mark.mcid]
        return Dictionary(Type=Name.MCR, Pg=self.pages[mark.page], MCID=mark.mcid)

    def _annotation(self, link: Linked, owner: Object) -> Object:
        annotations = self.pages[link.page].Annots
        annotation = annotations[link.annotation]
        if not annotation.is_indirect:
            annotation = self.pdf.make_indirect(annotation)
            annotations[link.annotation] = annotation
        annotation.Contents = String(storable(link.contents))
        annotation.F = int(annotation.get("/F", 0)) | _PRINT
        annotation.StructParent = len(self.pages) + len(self.annotation_owners)
        self.annotation_owners.append(owner)
        return Dictionary(Type=Name.OBJR, Obj=annotation, Pg=self.pages[link.page])

    def _described(self, element: Element, made: Object, parent: Object) -> dict[str, Any]:
        """What is said of an element, by key; its kids and its page are not among it."""
        held = {"/Type": self._name("StructElem"), "/S": self._name(element.role), "/P": parent}
        for key, text in (("/Alt", element.alt), ("/Lang", element.lang), ("/T", element.title)):
            if text:
                held[key] = String(storable(text))
        attributes = self._attributes(element)
        if attributes:
            held["/A"] = attributes[0] if len(attributes) == 1 else Array(attributes)
        if element.role in _NEEDS_ID:
            self.named.append(made)
            held["/ID"] = String(f"note-{len(self.named):06}")
        return held

    def _attributes(self, element: Element) -> list[Dictionary]:
        """Attribute objects by owner (ISO 32000-1, 14.8.5)."""
        found: list[Dictionary] = []
        if element.bbox:
            found.append(Dictionary(O=Name.Layout, BBox=Array([round(edge, 3) for edge in element.bbox])))
        if element.numbering:
            found.append(Dictionary(O=Name.List, ListNumbering=self._name(element.numbering)))
        cell = element.scope, element.column_span, element.row_span
        if cell != _PLAIN:
            if cell not in self.cells:
                self.cells[cell] = _cell(*cell)
            found.append(self.cells[cell])
        return found

    def _name(self, name: str) -> Name:
        """The one name object of a word: each takes 220 bytes."""
        return self.names.get(name) or self.names.setdefault(name, Name("/" + name))


def _cell(scope: str, column_span: int, row_span: int) -> Dictionary:
    """What is said of a table's cell (ISO 32000-1, 14.8.5.7)."""
    told: dict[str, Name | int | str] = {"/O": Name.Table}
    if scope:
        told["/Scope"] = Name("/" + scope)
    if column_span > 1:
        told["/ColSpan"] = column_span
    if row_span > 1:
        told["/RowSpan"] = row_span
    return Dictionary(told)
