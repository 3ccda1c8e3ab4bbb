"""Where the fittings of one system stand on the deck plan, what they look like there, and what is to be named.

Comes in: a Job, its Assessments and the deck. Goes out: shapes, and callouts: a point on the deck with the parts that it
speaks of. It names and grades nothing.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from typing import NamedTuple

from reporter.contract import Assessments, Extent, Grade, Graded, Job, Shape

from . import deck_shapes as shapes
from .deck_parts import NARROW, Spot, choice, count, listed
from .deck_shapes import Deck, Point
from .steering_parts import Parts

STARBOARD, PORT = -1, 1
POSTS = 5
MOST_POSTS = 9
MAST, COCKPIT = 0.4, 0.62
POSTS_FROM, POSTS_TO = 0.2, 0.83


class Callout(NamedTuple):
    """Something on the deck to be named: where it is, which side's label it takes, its parts, its name when not listed."""

    at: Point
    side: int
    parts: Parts
    title: str
    kind: str
    told: str = ""


class Plan(NamedTuple):
    """Shapes over the deck, and callouts."""

    shapes: tuple[Shape, ...]
    callouts: tuple[Callout, ...]


def absent(parts: Parts) -> bool:
    """Whether nothing is there to be drawn in full: not listed, not fitted or not found."""
    gone = {Extent.NOT_FITTED, Extent.NOT_FOUND}
    return not parts or all(part.component.examined.extent in gone for part in parts)


def urgency(part: Graded) -> float:
    """What speaks first where several parts share a label: the worst grade; one unseen among clear ones is told."""
    return 0.5 if part.grade is Grade.UNSEEN else part.grade.rank


def worst_of(parts: Parts) -> Graded:
    """The part that speaks for all of them."""
    return max(parts, key=urgency)


class Sheet:
    """Shapes and callouts so far, and the points that fittings have taken."""

    def __init__(self, deck: Deck) -> None:
        self.deck = deck
        self.shapes: list[Shape] = []
        self.callouts: list[Callout] = []
        self.taken: list[Point] = []

    def add(self, drawn: Iterable[Shape]) -> None:
        """Shapes over the ones before."""
        self.shapes += drawn

    def call(self, at: Point, side: int, parts: Parts, title: str, kind: str, told: str = "") -> None:
        """Something to be named."""
        self.callouts.append(Callout(at, side, parts, title, kind, told))

    def free(self, along: float, across: float, step: float = 0.045) -> Point:
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


def safety(job: Job, assessments: Assessments, deck: Deck) -> Plan:
    """Pulpits, stanchions, lifelines and jackstays."""
    sheet = Sheet(deck)
    sheet.add(shapes.anchor_at_bow(deck))
    _jackstays(sheet, listed(assessments, "safety", "jackstay"))
    _lifelines(sheet, listed(assessments, "safety", "lifeline"))
    _stanchions(sheet, job, listed(assessments, "safety", "stanchion"))
    _pulpits(sheet, job, listed(assessments, "safety", "pulpit"))
    return sheet.plan


def _of_side(spots: Sequence[Spot], side: int) -> tuple[Spot, ...]:
    return tuple(spot for spot in spots if spot.side in {side, 0})


def _called(
    sheet: Sheet, spots: Sequence[Spot], side: int, at: Sequence[Point], title: str, kind: str
) -> None:
    """Names what stands on one side; what stands on both is named once, at starboard."""
    if not spots:
        sheet.call(at[0], side, (), title, kind)
        return
    for spot, point in zip(spots, at, strict=True):
        if spot.side or side == STARBOARD:
            sheet.call(point, side, spot.parts, title, kind, "" if spot.side else "both sides: {}")


def _spread(first: float, last: float, pieces: int) -> list[float]:
    if pieces == 1:
        return [(first + last) / 2]
    return [first + (last - first) * place / (pieces - 1) for place in range(pieces)]


def _parts(spots: Sequence[Spot]) -> Parts:
    return tuple(part for spot in spots for part in spot.parts)


def _jackstays(sheet: Sheet, spots: Sequence[Spot]) -> None:
    for side in (STARBOARD, PORT):
        own = _of_side(spots, side)
        sheet.add(shapes.jackstay(sheet.deck, side, dashed=absent(_parts(own))))
        at = [sheet.deck.at(along, side * 0.68) for along in _spread(0.27, 0.36, len(own) or 1)]
        _called(sheet, own, side, at, "Jackstay", "jackstay")


