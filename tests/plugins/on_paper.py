"""What a drawing takes on paper: boxes of its words and signs by the report's own type, and lines that cross them.

In: a Drawing. Out: boxes, or the pairs that meet. Nothing here knows a part of a boat.
"""

from __future__ import annotations

import itertools
from collections.abc import Iterator

from reporter.model.assessment import Graded
from reporter.model.drawing import Drawing, Path, Sign, Words
from reporter.model.terms import Extent
from reporter.typeset.glyphs import Cleaner, text_width
from reporter.typeset.lettering import letter
from reporter.typeset.styles import Type
from reporter.wording import catalogue

Box = tuple[float, float, float, float]
Point = tuple[float, float]


class Told:
    """The words that a drawing is given, in a language."""

    def __init__(self, lang: str = "en") -> None:
        self.say = catalogue(lang)

    def __call__(self, part: Graded, /) -> str:
        """A part's grade in words."""
        if part.component.examined.extent is Extent.NOT_FITTED:
            return self.say("grade.not_fitted_word")
        word = self.say(f"grade.{part.grade}")
        found = part.component.examined.extent is not Extent.NOT_FOUND
        return word if found else self.say("drawing.not_found", grade=word)


told = Told()


def set_out(drawing: Drawing) -> Drawing:
    """The drawing as it is printed at one point to the unit: its labels set, and their key beneath it."""
    lettering = letter(drawing, 1.0, Cleaner().clean)
    return drawing.model_copy(
        update={"shapes": (*drawing.shapes, *lettering.shapes), "height": drawing.height + lettering.key}
    )


def boxes(drawing: Drawing) -> list[tuple[str, Box]]:
    """Every line of text and every sign with the room it takes."""
    clean = Cleaner().clean
    found = []
    for shape in drawing.shapes:
        if isinstance(shape, Words):
            wide = text_width(
                clean(shape.text),
                Type("Semibold" if shape.strong else "Regular", shape.size, shape.size * 1.2),
            )
            left = shape.at[0] - {"start": 0.0, "middle": 0.5, "end": 1.0}[shape.anchor] * wide
            found.append(
                (
                    shape.text,
                    (left, shape.at[1] - shape.size * 0.75, left + wide, shape.at[1] + shape.size * 0.22),
                )
            )
        elif isinstance(shape, Sign):
            (x, y), half = shape.at, shape.side / 2
            found.append((f"sign {shape.grade}", (x - half, y - half, x + half, y + half)))
    return found


def outside(drawing: Drawing) -> list[str]:
    """Words, signs and lines that leave the sheet."""
    told = [
        text
        for text, (left, top, right, bottom) in boxes(drawing)
        if left < 0 or top < 0 or right > drawing.width or bottom > drawing.height
    ]
    told += [
        f"a line through {shape.points[0]}"
        for shape in drawing.shapes
        if isinstance(shape, Path)
        and not all(0 <= x <= drawing.width and 0 <= y <= drawing.height for x, y in shape.points)
    ]
    return told


def overlapping(drawing: Drawing) -> list[tuple[str, str]]:
    """Words and signs that stand on one another."""
    return [
        (one, other)
        for (one, a), (other, b) in itertools.combinations(boxes(drawing), 2)
        if a[0] < b[2] and b[0] < a[2] and a[1] < b[3] and b[1] < a[3]
    ]


def struck_through(drawing: Drawing) -> list[str]:
    """Words that a line runs through."""
    words = [(text, box) for text, box in boxes(drawing) if not text.startswith("sign ")]
    return [text for text, box in words for start, end in _segments(drawing) if _crosses(start, end, box)]


def _segments(drawing: Drawing) -> Iterator[tuple[Point, Point]]:
    for shape in drawing.shapes:
        if isinstance(shape, Path) and shape.stroke != "none":
            yield from itertools.pairwise([*shape.points, shape.points[0]] if shape.closed else shape.points)


def _crosses(start: Point, end: Point, box: Box) -> bool:
    """Whether a segment meets a box (Liang and Barsky's clipping)."""
    left, top, right, bottom = box
    if (
        max(start[0], end[0]) <= left
        or min(start[0], end[0]) >= right
        or max(start[1], end[1]) <= top
        or min(start[1], end[1]) >= bottom
    ):
        return False
    low, high = 0.0, 1.0
    for axis in (0, 1):
        way, near, far = end[axis] - start[axis], box[axis] - start[axis], box[axis + 2] - start[axis]
        if way == 0:
            if near > 0 or far < 0:
                return False
            continue
        enters, leaves = sorted((near / way, far / way))
        low, high = max(low, enters), min(high, leaves)
    return low < high
