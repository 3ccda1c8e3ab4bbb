"""What marks on a photo come to on a sheet of any medium: the one place that goes through the kinds of mark.

Comes in: marks in fractions of the upright photo. Goes out: calls of a sheet, in the order in which things are laid on it:
what is pointed at, magnified pieces, numbered discs, words. Places grow with the sheet; what has a size of its own hangs
at one. Blur marks give nothing: what they cover is already destroyed in the pixels. Must not paint or set words.
"""

from __future__ import annotations

import math
from abc import ABC, abstractmethod
from collections.abc import Iterable, Sequence
from typing import Literal, NamedTuple, assert_never

from reporter.model.drawing import XY
from reporter.model.photo import LARGEST_INSET, Arrow, Box, Inset, LabelMark, Mark, Ring, Ruler
from reporter.typeset.places import Area, anywhere, moved, round_spots, unit

Round = tuple[XY, float]
"""A disc: its centre and its radius."""

_LARGEST_TARGET = 0.3
"""What takes up more of a photo than this part may be covered by words: off it there would be no room for them."""
_INSET_PARTS = (1.0, 0.8, 0.62, 0.48, 0.36)
"""Sizes of a magnified piece as parts of the wished one, each tried where the one before finds no room."""
_SIDES = [(across, down) for down in (-1, 0, 1) for across in (-1, 1, 0) if across or down]
"""Corners of a box and the middles of its sides, seen from its centre, from the top downwards."""


class DiscSpot(NamedTuple):
    """Where a disc may go: `reach` away from a place on the sheet, and from there with `gap` between it and the disc's rim.

    `reach` grows with the sheet, as places do; `gap` and the disc have sizes of their own.
    """

    centre: XY
    way: XY
    reach: float
    gap: float


