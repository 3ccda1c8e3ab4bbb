"""The galley: a report composed into slices, the smallest things that a page break may stand between.

A slice is one line of text, one table row, one picture with its caption. It knows its height and how it may be parted
from its neighbours, and holds what paints it. Must not know pages.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from enum import IntEnum

from reporter.typeset.pen import Pen

Paint = Callable[[Pen, float, float], None]
"""Paints a slice: pen, upper edge on the page, height it was given."""


class Stick(IntEnum):
    """How strongly a slice holds to the one after it."""

    FREE = 0
    SOFT = 1
    """Parted only where no free place is left: first and last rows of a table, lines kept together by wish."""
    GROUP = 2
    """Parted only where it does not fit one page: a finding with the photo that decides it and its action."""
    FIRM = 3
    """Parted only where nothing else is possible: a heading from its text, the edge lines of a paragraph."""


@dataclass(slots=True, eq=False)
class Aside:
    """What stands in the side column beside a slice."""

    height: float
    paint: Paint


@dataclass(slots=True, eq=False)
class Slice:
    """A piece of the galley. Lengths in points.

    `above` and `below` are the least spaces to its neighbours, dropped at the edges of a page; a slice that holds firmly
    to the next keeps just `below`; `least` the height to which it may be shrunk to end
    a page; `again` is painted once more above it when it begins a page (the head of a table); `wide` means that it
    reaches into the side column; `wash` that it stands on a tinted ground that runs on into a neighbour's; `section` names the one that it begins.
    """

    height: float
    paint: Paint
    above: float = 0.0
    below: float = 0.0
    stick: Stick = Stick.FREE
    least: float = 0.0
    again: Slice | None = None
    aside: Aside | None = None
    wide: bool = False
    wash: bool = False
    snap: bool = False
    new_page: bool = False
    anchor: str = ""
    section: str = ""
    block: int = 0
    """Which block of the report it is of."""


def no_paint(pen: Pen, top: float, height: float) -> None:
    """Paints nothing: the slice is only room."""


def paint_first(piece: Slice, first: Paint) -> None:
    """Make a slice paint something else before itself."""
    inner = piece.paint

    def paint(pen: Pen, top: float, height: float) -> None:
        first(pen, top, height)
        inner(pen, top, height)

    piece.paint = paint


def stick_all(slices: list[Slice], strength: Stick) -> list[Slice]:
    """Make every slice but the last hold to the next with at least `strength`; returns the same list."""
    for piece in slices[:-1]:
        piece.stick = max(piece.stick, strength)
    return slices


def stick_edges(slices: list[Slice], strength: Stick, edge: int = 2) -> list[Slice]:
    """Keep the first `edge` and the last `edge` slices together; all of them when there are fewer than twice that."""
    if len(slices) < 2 * edge:
        return stick_all(slices, strength)
    for piece in [*slices[: edge - 1], *slices[-edge:-1]]:
        piece.stick = max(piece.stick, strength)
    return slices
