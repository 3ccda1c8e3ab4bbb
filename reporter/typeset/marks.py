"""Marks on a photo turned into strokes, discs, plates and insets: a pure function, tested without a PDF.

Comes in: marks in fractions of the upright photo, its size on the page in points, the words of labels set to lines.
Goes out: primitives in points from the photo's upper left corner, y downwards. Must not paint.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Literal

from reporter.model.drawing import XY
from reporter.model.photo import Mark
from reporter.typeset.marking import DiscSpot, MarkSheet
from reporter.typeset.places import Area, Places, moved, unit

Wrap = Callable[[str, float], Sequence[str]]
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
    sheet.lay_marks(marks)
    return Overlay(tuple(sheet.strokes + sheet.tops), tuple(sheet.keyed), sheet.is_clean)


class _Layers(MarkSheet):
    """A photo in points: strokes lie below, discs and plates on top."""

    def __init__(self, size: XY, wrap: Wrap, wide: Wide, given: Sequence[str] | None) -> None:
        super().__init__(size, turns=12, edge=1.5)
        self.is_clean = True
        self.strokes: list[Primitive] = []
        self.tops: list[Primitive] = []
        self._wrap, self._wide, self._given = wrap, wide, given
        self._places = Places(self.room)

    def _draw_ring(self, centre: XY, reach: float) -> None:
        self.strokes.append(Oval(centre, (reach, reach)))

    def _draw_box(self, area: Area) -> None:
        self.strokes.append(Stroke(area.corners, closed=True))

    def _draw_line(self, start: XY, end: XY, ends: Literal["", "head", "ticks"]) -> None:
        """A line with its ends; the one that joins an inset to its source may be covered."""
        self.strokes.append(Stroke((start, end)))
        if ends:
            self._places.avoid_line(start, end)
        if ends == "head":
            self.strokes.append(Stroke(_arrowhead(start, end), closed=True, filled=True))
        for spot in (start, end) if ends == "ticks" else ():
            self.strokes.append(Stroke(_across(spot, unit(start, end), _TICK)))

    def _keep_clear(self, area: Area, more: float, *, lightly: bool) -> None:
        (self._places.discourage if lightly else self._places.forbid)(area.grown(more))

    def _draw_inset(self, number: int, side: float, spots: Sequence[XY], source: XY) -> XY:
        """The magnified piece where it hides least, near its source."""
        area = self._places.least_hiding([Area.round(spot, side / 2) for spot in spots], source)
        self._places.forbid(area)
        self.tops.append(Glass(area, number))
        return area.middle

    def _draw_disc(self, text: str, spots: Sequence[DiscSpot]) -> None:
        centres = [moved(spot.centre, spot.way, spot.reach + DISC + spot.gap) for spot in spots]
        area, _ = self._places.best((2 * DISC, 2 * DISC), centres[0], centres)
        self._places.forbid(area.grown(1))
        self.tops.append(Disc(area.middle, text))

    def _draw_plate(self, text: str, at: XY, *, leader: bool) -> bool:
        """A plate near its target, narrower where that helps; words that are to be keyed get none."""
        if self._given is not None and text in self._given:
            return False
        for part in _PLATE_WIDTHS:
            lines = self._wrap(text, part * self.size[0])
            wide = max(self._wide(line) for line in lines) + 2 * PLATE_PAD
            area, clash = self._places.best((wide, len(lines) * PLATE_LEADING + 2 * PLATE_PAD - 2), at)
            # The caption's key is made beforehand: words that are not in it have to stand here, even over something.
            is_last = self._given is not None and part == _PLATE_WIDTHS[-1]
            if not clash or is_last:
                self.is_clean = self.is_clean and not clash
                self._set_plate(Plate(area, tuple(lines)), at, leader=leader)
                return True
        return False

    def _set_plate(self, plate: Plate, target: XY, *, leader: bool) -> None:
        near = plate.area.nearest(target)
        if leader:
            if math.dist(near, target) > _LEADER:
                self.strokes.append(Stroke((near, target)))
            self.strokes.append(Oval(target, (1.2, 1.2)))
        self._places.forbid(plate.area.grown(1))
        self.tops.append(plate)


def _across(spot: XY, along: XY, reach: float) -> tuple[XY, XY]:
    """The ends of a short line across a way (of length 1)."""
    across = (-along[1] * reach, along[0] * reach)
    return moved(spot, across, 1), moved(spot, across, -1)


def _arrowhead(tail: XY, head: XY) -> tuple[XY, ...]:
    """A slim triangle whose tip is what the arrow points at."""
    along = unit(tail, head)
    return (head, *_across(moved(head, along, -_HEAD), along, _HEAD * 0.38))
