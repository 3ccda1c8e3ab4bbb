"""What ground tackle looks like on paper, seen from the side with the bow to the left; and where its labels stand.

Comes in: whether a part is there. Goes out: shapes in points. A part that is not listed is drawn dashed and without
fill. Nothing here knows a job or a grade.
"""

from __future__ import annotations

import itertools
import math

from reporter.contract import XY, Arc, Ellipse, Path, Room, Shape

from .steering_shapes import polar, ring, solid, steps_along
from .symbols import symbol

SEA, GROUND = 104.0, 196.0
ROLLER: XY = (292.0, 58.0)
TOUCH: XY = (152.0, GROUND - 3)
"""Where the rode comes down to the ground."""
ANCHOR: XY = (46.0, GROUND - 3)
SHACKLE: XY = (106.0, GROUND - 3)
SWIVEL: XY = (122.0, GROUND - 3)
ROPE_FROM = 0.5
"""The share of the hanging part, from the ground up, at which the rope is spliced to the chain."""
WINDLASS: XY = (358.0, 48.0)
LOCKER: XY = (372.0, 110.0)
END: XY = (410.0, 84.0)
ROLLER_NAME: XY = (280.0, 50.0)
LINK = 5.2


def sea_and_ground(width: float) -> tuple[Shape, ...]:
    """The water's surface up to the stem, and the ground."""
    strokes = [
        Path(points=((x, GROUND + 4), (x - 6, GROUND + 9)), weight="fine", stroke="rule")
        for x in range(16, int(width), 14)
    ]
    return (
        Path(points=((6, SEA), (313, SEA)), weight="fine", stroke="rule"),
        Path(points=((6, GROUND + 4), (width - 6, GROUND + 4)), weight="fine", stroke="second"),
        *strokes,
    )


def bow() -> tuple[Shape, ...]:
    """Stem, deck and a piece of the hull, the locker inside, and the roller with its cheeks."""
    stem = [
        (300 + 16 * share + 60 * share**4, 60 + 92 * share**0.9)
        for share in (step / 20 for step in range(21))
    ]
    hull = ((476, 62), *stem, (400, 156.5), (430, 159), (476, 160))
    return (Path(points=hull, weight="bold"), *symbol("bow_fittings", ROLLER))


def _hanging() -> list[XY]:
    """From the ground up to the roller: flat below, steep above, like a rode that hangs."""
    (x, y), (to_x, to_y) = TOUCH, (ROLLER[0] - 2, ROLLER[1] - 3)
    sag = 2.2
    points = []
    for step in range(41):
        share = step / 40
        rise = (math.cosh(sag * share) - 1) / (math.cosh(sag) - 1)
        points.append((x + (to_x - x) * share, y + (to_y - y) * rise))
    return points


def on_rode(share: float) -> XY:
    """The point at a share of the hanging part, from the ground up."""
    points = _hanging()
    return points[round(share * (len(points) - 1))]


def rode(*, dashed_chain: bool, roped: bool, dashed_rope: bool) -> tuple[Shape, ...]:
    """Chain from the anchor on, and rope up to the roller where there is some."""
    hanging = _hanging()
    cut = round(ROPE_FROM * (len(hanging) - 1)) if roped else len(hanging) - 1
    chained = [(SHACKLE[0] + 4, TOUCH[1]), *hanging[: cut + 1]]
    rope = hanging[cut:]
    drawn = [*chain(chained, dashed=dashed_chain)]
    if roped:
        drawn += [
            Path(points=tuple((px, py - 1.2) for px, py in rope), weight="fine", dashed=dashed_rope),
            Path(points=tuple((px + 0.8, py + 1.2) for px, py in rope), weight="fine", dashed=dashed_rope),
            Ellipse(centre=rope[0], radii=(3.2, 2.2), fill="white"),
        ]
    return tuple(drawn)


def label_places(width: float) -> dict[str, tuple[XY, tuple[Room, ...]]]:
    """By kind: what its label points at, and where it may stand."""
    over_ground = (6.0, SEA + 8, 250.0, GROUND - 24)
    return {
        "anchor": ((ANCHOR[0] - 2, ANCHOR[1] - 15), ((6.0, SEA + 8, 110.0, GROUND - 24), over_ground)),
        "shackle": ((SHACKLE[0], SHACKLE[1] - 5), (over_ground,)),
        "swivel": ((SWIVEL[0] + 2, SWIVEL[1] - 4), (over_ground,)),
        "anchor_chain": (on_rode(0.42), ((236.0, SEA + 24, width - 4, GROUND - 4), over_ground)),
        "rode": (on_rode(0.78), ((110.0, 20.0, 280.0, SEA), over_ground)),
        "windlass": ((WINDLASS[0], WINDLASS[1] - 8.5), ((WINDLASS[0] - 90, 4.0, width - 4, 38.0),)),
        "bitter_end": (END, ((429.0, 66.0, width - 2, 150.0), (WINDLASS[0] + 12, 4.0, width - 4, 56.0))),
    }


