"""The whole boat in one picture: from the side, from ahead, her deck from above, and the steering run enlarged beneath.

Comes in: a Job, its Assessments and the words for drawings. Goes out: a Drawing in points, 482 wide, with one label for each
part of any system that has a place in it. What was not seen is hatched: a part at its place, all that stands aloft where it
was looked at from deck. It names no part on the sheet: whoever lays it out numbers what matters.
"""

from __future__ import annotations

from collections.abc import Iterator

from reporter.contract import (
    XY,
    Assessments,
    Drawing,
    DrawingWords,
    Extent,
    Grade,
    Graded,
    Job,
    Label,
    Path,
    Shape,
    Words,
)

from .boat_places import Views, places
from .boat_shapes import bow_up, hatched, hatched_disc, moved, placed
from .deck_plan import deck_of
from .deck_shapes import Deck, hull
from .naming import SIDES
from .rig_ahead import Room, both_views
from .rig_parts import Rig, sorted_parts
from .rig_side import View
from .rig_sizes import Sizes, sizes
from .running_layout import running
from .safety_layout import safety
from .steering_drawing import draw as draw_run

WIDTH, TOP, HIGH, GAP = 482.0, 18.0, 330.0, 14.0
AHEAD_AT, DECK_AT, DECK_WIDE = 283.0, 410.0, 126.0
VIEWS = Room(TOP, HIGH, 4.0, 226.0, AHEAD_AT, 74.0)
RUN_HIGH, ASIDE = 180.0, 38.0
REACH = 2.2
"""Metres above deck that are seen from near by without going aloft: the height of a raised arm."""
NEAR, UNDER_WATER = 10.0, 15.0
HELM_FROM, HELM_WIDE = 0.68, 0.62
NOWHERE = Rig({}, (), (), frozenset())
"""A job that lists nothing of the rig: all of it is dashed."""


def draw(job: Job, assessments: Assessments, told: DrawingWords) -> Drawing:
    """The boat with every part's place."""
    rig = sorted_parts(job, assessments) or NOWHERE
    size = sizes(job, rig)
    side, ahead, scale, _ = both_views(job, size, rig, VIEWS)
    deck, deck_shapes, deck_at = _deck(job, assessments)
    run, run_scale = _run(job, assessments, told)
    top = TOP + HIGH + GAP
    corner = ((WIDTH - WIDTH * run_scale) / 2, top + TOP - 4)
    run_labels = tuple(
        label.model_copy(update={"at": placed(label.at, run_scale, corner)})
        for label in (run.labels if run else ())
    )
    views = Views(side.anchors, ahead.anchors, AHEAD_AT, deck, deck_at, run_labels)
    found = places(job, assessments, views)
    height = top + (TOP + run.height * run_scale if run else 0.0)
    return Drawing(
        width=WIDTH,
        height=height,
        shapes=(
            *side.shapes, *ahead.shapes, *deck_shapes,
            *(moved(run.shapes, run_scale, corner) if run else ()),
            *_enlarged(deck_at, top, drawn=run is not None),
            *_unseen(size, assessments, side, scale, found),
            *_headings(told, top, run=run is not None, is_small=job.sheet.page == "phone"),
        ),
        labels=tuple(_label(assessments, ident, at) for ident, at in found.items()),
        alt=told.say("drawing.boat_alt"),
    )  # fmt: skip


def _label(assessments: Assessments, ident: str, at: XY) -> Label:
    part = assessments.part(ident)
    title = part.title if part else ident
    return Label(text=title, at=at, part=ident, grade=part.grade if part else None)


def _deck(job: Job, assessments: Assessments) -> tuple[Deck, list[Shape], tuple[float, XY]]:
    """The deck with all that stands on it, and how it is turned and placed: its scale, and where bow and middle line go."""
    deck = deck_of(job)
    scale = min((HIGH - 14) / deck.length, DECK_WIDE / (2 * deck.half))
    listed = {part.system for part in assessments.components}
    shapes: list[Shape] = list(hull(deck))
    for system, layer in (("running", running), ("safety", safety)):
        if system in listed:
            shapes += layer(job, assessments, deck).shapes
    bow = (DECK_AT, TOP + 14)
    return deck, [bow_up(shape, deck, scale, bow) for shape in shapes], (scale, bow)


