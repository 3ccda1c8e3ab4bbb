"""The grade sign, a small rounded square in which water rises with urgency, and the disc with a number.

Comes in: a grade or a number, and where it goes. Goes out: painting inside a mark that the caller opened. A grade's word
always stands beside its sign, since neither colour nor shape may be the only sign. Must not number anything.
"""

from __future__ import annotations

from reporter.model.drawing import XY
from reporter.model.terms import Grade
from reporter.typeset.glyphs import text_width
from reporter.typeset.pen import Pen
from reporter.typeset.styles import DISC, INK, INKS, RISE, SECOND, WATER, WHITE

LEVELS = {Grade.CLEAR: 0.0, Grade.WATCH: 0.25, Grade.PLAN: 0.5, Grade.FIRST: 0.75, Grade.STOP: 1.0}
"""How high the water stands for a grade, as part of the height."""
_WAVE = (0.0, 0.035, 0.05, 0.035, 0.0, -0.035, -0.05, -0.035, 0.0)
"""The water's edge over one width of the sign, as parts of its side."""
_REACH = 5.6
"""Radius of a disc with its white rim, in points."""
_PAD, _HALF = 4.0, 6.6


def paint_sign(pen: Pen, corner: XY, side: float, grade: Grade) -> None:
    """Paint the sign with its upper left corner at `corner`, `side` points wide."""
    radius = side * 0.2
    square = (side, side)
    pen.rectangle(corner, square, fill=WHITE, radius=radius)
    with pen.clipped(corner, square, radius):
        if grade is Grade.UNSEEN:
            _hatch(pen, corner, side)
        elif LEVELS[grade]:
            x, y = corner
            edge = [(x + side * across, y + side * down) for across, down in water_edge(grade)]
            pen.path([*edge, (x + side, y + side), (x, y + side)], fill=WATER[grade], closed=True)
            if grade is not Grade.STOP:
                # Pale water shows its height by its edge alone where a printer knows black and white only.
                pen.path(edge, stroke=INK, weight=max(0.5, side * 0.06))
    pen.rectangle(
        corner,
        square,
        stroke=WATER[grade] if grade is Grade.STOP else SECOND,
        weight=max(0.6, side * 0.065),
        radius=radius,
    )


def water_edge(grade: Grade) -> list[XY]:
    """The water's edge across a sign of side 1, from its upper left corner: full where she is stopped, else in waves."""
    level = LEVELS[grade]
    wave = _WAVE if level < 1 else (0.0, 0.0)
    return [(at / (len(wave) - 1), 1 - level - lift) for at, lift in enumerate(wave)]


def _hatch(pen: Pen, corner: XY, side: float) -> None:
    """Lines at 45 degrees, a quarter of the side apart."""
    x, y = corner
    for step in range(1, 8):
        reach = side * step / 4
        pen.rule((x, y + reach), (x + reach, y), max(0.5, side * 0.05), SECOND)


def paint_disc(pen: Pen, centre: XY, text: str) -> None:
    """A dark disc with a white rim, so that it shows on dark and on light; `text` has two characters at most."""
    x, y = centre
    pen.ellipse((x, y), (_REACH - 0.4, _REACH - 0.4), stroke=WHITE, fill=INK, weight=0.8)
    pen.words(text, DISC, x, y + DISC.size * RISE, "middle")


def paint_numeral(pen: Pen, centre: XY, text: str, grade: Grade | None) -> tuple[XY, XY]:
    """A disc, longer for several numbers: filled, or open where something comes first. Returns its corner and size."""
    x, y = centre
    half = max(_HALF, text_width(text, DISC) / 2 + _PAD)
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
    kind = DISC.but(ink=INK) if is_open else DISC
    pen.words(text, kind, x, y + DISC.size * RISE, "middle")
    return corner, size
