"""One page filled: where each of a run of slices stands, at its natural size or eased to take more.

Comes in: slices and the upper edge. Goes out: their edges. Every rule of placing is monotone in `ease`: more ease never
puts a slice lower. Pure arithmetic. Must not choose where a page ends or paint.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from reporter.typeset.slices import Slice, Stick
from reporter.typeset.styles import GRID, MM

SLACK = 0.01
_ASIDE_GAP = 2 * MM
_SQUEEZE = 0.3
"""At full ease the spaces between slices lose this part, and photos are at their least height."""
_STEPS = 16

SliceEdges = tuple[float, float, float, float]
"""Of a placed slice: upper edge, height, upper edge of its aside, lower edge of both."""


@dataclass(slots=True, eq=False)
class PlacedSlice:
    """A slice on its page: upper edges of itself and of its aside, and the height it was given."""

    slice: Slice
    top: float
    height: float
    aside_top: float = 0.0

    @property
    def end(self) -> float:
        """Lower edge of the slice and its aside."""
        aside = self.slice.aside
        return max(self.top + self.height, self.aside_top + aside.height if aside else 0.0)


def placed_edges(
    slices: Sequence[Slice], span: tuple[int, int], first: float, ease: float
) -> Iterator[SliceEdges]:
    """The edges of the slices from the first number of `span` up to the second, the page beginning at `first`."""
    start, stop = span
    head = slices[start].again
    y = first + (head.height if head else 0.0)
    side = first
    keep = 1 - _SQUEEZE * ease
    for at in range(start, stop):
        item = slices[at]
        top = y + keep * gap(slices[at - 1], item) if at > start else y
        if item.wide and side > top:
            top = side + _ASIDE_GAP
        if item.snap:
            # The little that is taken off keeps a slice that stands on the grid but for rounding where it is.
            top = first + math.ceil((top - first) / (GRID / 2) - 1e-7) * GRID / 2
        height = item.height - ease * max(0.0, item.height - item.least) if item.least else item.height
        y = end = top + height
        beside = top
        if item.aside:
            beside = side + _ASIDE_GAP if side > top else top
            end = max(y, beside + item.aside.height)
            side = max(side, end)
        elif item.wide:
            side = max(side, y)
        yield top, height, beside, end


def gap(before: Slice, item: Slice) -> float:
    """The space between two neighbours; a heading sets its own."""
    if before.below and before.stick is Stick.FIRM:
        return before.below
    return max(before.below, item.above)


def fill(slices: Sequence[Slice], span: tuple[int, int], first: float, bottom: float) -> list[PlacedSlice]:
    """The page of a span, eased as little as lets it end at `bottom`; a repeated head stands above it."""
    ease = _least_ease(slices, span, first, bottom)
    head = slices[span[0]].again
    placed = [PlacedSlice(head, first, head.height)] if head else []
    for item, edges in zip(slices[slice(*span)], placed_edges(slices, span, first, ease), strict=True):
        placed.append(PlacedSlice(item, *edges[:3]))
    return placed


def _least_ease(slices: Sequence[Slice], span: tuple[int, int], first: float, bottom: float) -> float:
    def fits(ease: float) -> bool:
        return max(edges[3] for edges in placed_edges(slices, span, first, ease)) <= bottom + SLACK

    if fits(0.0):
        return 0.0
    # More ease never puts a slice lower, so the least that fits can be closed in on by halves.
    low, high = 0.0, 1.0
    for _ in range(_STEPS):
        middle = (low + high) / 2
        low, high = (low, middle) if fits(middle) else (middle, high)
    return high