class MarkSheet(ABC):
    """A photo `size` wide and high while marks are laid on it.

    `turns` is the number of places for a disc round a circle, `edge` what stays free at the photo's edges.
    """

    def __init__(self, size: XY, *, turns: int, edge: float) -> None:
        self.size = size
        self.room = Area(0, 0, *size).grown(-edge)
        self.keyed: list[tuple[str, str]] = []
        """Letter and words of labels that found no room: they go to the caption."""
        self._edge = edge
        self._ways = list(round_spots((0, 0), 1, turns))
        self._numbers: list[tuple[str, list[DiscSpot]]] = []
        self._kept: list[Round] = []
        """What no magnified piece may cover: what others magnify, and other pieces."""

    @abstractmethod
    def _draw_ring(self, centre: XY, reach: float) -> None:
        """A circle."""

    @abstractmethod
    def _draw_box(self, area: Area) -> None:
        """A rectangle."""

    @abstractmethod
    def _draw_line(self, start: XY, end: XY, ends: Literal["", "head", "ticks"]) -> None:
        """A line, with an arrowhead where it ends, or a tick at either end; words had better not lie on it."""

    @abstractmethod
    def _keep_clear(self, area: Area, more: float, *, lightly: bool) -> None:
        """Nothing may cover an area and `more` around it, or `lightly`: nothing had better."""

    @abstractmethod
    def _draw_inset(self, number: int, side: float, spots: Sequence[XY], source: XY) -> XY:
        """The inset of that number (from 0), `side` across, round the best of `spots`, which is returned."""

    @abstractmethod
    def _draw_disc(self, text: str, spots: Sequence[DiscSpot]) -> None:
        """A number or a letter in a disc at the best of `spots`."""

    @abstractmethod
    def _draw_plate(self, text: str, at: XY, *, leader: bool) -> bool:
        """Words on a plate near a place, with a line to it where asked; False where there is no room for that."""

    def lay_marks(self, marks: Sequence[Mark]) -> None:
        """All marks: what is pointed at first, since insets, discs and plates must not cover it."""
        for mark in marks:
            self._outline(mark)
        for number, inset in enumerate(mark for mark in marks if isinstance(mark, Inset)):
            self._magnify(inset, number)
        # Discs before words: a number has few places, round its own mark, words have many.
        for text, spots in self._numbers:
            self._draw_disc(text, spots)
        for mark in marks:
            if isinstance(mark, Ruler) and mark.length.strip():
                self._tell(mark.length.strip(), Area.between(mark.start, mark.end).middle, leader=False)
            elif isinstance(mark, LabelMark):
                words = mark.text if mark.callout is None else f"{mark.callout} {mark.text}"
                self._tell(words, mark.at, leader=True)

    def _point(self, fraction: XY) -> XY:
        return (fraction[0] * self.size[0], fraction[1] * self.size[1])

    def _outline(self, mark: Mark) -> None:
        """The mark's own strokes, what of it must not be covered, and where its number may go."""
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
                self._protect(Area.round(self._point(mark.at), 0), 4)
            case "blur":
                return
            case _:
                assert_never(mark)

    def _ring(self, mark: Ring | Inset) -> None:
        centre, reach = self._point(mark.at), mark.radius * self.size[0]
        self._draw_ring(centre, reach)
        if isinstance(mark, Inset):
            self._kept.append((centre, reach))
        self._protect(Area.round(centre, reach))
        self._number(mark, self._around(centre, reach, 2))

    def _box(self, mark: Box) -> None:
        area = Area.between(self._point(mark.corner), self._point(mark.opposite))
        self._draw_box(area)
        self._protect(area)
        spots = [moved(area.middle, (area.width / 2 * x, area.height / 2 * y), 1) for x, y in _SIDES]
        self._number(mark, [DiscSpot(spot, way, 0, 2) for spot, way in zip(spots, _SIDES, strict=True)])

    def _arrow(self, mark: Arrow) -> None:
        tail, head = self._point(mark.tail), self._point(mark.head)
        self._draw_line(tail, head, "head")
        self._protect(Area.round(head, 0), 5)
        self._number(mark, [DiscSpot(tail, unit(head, tail), 0, 2), *self._around(tail, 0, 3)])

    def _ruler(self, mark: Ruler) -> None:
        start, end = self._point(mark.start), self._point(mark.end)
        self._draw_line(start, end, "ticks")
        for spot in (start, end):
            self._protect(Area.round(spot, 0), 3)
        ends = [DiscSpot(start, unit(end, start), 0, 3), DiscSpot(end, unit(start, end), 0, 3)]
        self._number(mark, [*ends, *self._around(start, 0, 6)])

    def _protect(self, area: Area, more: float = 0.0) -> None:
        """Keep words off `area`, unless it takes up so much of the photo that they could go nowhere."""
        self._keep_clear(area, more, lightly=area.size > _LARGEST_TARGET * self.size[0] * self.size[1])

    def _number(self, mark: Mark, spots: list[DiscSpot]) -> None:
        if mark.callout is not None:
            self._numbers.append((str(mark.callout), spots))

    def _magnify(self, mark: Inset, number: int) -> None:
        """The magnified piece, joined to its source by a line; smaller where it would cover what others show."""
        centre, reach = self._point(mark.at), mark.radius * self.size[0]
        wished = min(2 * reach * mark.zoom, LARGEST_INSET * min(self.size))
        # Its own source may be covered at need: the piece shows the same, only larger.
        kept = [each for each in self._kept if each[0] != centre]
        tries: list[tuple[float, Sequence[Round]]] = [(part * wished, kept) for part in _INSET_PARTS]
        tries.append((_INSET_PARTS[-1] * wished, ()))
        found = ((side, self._middles(side, others)) for side, others in tries)
        side, spots = next((side, spots) for side, spots in found if spots)
        spot = self._draw_inset(number, side, spots, centre)
        self._kept.append((spot, side / 2))
        if math.dist(centre, spot) > reach + side / 2:
            way = unit(centre, spot)
            self._draw_line(moved(centre, way, reach), moved(spot, way, -side / 2), "")

    def _middles(self, side: float, kept: Iterable[Round]) -> list[XY]:
        """Where a round piece covers nothing of `kept`: in corners and at edges of the photo, else anywhere on it."""
        edges = self.room.grown(-side / 2 - 2 * self._edge).rim
        for spots in (edges, (area.middle for area in anywhere(self.room, (side, side)))):
            free = [
                spot
                for spot in spots
                if all(math.dist(spot, centre) >= side / 2 + reach for centre, reach in kept)
            ]
            if free:
                return free
        return []

    def _tell(self, words: str, fraction: XY, *, leader: bool) -> None:
        """Words on a plate, else a lettered disc and the words in the caption."""
        at = self._point(fraction)
        if self._draw_plate(words, at, leader=leader):
            return
        letter = chr(ord("a") + len(self.keyed) % 26)
        self.keyed.append((letter, words))
        self._draw_disc(letter, self._around(at, 0, 4))

    def _around(self, centre: XY, reach: float, gap: float) -> list[DiscSpot]:
        """All round a circle."""
        return [DiscSpot(centre, way, reach, gap) for way in self._ways]
