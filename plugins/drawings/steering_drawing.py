"""The plan of a steering run, from the wheel to the rudder's tip, with the grade of each part at the part.

Comes in: a Job, its Assessments and the words for grades. Goes out: a Drawing in points, 482 wide, or None when the job has
no steering gear. All of it is seen from above, bow to the left, starboard at the top, so that the wheel stands on edge; not
to scale. Parts that the job does not list are dashed.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from reporter.contract import (
    XY,
    Assessments,
    Drawing,
    DrawingWords,
    Job,
    Label,
    Path,
    Room,
    Shape,
    Words,
)

from . import steering_shapes as shapes
from .deck_diagram import spread
from .naming import BOTH_RUNS, SIDES, Parts, absent, named, side_of
from .steering_alt import describe
from .steering_parts import Helm, Layout, Rudder, radius_of, sorted_parts
from .symbols import symbol

WIDTH = 482.0
SPROCKET_X, WHEEL_X, RUN_FROM, RUN_TO, STOCK_X = 42.0, 74.0, 122.0, 292.0, 354.0
SPROCKET, RIM, BLADE = 11.0, 52.0, 132.0
LEFT, RIGHT, RUN_LEFT, RUN_RIGHT = 4.0, 478.0, 88.0, 308.0
LABEL_HIGH = 30.0
ONE_ROW, MOST = 3, 8
"""Sheaves that are named in one row, and in all."""


class Scale(NamedTuple):
    """How large a helm's run is drawn: sheaves off its centre line, the wheel's radius, a sheave's; half of all that."""

    off: float
    wheel: float
    sheave: float
    half: float


class Diagram:
    """The shapes and labels so far, and the words for grades."""

    def __init__(self, told: DrawingWords) -> None:
        self.told = told
        self.shapes: list[Shape] = []
        self.labels: list[Label] = []

    def add(self, *drawn: Iterable[Shape]) -> None:
        """Put shapes on the sheet, later ones over earlier ones."""
        for each in drawn:
            self.shapes += each

    def name(self, parts: Parts, kind: str, at: XY, *rooms: Room, where: str = "", also: str = "") -> None:
        """Label what stands here."""
        title = self.told.say(f"drawing.part_{kind}")
        self.labels.append(named(parts, title, at, rooms, self.told, where=where, also=also))


def draw(job: Job, assessments: Assessments, told: DrawingWords) -> Drawing | None:
    """The steering run of `job`, or None when the job lists nothing of it."""
    layout = sorted_parts(job, assessments)
    if layout is None:
        return None
    sheet, scale = Diagram(told), _scale(layout)
    height, helms, rudders = _heights(layout, scale)
    for helm, y in zip(layout.helms, helms, strict=True):
        if layout.has_wheel:
            _helm(sheet, layout, helm, scale, y, rudders)
    for place, (rudder, y) in enumerate(zip(layout.rudders, rudders, strict=True)):
        _rudder(sheet, job, layout, rudder, y, first=place == 0)
    note = told.say("drawing.steering_note")
    if len(rudders) > 1:
        note += f" {told.say('drawing.unlinked')}"
    sheet.shapes.append(Words(at=(6, height - 5), text=note, size=7.5, ink="second"))
    return Drawing(
        width=WIDTH,
        height=height,
        shapes=tuple(sheet.shapes),
        labels=tuple(sheet.labels),
        alt=describe(job, layout, told),
    )


def _scale(layout: Layout) -> Scale:
    most = max((len(run.sheaves) for helm in layout.helms for run in helm.runs.values()), default=0)
    rows = (1 if most <= ONE_ROW else 2) if layout.has_runs else 0
    twin = len(layout.helms) > 1
    radius = min(8.0, (RUN_TO - RUN_FROM) / max(min(most, MOST) - 1, 1) * 0.32)
    off = 52.0 if twin else 62.0
    high = ("quadrant", "pilot_drive", "emergency_tiller")
    listed = any(rudder.kinds[kind] for rudder in layout.rudders for kind in high)
    least = 106.0 if layout.has_wheel or listed else 62.0
    return Scale(off, 36.0 if twin else 44.0, radius, max(off + radius + 5 + LABEL_HIGH * rows, least))


def _heights(layout: Layout, scale: Scale) -> tuple[float, list[float], list[float]]:
    """The height of the sheet, and where each helm's and each rudder's centre line lies."""
    lines = max(len(layout.helms), len(layout.rudders))
    high = 2 * scale.half
    centres = [8 + high * (place + 0.5) for place in range(lines)]
    middle = [8 + high * lines / 2]
    helms = centres if len(layout.helms) == lines else middle
    rudders = centres if len(layout.rudders) == lines else middle
    return high * lines + 26, helms, rudders


