"""Marks on a photo turned into strokes, discs, plates and insets: a pure function, tested without a PDF.

Comes in: marks in fractions of the upright photo, its size on the page in points, the words of labels set to lines.
Goes out: primitives in points from the photo's upper left corner, y downwards. Must not paint. Blur marks give nothing:
what they cover is already destroyed in the pixels.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from typing import assert_never

from reporter.model.drawing import XY
from reporter.model.photo import Arrow, Box, Inset, LabelMark, Mark, Ring, Ruler
from reporter.typeset.places import Area, Places, Round, round_spots

Wrap = Callable[[str, float], list[str]]
"""Breaks a label's words into lines no wider than a measure in points."""
Wide = Callable[[str], float]

DISC = 5.6
"""Radius of a callout's disc."""
PLATE_PAD = 2.6
PLATE_LEADING = 10.0
_HEAD = 7.0
_TICK = 4.5
_LEADER = 3.0
"""A plate farther than this from what it speaks of gets a line to it."""
_TINY = 1e-6
_LARGEST_TARGET = 0.3
_LARGEST_INSET = 0.36
INSET_PARTS = (1.0, 0.8, 0.62, 0.48, 0.36)
"""Sizes of a magnified piece as parts of the wished one, each tried where the one before finds no room."""
_PLATE_WIDTHS = (0.42, 0.26)
"""Widest plate as parts of the photo's width: the first try and the second."""


@dataclass(frozen=True, slots=True)
class Stroke:
    """A line through points, painted as a white halo with a dark core."""

    points: tuple[XY, ...]
    closed: bool = False
    filled: bool = False


@dataclass(frozen=True, slots=True)
class Oval:
    """An ellipse, painted as a white halo with a dark core."""

    centre: XY
    radii: XY


@dataclass(frozen=True, slots=True)
class Disc:
    """A callout's number (or the letter of a keyed label) in a small disc."""

    centre: XY
    text: str

    @property
    def area(self) -> Area:
        """What it covers."""
        x, y = self.centre
        return Area(x - DISC, y - DISC, x + DISC, y + DISC)


@dataclass(frozen=True, slots=True)
class Plate:
    """Words on a white plate."""

    area: Area
    lines: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Glass:
    """A magnified piece in a round frame; `number` counts the insets of the photo from 0."""

    area: Area
    number: int


Primitive = Stroke | Oval | Disc | Plate | Glass


@dataclass(frozen=True, slots=True)
class Overlay:
    """All primitives in painting order, and the labels that found no room, as letter and words for the caption."""

    shapes: tuple[Primitive, ...]
    keyed: tuple[tuple[str, str], ...]
    is_clean: bool = True
    """False when some plate had to overlap something."""


def overlay(
    marks: Sequence[Mark], size: XY, wrap: Wrap, wide: Wide, keyed: Sequence[str] | None = None
) -> Overlay:
    """Lay out all marks of a photo `size` points wide and high.

    Plates and discs stay inside the photo, do not overlap one another, and do not cover what a mark points at; a label
    for which there is no such place becomes a lettered disc, and its words go to the caption. With `keyed` given, just
    those words are treated so.
    """
    sheet = _Layers(size, wrap, wide, keyed)
    for mark in marks:
        sheet.outline(mark)
    insets = [mark for mark in marks if isinstance(mark, Inset)]
    for number, mark in enumerate(insets):
        sheet.glass(mark, number)
    for mark in marks:
        if mark.callout is not None and not isinstance(mark, LabelMark):
            sheet.disc(sheet.rims[id(mark)], str(mark.callout))
    for mark in marks:
        if isinstance(mark, Ruler) and mark.length.strip():
            sheet.plate(mark.length.strip(), sheet.point(_middle(mark.start, mark.end)), leader=False)
        elif isinstance(mark, LabelMark):
            prefix = f"{mark.callout} " if mark.callout is not None else ""
            sheet.plate(prefix + mark.text, sheet.point(mark.at), leader=True)
    return Overlay(tuple(sheet.strokes + sheet.tops), tuple(sheet.keyed), sheet.is_clean)


