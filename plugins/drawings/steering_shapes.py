"""What each part of a steering gear looks like on paper, seen from above.

Comes in: where a part stands and how large it is drawn, in points. Goes out: shapes. A part that is not listed is
drawn dashed and without fill. Nothing here knows a job or a grade.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Sequence

from reporter.contract import XY, Arc, Ellipse, Path, Shape

from .symbols import symbol

BEAD = 3.1
RIM = (125.0, 110.0)
"""Where the quadrant's rim begins and how far it runs, in degrees clockwise on the page: it faces forward."""


def polar(centre: XY, radius: float, degrees: float) -> XY:
    """The point at an angle clockwise on the page from the +x axis."""
    turn = math.radians(degrees)
    return (centre[0] + radius * math.cos(turn), centre[1] + radius * math.sin(turn))


def ring(
    centre: XY, radius: float, *, weight: str = "normal", fill: str = "none", dashed: bool = False
) -> Ellipse:
    """A circle."""
    look = {"weight": weight, "fill": "none" if dashed else fill, "dashed": dashed}
    return Ellipse.model_validate({"centre": centre, "radii": (radius, radius), **look})


def solid(points: Sequence[XY], fill: str = "white", *, dashed: bool = False) -> Path:
    """A closed outline; empty where it is dashed."""
    look = {"fill": "none" if dashed else fill, "dashed": dashed}
    return Path.model_validate({"points": points, "closed": True, **look})


def wheel(centre: XY, radius: float, shaft_from: float, *, dashed: bool) -> tuple[Shape, ...]:
    """The wheel on edge, as it is seen from above: rim, the handles beyond it, hub, and the shaft forward of it."""
    x, y = centre
    handles = tuple(
        Path(points=((x, y + way * radius), (x, y + way * radius * 1.13)), weight="bold", dashed=dashed)
        for way in (-1, 1)
    )
    shaft = Path(points=((shaft_from, y), (x, y)), weight="bold", dashed=dashed)
    rim, hub = (_box(centre, half, dashed=dashed) for half in ((2.6, radius), (4.6, 6.0)))
    return (shaft, *handles, rim, hub)


def _box(centre: XY, half: XY, *, dashed: bool) -> Path:
    (x, y), (wide, high) = centre, half
    corners = ((x - wide, y - high), (x + wide, y - high), (x + wide, y + high), (x - wide, y + high))
    return solid(corners, dashed=dashed)


def chain(centre: XY, radius: float, *, dashed: bool) -> tuple[Shape, ...]:
    """The chain over the sprocket, both on edge; at its ends it goes down to the wires."""
    x, y = centre
    line = [(x, y - radius), (x, y + radius)]
    over: tuple[Shape, ...] = (Path(points=tuple(line), weight="fine", dashed=dashed),)
    if not dashed:
        over += tuple(ring(point, 1.15, weight="fine", fill="ink") for point in steps_along(line, BEAD))
    ends = tuple(ring(end, 2.2, fill="white", dashed=dashed) for end in line)
    return (_box(centre, (2.8, radius - 2), dashed=dashed), *over, *ends)


def steps_along(line: Sequence[XY], step: float) -> list[XY]:
    """Points a step apart along a line of straight segments."""
    found, left = [], 0.0
    for (x, y), (to_x, to_y) in itertools.pairwise(line):
        length = math.hypot(to_x - x, to_y - y)
        while left <= length:
            found.append((x + (to_x - x) * left / length, y + (to_y - y) * left / length))
            left += step
        left -= length
    return found


def sheave(centre: XY, radius: float, *, dashed: bool) -> tuple[Shape, ...]:
    """A sheave with its pin."""
    return (
        ring(centre, radius, fill="wash", dashed=dashed),
        ring(centre, max(radius * 0.22, 0.9), fill="ink", dashed=dashed),
    )


def quadrant(centre: XY, radius: float, *, dashed: bool) -> tuple[Shape, ...]:
    """Two arms, the rim with its two grooves, and the stops beside the rim's ends."""
    start, sweep = RIM
    arms = tuple(
        Path.model_validate(
            {"points": (polar(centre, 9, at), polar(centre, radius, at)), "weight": weight, "dashed": dashed}
        )
        for at, weight in ((start, "bold"), (start + sweep / 2, "normal"), (start + sweep, "bold"))
    )
    rims = tuple(
        Arc(centre=centre, radius=radius - inset, start=start, sweep=sweep, weight="normal", dashed=dashed)
        for inset in (0, 5)
    )
    return (*arms, *rims)


