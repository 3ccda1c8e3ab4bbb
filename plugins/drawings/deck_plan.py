"""The plan of the deck, seen from above, with the grade of each part at its place: one drawing, two selections.

Comes in: a Job and its Assessments. Goes out: a Drawing in points, 482 wide, or None when the job lists nothing of the
system. The outline follows length and beam; fittings stand where they usually do. Parts that the job does not list are
dashed.
"""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Callable, Iterator, Sequence

from reporter.contract import Assessments, Drawing, DrawingWords, Extent, Job, Label, Room, Words

from . import deck_shapes as shapes
from .deck_diagram import Callout, Plan
from .deck_shapes import Deck
from .naming import SIDES, Parts, gap, named, said_of, sentence, side_of
from .running_layout import running
from .safety_layout import safety

WIDTH, EDGE, BOW, STERN = 482.0, 4.0, 40.0, 446.0
ROW, A_ROW, CLEAR = 38.0, 4, 8.0
"""Height of a row of labels, how many stand in one, and how far the nearest row keeps off the hull."""
MOST = 40
"""More than so many names are no drawing any more: those of the commonest kind share one."""
USUAL, SLENDER, BEAMY, TWO_HULLED, BROADEST = 0.32, 0.25, 0.4, 0.45, 150.0
Layer = Callable[[Job, Assessments, Deck], Plan]


def draw_safety(job: Job, assessments: Assessments, told: DrawingWords) -> Drawing | None:
    """Pulpits, stanchions, lifelines and jackstays; None when the job lists none of them."""
    return _draw(job, assessments, told, "safety", safety, told.say("drawing.deck_safety"))


def draw_running(job: Job, assessments: Assessments, told: DrawingWords) -> Drawing | None:
    """Halyards, sheets, blocks, tracks, clutches and winches; None when the job lists none of them."""
    return _draw(job, assessments, told, "running", running, told.say("drawing.deck_running"))


def _draw(
    job: Job, assessments: Assessments, told: DrawingWords, system: str, layer: Layer, what: str
) -> Drawing | None:
    parts = tuple(part for part in assessments.components if part.system == system)
    if not parts:
        return None
    deck = deck_of(job)
    callouts = _joined(layer(job, assessments, deck).callouts)
    above, below = (_band(sum(each.side == side for each in callouts)) for side in (-1, 1))
    deck = deck._replace(middle=EDGE + above + deck.half)
    height = deck.middle + deck.half + below + 16
    plan = layer(job, assessments, deck)
    note = told.say("drawing.deck_note" if _ratio(job) else "drawing.deck_note_usual")
    return Drawing(
        width=WIDTH,
        height=height,
        shapes=(
            *shapes.hull(deck), *plan.shapes, Words(at=(6, height - 5), text=note, size=7.5, ink="second"),
        ),
        labels=tuple(_label(each, deck, height, told) for each in _joined(plan.callouts)),
        alt=" ".join(_alt(plan, what, note, parts, told)),
    )  # fmt: skip


def _band(count: int) -> float:
    """The height that the labels on one side of the hull are given."""
    return CLEAR + ROW * min(math.ceil(count / A_ROW), 3)


def _joined(callouts: Sequence[Callout]) -> list[Callout]:
    """The callouts; where they are too many, those of the commonest kind as one."""
    kept = list(callouts)
    while len(kept) > MOST:
        common = Counter(each.kind for each in kept).most_common(1)[0][0]
        own = [each for each in kept if each.kind == common]
        parts = tuple(part for each in own for part in each.parts)
        kept = [*(each for each in kept if each.kind != common), own[0]._replace(parts=parts, where="")]
    return kept


def _label(callout: Callout, deck: Deck, height: float, told: DrawingWords) -> Label:
    """Starboard above the hull, port below it."""
    above: Room = (EDGE, EDGE, WIDTH - EDGE, deck.middle - deck.half - 3)
    below: Room = (EDGE, deck.middle + deck.half + 3, WIDTH - EDGE, height - 15)
    beside = (above, below) if callout.side < 0 else (below, above)
    title = told.say(f"drawing.part_{callout.title}")
    return named(callout.parts, title, callout.at, beside, told, where=callout.where)


def _ratio(job: Job) -> float | None:
    """Beam over length, where both are given."""
    vessel = job.sheet.vessel
    if vessel.length_overall is None or vessel.beam is None:
        return None
    return vessel.beam.value / vessel.length_overall.value


def deck_of(job: Job) -> Deck:
    """The outline of her deck, by length and beam."""
    ratio = _ratio(job) or USUAL
    two = ratio > TWO_HULLED
    if not two:
        ratio = min(max(ratio, SLENDER), BEAMY)
    length = min(STERN - BOW, BROADEST / ratio)
    bow = BOW + (STERN - BOW - length) / 2
    return Deck(bow, 0.0, length, length * ratio / 2, two)


def _alt(plan: Plan, what: str, note: str, parts: Parts, told: DrawingWords) -> Iterator[str]:
    """Every callout in words, from bow to stern; then what is not fitted, and is not drawn."""
    yield told.say("drawing.deck_alt", what=what, note=note)
    for side, ident in ((-1, "drawing.deck_starboard"), (1, "drawing.deck_port")):
        own = sorted((each for each in plan.callouts if each.side == side), key=lambda each: each.at[0])
        if own:
            yield sentence(told.say(ident), [text for each in own for text in _said(each, told)])
    without = [part.title for part in parts if part.component.examined.extent is Extent.NOT_FITTED]
    if without:
        yield sentence(told.say("drawing.not_fitted"), without)


def _said(callout: Callout, told: DrawingWords) -> list[str]:
    if not callout.parts:
        return [gap(callout.title, told)]
    both = told.say("drawing.on_both_sides") if callout.where and not side_of(callout.parts[0]) else ""
    where = f"{said_of(callout.where, told)}: " if both and callout.where in SIDES else ""
    return [f"{part.title}{both}: {where}{told(part)}" for part in callout.parts]
