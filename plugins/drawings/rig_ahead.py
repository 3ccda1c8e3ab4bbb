"""The rig from ahead: hull section, mast, spreaders, shrouds with their ends, screws and chainplates on both sides.

Comes in: the sizes, the sorted rig, and where the view stands. Goes out: shapes, and the point at which each part is to
be labelled, on the left of the view.
"""

from __future__ import annotations

import math

from reporter.contract import XY, Path, Shape

from . import rig_shapes as shapes
from .rig_parts import Rig
from .rig_side import Elevation, View
from .rig_sizes import Sizes
from .symbols import symbol

SCREW = 15.0
"""Length of a rigging screw on the page, in points."""
INBOARD = 0.94
"""Chainplates stand a little inside the deck's edge."""


def ahead_view(sizes: Sizes, rig: Rig, frame: Elevation, deck: float) -> View:
    """Everything that is seen from ahead; `frame.left` is the middle line, `deck` the mast's foot above the water."""
    head, foot = frame.at(0, deck + sizes.height), frame.at(0, deck)
    caps_to = frame.at(0, deck + (sizes.height if sizes.masthead else sizes.hounds))
    roots = _roots(sizes, frame, deck)
    drawn: list[Shape] = [*_section(sizes, frame), shapes.spar(foot, head, 3.4, dashed=not rig.at("mast"))]
    if sizes.stayed:
        for side in (-1, 1):
            drawn += _one_side(sizes, rig, frame, side, caps_to, roots, deck)
    return View(tuple(drawn), _anchors(sizes, rig, frame, caps_to, roots, deck))


def _roots(sizes: Sizes, frame: Elevation, deck: float) -> list[XY]:
    """Spreader roots from the deck up."""
    top = sizes.height if sizes.masthead else sizes.hounds
    return [
        frame.at(0, deck + top * (place + 1) / (sizes.spreaders + 0.95)) for place in range(sizes.spreaders)
    ]


def _tip(sizes: Sizes, frame: Elevation, root: XY, place: int, side: int) -> XY:
    reach = sizes.beam / 2 * INBOARD * (0.8 - 0.09 * place) * frame.scale
    return (root[0] + side * reach, root[1] - reach * 0.07)


def _plate(sizes: Sizes, frame: Elevation, side: int) -> XY:
    return frame.at(side * sizes.beam / 2 * INBOARD, sizes.freeboard)


def _section(sizes: Sizes, frame: Elevation) -> tuple[Shape, ...]:
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
    sizes: Sizes, rig: Rig, frame: Elevation, side: int, caps_to: XY, roots: list[XY], deck: float
) -> list[Shape]:
    """Spreaders, shrouds and their fittings of one side; what is not fitted is left out."""
    plate = _plate(sizes, frame, side)
    tips = [_tip(sizes, frame, root, place, side) for place, root in enumerate(roots)]
    above = tips[0] if tips else caps_to
    drawn: list[Shape] = [
        shapes.spar(root, tip, 2.2, dashed=not rig.at("spreader"))
        for root, tip in zip(roots, tips, strict=True)
    ]
    drawn.append(Path(points=(plate, *tips, caps_to), dashed=not rig.at("cap_shroud")))
    if _has_lowers(rig, roots):
        drawn += _lower(rig, plate, side, _lower_to(sizes, frame, roots, deck))
    if "intermediate" not in rig.gone:
        pairs = zip(tips[:-1], roots[1:], strict=True)
        drawn += [shapes.stay(tip, root, dashed=not rig.at("intermediate")) for tip, root in pairs]
    if "rigging_screw" not in rig.gone:
        drawn.append(shapes.screw(plate, above, SCREW, dashed=not rig.at("rigging_screw")))
    drawn += [
        *symbol("terminal", _low_end(plate, above), dashed=not rig.at("lower_ends")),
        *symbol("terminal", _high_end(caps_to, tips, plate), dashed=not rig.at("upper_ends")),
        *symbol("plate", plate, dashed=not rig.at("chainplate")),
    ]
    return drawn


def _has_lowers(rig: Rig, roots: list[XY]) -> bool:
    return bool(rig.at("lower")) or (bool(roots) and "lower" not in rig.gone)


def _lower(rig: Rig, plate: XY, side: int, to: XY) -> list[Shape]:
    foot = (plate[0] - side * 5, plate[1])
    screw = shapes.screw(foot, to, SCREW, dashed=not rig.at("rigging_screw"))
    stay = shapes.stay(foot, to, dashed=not rig.at("lower"))
    return [stay, screw] if "rigging_screw" not in rig.gone else [stay]


def _lower_to(sizes: Sizes, frame: Elevation, roots: list[XY], deck: float) -> XY:
    """The lowest spreader's root; without spreaders somewhere past the middle of the mast."""
    return roots[0] if roots else frame.at(0, deck + 0.55 * sizes.height)


def _low_end(plate: XY, above: XY) -> XY:
    return shapes.along(plate, above, min((SCREW + 5) / math.dist(plate, above), 0.6))


def _high_end(caps_to: XY, tips: list[XY], plate: XY) -> XY:
    return shapes.along(caps_to, tips[-1] if tips else plate, 0.03)


def _anchors(
    sizes: Sizes, rig: Rig, frame: Elevation, caps_to: XY, roots: list[XY], deck: float
) -> dict[str, XY]:
    """Where the leader of each part ends; one may cross the cap shroud on its way in."""
    plate = _plate(sizes, frame, -1)
    tips = [_tip(sizes, frame, root, place, -1) for place, root in enumerate(roots)]
    above = tips[0] if tips else caps_to
    found = {
        "upper_ends": _high_end(caps_to, tips, plate),
        "cap_shroud": shapes.along(tips[-1] if tips else plate, caps_to, 0.5),
        "rigging_screw": shapes.along(plate, above, min(0.6 * SCREW / math.dist(plate, above), 0.3)),
        "lower_ends": _low_end(plate, above),
        "chainplate": (plate[0] - 1.6, plate[1] + 5),
    }
    if roots:
        found["spreader"] = tips[-1]
    if _has_lowers(rig, roots):
        found["lower"] = shapes.along((plate[0] + 5, plate[1]), _lower_to(sizes, frame, roots, deck), 0.5)
    if len(roots) > 1:
        found["intermediate"] = shapes.along(tips[0], roots[1], 0.45)
    elif rig.at("intermediate"):
        found["intermediate"] = shapes.along(above, caps_to, 0.3)
    return found
