"""Colours, types and spaces: with the grid in `look`, the one place to change how the document looks.

Goes out: plain numbers in PDF points (1/72 inch), colours as red, green, blue from 0 to 1, and the type styles.
Must not know blocks or paint anything.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Literal

from reporter.model.terms import Grade

RGB = tuple[float, float, float]
Face = Literal["Regular", "Semibold", "Bold"]

MM = 72 / 25.4
GRID = 4.5 * MM
"""The baseline grid: one line of body text."""


def colour(code: str) -> RGB:
    """Red, green and blue from 0 to 1 out of `#RRGGBB`."""
    return tuple(int(code[at : at + 2], 16) / 255 for at in (1, 3, 5))  # type: ignore[return-value]


INK = colour("#1B2A33")
SECOND = colour("#566670")
ACCENT = colour("#1D5666")
RULE = colour("#C9D1D4")
WASH = colour("#F3F6F6")
WHITE = colour("#FFFFFF")
WATER: dict[Grade, RGB] = {
    Grade.CLEAR: colour("#DCE7E8"),
    Grade.WATCH: colour("#9FC0C4"),
    Grade.PLAN: colour("#C9A24B"),
    Grade.FIRST: colour("#B85F22"),
    Grade.STOP: colour("#7E1616"),
    Grade.UNSEEN: WHITE,
}
"""Urgency from light to dark, so that it survives a grey printer and every kind of colour vision."""

INKS: dict[str, RGB] = {
    "ink": INK,
    "second": SECOND,
    "rule": RULE,
    "wash": WASH,
    "white": WHITE,
    **{grade.value: tone for grade, tone in WATER.items()},
}
WEIGHTS = {"fine": 0.35, "normal": 0.7, "bold": 1.4}


@dataclass(frozen=True, slots=True)
class Type:
    """How a run of text is set: face, size and leading in points, colour, tracking-free."""

    face: Face
    size: float
    leading: float
    ink: RGB = INK
    rise: float = 0.0
    """How far the run stands above its line (below, if negative), in points."""
    disc: bool = False
    """White on a dark disc: a number that stands for an action."""

    def but(self, *, face: Face | None = None, ink: RGB | None = None) -> Type:
        """The same with another face or ink."""
        return replace(self, face=face or self.face, ink=ink or self.ink)

    @property
    def reach(self) -> float:
        """Radius of the disc behind a number."""
        return self.size * 0.72

    def numbered(self) -> Type:
        """A number in a disc, to stand in a line of this type."""
        return Type("Bold", max(LEAST_SIZE, self.size * 0.8), self.leading, WHITE, disc=True)

    def script(self, rise: float) -> Type:
        """A subscript or exponent of this type; `rise` as a fraction of its size."""
        return replace(self, size=max(LEAST_SIZE, self.size * 0.74), rise=self.size * rise)


BODY = Type("Regular", 9.5, GRID)
LEAD = Type("Regular", 11.5, 15.5)
ANSWER = Type("Semibold", 13, 18)
SMALL = Type("Regular", 9, 12)
NOTE = Type("Regular", 9, 11.5, SECOND)
FORMULA = Type("Regular", 9.5, 14)
TABLE = Type("Regular", 9, 11.5)
TABLE_HEAD = Type("Semibold", 9, 11.5, SECOND)
CAPTION = Type("Regular", 9, 11.5, SECOND)
FIELD = Type("Regular", 9, 11.5, SECOND)
RUNNING = Type("Regular", 7.5, 10, SECOND)
FORM = Type("Regular", 7.5, 9.5)
"""The words of a form: as small as anything may be, so that a part stays in one glance."""
FORM_TITLE = Type("Semibold", 9, 9)
LABEL = Type("Semibold", 8, 10)
DISC = Type("Bold", 7.5, 9, WHITE)
TITLES = {1: Type("Semibold", 20, 26), 2: Type("Semibold", 14, 19), 3: Type("Semibold", 10.5, 14.5)}
TITLE = Type("Semibold", 24, 30)
PARAGRAPHS = {"body": BODY, "lead": LEAD, "small": SMALL, "note": NOTE, "formula": FORMULA, "answer": ANSWER}
ABOVE_TITLES = {1: 10 * MM, 2: 9 * MM, 3: 6 * MM}
BELOW_TITLES = {1: 4 * MM, 2: 2.5 * MM, 3: 1.2 * MM}
ABOVE = 2.25 * MM
ABOVE_FIGURE = 4.5 * MM
BELOW_FIGURE = 4.5 * MM
SMALL_FIGURE = 30 * MM
PAD = 1.1 * MM
CELL_GAP, NARROW_GAP = 4 * MM, 3 * MM
"""Between the text of neighbouring columns; and where a table is to be as short as it can."""
WASH_PAD = 2.2 * MM

LEAST_SIZE = 7.5
"""Nothing is set below this size."""
RISE = 0.33
"""From a line's middle down to its baseline, as part of the size: half the height of capitals."""
LEAST_PHOTO = 0.68
"""A photo is never shrunk below this part of its size to end a page."""
PHOTO_HEIGHT = {"full": 128 * MM, "column": 96 * MM, "half": 80 * MM}
FIGURE_HEIGHT = 205 * MM
