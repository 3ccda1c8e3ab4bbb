"""The overlay of a photo painted: dark core with white halo, discs, plates, insets.

Comes in: primitives of `marks`. Goes out: painting inside the photo's own mark. Must not decide where anything stands.
"""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

from reportlab.pdfbase.pdfutils import readJPEGInfo

from reporter.model.drawing import XY
from reporter.model.photo import Mark
from reporter.typeset.glyphs import text_width
from reporter.typeset.marks import (
    PLATE_LEADING,
    PLATE_PAD,
    Disc,
    Glass,
    Oval,
    Overlay,
    Plate,
    Stroke,
    overlay,
)
from reporter.typeset.pen import Pen
from reporter.typeset.places import moved
from reporter.typeset.print_context import PrintContext
from reporter.typeset.setting import broken
from reporter.typeset.signs import paint_disc
from reporter.typeset.styles import INK, LABEL, WHITE

_CORE = 1.2
_HALO = _CORE + 2 * 0.6
_PLATE_OPACITY = 0.85


def laid_out(
    context: PrintContext, marks: Sequence[Mark], size: XY, keyed: Sequence[str] | None = None
) -> Overlay:
    """The marks of a photo at the size at which it is printed; `keyed` are the labels that its caption explains."""

    def wrap(text: str, measure: float) -> Sequence[str]:
        return broken(context.clean(text), LABEL, measure)

    return overlay(marks, size, wrap, lambda text: text_width(text, LABEL), keyed)


def paint_overlay(pen: Pen, laid: Overlay, insets: Sequence[Path], place: tuple[XY, XY]) -> None:
    """Paint all marks over the photo at `place` (upper left corner, size); `insets` are the files of its inset marks."""
    corner, size = place
    with pen.clipped(corner, size):
        for shape in laid.shapes:
            if isinstance(shape, Stroke | Oval):
                _outline(pen, shape, corner)
            elif isinstance(shape, Disc):
                paint_disc(pen, moved(shape.centre, corner, 1), shape.text)
            elif isinstance(shape, Plate):
                _plate(pen, shape, corner)
            else:
                _glass(pen, shape, corner, insets[shape.number])


def _outline(pen: Pen, shape: Stroke | Oval, corner: XY) -> None:
    """Halo first, then core, so that the mark shows on dark and on light."""
    for ink, weight in ((WHITE, _HALO), (INK, _CORE)):
        if isinstance(shape, Oval):
            pen.ellipse(moved(shape.centre, corner, 1), shape.radii, stroke=ink, weight=weight)
            continue
        points = [moved(spot, corner, 1) for spot in shape.points]
        pen.path(points, stroke=ink, fill=ink if shape.filled else None, weight=weight, closed=shape.closed)


def _plate(pen: Pen, shape: Plate, corner: XY) -> None:
    area = shape.area
    left, top = moved((area.left, area.top), corner, 1)
    pen.rectangle(
        (left, top),
        (area.width, area.height),
        fill=WHITE,
        radius=1.5,
        opacity=_PLATE_OPACITY,
    )
    for number, line in enumerate(shape.lines):
        pen.words(line, LABEL, left + PLATE_PAD, top + PLATE_PAD + number * PLATE_LEADING + LABEL.size * 0.72)


def _glass(pen: Pen, shape: Glass, corner: XY, file: Path) -> None:
    """The inset's own picture, filling a round frame."""
    with file.open("rb") as stream:
        wide, high = readJPEGInfo(stream)[:2]
    area = shape.area
    side = area.width
    scale = side / min(wide, high)
    x, y = moved(area.middle, corner, 1)
    with pen.clipped((x - side / 2, y - side / 2), (side, side), side / 2):
        pen.image(file, (x - wide * scale / 2, y - high * scale / 2), (wide * scale, high * scale))
    _outline(pen, Oval(area.middle, (side / 2, side / 2)), corner)