def stops(centre: XY, radius: float, *, dashed: bool) -> tuple[Shape, ...]:
    """A block behind each end of the rim, with the gap that the rudder's travel leaves."""
    shapes = []
    for at, way in ((RIM[0], -1), (sum(RIM), 1)):
        inner, outer = (polar(centre, radius * part, at + way * 15) for part in (0.82, 1.0))
        back_in, back_out = (polar(centre, radius * part, at + way * 22) for part in (0.82, 1.0))
        shapes.append(solid((inner, outer, back_out, back_in), "ink", dashed=dashed))
    return tuple(shapes)


def blade(centre: XY, length: float, *, dashed: bool) -> tuple[Shape, ...]:
    """The blade's section, its nose before the stock and its tail aft."""
    nose = centre[0] - length * 0.14
    half = [
        (nose + length * x, 0.11 * length * _thickness(x))
        for x in (0, 0.01, 0.03, 0.08, 0.16, 0.3, 0.45, 0.62, 0.8, 1)
    ]
    upper = [(x, centre[1] - y) for x, y in half]
    lower = [(x, centre[1] + y) for x, y in reversed(half)]
    return (solid((*upper, *lower), "wash", dashed=dashed),)


def _thickness(x: float) -> float:
    """Half thickness of a symmetric section along its chord, 1 at the thickest."""
    return float((0.2969 * math.sqrt(x) - 0.126 * x - 0.3516 * x**2 + 0.2843 * x**3 - 0.1036 * x**4) / 0.1)


def ram(pin: XY, foot: XY) -> tuple[Shape, ...]:
    """The pilot's ram from its pin on the arm to its bracket."""
    length = math.dist(pin, foot)
    along = ((foot[0] - pin[0]) / length, (foot[1] - pin[1]) / length)
    x, y = (-along[1] * 4.2, along[0] * 4.2)
    neck = (pin[0] + along[0] * length * 0.42, pin[1] + along[1] * length * 0.42)
    body = [(at[0] + way * x, at[1] + way * y) for at, way in ((neck, 1), (foot, 1), (foot, -1), (neck, -1))]
    bracket = (foot[0] - 9, foot[1] + 5), (foot[0] + 9, foot[1] + 5)
    return (
        Path(points=(pin, neck), weight="bold"),
        solid(body, "wash"),
        ring(pin, 1.8, fill="white"),
        Path(points=bracket, weight="bold"),
    )


def tiller(head: XY, tip: XY, *, dashed: bool) -> tuple[Shape, ...]:
    """The emergency tiller as it is stowed: a bar with a square head."""
    x, y = head
    bar = ((x + 5, y - 2.4), (tip[0], tip[1] - 1.2), (tip[0], tip[1] + 1.2), (x + 5, y + 2.4))
    return (
        *symbol("tiller_head", head, dashed=dashed),
        solid(bar, "wash", dashed=dashed),
        ring(head, 2.2, weight="fine", dashed=dashed),
    )


def tiller_arm(centre: XY, tip: float) -> tuple[Shape, ...]:
    """The tiller of a boat that is steered without a wheel, forward from the stock."""
    x, y = centre
    return (solid(((x, y - 3.5), (tip, y - 1.8), (tip, y + 1.8), (x, y + 3.5)), "wash"),)


def over_sheaves(start: XY, sheaves: Sequence[XY], radius: float, side: int) -> list[XY]:
    """The wire from `start` round the outside of every sheave; `side` is -1 for the upper run, 1 for the lower one."""
    first = sheaves[0]
    distance = math.dist(start, first)
    bearing = math.degrees(math.atan2(start[1] - first[1], start[0] - first[0]))
    touch = bearing - side * math.degrees(math.acos(min(1.0, radius / distance)))
    points = [start, *_round(first, radius, touch, side * 90.0)]
    points += [(x, y + side * radius) for x, y in sheaves[1:]]
    return points


def to_rim(sheave_at: XY, radius: float, centre: XY, rim: float, side: int) -> list[XY]:
    """From the top of the last sheave round it, across to the rim and along its groove to the attachment."""
    distance = math.dist(sheave_at, centre)
    bearing = math.degrees(math.atan2(centre[1] - sheave_at[1], centre[0] - sheave_at[0]))
    lean = math.degrees(math.acos(min(1.0, (radius + rim) / distance)))
    off = bearing + side * lean
    on = off + 180
    return [*_round(sheave_at, radius, side * 90.0, off), *_round(centre, rim, on, 180 - side * 34)]


def _round(centre: XY, radius: float, start: float, end: float) -> list[XY]:
    """Points along the shorter arc from one angle to the other."""
    turn = (end - start + 180) % 360 - 180
    steps = max(2, round(abs(turn) / 6))
    return [polar(centre, radius, start + turn * step / steps) for step in range(steps + 1)]
