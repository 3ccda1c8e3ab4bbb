"""The one placer of labels: where each stands and how its leader runs.

Comes in: labels as sizes, with what they point at and the rooms that they may stand in; the drawing's lines. Goes out: a
place for each, or None where there is none. A pure function, in points, y downwards: it knows no font and no part of a boat.

Each label in turn takes the free place that costs least: near to what it names, in its best room, on few lines. What is
left over goes first in the next round ("squeaky wheel"); then each is put anew while the others stand, or
while those in its way give way where all of them are the better for it. The same labels give
the same places.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace
from itertools import islice

from reporter.model.drawing import XY
from reporter.typeset.ink import InkMap
from reporter.typeset.places import Area

Leader = tuple[XY, XY]
"""From the label to what it names."""
LINE = 9.6
"""Height of a label's line."""
NUMBER = -1
GAP = 3.0
"""Between a label and its neighbour."""
_ROUNDS, _LOOKED_AT, _NEAREST, _BETTERED, _MOVED = 5, 8, 500, 2, 3
_COLUMN = 112.0
"""In a room narrower than this labels stand flush left, as a column."""
_ACROSS, _DOWN, _ANYWHERE = 9.6, 4.8, 9.6
# Costs, in points of leader: a room less good, a size less good (squared), a line crossed, a place off to one side.
_OTHER_ROOM, _OTHER_SIZE, _CROSSED, _ASIDE = 45.0, 6.0, 9.0, 0.06
# A number in place of a label costs more than any leader across the sheet; it is sought so far round what it names.
_NUMBERED, _ROUND = 150.0, 30.0
_SHORT = 3.5
"""A label nearer than this to what it names needs no leader."""


@dataclass(frozen=True, slots=True)
class Candidate:
    """A label to be placed: the sizes that it can be set in, the best first, and that of a number that stands for it."""

    at: XY
    rooms: tuple[Area, ...]
    sizes: tuple[XY, ...]
    number: XY
    priority: int = 0


@dataclass(frozen=True, slots=True)
class PlacedLabel:
    """Where a label stands, in which of its sizes; its leader from the label to what it names, or None beside it.

    The size is NUMBER where there was no room for more than that.
    """

    area: Area
    size: int
    leader: Leader | None


def place_labels(
    items: Sequence[Candidate], ink: InkMap, frame: Area, taken: Sequence[PlacedLabel] = ()
) -> list[PlacedLabel | None]:
    """A place for each item, inside the frame, on no other label, on no line and on nothing `taken`; no leaders cross."""
    sheet = _Search(items, ink, frame, taken)
    order = sorted(range(len(items)), key=lambda each: -items[each].priority)
    best: dict[int, _Choice] = {}
    for _ in range(_ROUNDS):
        found: dict[int, _Choice] = {}
        for each in order:
            sheet.put(found, each, sheet.near(each)) or sheet.put(found, each, sheet.numbers(each))
        if _told(found) > _told(best) or not best:
            best = found
        # What found no room, or for its number only, goes first next time: the free places were there before the others.
        left = [each for each in order if each not in found or found[each].placed.size == NUMBER]
        if not left:
            break
        order = [*left, *(each for each in order if each not in left)]
    # Each was put where those before it left room; with all the others known, a nearer place may be free.
    for each in [*best, *(each for each in order if each not in best)]:
        best.pop(each, None)
        sheet.settle(best, each)
    for each in sorted(best) * _BETTERED:
        best = sheet.bettered(best, each)
    return [best[each].placed if each in best else None for each in range(len(items))]


def _told(found: dict[int, _Choice]) -> tuple[int, int]:
    """How many stand on the sheet, and how many of them in full."""
    return (len(found), sum(choice.placed.size != NUMBER for choice in found.values()))


@dataclass(frozen=True, slots=True)
class _Choice:
    cost: float
    placed: PlacedLabel


