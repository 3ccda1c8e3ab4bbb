"""The schematic of a steering run, from the wheel to the rudder's tip, with the grade of each part at the part.

Comes in: a Job and its Assessments. Goes out: a Drawing in points, 482 wide, or None when the job has no steering
gear. Seen from above, bow to the left, starboard at the top; not to scale. Parts that the job does not list are dashed.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import Literal, NamedTuple

from reporter.contract import Assessments, Drawing, Extent, Graded, Job, Path, Shape, Words

from . import steering_shapes as shapes
from .labels import LINE, Box, Label, label, leader, moved
from .steering_alt import describe
from .steering_parts import SIDES, Helm, Layout, Parts, Rudder, grade_word, short_name, side_of, sorted_parts

WIDTH = 482.0
NOTE = "Seen from above, bow to the left, starboard at the top; not to scale."
UNLINKED = "What links the rudders is not drawn."
WHEEL_X, RUN_FROM, RUN_TO, STOCK_X = 58.0, 152.0, 292.0, 354.0
LABELS_FROM, WIRE_BESIDE = 118.0, 208.0
SPROCKET, CHAIN_END, RIM, BLADE = 10.0, 126.0, 52.0, 132.0
HIGH = LINE * 3
ONE_ROW, MOST = 3, 8
"""Sheaves whose labels fit side by side, and in two rows."""
Point = shapes.Point


class Room(NamedTuple):
    """How large a helm's run is drawn: sheaves off its centre line, the wheel, a sheave."""

    off: float
    wheel: float
    sheave: float
    rows: int
    labels_to: float
    least: float

    @property
    def half(self) -> float:
        """Half the height that one helm with its labels takes."""
        return max(self.off + self.sheave + 5 + HIGH * self.rows, self.least)


class Sheet:
    """The shapes so far, and the boxes that labels have taken."""

    def __init__(self) -> None:
        self.shapes: list[Shape] = []
        self.labels: list[Label] = []

    def add(self, *drawn: Iterable[Shape]) -> None:
        """Put shapes on the sheet, later ones over earlier ones."""
        for each in drawn:
            self.shapes += each

    def name(
        self,
        parts: Parts,
        title: str,
        at: Point,
        room: float,
        *,
        before: str = "",
        after: str = "",
        anchor: Literal["start", "middle"] = "start",
        rise: bool = False,
        lines: int = 2,
        within: tuple[float, float] | None = None,
    ) -> Box:
        """Label the part that stands here, or its place when none is listed; `before` and `after` go round the grade.

        `within` keeps the label between two edges, as near to `at` as they allow.
        """
        part = max(parts, key=lambda each: each.grade.rank) if parts else None
        word = grade_word(part) if part else "not listed"
        name = short_name(part) if part else title
        more = f" (+{len(parts) - 1} more)" if len(parts) > 1 else ""
        text = f"{before}{word}{more}{after}"
        made = label(
            name, text, part.grade if part else None, at=at, room=room, anchor=anchor, rise=rise, lines=lines
        )
        if within:
            low, high = within
            made = moved(made, max(low - made.box.left, 0) or min(high - made.box.right, 0))
        self.labels.append(made)
        return made.box


def draw(job: Job, assessments: Assessments) -> Drawing | None:
    """The steering run of `job`, or None when the job lists nothing of it."""
    layout = sorted_parts(job, assessments)
    if layout is None:
        return None
    sheet, room = Sheet(), _room(layout)
    height, helms, rudders = _heights(layout, room)
    for helm, y in zip(layout.helms, helms, strict=True):
        _helm(sheet, layout, helm, room, y, rudders)
    for place, (rudder, y) in enumerate(zip(layout.rudders, rudders, strict=True)):
        _rudder(sheet, job, layout, rudder, y, first=place == 0)
    sheet.add(*(each.shapes for each in sheet.labels))
    note = NOTE if len(rudders) < 2 else f"{NOTE} {UNLINKED}"  # noqa: PLR2004 - two rudders have a link
    sheet.shapes.append(Words(at=(6, height - 5), text=note, size=7.5, ink="second"))
    return Drawing(width=WIDTH, height=height, shapes=tuple(sheet.shapes), alt=describe(job, layout))


