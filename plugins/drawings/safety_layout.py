"""Where pulpits, stanchions, lifelines and jackstays stand on the deck plan, and what they look like there.

Comes in: a Job, its Assessments and the deck. Goes out: shapes and callouts. It names and grades nothing.
"""

from __future__ import annotations

import itertools
from collections.abc import Sequence

from reporter.contract import XY, Assessments, Job

from . import deck_shapes as shapes
from .deck_diagram import PORT, STARBOARD, DeckDiagram, Plan, fitted, parts_of, spread
from .deck_parts import DeckPart, count, home, listed, worst_of_row
from .deck_shapes import Deck
from .naming import SIDES, absent, both

POSTS, MOST_POSTS = 5, 9
POSTS_FROM, POSTS_TO = 0.2, 0.83
LIFELINE_AT, APART = 0.6, 0.025


def safety(job: Job, assessments: Assessments, deck: Deck) -> Plan:
    """Pulpits, stanchions, lifelines and jackstays; what is not fitted is not drawn."""
    sheet = DeckDiagram(deck)
    sheet.add(shapes.anchor_at_bow(deck))
    kinds = {
        kind: listed(assessments, "safety", kind) for kind in ("jackstay", "lifeline", "stanchion", "pulpit")
    }
    for side in (STARBOARD, PORT):
        own = {kind: fitted(_of_side(spots, side)) for kind, spots in kinds.items()}
        posts = _shares(job, own["stanchion"] or ())
        _jackstay(sheet, own["jackstay"], side)
        _lifelines(sheet, own["lifeline"], side, posts)
        _stanchions(sheet, own["stanchion"], side, posts)
    _pulpits(sheet, job, kinds["pulpit"])
    return sheet.plan


def _of_side(spots: Sequence[DeckPart], side: int) -> tuple[DeckPart, ...]:
    return tuple(spot for spot in spots if spot.side in {side, 0})


def _called(
    sheet: DeckDiagram, spots: Sequence[DeckPart], side: int, at: Sequence[XY], title: str, kind: str
) -> None:
    """Names what stands on one side; what stands on both is named once, where it is worst."""
    if not spots:
        sheet.call(at[0], side, (), title, kind)
        return
    for spot, point in zip(spots, at, strict=True):
        if home(spot) == side:
            sheet.call(
                point, side, spot.parts, title, kind, _side(side) if spot.side else both(spot.parts[0])
            )


def _side(side: int) -> str:
    return SIDES[0] if side == STARBOARD else SIDES[1]


def _jackstay(sheet: DeckDiagram, own: Sequence[DeckPart] | None, side: int) -> None:
    if own is None:
        return
    sheet.add(shapes.jackstay(sheet.deck, side, dashed=absent(parts_of(own))))
    at = [sheet.deck.at(along, side * 0.68) for along in spread(0.27, 0.36, len(own) or 1)]
    _called(sheet, own, side, at, "jackstay", "jackstay")


def _lifelines(sheet: DeckDiagram, own: Sequence[DeckPart] | None, side: int, posts: Sequence[float]) -> None:
    """Named in a span between two stanchions, where a dot can be told from a stanchion."""
    if own is None:
        return
    sheet.add(shapes.lifeline(sheet.deck, side, dashed=absent(parts_of(own))))
    spans = [(one + other) / 2 for one, other in itertools.pairwise(sorted(posts))] or [LIFELINE_AT]
    middle = min(spans, key=lambda along: abs(along - LIFELINE_AT))
    shares = spread(middle - APART, middle + APART, len(own) or 1)
    _called(sheet, own, side, _on_rail(sheet, shares, side), "lifeline", "lifeline")


def _on_rail(sheet: DeckDiagram, shares: Sequence[float], side: int) -> list[XY]:
    deck = sheet.deck
    return [(deck.bow + along * deck.length, deck.rail(along, side, 3.0)) for along in shares]


def _shares(job: Job, own: Sequence[DeckPart]) -> list[float]:
    """Where the stanchions of one side stand: as many as are listed one by one, else as many as are counted."""
    if len(own) > 1:
        return _in_order(own)
    told = sum(count(job, spot) // (1 if spot.side else 2) for spot in own)
    return spread(POSTS_FROM, POSTS_TO, min(told or POSTS, MOST_POSTS))


def _in_order(own: Sequence[DeckPart]) -> list[float]:
    """Evenly along the deck; where every name tells a place, in that order."""
    shares = spread(POSTS_FROM, POSTS_TO, len(own))
    if any(spot.along is None for spot in own):
        return shares
    order = sorted(range(len(own)), key=lambda place: (own[place].along or 0.0, place))
    return [shares[order.index(place)] for place in range(len(own))]


def _stanchions(
    sheet: DeckDiagram, own: Sequence[DeckPart] | None, side: int, posts: Sequence[float]
) -> None:
    if own is None:
        return
    one_by_one = len(own) > 1
    for place, along in enumerate(posts):
        parts = own[place].parts if one_by_one else parts_of(own)
        sheet.add(shapes.post(sheet.deck, along, side, dashed=absent(parts)))
    worst = worst_of_row(own[0], len(posts)) if own else -1
    named = posts if one_by_one else [posts[worst]]
    _called(sheet, own, side, _on_rail(sheet, named, side), "stanchion", "stanchion")


def _pulpits(sheet: DeckDiagram, job: Job, spots: Sequence[DeckPart]) -> None:
    deck = sheet.deck
    aft = fitted([spot for spot in spots if _is_aft(job, spot)])
    fore = fitted([spot for spot in spots if not _is_aft(job, spot)])
    if fore is not None:
        sheet.add(shapes.bow_rail(deck, dashed=absent(parts_of(fore))))
        _end(sheet, fore, _on_rail(sheet, [0.06], STARBOARD)[0], STARBOARD, "pulpit")
    if aft is not None:
        sheet.add(shapes.stern_rail(deck, dashed=absent(parts_of(aft))))
        across = 0.72 if deck.two_hulls else 0.4
        _end(sheet, aft, (deck.bow + deck.length - 3, deck.middle + across * deck.edge(1)), PORT, "pushpit")


def _end(sheet: DeckDiagram, spots: Sequence[DeckPart], at: XY, side: int, title: str) -> None:
    """One rail at an end of the boat, or its two halves."""
    for place, spot in enumerate(spots or (DeckPart((), 0, None),)):
        mirrored = (at[0], 2 * sheet.deck.middle - at[1])
        own = spot.side or (side if place % 2 == 0 else -side)
        where = _side(spot.side) if spot.side else ""
        sheet.call(at if own == side else mirrored, own, spot.parts, title, "pulpit", where)


def _is_aft(job: Job, spot: DeckPart) -> bool:
    end = job.choice(spot.parts[0].component.id, "end")
    return end == "stern" or (not end and (spot.along or 0.0) > 0.5)  # noqa: PLR2004 - half of her length