def _helm(sheet: Diagram, layout: Layout, helm: Helm, scale: Scale, y: float, rudders: list[float]) -> None:
    """Pedestal, sprocket and brake on the wheel's shaft, the runs below them, the wheel on top."""
    kinds = helm.kinds
    above: Room = (LEFT, y - scale.half, 150, y - 22)
    below: Room = (LEFT, y + 22, 150, y + scale.half)
    if kinds["pedestal"]:
        sheet.add(symbol("pedestal", (SPROCKET_X, y), dashed=absent(kinds["pedestal"])))
        sheet.name(kinds["pedestal"], "pedestal", (SPROCKET_X - 14, y - 19), above, below)
    if layout.has_runs:
        _runs(sheet, layout, helm, scale, y, rudders)
        sheet.name(kinds["chain"], "chain", (SPROCKET_X, y + SPROCKET - 3), below, above)
    else:
        _unknown(sheet, y, rudders)
    if kinds["wheel_brake"]:
        sheet.add(symbol("brake", (SPROCKET_X + 11, y), dashed=absent(kinds["wheel_brake"])))
        sheet.name(kinds["wheel_brake"], "wheel_brake", (SPROCKET_X + 11, y - 7), above, below)
    sheet.add(shapes.wheel((WHEEL_X, y), scale.wheel, SPROCKET_X - 6, dashed=absent(kinds["wheel"])))
    beside: Room = (WHEEL_X + 8, y - 34, 200, y + 34)
    sheet.name(
        kinds["wheel"], "wheel", (WHEEL_X + 2.5, y + 4), beside, above, below,
        where=_of_group(helm.group, kinds["wheel"]),
    )  # fmt: skip


def _unknown(sheet: Diagram, y: float, rudders: list[float]) -> None:
    """A gear that is not of chain and wire."""
    ends = ((WHEEL_X + 8, y), (STOCK_X - RIM - 10, rudders[0] if len(rudders) == 1 else y))
    sheet.add((Path(points=ends, dashed=True),))
    text = sheet.told.say("drawing.no_runs")
    sheet.shapes.append(Words(at=(208, y - 6), text=text, anchor="middle", ink="second"))


def _runs(sheet: Diagram, layout: Layout, helm: Helm, scale: Scale, y: float, rudders: list[float]) -> None:
    """Both runs, which leave the pedestal below the chain's ends; then the chain over its sprocket."""
    for side, way in zip(SIDES, (-1, 1), strict=True):
        run, row = helm.runs[side], y + way * scale.off
        places = _places(run.sheaves)
        # One alone stands at the wheel's end of the run.
        across = spread(RUN_FROM, RUN_TO, len(places)) if len(places) > 1 else [RUN_FROM + 8]
        spots = [(x, row) for x in across]
        joint = (SPROCKET_X, y + way * SPROCKET)
        line = [
            *shapes.over_sheaves(joint, spots, scale.sheave, way),
            *_to_rudder(layout, helm, scale, spots[-1], way, rudders),
        ]
        dashed = absent(run.wires)
        sheet.add(
            (
                Path(points=tuple(line), dashed=dashed),
                shapes.ring(line[-1], 2.2, fill="ink", dashed=dashed),
            )
        )
        for here, spot in zip(places, spots, strict=True):
            sheet.add(shapes.sheave(spot, scale.sheave, dashed=absent(here)))
        _name_run(sheet, helm, scale, side, way, list(zip(places, spots, strict=True)))
    sheet.add(shapes.chain((SPROCKET_X, y), SPROCKET, dashed=absent(helm.kinds["chain"])))


def _to_rudder(
    layout: Layout, helm: Helm, scale: Scale, last: XY, way: int, rudders: list[float]
) -> list[XY]:
    """The wire's way from the last sheave: round the rim's groove, or straight to the rim's nearer end."""
    place = layout.helms.index(helm)
    alone = len(layout.helms) == len(rudders)
    centre = (STOCK_X, rudders[place if alone else min(len(rudders) - 1, int(way > 0))])
    if alone and last[0] >= RUN_TO:
        return shapes.to_rim(last, scale.sheave, centre, RIM if way < 0 else RIM - 5, way)
    upper = last[1] < centre[1]
    end = shapes.RIM[0] + shapes.RIM[1] - 6 if upper else shapes.RIM[0] + 6
    inset = 5.0 if len(layout.helms) > len(rudders) and (way > 0) == upper else 0.0
    return [(last[0], last[1] + way * scale.sheave), shapes.polar(centre, RIM - inset, end)]