def _room(layout: Layout) -> Room:
    most = max((len(run.sheaves) for helm in layout.helms for run in helm.runs.values()), default=0)
    most = min(most, MOST)
    rows = (1 if most <= ONE_ROW else 2) if layout.has_runs else 0
    twin = len(layout.helms) > 1
    radius = min(8.0, (RUN_TO - RUN_FROM) / max(most - 1, 1) * 0.32)
    # A run that ends at a shared or a far rim crosses the room beyond its last sheave.
    end = {1: 316.0, 2: 288.0}[len(layout.helms)] if len(layout.rudders) == 1 else 298.0
    return Room(
        off=52 if twin else 62,
        wheel=36 if twin else 44,
        sheave=radius,
        rows=rows,
        labels_to=end,
        least=_least(layout),
    )


def _least(layout: Layout) -> float:
    """Half the height that the rudder's own labels take."""
    high = ("quadrant", "pilot_drive", "emergency_tiller")
    listed = any(rudder.kinds[kind] for rudder in layout.rudders for kind in high)
    return 106 if layout.has_wheel or listed else 62


def _heights(layout: Layout, room: Room) -> tuple[float, list[float], list[float]]:
    """The height of the sheet, and where each helm's and each rudder's centre line lies."""
    lines = max(len(layout.helms), len(layout.rudders))
    high = 2 * room.half
    centres = [8 + high * (place + 0.5) for place in range(lines)]
    middle = [8 + high * lines / 2]
    helms = centres if len(layout.helms) == lines else middle
    rudders = centres if len(layout.rudders) == lines else middle
    return high * lines + 26, helms, rudders


def _helm(sheet: Sheet, layout: Layout, helm: Helm, room: Room, y: float, rudders: list[float]) -> None:
    if not layout.has_wheel:
        return
    centre = (WHEEL_X, y)
    _fittings(sheet, helm, room, y)
    sheet.add(shapes.wheel(centre, room.wheel, dashed=_absent(helm.kinds["wheel"])))
    if layout.has_runs:
        _runs(sheet, layout, helm, room, y, rudders)
    else:
        ends = ((WHEEL_X + room.wheel + 8, y), (STOCK_X - RIM - 10, rudders[0] if len(rudders) == 1 else y))
        sheet.add((Path(points=ends, dashed=True), shapes.ring(centre, room.wheel * 0.26, fill="wash")))
        sheet.shapes.append(
            Words(
                at=(200, y - 6), text="gear without chain and wire: not drawn", anchor="middle", ink="second"
            )
        )
    before = _of_group(helm.group, helm.kinds["wheel"])
    sheet.name(
        helm.kinds["wheel"], "Wheel", (WHEEL_X, y + room.wheel + 7), 112, before=before, anchor="middle"
    )


def _fittings(sheet: Sheet, helm: Helm, room: Room, y: float) -> None:
    """Pedestal and brake, where they are listed: drawn round the shaft, named above the wheel."""
    top = y - room.wheel - 8
    if helm.kinds["pedestal"]:
        corners = (
            (WHEEL_X - 17, y - 17),
            (WHEEL_X + 62, y - 17),
            (WHEEL_X + 62, y + 17),
            (WHEEL_X - 17, y + 17),
        )
        sheet.add(
            (
                Path(
                    points=corners,
                    closed=True,
                    weight="fine",
                    stroke="second",
                    dashed=_absent(helm.kinds["pedestal"]),
                ),
            )
        )
    if helm.kinds["wheel_brake"]:
        sheet.add((shapes.ring((WHEEL_X, y), 14.5, dashed=_absent(helm.kinds["wheel_brake"])),))
    for kind in ("wheel_brake", "pedestal"):
        if helm.kinds[kind]:
            top = sheet.name(helm.kinds[kind], "", (6, top), 106, rise=True, lines=1).top - 2


def _runs(sheet: Sheet, layout: Layout, helm: Helm, room: Room, y: float, rudders: list[float]) -> None:
    centre, chained = (WHEEL_X, y), helm.kinds["chain"]
    sheet.add(shapes.sprocket(centre, SPROCKET, dashed=_absent(chained)))
    sheet.add(shapes.chain(centre, SPROCKET, CHAIN_END, dashed=_absent(chained)))
    sheet.name(chained, "Steering chain and sprocket", (138, y - HIGH / 2), 118)
    for side, way in zip(SIDES, (-1, 1), strict=True):
        _run(sheet, layout, helm, room, side, way, y, rudders)