def chain(line: list[XY], *, dashed: bool) -> tuple[Shape, ...]:
    """Links along a line, every other one seen on edge."""
    if dashed:
        return (Path(points=tuple(line), dashed=True),)
    drawn: list[Shape] = []
    for place, (start, end) in enumerate(itertools.pairwise(steps_along(line, LINK))):
        drawn.append(_link(start, end) if place % 2 == 0 else Path(points=(start, end), weight="bold"))
    return tuple(drawn)


def _link(start: XY, end: XY) -> Path:
    """One link seen flat, as a long hexagon a little longer than its step."""
    along = math.atan2(end[1] - start[1], end[0] - start[0])
    middle = ((start[0] + end[0]) / 2, (start[1] + end[1]) / 2)
    half = LINK * 0.72
    hexagon = ((0, 1), (1, 0.6), (1, -0.6), (0, -1), (-1, -0.6), (-1, 0.6))
    sine, cosine = math.sin(along), math.cos(along)
    corners = tuple(
        (middle[0] + x * half * cosine - y * 1.7 * sine, middle[1] + x * half * sine + y * 1.7 * cosine)
        for y, x in hexagon
    )
    return Path(points=corners, closed=True, weight="fine", fill="white")


def inboard(*, dashed: bool) -> tuple[Shape, ...]:
    """From the roller over the deck to the windlass, down into the locker, and up to the bitter end."""
    x, y = WINDLASS
    on_deck = [(ROLLER[0] + 2, ROLLER[1] - 4), (x - 6, y - 2)]
    heap = [
        Arc(centre=(LOCKER[0] + 18 + dx, 124 - dy), radius=r, start=180, sweep=180, weight="fine")
        for dx, dy, r in ((0, 0, 12), (10, 0, 10), (4, 5, 8))
    ]
    down = [(x + 6, y + 2), (x + 22, 62), (LOCKER[0] + 16, 112)]
    up = [(LOCKER[0] + 24, 116), (LOCKER[0] + 32, 98), END]
    drawn = [
        *chain(on_deck, dashed=dashed),
        Path(points=tuple(down), weight="fine", dashed=True),
        Path(points=tuple(up), weight="fine", dashed=dashed),
    ]
    return tuple(drawn) if dashed else (*drawn, *heap)


def windlass(*, dashed: bool) -> tuple[Shape, ...]:
    """Gypsy on its foot."""
    x, y = WINDLASS
    foot = ((x - 9, 62), (x - 7, y + 5), (x + 7, y + 5), (x + 9, 62))
    teeth = tuple(
        Path(points=(polar((x, y), 5.5, at), polar((x, y), 8.0, at)), weight="fine", dashed=dashed)
        for at in range(0, 360, 45)
    )
    return (
        solid(foot, "wash", dashed=dashed),
        ring((x, y), 8.0, fill="white", dashed=dashed),
        *teeth,
        ring((x, y), 2.0, weight="fine", fill="ink", dashed=dashed),
    )


def piece(kind: str, at: XY, length: float, *, dashed: bool) -> tuple[Shape, ...]:
    """One part of a rode that is drawn straight, and the line on to the next."""
    x, y = at
    if kind == "anchor_chain":
        return chain([(x, y), (x + length - 4, y)], dashed=dashed)
    if kind == "rode":
        return tuple(
            Path(points=((x, y + way), (x + length - 8, y + way)), weight="fine", dashed=dashed)
            for way in (-1.2, 1.2)
        )
    place, size = ((x + 8, y + 2), 0.3) if kind == "anchor" else ((x + 4, y), 1.0)
    drawn = symbol(kind if kind in {"anchor", "swivel"} else "shackle", place, size, dashed=dashed)
    return (Path(points=((x + 10, y), (x + length - 4, y)), weight="fine", stroke="second"), *drawn)


def fitting(kind: str, *, dashed: bool) -> tuple[Shape, ...]:
    """A fitting at its own place."""
    return windlass(dashed=dashed) if kind == "windlass" else symbol(kind, PLACES[kind], dashed=dashed)


PLACES = {"anchor": ANCHOR, "shackle": SHACKLE, "swivel": SWIVEL, "windlass": WINDLASS, "bitter_end": END}
"""Where each kind of fitting has its own place."""
