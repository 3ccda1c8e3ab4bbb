"""The rig with the grade of each part at the part: from the side, and beside it to the same scale from ahead.

Comes in: a Job, its Assessments and the words for grades. Goes out: a Drawing in points, 482 wide, or None when the job lists
nothing of the rig. It is drawn to the boat's own sizes where they were given. Parts that the job does not list are dashed.
Each view has its own labels; seen from ahead, starboard is on the left, and what has a side is named on its own. The alternative text says everything that it shows: every part with its grade, from
the bow aft, then from the deck up.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from textwrap import wrap

from reporter.contract import Assessments, Drawing, DrawingWords, Job, Label, Room, Shape, Words

from . import rig_ahead
from . import rig_mizzen as mizzen
from . import rig_shapes as shapes
from .naming import SIDES, Parts, named, said_of, sentence, side_of
from .rig_parts import Rig, sorted_parts, titles
from .rig_side import View, has_backstay
from .rig_sizes import Sizes, sizes

WIDTH, EDGE = 482.0, 4.0
TOP, NOTE_HIGH, LINE, ACROSS = 22.0, 26.0, 10.0, 110
"""Points; ACROSS is how many characters of a note's size stand in a line."""
SIDE_TO, AHEAD_FROM, AHEAD_AT, AHEAD_WIDE = 280.0, 286.0, 384.0, 50.0
VIEWS = rig_ahead.Room(TOP, 300.0, 54.0, 158.0, AHEAD_AT, AHEAD_WIDE)
FRONT = ("forestay", "inner_forestay", "furler", "stem", "bobstay")
AFT = ("backstay", "backstay_gear", "running_backs", "stern")
MIDDLE = ("mast", "boom")
AHEAD = (
    "upper_ends", "cap_shroud", "intermediate", "spreader", "lower", "lower_ends", "rigging_screw", "chainplate",
)  # fmt: skip
DUE = {
    "forestay", "mast", "boom", "mast_foot", "spreader", "cap_shroud", "lower", "upper_ends", "lower_ends", "rigging_screw", "chainplate",
}  # fmt: skip
"""Places that are drawn dashed and named where the job lists nothing there; the others are drawn when listed."""
UNSTAYED = {"mast", "boom", "mast_foot"}


def draw(job: Job, assessments: Assessments, told: DrawingWords) -> Drawing | None:
    """The rig of `job`, or None when the job lists nothing of it."""
    rig = sorted_parts(job, assessments)
    if rig is None:
        return None
    size = sizes(job, rig)
    due, named_as = _due(size, rig), titles(job.sheet.terms, told)
    side, ahead, scale, water = rig_ahead.both_views(job, size, rig, VIEWS)
    low = max(water + size.draught * scale, 250.0)
    labels = (
        *_from_side(rig, due, named_as, side, low, told),
        *_from_ahead(rig, due, named_as, ahead, low, told),
    )
    beneath = _undrawn(rig, told)
    height = low + NOTE_HIGH + LINE * len(beneath)
    return Drawing(
        width=WIDTH,
        height=height,
        shapes=(
            *_water(size, scale, water, side), *side.shapes, *ahead.shapes, *_headings(told),
            *(
                Words(at=(EDGE, low + NOTE_HIGH - 4 + LINE * place), text=text, size=7.5, ink="second")
                for place, text in enumerate((note(size, rig, told), *beneath))
            ),
        ),
        labels=labels,
        alt=describe(job, rig, size, named_as, due, told),
    )  # fmt: skip


def note(size: Sizes, rig: Rig, told: DrawingWords) -> str:
    """What the drawing was drawn to."""
    known = {"overall", "height"} <= set(size.given)
    main = told.say("drawing.rig_main") if rig.mizzen else ""
    return told.say("drawing.rig_note_sizes" if known else "drawing.rig_note_sketch") + main


def _undrawn(rig: Rig, told: DrawingWords) -> list[str]:
    """The parts that the drawing has no place for, by name: none of them is missing from the sheet."""
    if not rig.undrawn:
        return []
    names = "; ".join(f"{part.title} ({told(part)})" for part in rig.undrawn)
    return wrap(f"{told.say('drawing.undrawn')}: {names}.", ACROSS)


def _headings(told: DrawingWords) -> Iterator[Shape]:
    for x, ident in ((EDGE, "drawing.rig_side"), (AHEAD_FROM, "drawing.rig_ahead")):
        yield Words(at=(x, 11), text=told.say(ident), size=7.5, ink="second")


def _due(size: Sizes, rig: Rig) -> set[str]:
    if not size.stayed:
        return UNSTAYED
    spreaders: set[str] = {"spreader", "lower"} if not size.spreaders else set()
    more = ({"intermediate"} if size.spreaders > 1 else set()) | (
        {"backstay"} if has_backstay(size, rig) else set()
    )
    return (DUE | more) - rig.gone - spreaders


def _water(size: Sizes, scale: float, water: float, side: View) -> Iterable[Shape]:
    """The waterline under each view."""
    half = size.beam * scale / 2 + 5
    yield shapes.water(side.anchors["stem_head"][0] - 6, side.anchors["stern_head"][0] + 10, water)
    yield shapes.water(AHEAD_AT - half, AHEAD_AT + half, water)