def _run(
    sheet: Sheet, layout: Layout, helm: Helm, room: Room, side: str, way: int, y: float, rudders: list[float]
) -> None:
    run, row = helm.runs[side], y + way * room.off
    places = _places(run.sheaves)
    spots = [(x, row) for x in _spread(len(places))]
    joint = (CHAIN_END, y + way * SPROCKET)
    line = [
        *shapes.over_sheaves(joint, spots, room.sheave, way),
        *_to_rudder(layout, helm, room, spots[-1], way, rudders),
    ]
    dashed = _absent(run.wires)
    sheet.add(
        (
            Path(points=tuple(line), dashed=dashed),
            shapes.ring(joint, 2.2, fill="white"),
            shapes.ring(line[-1], 2.2, fill="ink", dashed=dashed),
        )
    )
    for here, spot in zip(places, spots, strict=True):
        sheet.add(shapes.sheave(spot, room.sheave, dashed=_absent(here)))
    _name_sheaves(sheet, helm, room, places, way, spots)
    _name_wire(sheet, helm, room, side, way, line, row)


def _to_rudder(
    layout: Layout, helm: Helm, room: Room, last: Point, way: int, rudders: list[float]
) -> list[Point]:
    """The wire's way from the last sheave: round the rim's groove, or straight to the rim's nearer end."""
    place = layout.helms.index(helm)
    alone = len(layout.helms) == len(rudders)
    centre = (STOCK_X, rudders[place if alone else min(len(rudders) - 1, int(way > 0))])
    if alone and last[0] >= RUN_TO:
        return shapes.to_rim(last, room.sheave, centre, RIM if way < 0 else RIM - 5, way)
    upper = last[1] < centre[1]
    end, inset = (shapes.RIM[0] + shapes.RIM[1] - 6, 0.0) if upper else (shapes.RIM[0] + 6, 0.0)
    if len(layout.helms) > len(rudders) and (way > 0) == upper:
        inset = 5.0
    return [(last[0], last[1] + way * room.sheave), shapes.polar(centre, RIM - inset, end)]


def _places(sheaves: Parts) -> list[Parts]:
    """The sheaves one by one; more than can be named share the last place."""
    if len(sheaves) <= MOST:
        return [(each,) for each in sheaves] or [()]
    return [*((each,) for each in sheaves[: MOST - 1]), sheaves[MOST - 1 :]]


def _spread(count: int) -> list[float]:
    if count == 1:
        return [RUN_FROM + 8]
    return [RUN_FROM + (RUN_TO - RUN_FROM) * place / (count - 1) for place in range(count)]


def _name_sheaves(
    sheet: Sheet, helm: Helm, room: Room, places: list[Parts], way: int, spots: list[Point]
) -> None:
    """Each sheave named outside the run; with many, every other label stands further out, on a leader."""
    edge = spots[0][1] + way * (room.sheave + 4)
    for place, (x, row) in enumerate(spots):
        both = bool(places[place]) and not any(side_of(each, helm.group) for each in places[place])
        if both and way > 0:
            continue
        outer = len(spots) > ONE_ROW and place % 2 == 0
        low, high = within = _window([spot[0] for spot in spots], place, room.labels_to)
        at = (x, edge + way * (HIGH + 1 if outer else 0))
        before = "both runs: " if both else ""
        box = sheet.name(
            places[place], "Sheaves", at, min(high - low, 104),
            before=before, anchor="middle", rise=way < 0, within=within,
        )  # fmt: skip
        if outer:
            sheet.add(
                (leader((x, row + way * room.sheave), (x, box.bottom + 1 if way < 0 else box.top - 1)),)
            )


def _window(across: list[float], place: int, end: float) -> tuple[float, float]:
    """Between which edges a sheave's label may stand, so that it meets neither another label nor a leader."""
    if len(across) == 1:
        return (LABELS_FROM, WIRE_BESIDE - 4)
    step = across[1] - across[0]
    inner = len(across) > ONE_ROW and place % 2 == 1
    reach = step - 2.5 if inner else (step - 1.5 if len(across) > ONE_ROW else step / 2 - 2)
    first, last = place == 0, place >= len(across) - (2 if len(across) > ONE_ROW and not inner else 1)
    low = LABELS_FROM if first else across[place] - reach
    high = end if last else across[place] + reach
    return (max(low, LABELS_FROM), min(high, end))


