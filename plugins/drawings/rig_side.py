"""The boat and her rig from the side, bow to the left: hull, sails, mast, boom, stays fore and aft.

Comes in: the sizes, the sorted rig and a scale. Goes out: shapes, and the point at which each part is to be labelled.
"""

from __future__ import annotations

import math
from typing import NamedTuple

from reporter.contract import XY, Path, Shape

from . import rig_mizzen as mizzen
from . import rig_shapes as shapes
from .rig_parts import Rig
from .rig_sizes import Sizes
from .symbols import symbol


class Elevation(NamedTuple):
    """Metres from the stem head, and above the waterline, to points on the page."""

    left: float
    water: float
    scale: float

    def at(self, x: float, y: float) -> XY:
        """The point on the page."""
        return (self.left + x * self.scale, self.water - y * self.scale)


class View(NamedTuple):
    """Shapes of one view, and where its parts are."""

    shapes: tuple[Shape, ...]
    anchors: dict[str, XY]


class Lines(NamedTuple):
    """The points that stays and spars run between, on the page."""

    masthead: XY
    hounds: XY
    foot: XY
    heel: XY
    tack: XY
    stem: XY
    stern: XY
    gooseneck: XY
    boom_end: XY
    shrouds: XY


def side_view(sizes: Sizes, rig: Rig, frame: Elevation, *, keel_stepped: bool) -> View:
    """Everything that is seen from the side."""
    lines = _lines(sizes, frame, keel_stepped=keel_stepped)
    drawn = (
        *_sails(sizes, lines),
        *_hull(sizes, frame),
        *_spars(sizes, rig, lines),
        *(_stays(sizes, rig, lines, frame) if sizes.stayed else ()),
    )
    anchors = _anchors(sizes, lines, frame)
    if not rig.mizzen:
        return View(drawn, anchors)
    x = mizzen.FROM_STEM * sizes.overall
    foot = frame.at(x, sheer(sizes, x))
    head = (foot[0], foot[1] - mizzen.HIGH * sizes.height * frame.scale)
    aft = mizzen.anchors(foot, head, sizes.overall * frame.scale, lines.stern)
    return View((*drawn, *mizzen.drawn(rig.mizzen, aft)), {**anchors, **aft})


def sheer(sizes: Sizes, x: float) -> float:
    """Height of the deck's edge above the water at a length from the stem."""
    t = x / sizes.overall
    return sizes.freeboard * (1.2 - 0.48 * t + 0.28 * t * t)


def _lines(sizes: Sizes, frame: Elevation, *, keel_stepped: bool) -> Lines:
    mast_x = sizes.foretriangle + 0.02 * sizes.overall
    deck = sheer(sizes, mast_x)
    low = deck + sizes.gooseneck
    boom = min(sizes.boom, sizes.overall * 0.98 - mast_x)
    return Lines(
        masthead=frame.at(mast_x, deck + sizes.height),
        hounds=frame.at(mast_x, deck + sizes.hounds),
        foot=frame.at(mast_x, deck),
        heel=frame.at(mast_x, -_depth(sizes, mast_x) * 0.75) if keel_stepped else frame.at(mast_x, deck),
        tack=frame.at(-sizes.sprit if sizes.sprit else 0.02 * sizes.overall, sheer(sizes, 0)),
        stem=frame.at(0.0, sheer(sizes, 0)),
        stern=frame.at(0.975 * sizes.overall, sheer(sizes, sizes.overall)),
        gooseneck=frame.at(mast_x, low),
        boom_end=frame.at(mast_x + boom, low + 0.012 * sizes.overall),
        shrouds=frame.at(mast_x + 0.035 * sizes.overall, sheer(sizes, mast_x + 0.035 * sizes.overall)),
    )


def _depth(sizes: Sizes, x: float) -> float:
    """Depth of the canoe body below the water at a length from the stem."""
    begin = (sizes.overall - sizes.waterline) / 2
    t = (x - begin) / sizes.waterline
    if not 0 < t < 1:
        return 0.0
    return float(min(0.4 * sizes.draught, 0.055 * sizes.overall) * math.sin(math.pi * t**0.9) ** 0.85)


