"""What a yacht's deck and its fittings look like on paper, seen from above with the bow to the left.

Comes in: the deck's size in points, and where a fitting stands along and across it. Goes out: shapes. A fitting that is
not listed is drawn dashed and without fill. Nothing here knows a job or a grade.
"""

from __future__ import annotations

import math
from typing import NamedTuple

from reporter.contract import XY, Path, Shape

from .steering_shapes import ring
from .symbols import symbol

STEPS = 28
TRANSOM = 0.78
WIDEST = 0.6
FORE, BRIDGE_FROM, BRIDGE_TO, HULL_SHARE = 0.25, 0.3, 0.93, 0.3


class Deck(NamedTuple):
    """The deck's bow point, its length and half its beam in points; two hulls or one."""

    bow: float
    middle: float
    length: float
    half: float
    two_hulls: bool = False

    def edge(self, along: float) -> float:
        """Half the breadth at a share of the length from the bow."""
        if self.two_hulls:
            fore = max(1 - along / FORE, 0.0)
            return self.half * (1 - HULL_SHARE / 2 * fore * fore)
        if along < WIDEST:
            return self.half * (1 - math.pow(1 - along / WIDEST, 2.1))
        aft = (along - WIDEST) / (1 - WIDEST)
        return self.half * (1 - (1 - TRANSOM) * aft * aft)

    def at(self, along: float, across: float) -> XY:
        """The point at shares of length and of half breadth; across is -1 at the starboard edge, 1 at the port one."""
        return (self.bow + along * self.length, self.middle + across * self.edge(along))

    def line(self, start: float, end: float, across: float) -> tuple[XY, ...]:
        """Points along the deck at a share of its half breadth."""
        return tuple(self.at(start + (end - start) * step / STEPS, across) for step in range(STEPS + 1))

    def inside(self, start: float, end: float, side: int, inset: float) -> tuple[XY, ...]:
        """Points along the deck's edge, so many points inboard of it."""
        shares = (start + (end - start) * step / STEPS for step in range(STEPS + 1))
        return tuple((self.bow + along * self.length, self.rail(along, side, inset)) for along in shares)

    def rail(self, along: float, side: int, inset: float) -> float:
        """How low on the page a rail stands that runs inboard of the edge."""
        return self.middle + side * max(self.edge(along) - inset, 0.0)


def hull(deck: Deck) -> tuple[Shape, ...]:
    """The outline, the coachroof, the cockpit and the mast, all but the outline in a quiet line."""
    outline = _two_hulls(deck) if deck.two_hulls else (*deck.line(0, 1, -1), *reversed(deck.line(0, 1, 1)))
    return (
        Path(points=outline, closed=True, fill="white", weight="normal"),
        _house(deck, 0.27, 0.6, 0.46),
        _house(deck, 0.64, 0.93, 0.42),
        ring(deck.at(0.4, 0), 2.6, weight="fine", fill="second"),
    )


def _house(deck: Deck, start: float, end: float, across: float) -> Path:
    """A coachroof or a cockpit, its forward end drawn in a little."""
    wide = deck.edge(end) * across
    fore = min(wide, deck.edge(start) * 0.62)
    x, to_x, y = deck.bow + start * deck.length, deck.bow + end * deck.length, deck.middle
    points = (
        (x, y - fore * 0.7),
        (x + 6, y - fore),
        (to_x, y - wide),
        (to_x, y + wide),
        (x + 6, y + fore),
        (x, y + fore * 0.7),
    )
    return Path(points=points, closed=True, weight="fine", stroke="second", fill="wash")


def _two_hulls(deck: Deck) -> tuple[XY, ...]:
    """Two hulls with the bridge between them."""
    inner = deck.half * (1 - 2 * HULL_SHARE)
    middle = deck.half * (1 - HULL_SHARE)
    half = [
        *(
            (deck.bow + along * deck.length, middle + (deck.edge(along) - middle))
            for along in (1.0, 0.5, 0.25, 0.1, 0.03)
        ),
        (deck.bow, middle),
        (deck.bow + 0.1 * deck.length, inner + HULL_SHARE * deck.half * 0.35),
        (deck.bow + BRIDGE_FROM * deck.length, inner),
    ]
    port = [(x, deck.middle + y) for x, y in half]
    starboard = [(x, deck.middle - y) for x, y in reversed(half)]
    stern = [(deck.bow + deck.length, deck.middle - inner), (deck.bow + BRIDGE_TO * deck.length, deck.middle - inner),
             (deck.bow + BRIDGE_TO * deck.length, deck.middle + inner), (deck.bow + deck.length, deck.middle + inner)]  # fmt: skip
    return (*port, *starboard, *stern)


