"""The grade sign: a small rounded square in which water rises with urgency, hatched where nothing was seen.

Comes in: a grade and where the sign goes. Goes out: painting inside a mark that the caller opened. The word always
stands beside it, since neither colour nor shape may be the only sign.
"""

from __future__ import annotations

from reporter.model.drawing import XY
from reporter.model.terms import Grade
from reporter.typeset.pen import Pen
from reporter.typeset.styles import INK, SECOND, WATER, WHITE

LEVELS = {Grade.CLEAR: 0.0, Grade.WATCH: 0.25, Grade.PLAN: 0.5, Grade.FIRST: 0.75, Grade.STOP: 1.0}
"""How high the water stands for a grade, as part of the height."""
_WAVE = (0.0, 0.035, 0.05, 0.035, 0.0, -0.035, -0.05, -0.035, 0.0)
"""The water's edge over one width of the sign, as parts of its side."""


def sign(pen: Pen, corner: XY, side: float, grade: Grade) -> None:
    """Paint the sign with its upper left corner at `corner`, `side` points wide."""
    radius = side * 0.2
    square = (side, side)
    pen.rectangle(corner, square, fill=WHITE, radius=radius)
    with pen.clipped(corner, square, radius):
        if grade is Grade.UNSEEN:
            _hatch(pen, corner, side)
        elif LEVELS[grade]:
            water = _water(corner, side, LEVELS[grade])
            pen.path(water, fill=WATER[grade], closed=True)
            if grade is not Grade.STOP:
                # Pale water shows its height by its edge alone where a printer knows black and white only.
                pen.path(water[:-2], stroke=INK, weight=max(0.5, side * 0.06))
    pen.rectangle(
        corner,
        square,
        stroke=WATER[grade] if grade is Grade.STOP else SECOND,
        weight=max(0.6, side * 0.065),
        radius=radius,
    )


def _water(corner: XY, side: float, level: float) -> list[XY]:
    x, y = corner
    surface = y + side * (1 - level)
    if level == 1.0:
        edge = [(x, y), (x + side, y)]
    else:
        steps = len(_WAVE) - 1
        edge = [(x + side * at / steps, surface - side * lift) for at, lift in enumerate(_WAVE)]
    return [*edge, (x + side, y + side), (x, y + side)]


def _hatch(pen: Pen, corner: XY, side: float) -> None:
    """Lines at 45 degrees, a quarter of the side apart."""
    x, y = corner
    for step in range(1, 8):
        reach = side * step / 4
        pen.rule((x, y + reach), (x + reach, y), max(0.5, side * 0.05), SECOND)