def _run(job: Job, assessments: Assessments, told: DrawingWords) -> tuple[Drawing | None, float]:
    run = draw_run(job, assessments, told)
    if run is None:
        return None, 1.0
    drawn = run.model_copy(
        update={"shapes": tuple(shape for shape in run.shapes if not isinstance(shape, Words))}
    )
    return drawn, min(1.0, RUN_HIGH / run.height)


def _enlarged(deck_at: tuple[float, XY], top: float, *, drawn: bool) -> Iterator[Shape]:
    """A frame round the part of the deck under which the steering lies, and a line from it to the picture below."""
    if not drawn:
        return
    scale, (x, y) = deck_at
    half, low = DECK_WIDE / 2 * HELM_WIDE, y + scale * 406.0
    upper = y + (low - y) * HELM_FROM
    box = ((x - half, upper), (x + half, upper), (x + half, low - 3), (x - half, low - 3))
    yield Path(points=box, closed=True, weight="fine", stroke="second", dashed=True)
    yield Path(
        points=((x - half, low - 3), (x - half - 26, top + 2)), weight="fine", stroke="second", dashed=True
    )


def _unseen(
    size: Sizes, assessments: Assessments, side: View, scale: float, found: dict[str, XY]
) -> Iterator[Shape]:
    """Hatches: the rig above reach where it was looked at from deck, and each other part that was not, or not all, seen."""
    aloft = any(_from_deck(part) for part in assessments.components if part.system == "rig")
    reach = side.anchors["stem_head"][1] - REACH * scale
    if aloft:
        yield from hatched(_aloft(side, reach))
        yield from hatched(_aloft_ahead(size, side, reach, scale))
    for part in assessments.components:
        hidden = part.component.examined.extent is not Extent.NOT_FITTED and (
            (part.grade is Grade.UNSEEN and not part.unjudged) or part.not_included
        )
        at = found.get(part.component.id)
        is_told = aloft and part.system == "rig" and at is not None and at[1] < reach
        if hidden and at and not is_told and not _from_deck(part):
            wide = UNDER_WATER if part.component.kind == "rudder_blade" else NEAR
            yield from hatched_disc(at, wide)


def _from_deck(part: Graded) -> bool:
    return any(each.id == "close_up" for each in part.missing)


def _aloft(side: View, reach: float) -> list[XY]:
    """Between forestay and backstay, above the height of a raised arm."""
    (x, top), (tack, deck), (stern, _) = (
        side.anchors[name] for name in ("masthead", "stem_head", "stern_head")
    )
    share = (reach - top) / (deck - top)
    return [(x, top), (x + (stern - x) * share, reach), (x + (tack - x) * share, reach)]


def _aloft_ahead(size: Sizes, side: View, reach: float, scale: float) -> list[XY]:
    top, half = side.anchors["masthead"][1], size.beam * scale / 2
    return [(AHEAD_AT - 3, top), (AHEAD_AT + 3, top), (AHEAD_AT + half, reach), (AHEAD_AT - half, reach)]


def _headings(told: DrawingWords, top: float, *, run: bool, is_small: bool) -> Iterator[Shape]:
    """What each view is, and its sides; in short on a page for the phone, where words take twice the room of lines."""
    short = "_short" if is_small else ""
    yield Words(at=(4, 9), text=told.say("drawing.boat_side"), ink="second")
    for x, view, order in ((AHEAD_AT, "ahead", SIDES), (DECK_AT, "deck", SIDES[::-1])):
        yield Words(at=(x, 9), text=told.say(f"drawing.boat_{view}{short}"), anchor="middle", ink="second")
        for way, side in zip((-1, 1), order, strict=True):
            name = told.say(f"drawing.{side}_short" if is_small else f"side.{side}")
            yield Words(at=(x + way * ASIDE, 20), text=name, anchor="middle", size=7.5, ink="second")
    if run:
        yield Words(at=(4, top + 9), text=told.say(f"drawing.boat_run{short}"), ink="second")
