"""Labels stacked in a column, each as near to its part as the others let it, with a leader that never crosses another.

Comes in: heights and wished positions in points. Goes out: positions, and leaders. Nothing here knows a part of a boat.
"""

from __future__ import annotations

from collections.abc import Sequence

from reporter.contract import Path

Point = tuple[float, float]


def stacked(
    wishes: Sequence[float], heights: Sequence[float], top: float, bottom: float, gap: float
) -> list[float]:
    """Upper edges in the order given, none overlapping, inside `top` and `bottom` where there is room for all.

    `wishes` are the edges that each would have by itself; the caller gives them in order.
    """
    edges: list[float] = []
    least = top
    for wish, high in zip(wishes, heights, strict=True):
        edges.append(max(wish, least))
        least = edges[-1] + high + gap
    limit = bottom
    for place in reversed(range(len(edges))):
        edges[place] = min(edges[place], limit - heights[place])
        limit = edges[place] - gap
    # Pushed over the top: there is no room for all, and the column runs over its lower end instead.
    least = top
    for place, high in enumerate(heights):
        edges[place] = max(edges[place], least)
        least = edges[place] + high + gap
    return edges


def room_for(heights: Sequence[float], gap: float) -> float:
    """The height that a column takes."""
    return sum(heights) + gap * max(len(heights) - 1, 0)


def elbow(start: Point, edge: float, end: Point) -> Path:
    """A fine leader: level from the label to the column's edge, then straight to the part."""
    return Path(points=(start, (edge, start[1]), end), weight="fine", stroke="second")
