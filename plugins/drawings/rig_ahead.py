"""The rig from ahead: hull section, mast, spreaders, shrouds with their ends, screws and chainplates on both sides.

Comes in: the sizes, the sorted rig, and where the view stands. Goes out: shapes, and the point at which each part is to
be labelled, on the left of the view; and both views of a rig to one scale.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import NamedTuple

from reporter.contract import XY, Job, Path, Shape

from . import rig_shapes as shapes
from .rig_parts import Rig
from .rig_side import Elevation, View, sheer, side_view
from .rig_sizes import Sizes
from .symbols import symbol

SCREW = 15.0
"""Length of a rigging screw on the page, in points."""
INBOARD = 0.94
"""Chainplates stand a little inside the deck's edge."""


class Room(NamedTuple):
    """What both views are given on the page, in points: from where and how far the one from the side, the middle line of the other."""

    top: float
    high: float
    side_from: float
    side_wide: float
    ahead_at: float
    ahead_wide: float


class BothViews(NamedTuple):
    """The rig from the side and from ahead; points to the metre, and how low on the page the water stands."""

    side: View
    ahead: View
    scale: float
    water: float


def both_views(job: Job, size: Sizes, rig: Rig, room: Room) -> BothViews:
    """Both views to one scale, as large as they fit in height and width; the one from the side in the middle of its room."""
    tall, long = size.height + size.freeboard * 1.1 + size.draught, size.overall + size.sprit
    scale = min(room.high / tall, room.side_wide / long, room.ahead_wide / size.beam)
    deck = sheer(size, size.foretriangle)
    water = room.top + (size.height + deck) * scale
    left = room.side_from + (room.side_wide - long * scale) / 2 + size.sprit * scale
    keel = job.sheet.vessel.mast_step == "keel"
    side = side_view(size, rig, Elevation(left, water, scale), keel_stepped=keel)
    return BothViews(side, ahead_view(size, rig, Elevation(room.ahead_at, water, scale), deck), scale, water)


class Shrouds:
    """Where the shrouds of one side run, on the page; `side` is -1 for the left of the view."""

    def __init__(self, sizes: Sizes, frame: Elevation, deck: float, side: int) -> None:
        top, reach = sizes.height if sizes.masthead else sizes.hounds, sizes.beam / 2 * INBOARD
        self.top = frame.at(0, deck + top)
        heights = [top * (place + 1) / (sizes.spreaders + 0.95) for place in range(sizes.spreaders)]
        self.roots = [frame.at(0, deck + height) for height in heights]
        reaches = [reach * (0.8 - 0.09 * place) * frame.scale for place in range(sizes.spreaders)]
        self.tips = [
            (x + side * out, y - out * 0.07) for (x, y), out in zip(self.roots, reaches, strict=True)
        ]
        self.plate = frame.at(side * reach, sizes.freeboard)
        self.lower_foot = (self.plate[0] - side * 5, self.plate[1])
        # The lowest spreader's root; without spreaders somewhere past the middle of the mast.
        self.lower_to = self.roots[0] if self.roots else frame.at(0, deck + 0.55 * sizes.height)
        self.above = self.tips[0] if self.tips else self.top
        length = math.dist(self.plate, self.above)
        self.low_end = shapes.along(self.plate, self.above, min((SCREW + 5) / length, 0.6))
        self.screw = shapes.along(self.plate, self.above, min(0.6 * SCREW / length, 0.3))
        self.last = self.tips[-1] if self.tips else self.plate
        self.high_end = shapes.along(self.top, self.last, 0.03)


def ahead_view(sizes: Sizes, rig: Rig, frame: Elevation, deck: float) -> View:
    """Everything that is seen from ahead; `frame.left` is the middle line, `deck` the mast's foot above the water."""
    head, foot = frame.at(0, deck + sizes.height), frame.at(0, deck)
    left, right = (Shrouds(sizes, frame, deck, side) for side in (-1, 1))
    drawn: list[Shape] = [*_section(sizes, frame), shapes.spar(foot, head, 3.4, dashed=not rig.at("mast"))]
    if sizes.stayed:
        drawn += [*_one_side(rig, left), *_one_side(rig, right)]
    return View(tuple(drawn), _anchors(rig, left))


def _section(sizes: Sizes, frame: Elevation) -> tuple[Shape, ...]:
    half, deep = sizes.beam / 2, min(0.4 * sizes.draught, 0.055 * sizes.overall)
    turns = [math.pi * step / 12 for step in range(13)]
    ring = [frame.at(-half * 0.95 * math.cos(turn), -deep * math.sin(turn) ** 0.8) for turn in turns]
    shell = ((-0.95, 0.0), (-1.0, 1.0), (0.0, 1.06), (1.0, 1.0), (0.95, 0.0))
    above = tuple(frame.at(x * half, y * sizes.freeboard) for x, y in shell)
    fin = ((-0.03, deep), (-0.02, sizes.draught), (0.02, sizes.draught), (0.03, deep))
    keel = tuple(frame.at(x * half, -y) for x, y in fin)
    return (
        Path(points=tuple(ring), weight="fine", stroke="second"),
        Path(points=keel, weight="fine", stroke="second"),
        Path(points=above, closed=True, fill="white"),
    )


def _one_side(rig: Rig, at: Shrouds) -> Iterator[Shape]:
    """Spreaders, shrouds and their fittings of one side; what is not fitted is left out."""
    for root, tip in zip(at.roots, at.tips, strict=True):
        yield shapes.spar(root, tip, 2.2, dashed=not rig.at("spreader"))
    yield Path(points=(at.plate, *at.tips, at.top), dashed=not rig.at("cap_shroud"))
    if _has_lowers(rig, at):
        yield shapes.stay(at.lower_foot, at.lower_to, dashed=not rig.at("lower"))
        if "rigging_screw" not in rig.gone:
            yield shapes.screw(at.lower_foot, at.lower_to, SCREW, dashed=not rig.at("rigging_screw"))
    if "intermediate" not in rig.gone:
        for tip, root in zip(at.tips[:-1], at.roots[1:], strict=True):
            yield shapes.stay(tip, root, dashed=not rig.at("intermediate"))
    if "rigging_screw" not in rig.gone:
        yield shapes.screw(at.plate, at.above, SCREW, dashed=not rig.at("rigging_screw"))
    for name, spot, place in (
        ("terminal", at.low_end, "lower_ends"),
        ("terminal", at.high_end, "upper_ends"),
        ("plate", at.plate, "chainplate"),
    ):
        yield from symbol(name, spot, dashed=not rig.at(place))


def _has_lowers(rig: Rig, at: Shrouds) -> bool:
    return bool(rig.at("lower")) or (bool(at.roots) and "lower" not in rig.gone)


def _anchors(rig: Rig, at: Shrouds) -> dict[str, XY]:
    """Where the leader of each part ends; one may cross the cap shroud on its way in."""
    found = {
        "upper_ends": at.high_end,
        "cap_shroud": shapes.along(at.last, at.top, 0.5),
        "rigging_screw": at.screw,
        "lower_ends": at.low_end,
        "chainplate": (at.plate[0] - 1.6, at.plate[1] + 5),
    }
    if at.roots:
        found["spreader"] = at.last
    if _has_lowers(rig, at):
        found["lower"] = shapes.along(at.lower_foot, at.lower_to, 0.5)
    if len(at.roots) > 1:
        found["intermediate"] = shapes.along(at.above, at.roots[1], 0.45)
    elif rig.at("intermediate"):
        found["intermediate"] = shapes.along(at.above, at.top, 0.3)
    return found
