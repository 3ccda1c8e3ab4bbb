"""Where a drawing's lines run, so that no words are put over them.

Comes in: shapes in drawing units, and a scale. Goes out: yes or no for a rectangle, and how often a leader crosses a line.
Pure geometry in points, y downwards. Surfaces may be written on; lines, small fittings and words may not.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterable, Iterator

from reporter.model.drawing import XY, Arc, Ellipse, Path, Shape
from reporter.typeset.places import Area, between, on_ellipse

_CELL, _NEAR = 2.0, 1.0
_SMALL = 13.0
"""A closed shape narrower and lower than this is a fitting, not a surface."""
_TURN = 12


class InkMap:
    """A raster of the sheet, summed from its corner, so that a rectangle of any size is looked up in four steps.

    `spots` are marked like lines: what is named must be seen.
    """

    def __init__(self, size: XY, shapes: Iterable[Shape], scale: float, spots: Iterable[XY] = ()) -> None:
        self._across = int(size[0] / _CELL) + 2
        self._down = int(size[1] / _CELL) + 2
        rows = [bytearray(self._across) for _ in range(self._down)]
        for x, y in itertools.chain(spots, *(_points(shape, scale) for shape in shapes)):
            column, row = int(x / _CELL), int(y / _CELL)
            if 0 <= column < self._across and 0 <= row < self._down:
                rows[row][column] = 1
        self._rows = rows
        self._sums = list(_summed(rows, self._across))

    def touches(self, area: Area) -> bool:
        """Whether a line runs through the area, or so near that it would seem to."""
        left, right = (
            self._held(area.left - _NEAR, self._across),
            self._held(area.right + _NEAR, self._across),
        )
        # The sum over a rectangle from the sums from the sheet's corner: lower right less upper right less lower left, and
        # the upper left once again, since it was taken off twice.
        upper = self._sums[self._held(area.top - _NEAR, self._down)]
        lower = self._sums[self._held(area.bottom + _NEAR, self._down) + 1]
        return lower[right + 1] - upper[right + 1] - lower[left] + upper[left] > 0

    @staticmethod
    def _held(edge: float, cells: int) -> int:
        cell = int(edge / _CELL)
        return 0 if cell < 0 else cell if cell < cells else cells - 1

    def crossings(self, start: XY, end: XY) -> int:
        """How many lines a leader runs over on its way."""
        steps = max(int(math.dist(start, end) / _CELL), 1)
        marks = [self._at(between(start, end, step / steps)) for step in range(steps + 1)]
        return sum(there > before for before, there in itertools.pairwise(marks))

    def _at(self, spot: XY) -> int:
        column, row = int(spot[0] / _CELL), int(spot[1] / _CELL)
        return self._rows[row][column] if 0 <= column < self._across and 0 <= row < self._down else 0


def _summed(rows: list[bytearray], across: int) -> Iterator[list[int]]:
    above = [0] * (across + 1)
    yield above
    for row in rows:
        above = [old + new for old, new in zip(above, itertools.accumulate(row, initial=0), strict=True)]
        yield above


def _points(shape: Shape, scale: float) -> Iterator[XY]:
    """Points so close that no cell of a line is passed over."""
    outline = _outline(shape, scale)
    for one, other in itertools.pairwise(outline):
        steps = int(math.dist(one, other) / _CELL * 2) + 1
        for step in range(steps + 1):
            yield between(one, other, step / steps)
    if outline and (isinstance(shape, Ellipse) or (isinstance(shape, Path) and shape.closed)):
        yield from _filled(outline)


def _outline(shape: Shape, scale: float) -> list[XY]:
    if isinstance(shape, Path) and shape.stroke != "none":
        points: list[XY] = [*shape.points, *(shape.points[:1] if shape.closed else ())]
    elif isinstance(shape, Ellipse) and shape.stroke != "none":
        points = [on_ellipse(shape.centre, shape.radii, 360 / _TURN * step) for step in range(_TURN + 1)]
    elif isinstance(shape, Arc):
        steps = range(_TURN + 1)
        points = [
            on_ellipse(shape.centre, (shape.radius, shape.radius), shape.start + shape.sweep * step / _TURN)
            for step in steps
        ]
    else:
        points = []
    return [(x * scale, y * scale) for x, y in points]


def _filled(outline: list[XY]) -> Iterator[XY]:
    """The whole of a small fitting."""
    left, right = min(x for x, _ in outline), max(x for x, _ in outline)
    top, bottom = min(y for _, y in outline), max(y for _, y in outline)
    if right - left <= _SMALL and bottom - top <= _SMALL:
        for across in range(int((right - left) / _CELL) + 1):
            for down in range(int((bottom - top) / _CELL) + 1):
                yield (left + across * _CELL, top + down * _CELL)
