"""The structure tree as PDF objects: `Element` values become StructTreeRoot, ParentTree and all pointers.

Comes in: the open file and the tree that typesetting recorded. Goes out: the file, changed in place. Page
contents are neither read nor changed.
"""

from __future__ import annotations

import pikepdf
from pikepdf import Array, Dictionary, Name, Object, String

from reporter.archive.wording import storable
from reporter.model.pages import Element, Linked, Marked

_PRINT = 4
_STRUCT_ELEM = Name.StructElem
_NEEDS_ID = {"Note"}
"""ISO 14289-1, 7.9."""


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


class _Planting:
    """One walk over the tree, and what it learns about pages, annotations and names."""

    def __init__(self, pdf: pikepdf.Pdf) -> None:
        self.pdf = pdf
        self.root = pdf.make_indirect(Dictionary(Type=Name.StructTreeRoot))
        self.pages = [page.obj for page in pdf.pages]
        self.marks: list[dict[int, Object]] = [{} for _ in self.pages]
        self.annotation_owners: list[Object] = []
        self.named: list[Object] = []

    def element(self, element: Element, parent: Object) -> tuple[Object, int | None]:
        """Make one element and all below it; also tell the page on which its content begins."""
        begun = Dictionary({"/Type": _STRUCT_ELEM, "/S": Name("/" + element.role), "/P": parent})
        made = self.pdf.make_indirect(begun)
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
        if kids:
            made.K = kids[0] if len(kids) == 1 else Array(kids)
        if page is not None:
            made.Pg = self.pages[page]
        self._describe(element, made)
        return made, page

    def close(self) -> None:
        """Write the way back from pages and annotations to their elements, and the names of elements."""
        numbers: list[Object | int] = []
        for key, (page, marks) in enumerate(zip(self.pages, self.marks, strict=True)):
            page.StructParents = key
            page.Tabs = Name.S
            row = [marks.get(mcid, None) for mcid in range(max(marks, default=-1) + 1)]
            numbers += [key, self.pdf.make_indirect(Array(row))]
        for key, owner in enumerate(self.annotation_owners, len(self.pages)):
            numbers += [key, owner]
        self.root.ParentTree = self.pdf.make_indirect(Dictionary(Nums=Array(numbers)))
        self.root.ParentTreeNextKey = len(self.pages) + len(self.annotation_owners)
        if self.named:
            names = [part for element in self.named for part in (element.ID, element)]
            self.root.IDTree = self.pdf.make_indirect(Dictionary(Names=Array(names)))

    def _mark(self, mark: Marked, owner: Object, page: int | None) -> Object | int:
        self.marks[mark.page][mark.mcid] = owner
        if mark.page == page:
            return mark.mcid
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

    def _describe(self, element: Element, made: Object) -> None:
        for key, text in (("/Alt", element.alt), ("/Lang", element.lang), ("/T", element.title)):
            if text:
                made[key] = String(storable(text))
        attributes = _attributes(element)
        if attributes:
            made.A = attributes[0] if len(attributes) == 1 else Array(attributes)
        if element.role in _NEEDS_ID:
            self.named.append(made)
            made.ID = String(f"note-{len(self.named):06}")


def _attributes(element: Element) -> list[Dictionary]:
    """Attribute objects by owner (ISO 32000-1, 14.8.5)."""
    found: list[Dictionary] = []
    if element.bbox:
        found.append(Dictionary(O=Name.Layout, BBox=Array([round(edge, 3) for edge in element.bbox])))
    if element.numbering:
        found.append(Dictionary(O=Name.List, ListNumbering=Name("/" + element.numbering)))
    table: dict[str, Name | int] = {}
    if element.scope:
        table["/Scope"] = Name("/" + element.scope)
    if element.column_span > 1:
        table["/ColSpan"] = element.column_span
    if element.row_span > 1:
        table["/RowSpan"] = element.row_span
    if table:
        found.append(Dictionary({"/O": Name.Table, **table}))
    return found
