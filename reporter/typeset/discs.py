"""The numbered disc: one look for the number of an action or a callout in text, on photos and on drawings.

Comes in: the number and where it goes. Goes out: painting inside a mark that the caller opened. Must not number anything.
"""

from __future__ import annotations

from reporter.model.drawing import XY
from reporter.model.terms import Grade
from reporter.typeset.glyphs import width
from reporter.typeset.pen import Pen
from reporter.typeset.styles import DISC, INK, INKS, RISE, WHITE

REACH = 5.6
"""Radius with its white rim, in points."""
_NUMERAL = DISC.but(ink=WHITE)
_PAD, _HALF = 4.0, 6.6


def disc(pen: Pen, centre: XY, text: str) -> None:
    """A dark disc with a white rim, so that it shows on dark and on light; `text` has two characters at most."""
    x, y = centre
    pen.ellipse((x, y), (REACH - 0.4, REACH - 0.4), stroke=WHITE, fill=INK, weight=0.8)
    pen.words(text, DISC, x, y + DISC.size * RISE, "middle")


def numeral(pen: Pen, centre: XY, text: str, grade: Grade | None) -> tuple[XY, XY]:
    """A disc, longer for several numbers: filled, or open where something comes first. Returns its corner and size."""
    x, y = centre
    half = max(_HALF, width(text, DISC) / 2 + _PAD)
    corner, size = (x - half, y - _HALF), (2 * half, 2 * _HALF)
    is_open = grade is Grade.FIRST
    tone = INKS[grade.value] if grade in {Grade.FIRST, Grade.STOP} and grade else INK
    pen.rectangle((corner[0] - 1, corner[1] - 1), (size[0] + 2, size[1] + 2), fill=WHITE, radius=_HALF + 1)
    pen.rectangle(
        corner,
        size,
        stroke=tone,
        fill=WHITE if is_open else tone,
        weight=1.6 if is_open else 0.7,
        radius=_HALF,
    )
    kind = DISC.but(ink=INK) if is_open else _NUMERAL
    pen.words(text, kind, x, y + DISC.size * RISE, "middle")
    return corner, size
