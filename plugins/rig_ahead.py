"""The rig from ahead: hull section, mast, spreaders, shrouds with their ends, screws and chainplates on both sides.

Comes in: the sizes, the sorted rig, and where the view stands. Goes out: shapes, and the point at which each part is to
be labelled, on the left of the view.
"""

from __future__ import annotations

import math

from reporter.contract import Path, Shape

from . import rig_shapes as shapes
from .rig_parts import Rig
from .rig_side import Frame, Point, View
from .rig_sizes import Sizes

INBOARD = 0.94
"""Chainplates stand a little inside the deck's edge."""


def ahead_view(sizes: Sizes, rig: Rig, frame: Frame, deck: float) -> View:
    """Everything that is seen from ahead; `frame.left` is the middle line, `deck` the mast's foot above the water."""
    head, foot = frame.at(0, deck + sizes.height), frame.at(0, deck)
    caps_to = frame.at(0, deck + (sizes.height if sizes.masthead else sizes.hounds))
    roots = _roots(sizes, frame, deck)
    drawn: list[Shape] = [*_section(sizes, frame), shapes.spar(foot, head, 3.4, dashed=not rig.at("mast"))]
    if sizes.stayed:
        for side in (-1, 1):
            drawn += _one_side(sizes, rig, frame, side, caps_to, roots)
    return View(tuple(drawn), _anchors(sizes, rig, frame, caps_to, roots))


def _roots(sizes: Sizes, frame: Frame, deck: float) -> list[Point]:
    """Spreader roots from the deck up."""
    top = sizes.height if sizes.masthead else sizes.hounds
    return [
        frame.at(0, deck + top * (place + 1) / (sizes.spreaders + 0.95)) for place in range(sizes.spreaders)
    ]


def _tip(sizes: Sizes, frame: Frame, root: Point, place: int, side: int) -> Point:
    reach = sizes.beam / 2 * INBOARD * (0.8 - 0.09 * place) * frame.scale
    return (root[0] + side * reach, root[1] - reach * 0.07)


def _plate(sizes: Sizes, frame: Frame, side: int) -> Point:
    return frame.at(side * sizes.beam / 2 * INBOARD, sizes.freeboard)


def _section(sizes: Sizes, frame: Frame) -> tuple[Shape, ...]:
    half, deep = sizes.beam / 2, min(0.4 * sizes.draught, 0.055 * sizes.overall)
    ring = []
    for step in range(13):
        turn = math.pi * step / 12
        ring.append(frame.at(-half * 0.95 * math.cos(turn), -deep * math.sin(turn) ** 0.8))
    above = (
        frame.at(-half * 0.95, 0),
        frame.at(-half, sizes.freeboard),
        frame.at(0, sizes.freeboard * 1.06),
        frame.at(half, sizes.freeboard),
        frame.at(half * 0.95, 0),
    )
    keel = (
        frame.at(-half * 0.03, -deep),
        frame.at(-half * 0.02, -sizes.draught),
        frame.at(half * 0.02, -sizes.draught),
        frame.at(half * 0.03, -deep),
    )
    return (
        Path(points=tuple(ring), weight="fine", stroke="second"),
        Path(points=keel, weight="fine", stroke="second"),
        Path(points=above, closed=True, fill="white"),
    )


def _one_side(
    sizes: Sizes, rig: Rig, frame: Frame, side: int, caps_to: Point, roots: list[Point]
) -> list[Shape]:
    plate = _plate(sizes, frame, side)
    tips = [_tip(sizes, frame, root, place, side) for place, root in enumerate(roots)]
    no_caps, no_lower, no_screw = (not rig.at(place) for place in ("cap_shroud", "lower", "rigging_screw"))
    line = (plate, *tips, caps_to)
    drawn: list[Shape] = [
        shapes.spar(root, tip, 2.2, dashed=not rig.at("spreader"))
        for root, tip in zip(roots, tips, strict=True)
    ]
    drawn.append(Path(points=line, dashed=no_caps))
    lower_foot = (plate[0] - side * 5, plate[1])
    if roots:
        drawn.append(shapes.stay(lower_foot, roots[0], dashed=no_lower))
        drawn.append(shapes.screw(lower_foot, roots[0], 15, dashed=no_screw))
        drawn += [
            shapes.stay(tip, root, dashed=not rig.at("intermediate"))
            for tip, root in zip(tips[:-1], roots[1:], strict=True)
        ]
    above = tips[0] if tips else caps_to
    drawn += [
        shapes.screw(plate, above, 15, dashed=no_screw),
        shapes.terminal(
            shapes.along(plate, above, min(20 / math.dist(plate, above), 0.6)),
            dashed=not rig.at("lower_ends"),
        ),
        shapes.terminal(
            shapes.along(caps_to, tips[-1] if tips else plate, 0.03), dashed=not rig.at("upper_ends")
        ),
        shapes.plate(plate, dashed=not rig.at("chainplate")),
    ]
    return drawn


def _anchors(sizes: Sizes, rig: Rig, frame: Frame, caps_to: Point, roots: list[Point]) -> dict[str, Point]:
    plate = _plate(sizes, frame, -1)
    tips = [_tip(sizes, frame, root, place, -1) for place, root in enumerate(roots)]
    above = tips[0] if tips else caps_to
    near = math.dist(plate, above)
    found = {
        "upper_ends": shapes.along(caps_to, tips[-1] if tips else plate, 0.03),
        "cap_shroud": shapes.along(tips[-1] if tips else plate, caps_to, 0.5),
        "rigging_screw": shapes.along(plate, above, min(9 / near, 0.3)),
        "lower_ends": shapes.along(plate, above, min(20 / near, 0.6)),
        "chainplate": (plate[0] - 1.6, plate[1] + 5),
    }
    if roots:
        found["spreader"] = tips[-1]
        found["lower"] = shapes.along((plate[0] + 5, plate[1]), roots[0], 0.5)
        # The leader crosses the cap shroud on its way in; it ends on the lower shroud.
    if len(roots) > 1:
        found["intermediate"] = shapes.along(tips[0], roots[1], 0.45)
    elif rig.at("intermediate"):
        found["intermediate"] = shapes.along(above, caps_to, 0.3)
    return found
