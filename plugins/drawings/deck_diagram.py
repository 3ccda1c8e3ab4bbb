"""A sheet for the deck plan: shapes, and callouts, which are points on the deck with the parts that they speak of.

Comes in: the deck. Goes out: a Plan. It names and grades nothing, and knows no fitting.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import NamedTuple

from reporter.contract import XY, Extent, Shape

from .deck_parts import NARROW, DeckPart
from .deck_shapes import Deck
from .naming import Parts

STARBOARD, PORT = -1, 1


class Callout(NamedTuple):
    """Something on the deck to be named: where it is, on which side its label stands, its parts, the id of its own name.

    `where` is said before its grade: the side, or that it stands for both.
    """

    at: XY
    side: int
    parts: Parts
    title: str
    kind: str
    where: str = ""


class Plan(NamedTuple):
    """Shapes over the deck, and callouts."""

    shapes: tuple[Shape, ...]
    callouts: tuple[Callout, ...]


class DeckDiagram:
    """Shapes and callouts so far, and the points that fittings have taken."""

    def __init__(self, deck: Deck) -> None:
        self.deck = deck
        self.shapes: list[Shape] = []
        self.callouts: list[Callout] = []
        self.taken: list[XY] = []

    def add(self, drawn: Iterable[Shape]) -> None:
        """Shapes over the ones before."""
        self.shapes += drawn

    def call(self, at: XY, side: int, parts: Parts, title: str, kind: str, where: str = "") -> None:
        """Something to be named."""
        self.callouts.append(Callout(at, side, parts, title, kind, where))

    def free(self, along: float, across: float, step: float = 0.045) -> XY:
        """The point at those shares of the deck, or the next one aft, then forward, that no fitting has taken."""
        for shift in (0.0, *(sign * step * far for far in range(1, 12) for sign in (1, -1))):
            spot = self.deck.at(min(max(along + shift, 0.05), 0.97), across)
            if all(abs(spot[0] - x) + abs(spot[1] - y) >= NARROW for x, y in self.taken):
                break
        self.taken.append(spot)
        return spot

    @property
    def plan(self) -> Plan:
        """What was put on the sheet."""
        return Plan(tuple(self.shapes), tuple(self.callouts))


def fitted(spots: Sequence[DeckPart]) -> tuple[DeckPart, ...] | None:
    """What is there of the parts listed; None where all that is listed is not fitted, so that nothing is drawn."""
    here = tuple(spot for spot in spots if spot.parts[0].component.examined.extent is not Extent.NOT_FITTED)
    return None if spots and not here else here


def parts_of(spots: Sequence[DeckPart]) -> Parts:
    """The parts of several places."""
    return tuple(part for spot in spots for part in spot.parts)


def spread(first: float, last: float, pieces: int) -> list[float]:
    """So many figures evenly from the first to the last; one alone stands in the middle."""
    if pieces == 1:
        return [(first + last) / 2]
    return [first + (last - first) * place / (pieces - 1) for place in range(pieces)]