def _hull(sizes: Sizes, frame: Elevation) -> tuple[Shape, ...]:
    begin = (sizes.overall - sizes.waterline) / 2
    end = begin + sizes.waterline
    deck = [
        frame.at(sizes.overall * step / 16, sheer(sizes, sizes.overall * step / 16)) for step in range(17)
    ]
    stern = [frame.at(sizes.overall * 0.99, sheer(sizes, sizes.overall) * 0.45), frame.at(end, 0)]
    bow = [frame.at(begin, 0)]
    under = [
        frame.at(begin + sizes.waterline * step / 24, -_depth(sizes, begin + sizes.waterline * step / 24))
        for step in range(25)
    ]
    keel = _fin(sizes, frame, begin + 0.4 * sizes.waterline, 0.22 * sizes.waterline, sizes.draught)
    rudder = _fin(
        sizes, frame, begin + 0.885 * sizes.waterline, 0.075 * sizes.waterline, sizes.draught * 0.78
    )
    return (
        Path(points=tuple(under), weight="fine", stroke="second"), keel, rudder,
        Path(points=(*deck, *stern, *bow), closed=True, fill="white"),
    )  # fmt: skip


def _fin(sizes: Sizes, frame: Elevation, x: float, chord: float, depth: float) -> Path:
    """Keel or rudder."""
    rake = 0.16 * chord
    top = (frame.at(x, -_depth(sizes, x)), frame.at(x + chord, -_depth(sizes, x + chord)))
    low = (frame.at(x + chord * 0.86, -depth), frame.at(x + rake, -depth))
    return Path(points=(top[0], low[1], low[0], top[1]), weight="fine", stroke="second")


def _sails(sizes: Sizes, lines: Lines) -> tuple[Shape, ...]:
    """Mainsail, and a jib where there is a stay for it."""
    clew = shapes.along(lines.boom_end, lines.gooseneck, 0.03)
    head = shapes.along(lines.masthead, lines.gooseneck, 0.03)
    low = shapes.along(lines.tack, lines.hounds, 0.07)
    jib = (shapes.along(lines.hounds, lines.tack, 0.04), low, (lines.foot[0] - 5, lines.gooseneck[1] - 2))
    main = shapes.sail((head, lines.gooseneck, clew), 10)
    return (main, shapes.sail(jib, -2)) if sizes.stayed else (main,)


def _spars(sizes: Sizes, rig: Rig, lines: Lines) -> tuple[Shape, ...]:
    mast = shapes.spar(lines.foot, lines.masthead, 3.4, dashed=not rig.at("mast"))
    boom = shapes.spar(lines.gooseneck, lines.boom_end, 3, dashed=not rig.at("boom"))
    vang_foot = shapes.along(lines.foot, lines.gooseneck, 0.12)
    vang = Path(
        points=(vang_foot, shapes.along(lines.gooseneck, lines.boom_end, 0.28)),
        weight="fine",
        dashed=not rig.at("boom"),
    )
    below = Path(points=(lines.foot, lines.heel), weight="fine", stroke="second", dashed=True)
    x, y = lines.heel
    foot = Path(
        points=((x - 4.5, y), (x + 4.5, y)),
        weight="normal" if not rig.at("mast_foot") else "bold",
        dashed=not rig.at("mast_foot"),
    )
    sprit = (shapes.spar(_aft(lines.stem), lines.tack, 3, dashed=False),) if sizes.sprit else ()
    return (vang, boom, *((below,) if y != lines.foot[1] else ()), mast, foot, *sprit)


def _aft(stem: XY) -> XY:
    return (stem[0] + 14, stem[1] + 1)


