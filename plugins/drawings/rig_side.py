"""The boat and her rig from the side, bow to the left: hull, sails, mast, boom, stays fore and aft.

Comes in: the sizes, the sorted rig and a scale. Goes out: shapes, and the point at which each part is to be labelled.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
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
    """The points that stays and spars run between, on the page; `inner` is the foot of an inner forestay."""

    masthead: XY
    hounds: XY
    foot: XY
    heel: XY
    tack: XY
    stem: XY
    stem_low: XY
    stern: XY
    gooseneck: XY
    boom_end: XY
    shrouds: XY
    inner: XY
    inner_top: XY
    quarter: XY


def side_view(sizes: Sizes, rig: Rig, frame: Elevation, *, keel_stepped: bool) -> View:
    """Everything that is seen from the side."""
    lines = _lines(sizes, frame, keel_stepped=keel_stepped)
    drawn = (
        *_sails(sizes, lines),
        *_hull(sizes, frame),
        *_spars(sizes, rig, lines),
        *(_stays(sizes, rig, lines) if sizes.stayed else ()),
    )
    anchors = _anchors(lines)
    if not rig.mizzen:
        return View(drawn, anchors)
    foot = _on_deck(sizes, frame, mizzen.FROM_STEM * sizes.overall)
    head = (foot[0], foot[1] - mizzen.HIGH * sizes.height * frame.scale)
    aft = mizzen.anchors(foot, head, sizes.overall * frame.scale, lines.stern)
    return View((*drawn, *mizzen.drawn(rig.mizzen, aft)), {**anchors, **aft})


def sheer(sizes: Sizes, x: float) -> float:
    """Height of the deck's edge above the water at a length from the stem."""
    t = x / sizes.overall
    return sizes.freeboard * (1.2 - 0.48 * t + 0.28 * t * t)


def _on_deck(sizes: Sizes, frame: Elevation, x: float) -> XY:
    return frame.at(x, sheer(sizes, x))


def _lines(sizes: Sizes, frame: Elevation, *, keel_stepped: bool) -> Lines:
    overall = sizes.overall
    mast_x = sizes.foretriangle + 0.02 * overall
    deck = sheer(sizes, mast_x)
    low = deck + sizes.gooseneck
    boom = min(sizes.boom, overall * 0.98 - mast_x)
    masthead, foot, stem = (
        frame.at(mast_x, deck + sizes.height),
        frame.at(mast_x, deck),
        _on_deck(sizes, frame, 0.0),
    )
    return Lines(
        masthead=masthead,
        hounds=frame.at(mast_x, deck + sizes.hounds),
        foot=foot,
        heel=frame.at(mast_x, -_depth(sizes, mast_x) * 0.75) if keel_stepped else foot,
        tack=frame.at(-sizes.sprit if sizes.sprit else 0.02 * overall, sheer(sizes, 0)),
        stem=stem,
        stem_low=frame.at((overall - sizes.waterline) / 2 * 0.85, sheer(sizes, 0) * 0.12),
        stern=frame.at(0.975 * overall, sheer(sizes, overall)),
        gooseneck=frame.at(mast_x, low),
        boom_end=frame.at(mast_x + boom, low + 0.012 * overall),
        shrouds=_on_deck(sizes, frame, mast_x + 0.035 * overall),
        inner=shapes.along(foot, stem, 0.62),
        inner_top=shapes.along(masthead, foot, 0.3),
        quarter=_on_deck(sizes, frame, 0.86 * overall),
    )


def _depth(sizes: Sizes, x: float) -> float:
    """Depth of the canoe body below the water at a length from the stem."""
    begin = (sizes.overall - sizes.waterline) / 2
    t = (x - begin) / sizes.waterline
    if not 0 < t < 1:
        return 0.0
    return float(min(0.4 * sizes.draught, 0.055 * sizes.overall) * math.sin(math.pi * t**0.9) ** 0.85)


def _under(sizes: Sizes, frame: Elevation, x: float) -> XY:
    return frame.at(x, -_depth(sizes, x))


def _hull(sizes: Sizes, frame: Elevation) -> tuple[Shape, ...]:
    long = sizes.waterline
    begin = (sizes.overall - long) / 2
    deck = [_on_deck(sizes, frame, sizes.overall * step / 16) for step in range(17)]
    stern = frame.at(sizes.overall * 0.99, sheer(sizes, sizes.overall) * 0.45)
    under = tuple(_under(sizes, frame, begin + long * step / 24) for step in range(25))
    return (
        Path(points=under, weight="fine", stroke="second"),
        _fin(sizes, frame, begin + 0.4 * long, 0.22 * long, sizes.draught),
        _fin(sizes, frame, begin + 0.885 * long, 0.075 * long, sizes.draught * 0.78),
        Path(points=(*deck, stern, frame.at(begin + long, 0), frame.at(begin, 0)), closed=True, fill="white"),
    )


