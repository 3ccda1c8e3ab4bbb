"""A ReportLab canvas on which nothing can be painted unless it is tagged or declared an artifact.

Comes in: painting between `mark` and its end. Goes out: page streams in which every painting operator stands in
exactly one marked-content sequence, and the kids of each `Tag`. Painting outside a mark is a `LayoutError`.
Must not know blocks. `_doc`, `_code` and `_annotationrefs` are private to ReportLab: its version is pinned, and the tests of
this stage read the written streams back.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from reportlab.pdfbase.pdfdoc import (
    LinkAnnotation,
    PDFArray,
    PDFDictionary,
    PDFName,
    PDFObjectReference,
    PDFString,
)
from reportlab.pdfgen.canvas import Canvas

from reporter.errors import LayoutError
from reporter.model.pages import Linked, Marked
from reporter.typeset.glyphs import face_name
from reporter.typeset.images import Images
from reporter.typeset.tags import Artifact, Tag
from reporter.typeset.update import Spool, updated

_PAINTING = frozenset(
    ["S", "s", "f", "F", "f*", "B", "B*", "b", "b*", "sh", "Do", "Tj", "TJ", "'", '"', "EI"]
)


class TaggedCanvas(Canvas):  # type: ignore[misc]  # ReportLab is untyped
    """Canvas with exactly one mark open while anything is painted; the page index counts from 0."""

    def __init__(self, target: Path, size: tuple[float, float]) -> None:
        self._marked_until = 0
        self._open: Tag | Artifact | None = None
        self._last: Tag | Artifact | None = None
        self._next_mcid = 0
        self._target = target
        self._images = Images()
        self._finished = Spool(target.parent)
        super().__init__(
            str(target), pagesize=size, invariant=1, pageCompression=1, initialFontName=face_name("Regular")
        )

    @property
    def page_index(self) -> int:
        """The page being painted, counted from 0."""
        return int(self._pageNumber) - 1

    @contextmanager
    def mark(self, owner: Tag | Artifact) -> Iterator[None]:
        """Everything painted inside belongs to `owner`; marks do not nest.

        Nothing is written when nothing was painted, so there are no empty sequences.
        """
        if self._open is not None:
            raise LayoutError(
                "A mark was opened inside another.", "This is a fault of the program: report it."
            )
        self._refuse_unmarked()
        start = len(self._code)
        self._open = owner
        yield
        self._open = None
        if any(_paints(code) for code in self._code[start:]):
            if self._last == owner and start == self._marked_until:
                # The lines of a paragraph follow one another: one sequence is enough for all of them.
                del self._code[start - 1]
            else:
                self._code.insert(start, self._opening(owner))
            self._code.append("EMC")
            self._marked_until = len(self._code)
            self._last = owner
        elif start == self._marked_until:
            self._marked_until = len(self._code)
            self._last = None

    def link(self, owner: Tag, rect: tuple[float, float, float, float], href: str, contents: str) -> None:
        """Lay a link annotation over `rect` (page points) and make it a kid of `owner`."""
        index = len(self._annotationrefs)
        if href.startswith("#"):
            place = self._doc.Reference(self._bookmarkReference(href[1:]), f"Place.{href[1:]}")
            self._addAnnotation(LinkAnnotation(rect, PDFString(contents), place, "[0 0 0]"))
        else:
            self.linkURL(href, rect, Contents=PDFString(contents))
        owner.add(Linked(self.page_index, index, contents))

    def field(self, owner: Tag, rect: tuple[float, float, float, float], label: str) -> int:
        """Leave a form field's place on `rect` (page points), a kid of `owner`; its number among the page's annotations.

        The archive stage makes the field of it.
        """
        index = len(self._annotationrefs)
        widget = PDFDictionary(
            {"Type": PDFName("Annot"), "Subtype": PDFName("Widget"), "Rect": PDFArray(list(rect))}
        )
        self._addAnnotation(widget)
        owner.add(Linked(self.page_index, index, label))
        return index

    def picture(self, file: Path, corner: tuple[float, float], size: tuple[float, float]) -> None:
        """Paint a JPEG file from its lower left corner, `size` points wide and high; it is read when the canvas is saved."""
        self.saveState()
        self.translate(*corner)
        self.scale(*size)
        self.doForm(self._images.name(file))
        self.restoreState()

    def save(self) -> None:
        """Write the file, then put finished pages and pictures into it; OSError when it cannot be written."""
        super().save()
        with updated(self._target) as update:
            self._finished.append(update)
            self._images.append(self._doc, update)

    def showPage(self) -> None:  # noqa: N802  # ReportLab's name
        """End the page and write it down; fails when something on it was painted unmarked."""
        self._refuse_unmarked()
        self._images.reserve(self._doc)
        name, annotations = self._doc.thisPageName(), self._annotationrefs
        super().showPage()
        page = self._doc.Pages.pages.pop()
        self._doc.Pages.addPage(PDFObjectReference(name))
        self._finished.take(self._doc, name)
        for each in (page.Contents.__InternalName__, *(reference.name for reference in annotations)):
            self._finished.take(self._doc, each)

    def _startPage(self) -> None:  # noqa: N802  # ReportLab's name
        super()._startPage()
        self._next_mcid = 0
        self._marked_until = 0
        self._last = None

    def _opening(self, owner: Tag | Artifact) -> str:
        if isinstance(owner, Artifact):
            return f"/Artifact {owner.properties} BDC"
        mcid = self._next_mcid
        self._next_mcid += 1
        owner.add(Marked(self.page_index, mcid))
        return f"/{owner.role} <</MCID {mcid}>> BDC"

    def _refuse_unmarked(self) -> None:
        if any(_paints(code) for code in self._code[self._marked_until :]):
            raise LayoutError(
                "Something was painted outside every element and every declared artifact.",
                "This is a fault of the program: report it with the job's findings.yaml.",
            )


def _paints(code: str) -> bool:
    """True when a piece of a page stream holds a painting operator (ISO 32000-1, table 51).

    A string operand may hold such a word too, but only in a text object that paints anyway.
    """
    return not _PAINTING.isdisjoint(code.split())