def _lifelines(sheet: Sheet, spots: Sequence[Spot]) -> None:
    for side in (STARBOARD, PORT):
        own = _of_side(spots, side)
        sheet.add(shapes.lifeline(sheet.deck, side, dashed=absent(_parts(own))))
        shares = _spread(0.59, 0.64, len(own) or 1)
        at = [
            (sheet.deck.bow + along * sheet.deck.length, sheet.deck.rail(along, side, 3.0))
            for along in shares
        ]
        _called(sheet, own, side, at, "Lifelines", "lifeline")


def _stanchions(sheet: Sheet, job: Job, spots: Sequence[Spot]) -> None:
    for side in (STARBOARD, PORT):
        own = _of_side(spots, side)
        told = sum(count(job, spot) // (1 if spot.side else 2) for spot in own)
        pieces = len(own) if len(own) > 1 else min(max(told, 0) or POSTS, MOST_POSTS)
        shares = _posts(own, pieces)
        for place, along in enumerate(shares):
            one = own[place].parts if len(own) > 1 else _parts(own)
            sheet.add(shapes.post(sheet.deck, along, side, dashed=absent(one)))
        named = shares if len(own) > 1 else [shares[-1]]
        at = [
            (sheet.deck.bow + along * sheet.deck.length, sheet.deck.rail(along, side, 3.0)) for along in named
        ]
        _called(sheet, own, side, at, "Stanchions", "stanchion")


def _posts(own: Sequence[Spot], pieces: int) -> list[float]:
    """Evenly along the deck; where names tell a place, in that order."""
    shares = _spread(POSTS_FROM, POSTS_TO, pieces)
    if len(own) < 2 or any(spot.along is None for spot in own):  # noqa: PLR2004 - one alone keeps no order
        return shares
    order = sorted(range(len(own)), key=lambda place: (own[place].along or 0.0, place))
    return [shares[order.index(place)] for place in range(len(own))]


def _pulpits(sheet: Sheet, job: Job, spots: Sequence[Spot]) -> None:
    aft = [spot for spot in spots if _is_aft(job, spot)]
    fore = [spot for spot in spots if spot not in aft]
    sheet.add(shapes.bow_rail(sheet.deck, dashed=absent(_parts(fore))))
    sheet.add(shapes.stern_rail(sheet.deck, dashed=absent(_parts(aft))))
    bow, stern = sheet.deck.bow, sheet.deck.bow + sheet.deck.length - 3
    _end(
        sheet,
        fore,
        (bow + 0.06 * sheet.deck.length, sheet.deck.rail(0.06, STARBOARD, 3.0)),
        STARBOARD,
        "Pulpit",
    )
    across = 0.72 if sheet.deck.two_hulls else 0.4
    _end(sheet, aft, (stern, sheet.deck.middle + across * sheet.deck.edge(1)), PORT, "Pushpit")


def _end(sheet: Sheet, spots: Sequence[Spot], at: Point, side: int, title: str) -> None:
    """One rail at an end of the boat, or its two halves."""
    for place, spot in enumerate(spots or (Spot((), 0, None),)):
        mirrored = (at[0], 2 * sheet.deck.middle - at[1])
        own = spot.side or (side if place % 2 == 0 else -side)
        sheet.call(at if own == side else mirrored, own, spot.parts, title, "pulpit")


def _is_aft(job: Job, spot: Spot) -> bool:
    end = choice(job, spot, "end")
    return end == "stern" or (not end and (spot.along or 0.0) > 0.5)  # noqa: PLR2004 - half of her length


def running(job: Job, assessments: Assessments, deck: Deck) -> Plan:
    """Halyards, sheets, blocks, tracks, clutches and winches."""
    sheet = Sheet(deck)
    sheet.add(shapes.anchor_at_bow(deck))
    sheet.taken.append(deck.at(0.4, 0))
    _winches(sheet, listed(assessments, "running", "winch"))
    _blocks(sheet, job, listed(assessments, "running", "block"))
    _halyards(sheet, listed(assessments, "running", "halyard"))
    _sheets(sheet, job, listed(assessments, "running", "sheet"))
    return sheet.plan


def _turns(spots: Sequence[Spot]) -> Iterator[tuple[Spot, int]]:
    """Each part with the side that it is drawn on: its own, or by turns where none is told."""
    turn = STARBOARD
    for spot in spots:
        yield spot, spot.side or turn
        turn = turn if spot.side else -turn


def _off_centre(along: float) -> float:
    """How far off the centre line a fitting stands: beside the mast, on the coachroof, on the side deck."""
    if not MAST < along < COCKPIT:
        return 0.18 if along == MAST else 0.72
    return 0.3


def _winches(sheet: Sheet, spots: Sequence[Spot]) -> None:
    if not spots:
        for side in (STARBOARD, PORT):
            sheet.add(shapes.winch(sheet.free(0.72, side * 0.56), dashed=True))
        sheet.call(sheet.taken[-1], PORT, (), "Winches", "winch")
    for spot, side in _turns(spots):
        along = spot.along if spot.along is not None else 0.72
        at = sheet.free(along, side * min(_off_centre(along), 0.56))
        sheet.add(shapes.winch(at, dashed=absent(spot.parts)))
        sheet.call(at, side, spot.parts, "Winches", "winch")


def _blocks(sheet: Sheet, job: Job, spots: Sequence[Spot]) -> None:
    if not spots:
        for side in (STARBOARD, PORT):
            sheet.add(shapes.track(sheet.deck, 0.5, side, dashed=True))
        sheet.call(
            sheet.deck.at(0.5, STARBOARD * 0.76), STARBOARD, (), "Blocks, tracks and clutches", "block"
        )
    for spot, side in _turns(spots):
        _block(sheet, spot, side, choice(job, spot, "type"))


def _block(sheet: Sheet, spot: Spot, side: int, kind: str) -> None:
    dashed, named = absent(spot.parts), spot.parts[0].title.lower()
    if kind == "track" or (not kind and "track" in named):
        along = spot.along or 0.5
        at = sheet.free(along, side * 0.76)
        along = (at[0] - sheet.deck.bow) / sheet.deck.length
        for each in (side,) if spot.side else (STARBOARD, PORT):
            sheet.add(shapes.track(sheet.deck, along, each, dashed=dashed))
    elif kind == "clutch" or (not kind and "clutch" in named):
        # Clutches stand before the winch that their lines are taken to.
        at = sheet.free(0.53, side * 0.3)
        sheet.add(shapes.clutch(at, dashed=dashed))
    else:
        along = spot.along or {"organiser": 0.46, "masthead": 0.4}.get(kind, 0.8)
        at = sheet.free(along, side * _off_centre(along))
        sheet.add(shapes.block(at, dashed=dashed))
    sheet.call(at, side, spot.parts, "Blocks, tracks and clutches", "block")


def _halyards(sheet: Sheet, spots: Sequence[Spot]) -> None:
    """Lines from the mast's foot aft over the coachroof."""
    for place, (spot, side) in enumerate(_turns(spots or (Spot((), STARBOARD, None),))):
        across = side * (0.1 + 0.07 * (place // 2 % 4))
        foot, end = sheet.deck.at(0.415, across * 0.5), sheet.deck.at(0.555, across)
        sheet.add(shapes.rope((foot, end), dashed=absent(spot.parts)))
        share = 0.35 + 0.18 * (place // 2 % 4)
        at = (foot[0] + (end[0] - foot[0]) * share, foot[1] + (end[1] - foot[1]) * share)
        sheet.call(at, side, spot.parts, "Halyards", "halyard")


def _sheets(sheet: Sheet, job: Job, spots: Sequence[Spot]) -> None:
    """Headsail sheets from the side deck to the cockpit; the others across the cockpit or along the coachroof."""
    for place, (spot, side) in enumerate(_turns(spots or (Spot((), PORT, None),))):
        line = _led(sheet.deck, side, _duty(job, spot), 0.02 * (place // 2))
        sheet.add(shapes.rope(line, dashed=absent(spot.parts)))
        (x, y), (to_x, to_y) = line[:2]
        # The mainsheet lies across: it is named at the end that is nearer to its label.
        share = 0.6 if line[0][0] != line[1][0] else (0.9 if side == PORT else 0.1)
        sheet.call(
            (x + (to_x - x) * share, y + (to_y - y) * share),
            side,
            spot.parts,
            "Sheets and control lines",
            "sheet",
        )


def _duty(job: Job, spot: Spot) -> str:
    named = spot.parts[0].title.lower() if spot.parts else ""
    told = choice(job, spot, "duty") if spot.parts else ""
    return told or ("main" if "mainsheet" in named or "main sheet" in named else "head")


def _led(deck: Deck, side: int, duty: str, shift: float) -> tuple[Point, ...]:
    """How a line is led, by what it does."""
    if duty == "main":
        return (deck.at(0.7 + shift, -0.34), deck.at(0.7 + shift, 0.34))
    if duty in {"head", "spinnaker"}:
        return (
            deck.at(0.5 + shift, side * 0.76),
            deck.at(0.61 + shift, side * 0.7),
            deck.at(0.7, side * (0.62 + shift)),
        )
    return (deck.at(0.44 + shift, side * 0.42), deck.at(0.555, side * (0.38 + shift)))