@dataclass(slots=True)
class _Search:
    """The items with their candidate places, which are worked out once."""

    items: Sequence[Candidate]
    ink: InkMap
    frame: Area
    taken: Sequence[PlacedLabel]
    _near: dict[int, list[_Choice]] = field(default_factory=dict)
    _anywhere: dict[int, list[_Choice]] = field(default_factory=dict)
    _numbers: dict[int, list[_Choice]] = field(default_factory=dict)

    def near(self, each: int) -> list[_Choice]:
        """Places in the item's own rooms, the best first."""
        if each not in self._near:
            rooms = self.items[each].rooms
            step = (_ACROSS, _DOWN)
            self._near[each] = self._sorted(self.items[each], rooms, step)[:_NEAREST]
        return self._near[each]

    def anywhere(self, each: int) -> list[_Choice]:
        """Places on the whole sheet, the best first."""
        if each not in self._anywhere:
            self._anywhere[each] = self._sorted(self.items[each], (self.frame,), (_ANYWHERE, _ANYWHERE))
        return self._anywhere[each]

    def numbers(self, each: int) -> list[_Choice]:
        """Places for the item's number, round what it names first."""
        if each not in self._numbers:
            item = replace(self.items[each], sizes=(self.items[each].number,))
            beside = self._sorted(item, (Area.round(item.at, _ROUND),), (_DOWN, _DOWN))
            found = [*beside, *self._sorted(item, (self.frame,), (2 * _ANYWHERE, 2 * _ANYWHERE))]
            self._numbers[each] = [
                _Choice(choice.cost + _NUMBERED, replace(choice.placed, size=NUMBER)) for choice in found
            ]
        return self._numbers[each]

    def settle(self, found: dict[int, _Choice], each: int) -> bool:
        """Give the item a place in its rooms, else anywhere, else for its number alone."""
        ways = (self.near, self.anywhere, self.numbers)
        return any(self.put(found, each, way(each)) for way in ways)

    def put(self, found: dict[int, _Choice], each: int, choices: list[_Choice]) -> bool:
        """Give the item the best place that those already found leave free; False where there is none."""
        others = [*self.taken, *(choice.placed for choice in found.values())]
        # Choices come cheapest first but for crossings, which are dear to count: only the best few are looked at.
        free = (choice for choice in choices if _fits(choice.placed, others))
        some = list(islice(free, _LOOKED_AT))
        if not some:
            return False
        found[each] = min(map(self._with_crossings, some), key=lambda choice: choice.cost)
        return True

    def bettered(self, found: dict[int, _Choice], each: int) -> dict[int, _Choice]:
        """The places with this item at its best, and those in its way put anew; the old ones where that costs more."""
        if not self.near(each) or found[each].cost <= self.near(each)[0].cost + _CROSSED:
            return found
        best = self.near(each)[0].placed
        moved = [other for other in found if other != each and not _fits(best, [found[other].placed])]
        new = {other: choice for other, choice in found.items() if other not in {each, *moved}}
        whole = len(moved) <= _MOVED and all(self.settle(new, other) for other in (each, *moved))
        # One label's gain may be its neighbours' loss: what counts is the sheet.
        old_cost, new_cost = (sum(choice.cost for choice in some.values()) for some in (found, new))
        return new if whole and new_cost < old_cost else found

    def _sorted(self, item: Candidate, rooms: Sequence[Area], step: XY) -> list[_Choice]:
        found = [
            _choice(item.at, area, size, number * _OTHER_ROOM + size * size * _OTHER_SIZE)
            for number, room in enumerate(rooms)
            for size, (wide, high) in enumerate(item.sizes)
            for area in _areas(room, (wide, high), item.at, step)
            if self.frame.holds(area) and not self.ink.touches(area)
        ]
        found.sort(key=lambda choice: (choice.cost, choice.placed.area.top, choice.placed.area.left))
        return found

    def _with_crossings(self, choice: _Choice) -> _Choice:
        leader = choice.placed.leader
        more = _CROSSED * self.ink.crossings(*leader) if leader else 0.0
        return _Choice(choice.cost + more, choice.placed)


def _fits(new: PlacedLabel, others: Sequence[PlacedLabel]) -> bool:
    """Whether a label and its leader leave all others, and theirs, free."""
    left, right = new.area.left - GAP, new.area.right + GAP
    top, bottom = new.area.top - GAP, new.area.bottom + GAP
    for each in others:
        area = each.area
        if area.left < right and left < area.right and area.top < bottom and top < area.bottom:
            return False
    for each in others:
        if (each.leader and _struck(each.leader, new.area)) or (
            new.leader
            and (_struck(new.leader, each.area) or (each.leader and _cross(new.leader, each.leader)))
        ):
            return False
    return True


def _areas(room: Area, size: XY, at: XY, step: XY) -> Iterator[Area]:
    """Rectangles of that size in a room: flush left in a column, else in steps across; in steps down."""
    wide, high = size
    spare = (room.right - room.left - wide, room.bottom - room.top - high)
    if min(spare) < 0:
        return
    lefts = [room.left]
    if room.right - room.left > _COLUMN:
        lefts = sorted({*_steps(room.left, spare[0], step[0]), _held(at[0] - LINE / 2, room.left, spare[0])})
    tops = sorted({*_steps(room.top, spare[1], step[1]), _held(at[1] - LINE / 2, room.top, spare[1])})
    for top in tops:
        for left in lefts:
            yield Area(left, top, left + wide, top + high)


def _steps(start: float, spare: float, step: float) -> list[float]:
    return [start + step * number for number in range(int(spare / step) + 1)] + [start + spare]


def _held(wish: float, start: float, spare: float) -> float:
    return min(max(wish, start), start + spare)


def _choice(at: XY, area: Area, size: int, cost: float) -> _Choice:
    start = _port(area, at)
    far = math.dist(start, at)
    # Of places as near, the one that hangs on its leader like a flag is the calmest.
    aside = abs(start[0] - area.left - LINE / 2) if area.left <= at[0] <= area.right else 0.0
    return _Choice(
        cost + far + aside * _ASIDE, PlacedLabel(area, size, (start, at) if far > _SHORT else None)
    )


def _port(area: Area, at: XY) -> XY:
    """Where a leader leaves its label: above or below it, else beside its first line."""
    if area.left <= at[0] <= area.right:
        x = min(max(at[0], area.left + LINE / 2), max(area.right - LINE / 2, area.left))
        return (x, area.top - 1.5 if at[1] < area.top else area.bottom + 1.5)
    return (area.left - 2 if at[0] < area.left else area.right + 2, area.top + LINE / 2)


def _struck(leader: Leader, area: Area) -> bool:
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
    for start, way, near, far in ((x, to_x - x, area.left, area.right), (y, to_y - y, area.top, area.bottom)):
        if way:
            enters, leaves = sorted(((near - start) / way, (far - start) / way))
            low, high = max(low, enters), min(high, leaves)
    return low < high


def _cross(one: Leader, other: Leader) -> bool:
    """Whether two leaders meet; leaders that end at one point may."""
    if one[1] == other[1]:
        return False
    first = _turn(*one, other[0]) * _turn(*one, other[1])
    return first <= 0 and _turn(*other, one[0]) * _turn(*other, one[1]) <= 0


def _turn(start: XY, end: XY, spot: XY) -> float:
    return (end[0] - start[0]) * (spot[1] - start[1]) - (end[1] - start[1]) * (spot[0] - start[0])