@dataclass(slots=True)
class _Layers:
    """The photo while marks are laid on it: strokes lie below, discs and plates on top."""

    size: XY
    wrap: Wrap
    wide: Wide
    given: Sequence[str] | None
    is_clean: bool = True
    strokes: list[Primitive] = field(default_factory=list)
    tops: list[Primitive] = field(default_factory=list)
    keyed: list[tuple[str, str]] = field(default_factory=list)
    rims: dict[int, list[XY]] = field(default_factory=dict)
    kept: list[Round] = field(default_factory=list)
    """What no magnified piece may cover: what others magnify, and other pieces."""
    places: Places = field(init=False)

    def __post_init__(self) -> None:
        self.places = Places(Area(0, 0, *self.size).grown(-1.5))

    def point(self, fraction: XY) -> XY:
        """A place on the photo in points."""
        return (fraction[0] * self.size[0], fraction[1] * self.size[1])

    def outline(self, mark: Mark) -> None:
        """The mark's own strokes, what they must not be covered on, and where its callout may go."""
        match mark.kind:
            case "ring" | "inset":
                self._ring(mark)
            case "box":
                self._box(mark)
            case "arrow":
                self._arrow(mark)
            case "line":
                self._ruler(mark)
            case "label":
                self._protect(Area.round(self.point(mark.at), 4))
            case "blur":
                return
            case _:
                assert_never(mark)

    def _ring(self, mark: Ring | Inset) -> None:
        centre, reach = self.point(mark.at), mark.radius * self.size[0]
        self.strokes.append(Oval(centre, (reach, reach)))
        if isinstance(mark, Inset):
            self.kept.append((centre, reach))
        self._protect(Area.round(centre, reach))
        self.rims[id(mark)] = list(round_spots(centre, reach + DISC + 2))

    def _box(self, mark: Box) -> None:
        area = Area.between(self.point(mark.corner), self.point(mark.opposite))
        self.strokes.append(Stroke(area.corners, closed=True))
        self._protect(area)
        self.rims[id(mark)] = list(area.grown(DISC + 2).outline)

    def _arrow(self, mark: Arrow) -> None:
        tail, head = self.point(mark.tail), self.point(mark.head)
        self.strokes.append(Stroke((tail, head)))
        self.strokes.append(Stroke(_arrowhead(tail, head), closed=True, filled=True))
        self._protect(Area.round(head, 5))
        self.places.avoid_line(tail, head)
        self.rims[id(mark)] = [_beyond(head, tail, DISC + 2), *round_spots(tail, DISC + 3)]

    def _ruler(self, mark: Ruler) -> None:
        start, end = self.point(mark.start), self.point(mark.end)
        across = _across(start, end, _TICK)
        self.strokes.append(Stroke((start, end)))
        for spot in (start, end):
            self.strokes.append(Stroke((_moved(spot, across, 1), _moved(spot, across, -1))))
            self._protect(Area.round(spot, 3))
        self.places.avoid_line(start, end)
        self.rims[id(mark)] = [
            _beyond(end, start, DISC + 3),
            _beyond(start, end, DISC + 3),
            *round_spots(start, DISC + 6),
        ]

    def _protect(self, area: Area) -> None:
        """Keep plates off `area`, unless it takes up so much of the photo that they could go nowhere."""
        if area.size <= _LARGEST_TARGET * self.size[0] * self.size[1]:
            self.places.forbid(area)
        else:
            self.places.discourage(area)

    def glass(self, mark: Inset, number: int) -> None:
        """The magnified piece in the corner that hides least, joined to its source by a line."""
        side = min(2 * mark.radius * mark.zoom * self.size[0], _LARGEST_INSET * min(self.size))
        centre, reach = self.point(mark.at), mark.radius * self.size[0]
        spot, side = self._spot(side, centre)
        area = Area.round(spot, side / 2)
        self.kept.append((spot, side / 2))
        start, end = _towards(centre, spot, reach), _towards(spot, centre, side / 2)
        if math.dist(centre, spot) > reach + side / 2:
            self.strokes.append(Stroke((start, end)))
        self.places.forbid(area)
        self.tops.append(Glass(area, number))

    def _spot(self, side: float, centre: XY) -> tuple[XY, float]:
        """Where a magnified piece covers no other's source, nor another piece; smaller where it must be."""
        kept = [each for each in self.kept if each[0] != centre]
        for part in INSET_PARTS:
            if spot := self.places.corner(part * side, centre, kept):
                return spot, part * side
        least = INSET_PARTS[-1] * side
        return self.places.corner(least, centre) or centre, least

    def disc(self, spots: list[XY], text: str) -> None:
        """A disc at the best of `spots`."""
        area, _ = self.places.best((2 * DISC, 2 * DISC), spots[0], spots)
        self.places.forbid(area.grown(1))
        self.tops.append(Disc(area.middle, text))

    def plate(self, text: str, target: XY, *, leader: bool) -> None:
        """A plate near its target; narrower where that helps; else a lettered disc."""
        for part in _PLATE_WIDTHS if self.given is None or text not in self.given else ():
            lines = self.wrap(text, part * self.size[0])
            wide = max(self.wide(line) for line in lines) + 2 * PLATE_PAD
            area, clash = self.places.best((wide, len(lines) * PLATE_LEADING + 2 * PLATE_PAD - 2), target)
            last = self.given is not None and part == _PLATE_WIDTHS[-1]
            if not clash or last:
                self.is_clean = self.is_clean and not clash
                self._set_plate(Plate(area, tuple(lines)), target, leader=leader)
                return
        letter = chr(ord("a") + len(self.keyed) % 26)
        self.keyed.append((letter, text))
        self.disc(list(round_spots(target, DISC + 4)), letter)

    def _set_plate(self, plate: Plate, target: XY, *, leader: bool) -> None:
        near = plate.area.nearest(target)
        if leader:
            if math.dist(near, target) > _LEADER:
                self.strokes.append(Stroke((near, target)))
            self.strokes.append(Oval(target, (1.2, 1.2)))
        self.places.forbid(plate.area.grown(1))
        self.tops.append(plate)


def _middle(one: XY, other: XY) -> XY:
    return ((one[0] + other[0]) / 2, (one[1] + other[1]) / 2)


def _moved(spot: XY, by: XY, times: float) -> XY:
    return (spot[0] + by[0] * times, spot[1] + by[1] * times)


def _unit(start: XY, end: XY) -> XY:
    far = math.dist(start, end)
    return ((end[0] - start[0]) / far, (end[1] - start[1]) / far) if far > _TINY else (1.0, 0.0)


def _towards(start: XY, end: XY, by: float) -> XY:
    """The place `by` from `start` on the way to `end`."""
    return _moved(start, _unit(start, end), by)


def _beyond(start: XY, end: XY, by: float) -> XY:
    """The place `by` past `end` on the line from `start`."""
    return _moved(end, _unit(start, end), by)


def _across(start: XY, end: XY, reach: float) -> XY:
    along = _unit(start, end)
    return (-along[1] * reach, along[0] * reach)


def _arrowhead(tail: XY, head: XY) -> tuple[XY, ...]:
    """A slim triangle whose tip is what the arrow points at."""
    back = _moved(head, _unit(tail, head), -_HEAD)
    across = _across(tail, head, _HEAD * 0.38)
    return (head, _moved(back, across, 1), _moved(back, across, -1))
