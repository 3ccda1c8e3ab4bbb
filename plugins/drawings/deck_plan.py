"""The plan of the deck, seen from above, with the grade of each part at its place: one drawing, two selections.

Comes in: a Job and its Assessments. Goes out: a Drawing in points, 482 wide, or None when the job lists nothing of the
system. The outline follows length and beam; fittings stand where they usually do. Parts that the job does not list are
dashed.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from typing import NamedTuple

from reporter.contract import Assessments, Drawing, Extent, Job, Path, Shape, Sign, Words

from . import deck_shapes as shapes
from .deck_shapes import Deck
from .deck_sheet import Callout, Plan, urgency, worst_of
from .flag_rows import Place, flags
from .labels import LINE, SIGN, Label, label, moved
from .running_layout import running
from .safety_layout import safety
from .steering_parts import Parts, grade_word, short_name
from .steering_shapes import ring

WIDTH, EDGE, BOW, STERN = 482.0, 4.0, 40.0, 446.0
ROOM, ROW_GAP, CLEAR = 106.0, 5.0, 9.0
USUAL, SLENDER, BEAMY, TWO_HULLED, BROADEST = 0.32, 0.25, 0.4, 0.45, 150.0
NOTE = "Seen from above, bow to the left, starboard at the top; outline by length and beam, fittings where they usually stand."
NO_SIZE = "Seen from above, bow to the left, starboard at the top; length or beam not given, outline and fittings as they usually are."
SIGN_FOOT = LINE / 2 + 0.6 + SIGN / 2
_SIDE = re.compile(r",?\s*\b(on the |to )?(starboard|port)( side)?$|^(starboard|port)\s+", re.IGNORECASE)
Layer = Callable[[Job, Assessments, Deck], Plan]


class Flag(NamedTuple):
    """A callout with its label ready to be put in its row."""

    callout: Callout
    label: Label
    place: Place


class Band(NamedTuple):
    """The labels on one side of the hull."""

    flags: tuple[Flag, ...]

    @property
    def rows(self) -> list[float]:
        """The height of each row, the nearest first."""
        count = max((flag.place.row for flag in self.flags), default=-1) + 1
        return [
            max(_high(flag.label) for flag in self.flags if flag.place.row == row) for row in range(count)
        ]

    @property
    def height(self) -> float:
        """The height that all rows take."""
        return sum(self.rows) + ROW_GAP * len(self.rows)


def draw_safety(job: Job, assessments: Assessments) -> Drawing | None:
    """Pulpits, stanchions, lifelines and jackstays; None when the job lists none of them."""
    return _draw(job, assessments, "safety", safety, "what keeps people aboard")


def draw_running(job: Job, assessments: Assessments) -> Drawing | None:
    """Halyards, sheets, blocks, tracks, clutches and winches; None when the job lists none of them."""
    return _draw(job, assessments, "running", running, "running rig and deck gear")


def _draw(job: Job, assessments: Assessments, system: str, layer: Layer, what: str) -> Drawing | None:
    parts = tuple(part for part in assessments.components if part.system == system)
    if not parts:
        return None
    deck = _deck(job)
    upper, lower = _split(layer(job, assessments, deck).callouts)
    above, below = _band(upper), _band(lower)
    deck = deck._replace(middle=EDGE + above.height + CLEAR + deck.half)
    plan = layer(job, assessments, deck)
    drawn = [*shapes.hull(deck), *plan.shapes]
    upper, lower = _split(plan.callouts)
    for band, callouts, way in ((_band(upper), upper, -1), (_band(lower), lower, 1)):
        drawn += _painted(band, callouts, deck, way)
    height = deck.middle + deck.half + CLEAR + below.height + 16
    note = NOTE if _ratio(job) else NO_SIZE
    drawn.append(Words(at=(6, height - 5), text=note, size=7.5, ink="second"))
    return Drawing(width=WIDTH, height=height, shapes=tuple(drawn), alt=_alt(plan, what, note, parts))


def _ratio(job: Job) -> float | None:
    """Beam over length, where both are given."""
    vessel = job.sheet.vessel
    if vessel.length_overall is None or vessel.beam is None:
        return None
    return vessel.beam.value / vessel.length_overall.value


def _deck(job: Job) -> Deck:
    ratio = _ratio(job) or USUAL
    two = ratio > TWO_HULLED
    if not two:
        ratio = min(max(ratio, SLENDER), BEAMY)
    length = min(STERN - BOW, BROADEST / ratio)
    bow = BOW + (STERN - BOW - length) / 2
    return Deck(bow, 0.0, length, length * ratio / 2, two)


def _split(callouts: Sequence[Callout]) -> tuple[list[Callout], list[Callout]]:
    """Starboard above, port below; each from bow to stern."""
    ordered = sorted(callouts, key=lambda each: each.at[0])
    return [each for each in ordered if each.side < 0], [each for each in ordered if each.side > 0]


def _band(callouts: Sequence[Callout]) -> Band:
    """Labels in rows; where so many do not fit, those of the commonest kind share one."""
    kept = list(callouts)
    while True:
        labels = [_label(each) for each in kept]
        widths = [each.box.right - each.box.left for each in labels]
        found = flags([each.at[0] - SIGN / 2 for each in kept], widths, EDGE, WIDTH - EDGE)
        if found is not None:
            return Band(tuple(map(Flag, kept, labels, found)))
        kept = _joined(kept)


def _joined(callouts: Sequence[Callout]) -> list[Callout]:
    kinds = [each.kind for each in callouts]
    common = max(kinds, key=kinds.count)
    own = [each for each in callouts if each.kind == common]
    worst = max(own, key=lambda each: urgency(worst_of(each.parts)) if each.parts else -1.0)
    one = worst._replace(parts=tuple(part for each in own for part in each.parts), told="")
    joined = [*(each for each in callouts if each.kind != common), one]
    return sorted(joined, key=lambda each: each.at[0])


def _label(callout: Callout) -> Label:
    """Name and grade of the worst part there; a part that is not listed has no sign."""
    if not callout.parts:
        return label(callout.title, "not listed", None, at=(0, 0), room=ROOM)
    part = worst_of(callout.parts)
    more = f" (+{len(callout.parts) - 1} more)" if len(callout.parts) > 1 else ""
    word = f"{callout.told.format(grade_word(part)) if callout.told else grade_word(part)}{more}"
    return label(_bare(short_name(part)), word, part.grade, at=(0, 0), room=ROOM)


def _bare(name: str) -> str:
    """A part's name without its side, which its place on the plan tells."""
    bare = _SIDE.sub("", name).strip(" ,")
    return (bare or name)[:1].upper() + (bare or name)[1:]


