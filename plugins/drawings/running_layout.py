"""Where halyards, sheets, blocks and winches stand on the deck plan, and what they look like there.

Comes in: a Job, its Assessments and the deck. Goes out: shapes and callouts. One part that stands for a pair or a set is
drawn on both sides and named once. It names and grades nothing.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from reporter.contract import XY, Assessments, Job

from . import deck_shapes as shapes
from .deck_diagram import PORT, STARBOARD, DeckDiagram, Plan, fitted
from .deck_parts import SIDES as SIDE_OF
from .deck_parts import DeckPart, count, listed, places
from .deck_shapes import Deck
from .naming import SIDES, absent, bad_side, both
from .rig_shapes import along as between
from .symbols import symbol

MAST, COCKPIT, HELM = 0.4, 0.62, 0.72
NOTHING = DeckPart((), 0, None)


def running(job: Job, assessments: Assessments, deck: Deck) -> Plan:
    """Winches, blocks, tracks and clutches, halyards, sheets; what is not fitted is not drawn."""
    sheet = DeckDiagram(deck)
    sheet.add(shapes.anchor_at_bow(deck))
    sheet.taken.append(deck.at(MAST, 0))
    for kind, lay in (("winch", _winch), ("block", _block), ("halyard", _halyard), ("sheet", _sheet)):
        spots = fitted(listed(assessments, "running", kind))
        for place, (spot, side) in enumerate(_turns(kind, spots or (NOTHING,)) if spots is not None else ()):
            at = lay(sheet, job, spot, side, _Turn(place, len(spots or ())))
            sheet.call(at, side, spot.parts, kind, kind, _where(job, kind, spot))
    return sheet.plan


def _where(job: Job, kind: str, spot: DeckPart) -> str:
    """The side of a part that has one; what is said of a part that stands for both sides."""
    if spot.side:
        return SIDES[0] if spot.side == STARBOARD else SIDES[1]
    return both(spot.parts[0]) if _is_pair(job, kind, spot) else ""


class _Turn:
    """Which of how many parts of its kind is being drawn."""

    def __init__(self, place: int, pieces: int) -> None:
        self.shift = place // 2
        self.alone = pieces < 2  # noqa: PLR2004 - one or none


def _turns(kind: str, spots: Sequence[DeckPart]) -> Iterator[tuple[DeckPart, int]]:
    """Each part with the side that its label takes: its own, or by turns where none is told."""
    turn = PORT if kind in {"sheet", "winch"} else STARBOARD
    for spot in spots:
        told = spot.side or (spot.parts and SIDE_OF[bad_side(spot.parts[0])])
        yield spot, told or turn
        turn = turn if told else -turn


def _is_pair(job: Job, kind: str, spot: DeckPart) -> bool:
    """Whether one part without a side stands for fittings on both sides."""
    if spot.side or not spot.parts:
        return False
    if kind == "winch":
        return count(job, spot) > 1
    if kind == "sheet":
        return _duty(job, spot) in {"head", "spinnaker"}
    return kind == "block" and (
        job.choice(spot.parts[0].component.id, "type") in {"track", "mixed"} or "track" in _name(spot)
    )


def _name(spot: DeckPart) -> str:
    return spot.parts[0].title.lower() if spot.parts else ""


def _sides(spot: DeckPart, side: int, *, pair: bool) -> tuple[int, ...]:
    """The sides that it is drawn on, the one that it is named on last."""
    return (-side, side) if pair or not spot.parts else (side,)


def _off_centre(along: float) -> float:
    """How far off the centre line a fitting stands: beside the mast, on the coachroof, on the side deck."""
    if not MAST < along < COCKPIT:
        return 0.18 if along == MAST else 0.72
    return 0.3


def _winch(sheet: DeckDiagram, job: Job, spot: DeckPart, side: int, _turn: _Turn) -> XY:
    """A winch where its name says; four in cockpit and coachroof are two pairs."""
    pair = _is_pair(job, "winch", spot)
    told = places(spot)
    alongs = (
        told[: max(count(job, spot) // 2, 1)]
        if pair and told
        else [HELM if spot.along is None else spot.along]
    )
    at = (0.0, 0.0)
    for along in alongs:
        for each in _sides(spot, side, pair=pair):
            at = sheet.free(along, each * min(_off_centre(along), 0.56))
            sheet.add(symbol("winch", at, dashed=absent(spot.parts)))
    return at


def _block(sheet: DeckDiagram, job: Job, spot: DeckPart, side: int, _turn: _Turn) -> XY:
    kind, named = job.choice(spot.parts[0].component.id, "type") if spot.parts else "track", _name(spot)
    pair, dashed = _is_pair(job, "block", spot), absent(spot.parts)
    if kind in {"track", "mixed"} or (not kind and "track" in named):
        return _track(sheet, spot, side, pair=pair, mixed=kind == "mixed")
    if kind == "clutch" or (not kind and "clutch" in named):
        # Clutches stand before the winch that their lines are taken to.
        at = sheet.free(0.53, side * 0.3)
        sheet.add(symbol("clutch", at, dashed=dashed))
        return at
    along = spot.along or {"organiser": 0.46, "masthead": MAST}.get(kind, 0.8)
    at = sheet.free(along, side * _off_centre(along))
    sheet.add(symbol("block", at, dashed=dashed))
    return at


def _track(sheet: DeckDiagram, spot: DeckPart, side: int, *, pair: bool, mixed: bool) -> XY:
    """Tracks on the side decks; a set of several things has clutches and turning blocks too."""
    dashed, at = absent(spot.parts), (0.0, 0.0)
    for each in _sides(spot, side, pair=pair):
        if mixed:
            sheet.add(symbol("clutch", sheet.free(0.53, each * 0.3), dashed=dashed))
            sheet.add(symbol("block", sheet.free(0.86, each * 0.74), dashed=dashed))
        at = sheet.free(0.5 if mixed or spot.along is None else spot.along, each * 0.76)
        along = (at[0] - sheet.deck.bow) / sheet.deck.length
        sheet.add(shapes.track(sheet.deck, along, each, dashed=dashed))
    return at


def _halyard(sheet: DeckDiagram, _job: Job, spot: DeckPart, side: int, turn: _Turn) -> XY:
    """Lines from the mast's foot aft over the coachroof; one part for all of them is drawn on both sides."""
    step, at = turn.shift % 4, (0.0, 0.0)
    for each in (-side, side) if turn.alone and not spot.side else (side,):
        across = each * (0.1 + 0.07 * step)
        foot, end = sheet.deck.at(0.415, across * 0.5), sheet.deck.at(0.555, across)
        sheet.add(shapes.rope((foot, end), dashed=absent(spot.parts)))
        at = between(foot, end, 0.35 + 0.18 * step)
    return at


def _sheet(sheet: DeckDiagram, job: Job, spot: DeckPart, side: int, turn: _Turn) -> XY:
    """Headsail sheets from the side deck to the cockpit; the others across the cockpit or along the coachroof."""
    duty, line = _duty(job, spot), ((0.0, 0.0), (0.0, 0.0))
    for each in _sides(spot, side, pair=_is_pair(job, "sheet", spot)):
        led = _led(sheet.deck, each, duty, 0.02 * turn.shift)
        line = (led[0], led[1])
        sheet.add(shapes.rope(led, dashed=absent(spot.parts)))
    if duty == "main":
        # It lies across the boat: named at the end that is nearer to its label.
        return between(line[0], line[1], 0.9 if side == PORT else 0.1)
    return between(line[0], line[1], 0.6)


def _duty(job: Job, spot: DeckPart) -> str:
    named = _name(spot)
    told = job.choice(spot.parts[0].component.id, "duty") if spot.parts else ""
    return told or ("main" if "mainsheet" in named or "main sheet" in named else "head")


def _led(deck: Deck, side: int, duty: str, shift: float) -> tuple[XY, ...]:
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
