"""What a rig looks like on paper: hull, sails, mast, stays and fittings, from the side and from ahead.

Comes in: points on the page. Goes out: shapes. A part that is not listed is drawn dashed and without fill. Nothing here
knows a job or a grade.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from reporter.contract import XY, Ellipse, Path, Shape

from .steering_shapes import solid


def stay(start: XY, end: XY, *, dashed: bool = False, weight: str = "normal") -> Path:
    """A wire or rod."""
    return Path.model_validate({"points": (start, end), "weight": weight, "dashed": dashed})


def along(start: XY, end: XY, part: float) -> XY:
    """The point a share of the way from one to the other."""
    return (start[0] + (end[0] - start[0]) * part, start[1] + (end[1] - start[1]) * part)


def spar(start: XY, end: XY, width: float, *, dashed: bool) -> Path:
    """A mast, boom, spreader or sprit: a long box."""
    length = math.dist(start, end) or 1.0
    x, y = (-(end[1] - start[1]) / length * width / 2, (end[0] - start[0]) / length * width / 2)
    ends = ((start, 1.0), (end, 0.75), (end, -0.75), (start, -1.0))
    return solid([(at[0] + x * part, at[1] + y * part) for at, part in ends], dashed=dashed)


def screw(start: XY, end: XY, length: float, *, dashed: bool) -> Path:
    """A rigging screw as a thick piece of the stay, `length` points from its lower end."""
    share = min(length / (math.dist(start, end) or 1.0), 0.5)
    low, high = along(start, end, share * 0.25), along(start, end, share)
    return Path(points=(low, high), weight="normal" if dashed else "bold", dashed=dashed)


def drum(at: XY, towards: XY) -> tuple[Shape, ...]:
    """A furling drum at the foot of the forestay, and the foil beside the stay."""
    low, high, foot, swivel = (along(at, towards, share) for share in (0.035, 0.075, 0.09, 0.93))
    length = math.dist(at, towards) or 1.0
    across = (-(towards[1] - at[1]) / length * 2.4, (towards[0] - at[0]) / length * 2.4)
    foil = tuple((x + across[0] * 0.9, y + across[1] * 0.9) for x, y in (foot, swivel))
    return (
        spar(low, high, 7.5, dashed=False),
        Path(points=foil, weight="fine"),
        Ellipse(centre=swivel, radii=(2.2, 2.2), fill="white", weight="fine"),
    )


def sail(luff: Sequence[XY], bulge: float) -> Path:
    """A sail between head, tack and clew; its leech stands out by `bulge` points."""
    head, tack, clew = luff
    middle = along(head, clew, 0.45)
    length = math.dist(head, clew) or 1.0
    out = (-(clew[1] - head[1]) / length * -bulge, (clew[0] - head[0]) / length * -bulge)
    leech = [_curved(clew, (middle[0] + out[0], middle[1] + out[1]), head, step / 10) for step in range(11)]
    return Path(points=(head, tack, *leech), closed=True, stroke="none", fill="wash")


def _curved(start: XY, bend: XY, end: XY, t: float) -> XY:
    x = (1 - t) ** 2 * start[0] + 2 * t * (1 - t) * bend[0] + t**2 * end[0]
    y = (1 - t) ** 2 * start[1] + 2 * t * (1 - t) * bend[1] + t**2 * end[1]
    return (x, y)


def water(start: float, end: float, y: float) -> Path:
    """The waterline."""
    return Path(points=((start, y), (end, y)), weight="fine", stroke="second")
