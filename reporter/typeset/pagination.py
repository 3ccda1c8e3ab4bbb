"""Slices dealt out to pages.

Comes in: the galley and the room on a page. Goes out: for each page, which slice stands where. Pure arithmetic, so
that the rules of good page breaking are tested without a PDF. Must not paint.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from reporter.errors import LayoutError
from reporter.typeset.slices import Slice, Stick
from reporter.typeset.styles import GRID, MM

_SLACK = 0.01
_ASIDE_GAP = 2 * MM
_FULL_ENOUGH = 0.34
_NEARLY_EMPTY = 0.25


@dataclass(frozen=True, slots=True, eq=False)
class Placed:
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


@dataclass(frozen=True, slots=True)
class Room:
    """The upper and lower edge that slices may fill; `first` is the upper edge on the first page."""

    first: float
    top: float
    bottom: float

    def start(self, page: int) -> float:
        """Upper edge on a page, counted from 0."""
        return self.top if page else self.first


def paginate(slices: Sequence[Slice], room: Room) -> list[list[Placed]]:
    """Deal `slices` out to pages.

    A slice that begins a page by wish does so only when the page before is reasonably full. When a stretch would end on
    a nearly empty page, it is set a little tighter if that saves the page. Raises LayoutError when a slice is taller than a page.
    """
    pages: list[list[Placed]] = []
    start = 0
    while start < len(slices):
        first, start = _stretch(slices, start, room, len(pages))
        pages += first
    return pages


def _stretch(slices: Sequence[Slice], start: int, room: Room, page: int) -> tuple[list[list[Placed]], int]:
    """The pages up to the next wished page break, and where that is."""
    pages, end = _run(slices, start, room, page, 1.0)
    if len(pages) > 1 and _filled(pages[-1], room, page + len(pages) - 1) < _NEARLY_EMPTY:
        for squeeze in (0.85, 0.7):
            tighter, tighter_end = _run(slices, start, room, page, squeeze)
            if tighter_end == end and len(tighter) < len(pages):
                return tighter, end
    return pages, end


def _run(
    slices: Sequence[Slice], start: int, room: Room, page: int, squeeze: float
) -> tuple[list[list[Placed]], int]:
    pages: list[list[Placed]] = []
    while start < len(slices) and not (pages and slices[start].new_page):
        placed, start = _fill(slices, start, Room(room.start(page + len(pages)), 0, room.bottom), squeeze)
        pages.append(placed)
    return pages, start


def _filled(placed: list[Placed], room: Room, page: int) -> float:
    """How much of a page is used, from 0 to 1."""
    top = room.start(page)
    return (max(item.end for item in placed) - top) / (room.bottom - top)


def _fill(slices: Sequence[Slice], start: int, room: Room, squeeze: float) -> tuple[list[Placed], int]:
    """One page: what it holds, and the slice that begins the next."""
    placed: list[Placed] = []
    y = side = room.first
    head = slices[start].again
    if head is not None:
        placed.append(Placed(head, y, head.height))
        y += head.height
    at = start
    while at < len(slices):
        item = slices[at]
        if item.new_page and at > start and _is_full_enough(y, room):
            return placed, at
        gap = squeeze * _gap(slices[at - 1], item) if at > start else 0.0
        spot = _place(item, y + gap, side, room)
        if spot is None:
            break
        placed.append(spot)
        y = spot.top + spot.height
        side = max(side, spot.end) if item.aside else max(side, y) if item.wide else side
        at += 1
    if at == len(slices):
        return placed, at
    end = _break(slices, start, at)
    return placed[: len(placed) - (at - end)], end


def _is_full_enough(y: float, room: Room) -> bool:
    return y - room.first > _FULL_ENOUGH * (room.bottom - room.first)


def _gap(before: Slice, item: Slice) -> float:
    """The space between two neighbours; a heading sets its own."""
    if before.below and before.stick is Stick.FIRM:
        return before.below
    return max(before.below, item.above)


def _place(item: Slice, start: float, side: float, room: Room) -> Placed | None:
    """Where `item` would stand from `start` on; None when it does not fit. `side` is where the side column is free."""
    if item.wide and side > start:
        start = side + _ASIDE_GAP
    if item.snap:
        start = room.first + math.ceil((start - room.first) / (GRID / 2) - 1e-7) * GRID / 2
    height = item.height
    if item.least:
        height = max(item.least, min(height, room.bottom - start))
    beside = side + _ASIDE_GAP if item.aside and side > start else start
    spot = Placed(item, start, height, beside)
    return spot if spot.end <= room.bottom + _SLACK else None


def _break(slices: Sequence[Slice], start: int, end: int) -> int:
    """The best place to break at or before `end`: the latest that parts what least holds together."""
    if end == start:
        raise LayoutError(
            f"Something is taller than a page ({slices[start].height / MM:.0f} mm).",
            "Shorten the longest text of the component, or split it.",
        )
    for strength in (Stick.FREE, Stick.SOFT, Stick.FIRM):
        for at in range(end, start, -1):
            if slices[at - 1].stick <= strength:
                return at
    return end
