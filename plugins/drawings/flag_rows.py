"""Labels in rows above or below a drawing, each hung on its own leader like a flag; no label meets a label or a leader.

Comes in: widths and wished positions in points, from left to right. Goes out: row and left edge of each, or None where
so many do not fit. Nothing here knows a part of a boat.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

GAP = 6.0
MOST_ROWS = 3
ROW_COST = 22.0
"""How far labels may stand off their parts, on average, before another row is worth its height."""


class Place(NamedTuple):
    """Row (0 is nearest to the drawing) and left edge."""

    row: int
    left: float


def flags(
    wishes: Sequence[float], widths: Sequence[float], low: float, high: float
) -> tuple[Place, ...] | None:
    """Places between `low` and `high`, in the number of rows that keeps labels near; the order of the wishes is kept.

    A label begins at its leader and runs to the right of it. Leaders of outer rows pass between labels of inner ones.
    """
    found: list[tuple[float, tuple[Place, ...]]] = []
    for rows in range(1, MOST_ROWS + 1):
        turns = [(rows - 1 - place % rows) for place in range(len(widths))]
        lefts = _pushed(wishes, widths, turns, low, high)
        if lefts is not None:
            away = sum(abs(left - wish) for left, wish in zip(lefts, wishes, strict=True)) / max(
                len(lefts), 1
            )
            found.append((away + ROW_COST * rows, tuple(map(Place, turns, lefts))))
    return min(found)[1] if found else None


def _pushed(
    wishes: Sequence[float], widths: Sequence[float], rows: Sequence[int], low: float, high: float
) -> list[float] | None:
    """Each as near to its wish as the ones before let it; then back from the right edge; None where they do not fit."""
    lefts: list[float] = []
    for place, wish in enumerate(wishes):
        least = max((lefts[each] + _room(each, place, widths, rows) for each in range(place)), default=low)
        lefts.append(max(wish, least, low))
    for place in reversed(range(len(lefts))):
        most = high - widths[place]
        later = (lefts[each] - _room(place, each, widths, rows) for each in range(place + 1, len(lefts)))
        lefts[place] = min(lefts[place], most, *later)
    return lefts if not lefts or (lefts[0] >= low and _holds(lefts, widths, rows)) else None


def _room(first: int, second: int, widths: Sequence[float], rows: Sequence[int]) -> float:
    """How far the second must keep from the first one's left edge, standing to the right of it."""
    return GAP + (widths[first] if rows[second] >= rows[first] else 0.0)


def _holds(lefts: Sequence[float], widths: Sequence[float], rows: Sequence[int]) -> bool:
    pairs = ((one, two) for two in range(len(lefts)) for one in range(two))
    return all(lefts[two] - lefts[one] >= _room(one, two, widths, rows) - 1e-6 for one, two in pairs)
