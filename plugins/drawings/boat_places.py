"""Where on the picture of the whole boat each part is: at its place in the view that shows it best.

Comes in: a Job, its Assessments, and the views with the points that they know. Goes out: part id -> point; a part that
nothing places is left out. What is aloft or of the hull is shown from the side, what has a side of the rig from ahead, what
stands on deck or lies at the bow on the deck, the steering on its own run.
"""

from __future__ import annotations

from typing import NamedTuple

from reporter.contract import XY, Assessments, Extent, Graded, Job, Label

from .boat_shapes import turn
from .deck_parts import SIDES, along_of
from .deck_shapes import Deck
from .naming import bad_place, bad_side, side_of
from .rig_mizzen import spot
from .rig_parts import of_mizzen, place_of
from .running_layout import running
from .safety_layout import safety

BOW = {
    "anchor": -0.035,
    "shackle": -0.005,
    "swivel": 0.015,
    "anchor_chain": 0.04,
    "rode": 0.04,
    "windlass": 0.09,
    "bitter_end": 0.13,
}
"""Ground tackle along the deck from the anchor on its roller to the locker, as shares of its length."""
STERN = 0.5
"""Ground tackle stowed further aft than this is not at the bow."""
WITHIN = {"engine_controls": "pedestal", "sheave": "pedestal", "spares": "emergency_tiller"}
"""Parts that the run does not draw, and what they are in or beside."""


class Views(NamedTuple):
    """The points that each view knows: from the side and from ahead by place, the run's by label; the deck and its turning."""

    side: dict[str, XY]
    ahead: dict[str, XY]
    middle: float
    deck: Deck
    deck_at: tuple[float, XY]
    run: tuple[Label, ...]


def places(job: Job, assessments: Assessments, views: Views) -> dict[str, XY]:
    """The point of every part that is, or should be, aboard and that something places."""
    found = _on_deck(job, assessments, views)
    found |= {label.part: _damage(assessments, label, views) for label in views.run if label.part}
    for part in assessments.components:
        if part.component.examined.extent is Extent.NOT_FITTED or part.component.id in found:
            continue
        at = _placed(job, assessments, part, views)
        if at:
            found[part.component.id] = at
    return found


def _damage(assessments: Assessments, label: Label, views: Views) -> XY:
    """Where along a run the worst was seen: at another part of it that the inspector names, else where the label points."""
    part = assessments.part(label.part)
    where = bad_place(part).lower() if part else ""
    beside = (each.at for each in views.run if each.part != label.part and each.text.lower() in where)
    return next(beside, label.at) if where else label.at


def _placed(job: Job, assessments: Assessments, part: Graded, views: Views) -> XY | None:
    if part.system == "rig":
        return _rigged(job, part, views) or _by_words(part, views)
    if part.system == "ground":
        return _by_words(part, views, stern_only=True) or _at_bow(part, views)
    beside = WITHIN.get(part.component.kind)
    return next(
        (label.at for label in views.run if beside and _kind(assessments, label) == beside), None
    ) or _by_words(part, views)


def _kind(assessments: Assessments, label: Label) -> str:
    part = assessments.part(label.part)
    return part.component.kind if part else ""


def _rigged(job: Job, part: Graded, views: Views) -> XY | None:
    """From ahead where the part has a side that tells, else from the side."""
    place, side = place_of(job, part), side_of(part) or bad_side(part)
    if of_mizzen(job, part):
        return spot(place, views.side)
    if place in views.ahead and (side or place not in views.side):
        x, y = views.ahead[place]
        return (2 * views.middle - x, y) if side == "port" else (x, y)
    return views.side.get(place)


def _at_bow(part: Graded, views: Views) -> XY | None:
    along = BOW.get(part.component.kind)
    return (
        None
        if along is None
        else _turned((views.deck.bow + along * views.deck.length, views.deck.middle), views)
    )


def _by_words(part: Graded, views: Views, *, stern_only: bool = False) -> XY | None:
    """Where the part's name and place say that it stands."""
    along = along_of(f"{part.title} {part.component.place}")
    if along is None or (stern_only and along < STERN):
        return None
    return _turned(views.deck.at(along, 0.45 * SIDES.get(side_of(part), 0)), views)


def _on_deck(job: Job, assessments: Assessments, views: Views) -> dict[str, XY]:
    """The parts of the deck plan, where it draws them."""
    callouts = [each for layer in (running, safety) for each in layer(job, assessments, views.deck).callouts]
    return {part.component.id: _turned(callout.at, views) for callout in callouts for part in callout.parts}


def _turned(point: XY, views: Views) -> XY:
    return turn(point, views.deck, *views.deck_at)