def _fin(sizes: Sizes, frame: Elevation, x: float, chord: float, depth: float) -> Path:
    """Keel or rudder."""
    low = (frame.at(x + 0.16 * chord, -depth), frame.at(x + chord * 0.86, -depth))
    points = (_under(sizes, frame, x), *low, _under(sizes, frame, x + chord))
    return Path(points=points, weight="fine", stroke="second")


def _sails(sizes: Sizes, lines: Lines) -> tuple[Shape, ...]:
    """Mainsail, and a jib where there is a stay for it."""
    clew = shapes.along(lines.boom_end, lines.gooseneck, 0.03)
    head = shapes.along(lines.masthead, lines.gooseneck, 0.03)
    low = shapes.along(lines.tack, lines.hounds, 0.07)
    jib = (shapes.along(lines.hounds, lines.tack, 0.04), low, (lines.foot[0] - 5, lines.gooseneck[1] - 2))
    main = shapes.sail((head, lines.gooseneck, clew), 10)
    return (main, shapes.sail(jib, -2)) if sizes.stayed else (main,)


def _spars(sizes: Sizes, rig: Rig, at: Lines) -> Iterator[Shape]:
    no_boom, no_foot, (x, y) = not rig.at("boom"), not rig.at("mast_foot"), at.heel
    vang = (shapes.along(at.foot, at.gooseneck, 0.12), shapes.along(at.gooseneck, at.boom_end, 0.28))
    yield Path(points=vang, weight="fine", dashed=no_boom)
    yield shapes.spar(at.gooseneck, at.boom_end, 3, dashed=no_boom)
    if y != at.foot[1]:
        yield Path(points=(at.foot, at.heel), weight="fine", stroke="second", dashed=True)
    yield shapes.spar(at.foot, at.masthead, 3.4, dashed=not rig.at("mast"))
    yield Path(points=((x - 4.5, y), (x + 4.5, y)), weight="normal" if no_foot else "bold", dashed=no_foot)
    if sizes.sprit:
        yield shapes.spar((at.stem[0] + 14, at.stem[1] + 1), at.tack, 3, dashed=False)


def _stays(sizes: Sizes, rig: Rig, at: Lines) -> Iterator[Shape]:
    yield shapes.stay(at.tack, at.hounds, dashed=not rig.at("forestay"))
    if rig.at("furler"):
        yield from shapes.drum(at.tack, at.hounds)
    if rig.at("inner_forestay"):
        yield shapes.stay(at.inner, at.inner_top)
    if has_backstay(sizes, rig):
        yield shapes.stay(at.stern, at.masthead, dashed=not rig.at("backstay"))
    if rig.at("backstay_gear"):
        low, high = (shapes.along(at.stern, at.masthead, share) for share in (0.05, 0.1))
        yield shapes.spar(low, high, 5, dashed=False)
    if rig.at("running_backs"):
        yield shapes.stay(at.quarter, at.hounds, weight="fine")
    if rig.at("bobstay"):
        yield shapes.stay(at.tack, at.stem_low)
    top = at.masthead if sizes.masthead else at.hounds
    yield shapes.stay(at.shrouds, top, dashed=not rig.at("cap_shroud"), weight="fine")
    yield from symbol("plate", at.shrouds, dashed=not rig.at("chainplate"))
    for place, spot in (("stem", at.stem if sizes.sprit else at.tack), ("stern", at.stern)):
        yield from symbol("plate", spot) if rig.at(place) else ()


def has_backstay(sizes: Sizes, rig: Rig) -> bool:
    """A backstay is drawn where one is listed, and missed where the forestay goes to the masthead."""
    return bool(rig.at("backstay")) or (sizes.masthead and sizes.stayed and "backstay" not in rig.gone)


def _anchors(at: Lines) -> dict[str, XY]:
    """Where the leader of each part ends."""
    return {
        "forestay": shapes.along(at.tack, at.hounds, 0.55),
        "inner_forestay": shapes.along(at.inner, at.inner_top, 0.35),
        "furler": shapes.along(at.tack, at.hounds, 0.06),
        "stem": (at.stem[0] + 1, at.stem[1] + 5),
        "bobstay": shapes.along(at.tack, at.stem_low, 0.5),
        "mast": shapes.along(at.masthead, at.foot, 0.45),
        "boom": shapes.along(at.gooseneck, at.boom_end, 0.5),
        "mast_foot": at.heel,
        "backstay": shapes.along(at.stern, at.masthead, 0.36),
        "backstay_gear": shapes.along(at.stern, at.masthead, 0.075),
        "running_backs": shapes.along(at.quarter, at.hounds, 0.07),
        "quarter": at.quarter,
        "stern": (at.stern[0] + 1.5, at.stern[1] + 5),
        "masthead": at.masthead,
        "stem_head": at.stem,
        "stern_head": at.stern,
        "gooseneck": at.gooseneck,
        "boom_end": at.boom_end,
    }
