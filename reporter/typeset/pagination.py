"""Slices dealt out to pages at the least cost over a whole section.

Comes in: the galley and the room on a page. Goes out: for each page, which slice stands where. The cheapest chain of
breaks is found by going through all of them (a shortest path, as for lines in Knuth and Plass, Software: Practice and
Experience 11, 1981), so that a page may end early to spare a later one. Pure arithmetic, so that the rules of good
page breaking are tested without a PDF. Must not paint.
"""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from reporter.errors import LayoutError
from reporter.typeset.filling import SLACK, PlacedSlice, fill, gap, placed_edges
from reporter.typeset.slices import Slice, Stick
from reporter.typeset.styles import MM

__all__ = ["PageRoom", "PlacedSlice", "cost_of", "cuts", "paginate"]

_FULL_ENOUGH = 0.34
"""A wished page break is granted when more than this part of the page is used."""
TOO_EMPTY = 1 / 3
"""No page before a section's last has more than this part empty where it can be avoided."""
_STRANDED = 0.8
"""The last page of a section is better saved than left emptier than this."""

# Costs. Each rank outweighs any sum of the lower ones that a section is likely to gather.
_PARTED = {Stick.FREE: 0.0, Stick.SOFT: 12.0, Stick.GROUP: 1e4, Stick.FIRM: 1e6}
_EMPTY = 1e3
_AIR = 100.0
_EASE = 8.0
_PAGE = 10.0
_LONELY = 15.0
_UNHEEDED = 30.0
"""A wished page break on a page too empty to grant it."""
_EARLY = 60.0
"""A section's last page left almost empty though the next one's wish was not granted: better than an empty one before it."""
_TAIL = 20.0
"""The last lines of a section at the head of a page on which the next one begins."""
_TAIL_SHARE = 0.08
"""Lines that fill less than this part of a page are such a tail."""
_IN_TABLE = 6.0
_IN_TEXT = 2.0


@dataclass(frozen=True, slots=True)
class PageRoom:
    """The upper and lower edge that slices may fill; `first` is the upper edge on the first page."""

    first: float
    top: float
    bottom: float

    def start(self, page: int) -> float:
        """Upper edge on a page, counted from 0."""
        return self.top if page else self.first


class TooTallError(LayoutError):
    """Raised for a slice that no page can hold; `at` is its place among the slices. Height in points."""

    def __init__(self, at: int, height: float) -> None:
        super().__init__(
            f"A piece is taller than a page ({height / MM:.0f} mm).", "Shorten its longest text, or split it."
        )
        self.at = at
        self.height = height


def paginate(slices: Sequence[Slice], room: PageRoom) -> list[list[PlacedSlice]]:
    """Deal `slices` out to pages so that the costs of all pages add up to the least.

    A slice that begins a page by wish does so only when the page before is reasonably full. Photos and spaces give way
    within their bounds where that spares more than it costs. Raises TooTallError when a slice is taller than a page.
    """
    # `cost` of a slice is the least at which a page can begin with it, `before` where the page before that one begins.
    # All ways that lead on from a slice lie behind it, so one pass from the first to the last finds the cheapest of all.
    cost: dict[int, float] = {0: 0.0}
    before: dict[int, int] = {}
    for start in range(len(slices)):
        if start not in cost:
            continue
        for end, price in cuts(slices, start, room):
            total = cost[start] + price
            if end not in cost or total < cost[end]:
                cost[end], before[end] = total, start
    ends = [len(slices)] if slices else []
    while ends and ends[-1]:
        ends.append(before[ends[-1]])
    spans = list(zip(ends[:0:-1], ends[-2::-1], strict=True))
    return [fill(slices, span, room.start(span[0]), room.bottom) for span in spans]


