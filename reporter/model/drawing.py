"""A picture made of pure primitives, in its own units, y downwards; painted to PDF by typesetting."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from reporter.model.base import Noun
from reporter.model.terms import Grade

Ink = Literal["ink", "second", "rule", "wash", "white", "clear", "watch", "plan", "first", "stop", "none"]
Weight = Literal["fine", "normal", "bold"]
Anchor = Literal["start", "middle", "end"]
XY = tuple[float, float]
LEFT_OF: dict[Anchor, float] = {"start": 0.0, "middle": 0.5, "end": 1.0}
"""The part of words that lies left of the place at which they are anchored."""


class Path(Noun):
    """Straight segments through `points`; closed and filled when asked. Weights are 0.35, 0.7 and 1.4 pt."""

    kind: Literal["path"] = "path"
    points: tuple[XY, ...]
    closed: bool = False
    stroke: Ink = "ink"
    fill: Ink = "none"
    weight: Weight = "normal"
    dashed: bool = False


class Ellipse(Noun):
    """An axis-parallel ellipse."""

    kind: Literal["ellipse"] = "ellipse"
    centre: XY
    radii: XY
    stroke: Ink = "ink"
    fill: Ink = "none"
    weight: Weight = "normal"
    dashed: bool = False


class Arc(Noun):
    """Part of a circle, from `start` through `sweep` degrees, clockwise on the page from the +x axis."""

    kind: Literal["arc"] = "arc"
    centre: XY
    radius: float
    start: float
    sweep: float
    stroke: Ink = "ink"
    weight: Weight = "normal"
    dashed: bool = False


class Words(Noun):
    """One line of text; `size` in points, `at` its baseline at the anchor."""

    kind: Literal["words"] = "words"
    at: XY
    text: str
    size: float = 8.0
    anchor: Anchor = "start"
    strong: bool = False
    ink: Ink = "ink"
    plate: bool = False


class Sign(Noun):
    """The grade sign (rounded square with rising water), `side` in drawing units, centred at `at`."""

    kind: Literal["sign"] = "sign"
    at: XY
    grade: Grade
    side: float = 10.0


NUMERALS = 16
"""Characters that a disc holds."""


class Numeral(Noun):
    """The number of an action in a disc, or a few in a longer one, centred at `at`; it keeps its size on the page.

    With a grade it is filled for what stops her and open for what comes first. `href` is "#anchor", as of a span, and `alt`
    says where that leads.
    """

    kind: Literal["numeral"] = "numeral"
    at: XY
    text: Annotated[str, Field(min_length=1, max_length=NUMERALS)]
    grade: Grade | None = None
    href: str = ""
    alt: str = ""


Shape = Annotated[Path | Ellipse | Arc | Words | Sign | Numeral, Field(discriminator="kind")]
Room = tuple[float, float, float, float]
"""A rectangle in drawing units: left, upper, right and lower edge."""


class Label(Noun):
    """What is named on a drawing, and where: typesetting gives it its lines, its place and its leader.

    `text` is the part's own name and `word` its grade in words (more lines after a line feed); `grade` is None where
    nothing is listed. The leader ends at `at`. `rooms` are the rectangles in which the label may stand, the best first;
    with none, or where it fits in none of them, it stands wherever it finds room. `part` is the component's id. Of two
    that want one place the one with more `priority` has it.
    """

    text: str
    word: str = ""
    grade: Grade | None = None
    at: XY
    rooms: tuple[Room, ...] = ()
    part: str = ""
    priority: int = 0


class Drawing(Noun):
    """A picture `width` by `height` units; `alt` says in words everything it shows."""

    width: float
    height: float
    shapes: tuple[Shape, ...]
    labels: tuple[Label, ...] = ()
    alt: str