def _name_wire(
    sheet: Sheet, helm: Helm, room: Room, side: str, way: int, line: list[Point], row: float
) -> None:
    """The wire named on the inside of its run; where one sheave makes the run slant, beyond it."""
    wires = helm.runs[side].wires
    both = bool(wires) and all(not side_of(wire, helm.group) for wire in wires)
    if both and way > 0:
        return
    before = "both runs: " if both else f"{side} run: "
    if len(helm.runs[side].sheaves) > 1:
        sheet.name(wires, "Steering wire", (168, row - way * 12), 120, before=before, rise=way > 0, lines=1)
        return
    (x, y), (to_x, to_y) = line[-2:]
    across = (WIRE_BESIDE, room.labels_to)
    heights = [y + (to_y - y) * (at - x) / (to_x - x) for at in across]
    beside = min(heights) - 3 if way < 0 else max(heights) + 3
    sheet.name(
        wires, "Steering wire", (WIRE_BESIDE, beside), across[1] - across[0], before=before, rise=way < 0
    )


def _of_group(group: str, parts: Parts) -> str:
    """The group before the grade, unless the part's name tells it."""
    named = any(group in part.title.lower() for part in parts)
    return f"{group}: " if group and not named else ""


def _rudder(sheet: Sheet, job: Job, layout: Layout, rudder: Rudder, y: float, *, first: bool) -> None:
    centre, kinds = (STOCK_X, y), rudder.kinds
    if not layout.has_wheel:
        sheet.add(shapes.tiller_arm(centre, WHEEL_X + 120))
        sheet.shapes.append(Words(at=(WHEEL_X + 120, y - 8), text="tiller", ink="second"))
    sheet.add(shapes.blade(centre, BLADE, dashed=_absent(kinds["rudder_blade"])))
    if kinds["quadrant"] or layout.has_runs:
        _quadrant(sheet, job, kinds["quadrant"], centre)
    if kinds["pilot_drive"]:
        _pilot(sheet, kinds["pilot_drive"], centre)
    sheet.add(shapes.stock(centre, dashed=_absent(kinds["rudder_bearing"])))
    bearing, before = kinds["rudder_bearing"], _of_group(rudder.group, kinds["rudder_bearing"])
    box = sheet.name(bearing, "Rudder bearings, stock and gland", (378, y - 50), 102, before=before)
    sheet.add((leader((376, box.bottom - LINE * 1.5), (STOCK_X + 6, y - 8)),))
    sheet.name(
        kinds["rudder_blade"],
        "Rudder blade, skeg and pintles",
        (384, y + 15),
        96,
        before=_of_group(rudder.group, kinds["rudder_blade"]),
    )
    if kinds["emergency_tiller"] or (layout.has_wheel and first):
        _emergency(sheet, kinds["emergency_tiller"], y)


def _quadrant(sheet: Sheet, job: Job, parts: Parts, centre: Point) -> None:
    sheet.add(
        shapes.quadrant(centre, RIM, dashed=_absent(parts)), shapes.stops(centre, RIM, dashed=_absent(parts))
    )
    radius = radius_of(job, parts[0]) if parts else ""
    after = f"\nradius {radius}" if radius else ""
    box = sheet.name(parts, "Quadrant and rudder stops", (318, centre[1] - 98), 86, after=after)
    sheet.add((leader((324, box.bottom + 1), (324, centre[1] - 45)),))


def radius_of(job: Job, part: Graded) -> str:
    """The quadrant's radius as it was written, or nothing."""
    fact = job.facts.get(part.component.id, {}).get("radius")
    return fact.value.written if fact and fact.value else ""


def _pilot(sheet: Sheet, parts: Parts, centre: Point) -> None:
    x, y = centre
    pin, foot = (x + 3, y + 30), (x + 16, y + 84)
    sheet.add((Path(points=((x + 1, y + 9), pin), weight="bold"),), shapes.ram(pin, foot))
    sheet.name(parts, "Pilot drive", (x + 30, y + 62), 96)


def _emergency(sheet: Sheet, parts: Parts, y: float) -> None:
    sheet.add(shapes.tiller((413, y - 94), (474, y - 94), dashed=_absent(parts)))
    sheet.name(parts, "Emergency tiller", (408, y - 85), 72)


def _absent(parts: Parts) -> bool:
    """True when nothing here is listed, or what is listed is not aboard: drawn dashed."""
    gone = {Extent.NOT_FITTED, Extent.NOT_FOUND}
    return all(part.component.examined.extent in gone for part in parts)
