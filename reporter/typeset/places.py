"""Free places for plates and discs on a photo.

Comes in: areas that must stay visible and the room that there is. Goes out: rectangles. Pure geometry, y downwards.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from reporter.model.drawing import XY

_RINGS = (7.0, 14.0, 24.0, 38.0, 58.0, 84.0)
_STEPS = 16
_SCAN = 18
_LINE_STEP = 5.0


Round = tuple[XY, float]
"""A disc: its centre and its radius."""


def is_clear(disc: Round, kept: Iterable[Round]) -> bool:
    """True when a disc covers nothing of any of the others."""
    return all(math.dist(disc[0], centre) >= disc[1] + reach for centre, reach in kept)


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
    def corners(self) -> tuple[XY, XY, XY, XY]:
        """The four corners in turn."""
        return (
            (self.left, self.top),
            (self.right, self.top),
            (self.right, self.bottom),
            (self.left, self.bottom),
        )

    @property
    def outline(self) -> Iterator[XY]:
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
            part = step / steps
            spot = (start[0] + (end[0] - start[0]) * part, start[1] + (end[1] - start[1]) * part)
            self.discourage(Area.round(spot, _LINE_STEP / 2))

    def best(self, size: XY, target: XY, spots: Iterable[XY] = ()) -> tuple[Area, bool]:
        """The best area of that size near `target`, and whether it still clashes with something forbidden.

        `spots` are centres to be tried first; then rings about the target; then the whole photo.
        """
        found: Area | None = None
        least = (math.inf, math.inf)
        for candidates in (self._about(size, spots), self._near(size, target), self._anywhere(size)):
            for area in candidates:
                cost = self._cost(area, target, least[0])
                if cost < least:
                    found, least = area, cost
            if least[0] == 0:
                break
        if found is None:
            found = Area.round(target, 0).pushed_into(self.room)
        return found, least[0] > 0

    def corner(self, side: float, source: XY, kept: Sequence[Round] = ()) -> XY | None:
        """The centre of a disc in the corner (or at the middle of an edge) that hides least, near `source`.

        It covers nothing of the discs `kept`; where no corner is so free it lies anywhere, else there is none.
        """
        for spots in (
            self.room.grown(-side / 2 - 3).outline,
            (area.middle for area in self._anywhere((side, side))),
        ):
            free = [spot for spot in spots if is_clear((spot, side / 2), kept)]
            if free:
                return min(free, key=lambda spot: self._cost(Area.round(spot, side / 2), source))
        return None

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

    def _anywhere(self, size: XY) -> Iterator[Area]:
        free = (self.room.right - self.room.left - size[0], self.room.bottom - self.room.top - size[1])
        for down in range(_SCAN + 1):
            for across in range(_SCAN + 1):
                left = self.room.left + free[0] * across / _SCAN
                top = self.room.top + free[1] * down / _SCAN
                yield Area(left, top, left + size[0], top + size[1])


def round_spots(centre: XY, reach: float, steps: int = 12) -> Iterator[XY]:
    """Places on a circle, from the upper right clockwise."""
    for step in range(steps):
        angle = math.tau * step / steps - math.pi / 4
        yield (centre[0] + reach * math.cos(angle), centre[1] + reach * math.sin(angle))
