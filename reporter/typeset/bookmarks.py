"""Places in the document that can be reached: named destinations and bookmarks.

Comes in: the slice at a place, and what the bookmark says. Goes out: the slice's painting extended. Must not compose.
"""

from __future__ import annotations

from dataclasses import dataclass

from reporter.typeset.glyphs import strip_controls
from reporter.typeset.pen import Pen
from reporter.typeset.print_context import PrintContext
from reporter.typeset.slices import Slice
from reporter.typeset.styles import MM


@dataclass(frozen=True, slots=True)
class Bookmark:
    """A named place; with `title` and `level` (1 to 3) it is listed in the viewer's bookmarks too."""

    anchor: str
    title: str = ""
    level: int = 0


def bookmarked(context: PrintContext, piece: Slice, bookmark: Bookmark) -> None:
    """Make `piece` leave the destination, and the bookmark if any, where it is painted."""
    inner = piece.paint
    piece.anchor = bookmark.anchor

    def paint(pen: Pen, top: float, height: float) -> None:
        pen.canvas.bookmarkPage(bookmark.anchor, fit="XYZ", left=0, top=pen.page[1] - top + 6 * MM)
        if bookmark.level:
            title = " ".join(strip_controls(bookmark.title).split()) or "–"
            pen.canvas.addOutlineEntry(
                title, bookmark.anchor, context.bookmark_levels.level(bookmark.level), closed=0
            )
        inner(pen, top, height)

    piece.paint = paint