def _from_side(
    rig: Rig, due: set[str], named_as: dict[str, str], view: View, low: float, told: DrawingWords
) -> Iterator[Label]:
    """What is seen from the side: before the mast on the left, behind it on the right, its foot below the keel."""
    mast, boom_end = view.anchors["masthead"][0], view.anchors["boom_end"]
    rooms: dict[str, tuple[Room, ...]] = {
        **dict.fromkeys(FRONT, ((EDGE, TOP - 8, mast - 4, low),)),
        **dict.fromkeys(AFT, ((boom_end[0], TOP - 8, SIDE_TO, low), (mast + 4, TOP - 8, SIDE_TO, low))),
        **dict.fromkeys(
            MIDDLE, ((mast + 4, TOP, boom_end[0] + 8, boom_end[1] - 2), (mast, TOP, SIDE_TO, low))
        ),
        "mast_foot": ((EDGE, view.anchors["stem_head"][1] + 10, SIDE_TO, low + 6),),
    }
    for place, space in rooms.items():
        if rig.at(place) or place in due:
            yield named(rig.at(place), named_as[place], view.anchors[place], space, told)
    if rig.mizzen:
        yield from mizzen.labels(rig.mizzen, named_as, view.anchors, rooms["backstay"], told)


def _from_ahead(
    rig: Rig, due: set[str], named_as: dict[str, str], view: View, low: float, told: DrawingWords
) -> Iterator[Label]:
    """What is seen from ahead: a part of one side there, all that is not of one side together on the left."""
    half = AHEAD_WIDE / 2 + 4
    left: Room = (AHEAD_FROM, TOP - 6, AHEAD_AT - half, low)
    right: Room = (AHEAD_AT + half, TOP - 6, WIDTH - EDGE, low)
    for place in (each for each in AHEAD if each in view.anchors):
        x, y = view.anchors[place]
        sided = _by_side(rig.at(place)) or ({"": ()} if place in due else {})
        for side, parts in sided.items():
            # What is of no side, or of both, stands where the other side leaves it room.
            to_port = side == "port" or (not side and "starboard" in sided)
            at = (2 * AHEAD_AT - x if to_port else x, y)
            rooms: tuple[Room, ...] = (right,) if to_port else (left,)
            title = named_as[place]
            if side:
                title = told.say("drawing.on_side", title=title, side=said_of(side, told))
            yield named(parts, title, at, rooms, told, where=side)


def _by_side(parts: Parts) -> dict[str, Parts]:
    """The parts of a place by their side; those of no side, or of both, under ""."""
    found = {side: tuple(part for part in parts if side_of(part) == side) for side in (*SIDES, "")}
    return {side: own for side, own in found.items() if own}


GROUPS = (
    ("drawing.rig_bow", ("forestay", "inner_forestay", "furler", "stem", "bobstay")),
    ("drawing.rig_mast", ("mast", "mast_foot", "spreader", "boom")),
    (
        "drawing.rig_shrouds",
        ("cap_shroud", "intermediate", "lower", "upper_ends", "lower_ends", "rigging_screw", "chainplate"),
    ),
    ("drawing.rig_stern", ("backstay", "backstay_gear", "running_backs", "stern")),
)


def describe(
    job: Job, rig: Rig, size: Sizes, titles: dict[str, str], due: set[str], told: DrawingWords
) -> str:
    """What the drawing shows, part by part."""
    sentences = [told.say("drawing.rig_opening"), _form(job, size, told)]
    for group, places in GROUPS:
        said = [
            each
            for place in places
            for each in _said(rig.at(place), titles[place] if place in due else "", told)
        ]
        sentences += [sentence(told.say(group), said)] if said else []
    if aft := [part for parts in rig.mizzen.values() for part in parts]:
        sentences.append(sentence(told.say("drawing.rig_mizzen"), _said(tuple(aft), "", told)))
    if rig.undrawn:
        sentences.append(sentence(told.say("drawing.undrawn"), _said(rig.undrawn, "", told)))
    if rig.not_fitted:
        sentences.append(sentence(told.say("drawing.not_fitted"), [part.title for part in rig.not_fitted]))
    return " ".join(sentences)


def _form(job: Job, size: Sizes, told: DrawingWords) -> str:
    step = told.say(f"drawing.rig_step_{job.sheet.vessel.mast_step}") if job.sheet.vessel.mast_step else ""
    sizes = ", ".join(told.say(f"drawing.size_{name}") for name in size.given)
    given = told.say("drawing.rig_given", sizes=sizes) if sizes else told.say("drawing.rig_sketch")
    if not size.stayed:
        return told.say("drawing.rig_unstayed", step=step, given=given)
    many = {0: "none", 1: "one"}.get(size.spreaders, "many")
    spreaders = told.say(f"drawing.rig_spreaders_{many}", count=size.spreaders)
    form = "drawing.rig_masthead" if size.masthead else "drawing.rig_fractional"
    return told.say(form, spreaders=spreaders, step=step, given=given)


def _said(parts: Parts, name: str, told: DrawingWords) -> Iterator[str]:
    if not parts and name:
        yield told.say("drawing.dashed", title=name)
    for part in parts:
        yield f"{part.title}: {told(part)}"