def _stays(sizes: Sizes, rig: Rig, lines: Lines, frame: Elevation) -> tuple[Shape, ...]:
    drawn: list[Shape] = [shapes.stay(lines.tack, lines.hounds, dashed=not rig.at("forestay"))]
    if rig.at("furler"):
        drawn += shapes.drum(lines.tack, lines.hounds, dashed=False)
    if rig.at("inner_forestay"):
        drawn.append(
            shapes.stay(inner_foot(lines), shapes.along(lines.masthead, lines.foot, 0.3), dashed=False)
        )
    if has_backstay(sizes, rig):
        drawn.append(shapes.stay(lines.stern, lines.masthead, dashed=not rig.at("backstay")))
    if rig.at("backstay_gear"):
        drawn.append(_on_stay(lines.stern, lines.masthead, 0.05, 0.1))
    if rig.at("running_backs"):
        drawn.append(shapes.stay(quarter(sizes, frame), lines.hounds, dashed=False, weight="fine"))
    if rig.at("bobstay"):
        drawn.append(shapes.stay(lines.tack, stem_low(sizes, frame), dashed=False))
    drawn += [
        shapes.stay(
            lines.shrouds,
            lines.masthead if sizes.masthead else lines.hounds,
            dashed=not rig.at("cap_shroud"),
            weight="fine",
        ),
        *symbol("plate", lines.shrouds, dashed=not rig.at("chainplate")),
    ]
    if rig.at("stem"):
        drawn.extend(symbol("plate", (lines.tack if not sizes.sprit else lines.stem), dashed=False))
    if rig.at("stern"):
        drawn.extend(symbol("plate", lines.stern, dashed=False))
    return tuple(drawn)


def _on_stay(start: XY, end: XY, low: float, high: float) -> Path:
    return shapes.spar(shapes.along(start, end, low), shapes.along(start, end, high), 5, dashed=False)


def has_backstay(sizes: Sizes, rig: Rig) -> bool:
    """A backstay is drawn where one is listed, and missed where the forestay goes to the masthead."""
    return bool(rig.at("backstay")) or (sizes.masthead and sizes.stayed and "backstay" not in rig.gone)


def inner_foot(lines: Lines) -> XY:
    """Where an inner forestay stands on deck."""
    return (shapes.along(lines.foot, lines.stem, 0.62)[0], shapes.along(lines.foot, lines.stem, 0.62)[1])


def quarter(sizes: Sizes, frame: Elevation) -> XY:
    """Where a running backstay is made fast."""
    return frame.at(0.86 * sizes.overall, sheer(sizes, 0.86 * sizes.overall))


def stem_low(sizes: Sizes, frame: Elevation) -> XY:
    """Where a bobstay meets the stem."""
    return frame.at((sizes.overall - sizes.waterline) / 2 * 0.85, sheer(sizes, 0) * 0.12)


def _anchors(sizes: Sizes, lines: Lines, frame: Elevation) -> dict[str, XY]:
    """Where the leader of each part ends."""
    return {
        "forestay": shapes.along(lines.tack, lines.hounds, 0.55),
        "inner_forestay": shapes.along(
            inner_foot(lines), shapes.along(lines.masthead, lines.foot, 0.3), 0.35
        ),
        "furler": shapes.along(lines.tack, lines.hounds, 0.06),
        "stem": (lines.stem[0] + 1, lines.stem[1] + 5),
        "bobstay": shapes.along(lines.tack, stem_low(sizes, frame), 0.5),
        "mast": shapes.along(lines.masthead, lines.foot, 0.45),
        "boom": shapes.along(lines.gooseneck, lines.boom_end, 0.5),
        "mast_foot": lines.heel,
        "backstay": shapes.along(lines.stern, lines.masthead, 0.36),
        "backstay_gear": shapes.along(lines.stern, lines.masthead, 0.075),
        "running_backs": shapes.along(quarter(sizes, frame), lines.hounds, 0.07),
        "quarter": quarter(sizes, frame),
        "stern": (lines.stern[0] + 1.5, lines.stern[1] + 5),
        "masthead": lines.masthead,
        "stem_head": lines.stem,
        "stern_head": lines.stern,
        "gooseneck": lines.gooseneck,
        "boom_end": lines.boom_end,
    }
