"""Leaders: where one leaves its label, and whether it runs through a label or over another leader. Pure geometry in points."""

from __future__ import annotations

from reporter.model.drawing import XY
from reporter.typeset.places import Area

Leader = tuple[XY, XY]
"""From the label to what it names."""
LINE = 9.6
"""Height of a label's line."""


def port(area: Area, at: XY) -> XY:
    """Where a leader leaves its label: above or below it, else beside its first line."""
    if area.left <= at[0] <= area.right:
        x = min(max(at[0], area.left + LINE / 2), max(area.right - LINE / 2, area.left))
        return (x, area.top - 1.5 if at[1] < area.top else area.bottom + 1.5)
    return (area.left - 2 if at[0] < area.left else area.right + 2, area.top + LINE / 2)


def struck(leader: Leader, area: Area) -> bool:
    """Whether a leader runs through an area (Liang and Barsky's clipping)."""
    (x, y), (to_x, to_y) = leader
    # Asked hundreds of thousands of times, and nearly always the answer is no.
    if (
        (x <= area.left and to_x <= area.left)
        or (x >= area.right and to_x >= area.right)
        or (y <= area.top and to_y <= area.top)
        or (y >= area.bottom and to_y >= area.bottom)
    ):
        return False
    low, high = 0.0, 1.0
    for start, way, near, far in (
        (x, to_x - x, area.left, area.right),
        (y, to_y - y, area.top, area.bottom),
    ):
        if way:
            enters, leaves = sorted(((near - start) / way, (far - start) / way))
            low, high = max(low, enters), min(high, leaves)
    return low < high


def cross(one: Leader, other: Leader) -> bool:
    """Whether two leaders meet; leaders that end at one point may."""
    if one[1] == other[1]:
        return False
    first = _turn(*one, other[0]) * _turn(*one, other[1])
    return first <= 0 and _turn(*other, one[0]) * _turn(*other, one[1]) <= 0


def _turn(start: XY, end: XY, spot: XY) -> float:
    return (end[0] - start[0]) * (spot[1] - start[1]) - (end[1] - start[1]) * (spot[0] - start[0])
