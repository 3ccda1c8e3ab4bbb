"""Places and areas in the plane, and free ones for plates and discs on a photo.

Comes in: areas that must stay visible and the room that there is. Goes out: rectangles. Pure geometry, y downwards.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from reporter.model.drawing import XY

_RINGS = (7.0, 14.0, 24.0, 38.0, 58.0, 84.0)
_STEPS = 16
_SCAN = 18
_LINE_STEP = 5.0

_TINY = 1e-6
Stretch = tuple[float, float]
"""From where to where something reaches on a row."""


@dataclass(frozen=True, slots=True)
class Area:
    """A rectangle by its left, upper, right and lower edge."""

    left: float
    top: float
    right: float
    bottom: float

    @classmethod
    def round(cls, centre: XY, reach: float) -> Area:
        """The square around a disc."""
        return cls(centre[0] - reach, centre[1] - reach, centre[0] + reach, centre[1] + reach)

    @classmethod
    def between(cls, one: XY, other: XY) -> Area:
        """The rectangle between two opposite corners, in whichever order."""
        return cls(min(one[0], other[0]), min(one[1], other[1]), max(one[0], other[0]), max(one[1], other[1]))

    @property
    def middle(self) -> XY:
        """The centre."""
        return ((self.left + self.right) / 2, (self.top + self.bottom) / 2)

    @property
    def size(self) -> float:
        """The area itself."""
        return (self.right - self.left) * (self.bottom - self.top)

    @property
    def width(self) -> float:
        """From left to right."""
        return self.right - self.left

    @property
    def height(self) -> float:
        """From top to bottom."""
        return self.bottom - self.top

    @property
    def corners(self) -> tuple[XY, XY, XY, XY]:
        """The four corners in turn."""
        return (
            (self.left, self.top),
            (self.right, self.top),
            (self.right, self.bottom),
            (self.left, self.bottom),
        )

    @property
    def rim(self) -> Iterator[XY]:
        """Corners, then middles of the sides."""
        corners = self.corners
        yield from corners
        for one, other in zip(corners, (*corners[1:], corners[0]), strict=True):
            yield ((one[0] + other[0]) / 2, (one[1] + other[1]) / 2)

    def grown(self, by: float) -> Area:
        """Larger on every side."""
        return Area(self.left - by, self.top - by, self.right + by, self.bottom + by)

    def overlap(self, other: Area) -> float:
        """The area that both cover."""
        # Asked millions of times, and nearly always the answer is no.
        if (
            self.right <= other.left
            or other.right <= self.left
            or self.bottom <= other.top
            or other.bottom <= self.top
        ):
            return 0.0
        wide = min(self.right, other.right) - max(self.left, other.left)
        return wide * (min(self.bottom, other.bottom) - max(self.top, other.top))

    def holds(self, other: Area) -> bool:
        """True when `other` lies wholly within."""
        return (
            self.left <= other.left
            and self.top <= other.top
            and self.right >= other.right
            and self.bottom >= other.bottom
        )

    def nearest(self, spot: XY) -> XY:
        """The place in the area that is nearest to `spot`."""
        return (min(max(spot[0], self.left), self.right), min(max(spot[1], self.top), self.bottom))

    def pushed_into(self, room: Area) -> Area:
        """Moved the shortest way so as to lie in `room`; its upper left corner wins where it is too large."""
        across = max(room.left - self.left, min(0.0, room.right - self.right))
        down = max(room.top - self.top, min(0.0, room.bottom - self.bottom))
        return Area(self.left + across, self.top + down, self.right + across, self.bottom + down)


class Places:
    """What of a photo is taken; finds the nearest free place."""

    def __init__(self, room: Area) -> None:
        self.room = room
        self._taken: list[Area] = []
        self._unwelcome: list[Area] = []

    def forbid(self, area: Area) -> None:
        """Nothing may be put there."""
        self._taken.append(area)

    def discourage(self, area: Area) -> None:
        """Better put nothing there."""
        self._unwelcome.append(area)

    def avoid_line(self, start: XY, end: XY) -> None:
        """Better put nothing on a line."""
        steps = max(1, int(math.dist(start, end) / _LINE_STEP))
        for step in range(steps + 1):
            self.discourage(Area.round(between(start, end, step / steps), _LINE_STEP / 2))

    def best(self, size: XY, target: XY, spots: Iterable[XY] = ()) -> tuple[Area, bool]:
        """The best area of that size near `target`, and whether it still clashes with something forbidden.

        `spots` are centres to be tried first; then rings about the target; then the whole photo.
        """
        found: Area | None = None
        least = (math.inf, math.inf)
        for candidates in (self._about(size, spots), self._near(size, target), anywhere(self.room, size)):
            for area in candidates:
                cost = self._cost(area, target, least[0])
                if cost < least:
                    found, least = area, cost
            if least[0] == 0:
                break
        if found is None:
            found = Area.round(target, 0).pushed_into(self.room)
        return found, least[0] > 0

    def least_hiding(self, areas: Iterable[Area], target: XY) -> Area:
        """The one of some areas that hides least, near `target`."""
        return min(areas, key=lambda area: self._cost(area, target))

    def _cost(self, area: Area, target: XY, limit: float = math.inf) -> tuple[float, float]:
        """What is hidden that must be seen, then what had better be seen, and the distance; no more is looked into over `limit`."""
        hard = sum(area.overlap(other) for other in self._taken)
        if not self.room.grown(0.01).holds(area):
            hard += area.size
        if hard > limit:
            return (hard, math.inf)
        soft = sum(area.overlap(other) for other in self._unwelcome)
        return (round(hard, 6), soft + math.dist(area.nearest(target), target))

    def _about(self, size: XY, spots: Iterable[XY]) -> Iterator[Area]:
        for x, y in spots:
            area = Area(x - size[0] / 2, y - size[1] / 2, x + size[0] / 2, y + size[1] / 2)
            yield area.pushed_into(self.room)

    def _near(self, size: XY, target: XY) -> Iterator[Area]:
        """Areas whose nearest edge is so far from the target, all round it."""
        for ring in _RINGS:
            for x, y in round_spots((0, 0), 1.0, _STEPS):
                centre = (target[0] + x * (ring + size[0] / 2), target[1] + y * (ring + size[1] / 2))
                yield from self._about(size, [centre])


def anywhere(room: Area, size: XY) -> Iterator[Area]:
    """Areas of that size all over a room, from corner to corner."""
    free = (room.width - size[0], room.height - size[1])
    for down in range(_SCAN + 1):
        for across in range(_SCAN + 1):
            left, top = room.left + free[0] * across / _SCAN, room.top + free[1] * down / _SCAN
            yield Area(left, top, left + size[0], top + size[1])


def take_row(rows: list[list[Stretch]], stretch: Stretch, gap: float, deep: int = 1) -> int:
    """The first row from which `deep` rows are free for a stretch, with `gap` to its neighbours; it is taken there."""
    start, end = stretch
    row = 0
    while any(
        start < right + gap and left < end + gap for taken in rows[row : row + deep] for left, right in taken
    ):
        row += 1
    rows += [[] for _ in range(row + deep - len(rows))]
    for taken in rows[row : row + deep]:
        taken.append(stretch)
    return row


def round_spots(centre: XY, reach: float, steps: int = 12) -> Iterator[XY]:
    """Places on a circle, from the upper right clockwise."""
    for step in range(steps):
        angle = math.tau * step / steps - math.pi / 4
        yield (centre[0] + reach * math.cos(angle), centre[1] + reach * math.sin(angle))


def moved(spot: XY, way: XY, times: float) -> XY:
    """The place so many times a way from another."""
    return (spot[0] + way[0] * times, spot[1] + way[1] * times)


def between(start: XY, end: XY, part: float) -> XY:
    """The place at a part of the way from one to another."""
    return (start[0] + (end[0] - start[0]) * part, start[1] + (end[1] - start[1]) * part)


def unit(start: XY, end: XY) -> XY:
    """The way from one place to another, cut to length 1; to the right where there is none."""
    far = math.dist(start, end)
    return ((end[0] - start[0]) / far, (end[1] - start[1]) / far) if far > _TINY else (1.0, 0.0)


def on_ellipse(centre: XY, radii: XY, degrees: float) -> XY:
    """The place on an axis-parallel ellipse, in degrees clockwise from the +x axis."""
    turn = math.radians(degrees)
    return (centre[0] + radii[0] * math.cos(turn), centre[1] + radii[1] * math.sin(turn))