def cuts(slices: Sequence[Slice], start: int, room: PageRoom) -> Iterator[tuple[int, float]]:
    """Every place where the page that begins with slice `start` may end, and what the page would cost."""
    first = room.start(start)
    tight, wished = _reach(slices, start, first, room.bottom)
    if not tight:
        raise TooTallError(start, slices[start].height)
    stop = start + len(tight)
    # A photo that is shrunk lets more slices onto the page, so the reach is sought at full ease; what the page would
    # have taken without is needed as well, since easing costs by how much of it is used.
    natural = [edges[3] for edges in placed_edges(slices, (start, stop), first, 0.0)]
    lowest = lowest_tight = first
    unheeded = 0.0
    found: list[tuple[int, float]] = []
    parting: list[tuple[int, float]] = []
    for end in range(start + 1, stop + 1):
        # An aside may reach lower than the slices after it: the page is as full as its lowest edge so far.
        lowest = max(lowest, natural[end - start - 1])
        lowest_tight = max(lowest_tight, tight[end - start - 1])
        is_granted = end == len(slices) or (wished and end == stop)
        is_last = is_granted or _begins(slices, end)
        unheeded += _UNHEEDED if end - 1 > start and _begins(slices, end - 1) else 0.0
        price = unheeded + cost_of(slices, end, (lowest, lowest_tight), (first, room.bottom), is_last=is_last)
        if is_last and not is_granted:
            # The emptier the page for which the next section's wish was refused, the dearer it is to end it all the same.
            used = (lowest_tight - first) / (room.bottom - first)
            price += _EARLY * max(0.0, 1 - used / _FULL_ENOUGH)
        is_firm = not is_last and slices[end - 1].stick is Stick.FIRM
        (parting if is_firm else found).append((end, price))
    # Firm bonds are parted only where nothing else is possible.
    yield from found or parting


def _reach(slices: Sequence[Slice], start: int, first: float, bottom: float) -> tuple[list[float], bool]:
    """Lower edges of all that fits the page at full ease, and whether a wished page break ends it."""
    tight: list[float] = []
    full = first + _FULL_ENOUGH * (bottom - first)
    y = first
    for at, edges in enumerate(placed_edges(slices, (start, len(slices)), first, 1.0), start):
        if at > start and y > full and _begins(slices, at):
            return tight, True
        if edges[3] > bottom + SLACK:
            return tight, False
        tight.append(edges[3])
        y = edges[0] + edges[1]
    return tight, False


def _begins(slices: Sequence[Slice], at: int) -> bool:
    """True where a page break is wished and no heading would be left behind."""
    return slices[at].new_page and slices[at - 1].stick is not Stick.FIRM


def cost_of(
    slices: Sequence[Slice],
    end: int,
    lowest: tuple[float, float],
    page: tuple[float, float],
    *,
    is_last: bool,
) -> float:
    """What a page costs that ends before slice `end`.

    `lowest` is how low it reaches at no and at full ease, `page` its upper and lower edge; `is_last` when a section
    ends with it.
    """
    first, bottom = page
    cost = _PAGE
    empty = max(0.0, (bottom - lowest[0]) / (bottom - first))
    if lowest[0] > bottom + SLACK:
        cost += _EASE * (lowest[0] - bottom) / max(lowest[0] - lowest[1], SLACK)
    if is_last:
        # A section may end where it ends: neither white nor a parted bond counts, but a page for a line or two does.
        return cost + (_LONELY if empty > _STRANDED else 0.0)
    cost += _PARTED[slices[end - 1].stick] + _AIR * empty**2
    if empty > TOO_EMPTY:
        cost += _EMPTY
    if _is_tail(slices, end, _TAIL_SHARE * (bottom - first)):
        cost += _TAIL
    if slices[end].again is not None:
        cost += _IN_TABLE
    elif gap(slices[end - 1], slices[end]) == 0:
        cost += _IN_TEXT
    return cost


def _is_tail(slices: Sequence[Slice], start: int, room: float) -> bool:
    """True when what a section still has from `start` on is lower than `room`, and another section follows it."""
    for piece in itertools.islice(slices, start, None):
        if piece.section:
            return piece is not slices[start]
        room -= piece.height + (piece.again.height if piece is slices[start] and piece.again else 0.0)
        if room < 0:
            return False
    return False
