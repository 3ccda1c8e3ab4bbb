"""The sail plan of a boat with the grade of each part at the part: from the side, and from ahead to the same scale.

Comes in: a Job and its Assessments. Goes out: a Drawing in points, 482 wide, or None when the job lists nothing of the
rig. It is drawn to the boat's own sizes where they were given. Parts that the job does not list are dashed; labels stand
in two columns and beneath, and never overlap.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from reporter.contract import Assessments, Drawing, Graded, Job, Shape, Words

from . import rig_shapes as shapes
from .label_columns import elbow, room_for, stacked
from .labels import LINE, Box, Label, label
from .rig_ahead import ahead_view
from .rig_alt import describe
from .rig_parts import TITLES, US, Rig, grade_word, sorted_parts, worst_of
from .rig_side import Frame, Point, View, has_backstay, sheer, side_view
from .rig_sizes import Sizes, sizes

WIDTH = 482.0
TOP, HIGH, MOST, NOTE_HIGH = 10.0, 326.0, 350.0, 16.0
SIDE_FROM, SIDE_WIDE = 98.0, 200.0
AHEAD_AT, AHEAD_WIDE = 440.0, 74.0
MIDDLE_FROM, MIDDLE_TO = 309.0, 392.0
LEFT_FROM, LEFT_TO = 4.0, 88.0
GAP = 4.0
FRONT = ("forestay", "inner_forestay", "furler", "stem", "bobstay")
AFT = ("backstay", "backstay_gear", "running_backs", "stern")
AHEAD = (
    "upper_ends",
    "cap_shroud",
    "intermediate",
    "spreader",
    "lower",
    "lower_ends",
    "rigging_screw",
    "chainplate",
)
DUE = {
    "forestay", "mast", "boom", "mast_foot", "spreader", "cap_shroud", "lower", "upper_ends", "lower_ends", "rigging_screw", "chainplate",
}  # fmt: skip
"""Places that are drawn dashed and named where the job lists nothing there; the others are drawn when listed."""
UNSTAYED = {"mast", "boom", "mast_foot"}


class Sheet:
    """What the labels need to know, and everything drawn so far."""

    def __init__(self, job: Job, rig: Rig, due: set[str]) -> None:
        self.rig = rig
        self.due = due
        self.titles = TITLES | (US if job.sheet.terms == "us" else {})
        self.shapes: list[Shape] = []
        self.labels: list[Label] = []

    def add(self, drawn: Iterable[Shape]) -> None:
        """Put shapes on the sheet, later ones over earlier ones."""
        self.shapes += drawn

    def named(self, place: str) -> bool:
        """True when the place has a label."""
        return bool(self.rig.at(place)) or place in self.due

    def made(self, place: str, at: Point, room: float, lines: int) -> Label:
        """The label of a place: the part's own name for one part, the place's for several, with the worst grade."""
        parts = self.rig.at(place)
        if not parts:
            return label(self.titles[place], "not listed", None, at=at, room=room, lines=lines)
        worst = worst_of(parts)
        name = worst.title if len(parts) == 1 else self.titles[place]
        return label(
            name,
            _word(worst, len(parts), {grade_word(part) for part in parts}),
            worst.grade,
            at=at,
            room=room,
            lines=lines,
        )

    def put(self, place: str, at: Point, room: float, lines: int) -> Box:
        """Make the label, keep it, and tell its box."""
        self.labels.append(self.made(place, at, room, lines))
        return self.labels[-1].box


def _word(worst: Graded, count: int, words: set[str]) -> str:
    """The grade's word for one part, or for several with how many share it."""
    if count == 1:
        return grade_word(worst)
    return (
        f"{grade_word(worst)}, all {count}" if len(words) == 1 else f"{grade_word(worst)}, worst of {count}"
    )


class Column(NamedTuple):
    """A column of labels: its edges, and the places in it with their anchors from top to bottom."""

    left: float
    right: float
    places: tuple[tuple[str, Point], ...]