def _places(sheaves: Parts) -> list[Parts]:
    """The sheaves one by one; more than can be named share the last place."""
    if len(sheaves) <= MOST:
        return [(each,) for each in sheaves] or [()]
    return [*((each,) for each in sheaves[: MOST - 1]), sheaves[MOST - 1 :]]


def _name_run(
    sheet: Diagram, helm: Helm, scale: Scale, side: str, way: int, places: list[tuple[Parts, XY]]
) -> None:
    """Sheaves named outside their run, wires inside; what stands for both runs is named once."""
    row = places[0][1][1]
    edge = row + way * (scale.sheave + 2)
    outside = _between(edge, row + way * (scale.half - scale.off))
    inside = _between(row - way * (scale.sheave + 2), row - way * (scale.off - 4))
    for parts, spot in places:
        where = _run_of(parts, helm, side)
        if where != BOTH_RUNS or way < 0:
            sheet.name(parts, "sheave", (spot[0], spot[1] + way * scale.sheave), outside, inside, where=where)
    wires = helm.runs[side].wires
    where = _run_of(wires, helm, side)
    if where != BOTH_RUNS or way < 0:
        across = [spot[0] for _, spot in places]
        middle = (len(across) - 1) // 2
        along = sum(across[middle : middle + 2]) / len(across[middle : middle + 2])
        at = (along, row + way * scale.sheave)
        sheet.name(wires, "steering_wire", at, inside, outside, where=where)


def _between(one: float, other: float) -> Room:
    return (RUN_LEFT, min(one, other), RUN_RIGHT, max(one, other))


def _run_of(parts: Parts, helm: Helm, side: str) -> str:
    """The side that a place belongs to; parts whose side is not told are drawn on both."""
    return BOTH_RUNS if parts and not any(side_of(each, helm.group) for each in parts) else side


def _of_group(group: str, parts: Parts) -> str:
    """The group before the grade, unless the part's name tells it."""
    return "" if any(group in part.title.lower() for part in parts) else group


def _rudder(sheet: Diagram, job: Job, layout: Layout, rudder: Rudder, y: float, *, first: bool) -> None:
    centre, kinds = (STOCK_X, y), rudder.kinds
    if not layout.has_wheel:
        sheet.add(shapes.tiller_arm(centre, WHEEL_X + 104))
        sheet.shapes.append(
            Words(at=(WHEEL_X + 104, y - 8), text=sheet.told.say("drawing.tiller"), ink="second")
        )
    sheet.add(shapes.blade(centre, BLADE, dashed=absent(kinds["rudder_blade"])))
    if kinds["quadrant"] or layout.has_runs:
        _quadrant(sheet, job, kinds["quadrant"], centre)
    if kinds["pilot_drive"]:
        _pilot(sheet, kinds["pilot_drive"], centre)
    sheet.add(symbol("stock", centre, dashed=absent(kinds["rudder_bearing"])))
    for kind, at, room in (
        ("rudder_bearing", (STOCK_X + 6, y - 7), (372, y - 66, RIGHT, y - 14)),
        ("rudder_blade", (STOCK_X + 84, y + 8), (380, y + 11, RIGHT, y + 54)),
    ):
        sheet.name(kinds[kind], kind, at, room, where=_of_group(rudder.group, kinds[kind]))
    if kinds["emergency_tiller"] or (layout.has_wheel and first):
        sheet.add(shapes.tiller((413, y - 96), (474, y - 96), dashed=absent(kinds["emergency_tiller"])))
        sheet.name(kinds["emergency_tiller"], "emergency_tiller", (440, y - 92), (396, y - 91, RIGHT, y - 54))


def _quadrant(sheet: Diagram, job: Job, parts: Parts, centre: XY) -> None:
    gone = absent(parts)
    sheet.add(shapes.quadrant(centre, RIM, dashed=gone), shapes.stops(centre, RIM, dashed=gone))
    radius = radius_of(job, parts[0]) if parts else ""
    _, y = centre
    rooms = ((306, y - 106, 398, y - 54), (306, y + 54, 398, y + 106))
    also = sheet.told.say("drawing.radius", radius=radius) if radius else ""
    sheet.name(parts, "quadrant", shapes.polar(centre, RIM - 2, sum(shapes.RIM) - 4), *rooms, also=also)


def _pilot(sheet: Diagram, parts: Parts, centre: XY) -> None:
    x, y = centre
    pin, foot = (x + 3, y + 30), (x + 16, y + 84)
    sheet.add((Path(points=((x + 1, y + 9), pin), weight="bold"),), shapes.ram(pin, foot))
    sheet.name(parts, "pilot_drive", (x + 15, y + 66), (x + 26, y + 50, RIGHT, y + 104))