def anchor_at_bow(deck: Deck) -> tuple[Shape, ...]:
    """Anchor, roller and chain as a quiet sign of where the bow is."""
    x, y = deck.at(0.14 if deck.two_hulls else 0, 0)
    beam = ((x, y - deck.half * 0.62), (x, y + deck.half * 0.62))
    drawn = (Path(points=beam, weight="normal", stroke="second"),) if deck.two_hulls else ()
    return (*drawn, *symbol("bow_mark", (x, y)))


def bow_rail(deck: Deck, *, dashed: bool) -> tuple[Shape, ...]:
    """The pulpit: a rail round the bow, or one on each hull."""
    sides = [deck.inside(0.05 if deck.two_hulls else 0.012, 0.13, side, 3.0) for side in (-1, 1)]
    lines = sides if deck.two_hulls else [(*reversed(sides[0]), *sides[1])]
    rails = (Path(points=line, weight="bold", dashed=dashed) for line in lines)
    return (*rails, *_feet(deck, (0.07, 0.13), dashed=dashed))


def stern_rail(deck: Deck, *, dashed: bool) -> tuple[Shape, ...]:
    """The pushpit: a rail round each quarter and across the stern."""
    x = deck.bow + deck.length - 3
    sides = [(*deck.inside(0.9, 0.985, side, 3.0), (x, deck.rail(1, side, 5))) for side in (-1, 1)]
    inner = [
        (*line, (x, deck.middle + side * deck.half * 0.55)) for line, side in zip(sides, (-1, 1), strict=True)
    ]
    lines = inner if deck.two_hulls else [(*sides[0], *reversed(sides[1]))]
    rails = (Path(points=line, weight="bold", dashed=dashed) for line in lines)
    return (*rails, *_feet(deck, (0.9, 0.985), dashed=dashed))


def _feet(deck: Deck, places: tuple[float, ...], *, dashed: bool) -> tuple[Shape, ...]:
    spots = [
        (deck.bow + along * deck.length, deck.rail(along, side, 3.0)) for along in places for side in (-1, 1)
    ]
    return tuple(shape for spot in spots for shape in symbol("foot", spot, dashed=dashed))


def lifeline(deck: Deck, side: int, *, dashed: bool) -> tuple[Shape, ...]:
    """The lifeline of one side, from pulpit to pushpit."""
    return (Path(points=deck.inside(0.13, 0.9, side, 3.0), weight="normal", dashed=dashed),)


def post(deck: Deck, along: float, side: int, *, dashed: bool) -> tuple[Shape, ...]:
    """A stanchion in its base."""
    spot = (deck.bow + along * deck.length, deck.rail(along, side, 3.0))
    return symbol("post", spot, dashed=dashed)


def jackstay(deck: Deck, side: int, *, dashed: bool) -> tuple[Shape, ...]:
    """A jackstay along the side deck with its strong points."""
    line = deck.line(0.17, 0.84, side * 0.68)
    ends = tuple(ring(spot, 1.8, weight="fine", fill="white") for spot in (line[0], line[-1]))
    return (Path(points=line, weight="fine", dashed=dashed), *ends)


def track(deck: Deck, along: float, side: int, *, dashed: bool) -> tuple[Shape, ...]:
    """A track with its car on the side deck."""
    line = tuple(deck.at(along + shift, side * 0.76) for shift in (-0.07, 0, 0.07))
    return (Path(points=line, weight="bold", dashed=dashed), *symbol("car", line[1], dashed=dashed))


def rope(points: tuple[XY, ...], *, dashed: bool) -> tuple[Shape, ...]:
    """A line as it is led."""
    return (
        Path(points=points, weight="normal", dashed=dashed),
        *symbol("rope_end", points[0], dashed=dashed),
    )