def draw(job: Job, assessments: Assessments) -> Drawing | None:
    """The sail plan of `job`, or None when the job lists nothing of the rig."""
    rig = sorted_parts(job, assessments)
    if rig is None:
        return None
    size = sizes(job, rig)
    sheet = Sheet(job, rig, _due(size, rig))
    scale = _scale(size)
    lift = _lift(sheet, size, scale)
    water = TOP + lift + (size.height + sheer(size, size.foretriangle)) * scale
    side, ahead = _views(job, size, rig, scale, water)
    low = water + size.draught * scale
    sheet.add(_water(size, scale, water, side))
    sheet.add(side.shapes)
    sheet.add(ahead.shapes)
    _in_sails(sheet, side)
    bottom = _columns(sheet, side, ahead, low + 2)
    bottom = max(bottom, _beneath(sheet, side, low))
    sheet.add(shape for each in sheet.labels for shape in each.shapes)
    height = bottom + NOTE_HIGH
    sheet.shapes.append(Words(at=(LEFT_FROM, height - 4), text=note(size, rig), size=7.5, ink="second"))
    return Drawing(
        width=WIDTH,
        height=height,
        shapes=tuple(sheet.shapes),
        alt=describe(job, rig, size, sheet.titles, sheet.due),
    )


def note(size: Sizes, rig: Rig) -> str:
    """What the drawing was drawn to."""
    known = {"length overall", "masthead above deck"} <= set(size.given)
    how = (
        "to the sizes given; hull and sails are a sketch"
        if known
        else "a sketch: length or mast height was not given"
    )
    main = " Main mast only." if rig.mizzen else ""
    return f"From the side and from ahead, {how}. Dashed: not listed.{main}"


def _due(size: Sizes, rig: Rig) -> set[str]:
    if not size.stayed:
        return UNSTAYED
    spreaders: set[str] = {"spreader", "lower"} if not size.spreaders else set()
    more = ({"intermediate"} if size.spreaders > 1 else set()) | (
        {"backstay"} if has_backstay(size, rig) else set()
    )
    return (DUE | more) - rig.gone - spreaders


def _scale(size: Sizes) -> float:
    """Points to the metre, so that both views fit in height and width."""
    tall = size.height + size.freeboard * 1.1 + size.draught
    return min(HIGH / tall, SIDE_WIDE / (size.overall + size.sprit), AHEAD_WIDE / size.beam)


def _views(job: Job, size: Sizes, rig: Rig, scale: float, water: float) -> tuple[View, View]:
    spare = (SIDE_WIDE - (size.overall + size.sprit) * scale) / 2
    frame = Frame(SIDE_FROM + spare + size.sprit * scale, water, scale)
    keel = job.sheet.vessel.mast_step == "keel"
    side = side_view(size, rig, frame, keel_stepped=keel)
    deck = sheer(size, size.foretriangle)
    return side, ahead_view(size, rig, Frame(AHEAD_AT, water, scale), deck)


def _water(size: Sizes, scale: float, water: float, side: View) -> Iterable[Shape]:
    """The waterline under each view, short of the labels."""
    half = size.beam * scale / 2 + 5
    yield shapes.water(side.anchors["stem_head"][0] - 6, side.anchors["stern_head"][0] + 10, water)
    yield shapes.water(AHEAD_AT - half, min(AHEAD_AT + half, WIDTH - 1), water)


def _lift(sheet: Sheet, size: Sizes, scale: float) -> float:
    """How much higher the sheet is made than the rig, so that its columns have room: for two lines to a name, or one."""
    rig_high = (size.height + size.freeboard * 1.1 + size.draught) * scale
    wanted = [_fullest(sheet, lines) for lines in (2, 1)]
    return max(0.0, min(wanted[0], max(wanted[1], MOST)) - rig_high)


def _fullest(sheet: Sheet, lines: int) -> float:
    """The height of the fuller column."""
    columns = (((*AHEAD, *AFT), MIDDLE_TO - MIDDLE_FROM), (FRONT, LEFT_TO - LEFT_FROM))
    return max(
        room_for([_high(sheet, place, room, lines) for place in places if sheet.named(place)], GAP)
        for places, room in columns
    )