def _painted(band: Band, callouts: Sequence[Callout], deck: Deck, way: int) -> list[Shape]:
    """The labels of one band with their leaders; a part that shares a label keeps its sign at its place."""
    drawn: list[Shape] = []
    named = {flag.callout.at for flag in band.flags}
    for flag in band.flags:
        drawn += _flag(flag, band.rows, deck, way)
    signed: list[shapes.Point] = []
    for each in callouts:
        # Where fittings stand closer than their signs are wide, the label speaks for them.
        clear = all(max(abs(each.at[0] - x), abs(each.at[1] - y)) >= SIGN for x, y in signed)
        if each.at not in named and each.parts and clear:
            drawn += _sign_at(each)
            signed.append(each.at)
    return drawn


def _flag(flag: Flag, rows: Sequence[float], deck: Deck, way: int) -> list[Shape]:
    inner = deck.middle + way * (deck.half + CLEAR)
    near = inner + way * (sum(rows[: flag.place.row]) + ROW_GAP * flag.place.row)
    # Above the hull labels stand on their row's lower edge, below it they hang from the upper one.
    top = near if way > 0 else near - _high(flag.label)
    made = _dropped(moved(flag.label, flag.place.left), top)
    x = flag.place.left + SIGN / 2
    listed = bool(flag.callout.parts)
    end = (top if way > 0 else top + SIGN_FOOT) if listed else (top if way > 0 else top + _high(flag.label))
    bend = deck.middle + way * (deck.half + CLEAR * 0.35)
    line = (flag.callout.at, (x, bend), (x, end - way * 0.8))
    dot = ring(flag.callout.at, 1.5, weight="fine", fill="ink" if listed else "white")
    return [Path(points=line, weight="fine", stroke="second"), dot, *made.shapes]


def _high(made: Label) -> float:
    return made.box.bottom - made.box.top


def _dropped(made: Label, down: float) -> Label:
    """The label shifted down the page."""
    shifted = [
        shape.model_copy(update={"at": (shape.at[0], shape.at[1] + down)})
        for shape in made.shapes
        if isinstance(shape, Words | Sign)
    ]
    left, top, right, bottom = made.box
    return made._replace(
        shapes=tuple(shifted),
        box=made.box._replace(left=left, top=top + down, right=right, bottom=bottom + down),
    )


def _sign_at(callout: Callout) -> list[Shape]:
    worst = worst_of(callout.parts)
    plate = ring(callout.at, SIGN * 0.72, weight="fine", fill="white").model_copy(update={"stroke": "none"})
    return [plate, Sign(at=callout.at, grade=worst.grade, side=SIGN * 0.85)]


def _alt(plan: Plan, what: str, note: str, parts: Parts) -> str:
    """Every callout in words, from bow to stern; then what is not fitted, and is not drawn."""
    told = [f"Plan of the deck: {what}. {note}"]
    for side, word in ((-1, "Starboard"), (1, "Port")):
        own = sorted((each for each in plan.callouts if each.side == side), key=lambda each: each.at[0])
        if own:
            told.append(
                f"{word} and what is named there: {'; '.join(text for each in own for text in _said(each))}."
            )
    without = [part.title for part in parts if part.component.examined.extent is Extent.NOT_FITTED]
    return " ".join((*told, *((f"Not fitted, not drawn: {'; '.join(without)}.",) if without else ())))


def _said(callout: Callout) -> list[str]:
    if not callout.parts:
        return [f"{callout.title.lower()} not listed, drawn dashed"]
    both = " (drawn on both sides)" if callout.told else ""
    return [f"{part.title}{both}: {grade_word(part)}" for part in callout.parts]