def _high(sheet: Sheet, place: str, room: float, lines: int) -> float:
    box = sheet.made(place, (0, 0), room, lines).box
    return box.bottom - box.top


def _in_sails(sheet: Sheet, side: View) -> None:
    """Mast and boom are named inside the mainsail, beside the part itself."""
    gooseneck, end = side.anchors["gooseneck"], side.anchors["boom_end"]
    x, ceiling = gooseneck[0] + 10, gooseneck[1]
    aft = min(end[0], side.anchors["quarter"][0] - 4) if sheet.rig.at("running_backs") else end[0]
    room = max(aft - x - 2, 40.0)
    if sheet.named("boom"):
        ceiling = sheet.put("boom", (x, ceiling - 5 - _high(sheet, "boom", room, 2)), room, 2).top
    if sheet.named("mast"):
        sheet.put("mast", (x, _beside_mast(sheet, side, x, room, ceiling - GAP)), room * 0.8, 2)


def _beside_mast(sheet: Sheet, side: View, x: float, room: float, floor: float) -> float:
    """How high the mast's label stands: at the middle, or lower where the sail is too narrow for it there."""
    gooseneck, end, head = (side.anchors[name] for name in ("gooseneck", "boom_end", "masthead"))
    box = sheet.made("mast", (x, 0), room * 0.8, 2).box
    lowest = floor - (box.bottom - box.top)
    for step in range(10):
        y = head[1] + (gooseneck[1] - head[1]) * (0.5 + 0.05 * step)
        leech = gooseneck[0] + (end[0] - gooseneck[0]) * (y - head[1]) / (gooseneck[1] - head[1])
        if y >= lowest or box.right <= leech:
            return min(y, lowest)
    return lowest


def _columns(sheet: Sheet, side: View, ahead: View, bottom: float) -> float:
    """The two columns; returns the lowest edge that a label took."""
    front = [(place, side.anchors[place]) for place in FRONT if sheet.named(place)]
    aft = [(place, side.anchors[place]) for place in AFT if sheet.named(place)]
    over = [(place, ahead.anchors[place]) for place in AHEAD if sheet.named(place) and place in ahead.anchors]
    left = Column(LEFT_FROM, LEFT_TO, tuple(sorted(front, key=lambda pair: pair[1][1])))
    middle = Column(MIDDLE_FROM, MIDDLE_TO, tuple(sorted((*aft, *over), key=lambda pair: pair[1][1])))
    rightward = {place for place, _ in (*front, *over)}
    lows = [_column(sheet, column, bottom, rightward) for column in (left, middle)]
    return max(lows)


def _column(sheet: Sheet, column: Column, bottom: float, rightward: set[str]) -> float:
    """One column: two lines to a name where there is room for all, else one."""
    room = column.right - column.left
    for lines in (2, 1):
        highs = [_high(sheet, place, room, lines) for place, _ in column.places]
        if lines == 1 or room_for(highs, GAP) <= bottom - TOP:
            break
    wishes = [anchor[1] - LINE * 0.6 for _, anchor in column.places]
    edges = stacked(wishes, highs, TOP, bottom, GAP)
    low = bottom
    for (place, anchor), top in zip(column.places, edges, strict=True):
        box = sheet.put(place, (column.left, top), room, lines)
        y = top + LINE * 0.6
        start, edge = (
            ((box.right + 2, y), column.right + 3)
            if place in rightward
            else ((column.left - 2, y), column.left - 4)
        )
        sheet.add((elbow(start, max(edge, start[0]) if place in rightward else edge, anchor),))
        low = max(low, box.bottom)
    return low


def _beneath(sheet: Sheet, side: View, low: float) -> float:
    """The mast's foot is named beneath the keel, with a leader up to it."""
    if not sheet.named("mast_foot"):
        return low
    x, y = side.anchors["mast_foot"]
    box = sheet.put("mast_foot", (x + 2, low + 6), MIDDLE_FROM - 10 - x, 1)
    sheet.add((elbow((x, box.bottom - 2), x, (x, y + 2)),))
    return box.bottom
