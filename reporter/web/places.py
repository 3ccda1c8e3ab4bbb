"""Free places on a picture that is shown narrow on a phone and wide on a desk, from one file without scripts.

Comes in: areas whose edges grow with the picture, and areas that keep their size. Goes out: the one of some candidates
that hides least at both widths. Pure geometry, y downwards.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field

from reporter.model.drawing import XY

FluidEdges = tuple[float, float, float, float]

NARROW = 288.0
"""Width (px) of a picture on a phone of 320 px, between margins of 16."""
WIDE = 736.0
"""Width (px) of the column on a desk."""
_EDGE = 2.0
_SOFT = 0.02


@dataclass(frozen=True, slots=True)
class FluidArea:
    """Left, upper, right and lower edge: each a fraction of the picture's width or height, and pixels from there."""

    part: FluidEdges
    fixed: FluidEdges = (0.0, 0.0, 0.0, 0.0)

    @classmethod
    def held(cls, at: XY, fixed: FluidEdges) -> FluidArea:
        """One that keeps its size, hung up at a place of the picture."""
        return cls((*at, *at), fixed)

    def on(self, size: XY) -> FluidEdges:
        """Its edges in pixels on a picture of that size."""
        across = (size[0], size[1], size[0], size[1])
        left, top, right, bottom = (
            part * whole + fixed for part, whole, fixed in zip(self.part, across, self.fixed, strict=True)
        )
        return left, top, right, bottom


@dataclass(slots=True)
class FluidPlaces:
    """What of a picture is taken; `ratio` is its height by its width."""

    ratio: float
    taken: list[FluidArea] = field(default_factory=list)
    unwelcome: list[FluidArea] = field(default_factory=list)

    def best(self, candidates: Iterable[FluidArea]) -> tuple[FluidArea, bool]:
        """The candidate that hides least, earlier ones first; and whether it hides something taken all the same."""
        found = min(((self._hidden(area), area) for area in candidates), key=lambda each: each[0])
        return found[1], found[0][0] > 0

    def _hidden(self, area: FluidArea) -> tuple[float, float]:
        hard = soft = 0.0
        for wide in (NARROW, WIDE):
            size = (wide, wide * self.ratio)
            edges = area.on(size)
            hard += _outside(edges, size) + sum(_common(edges, other.on(size)) for other in self.taken)
            soft += sum(_common(edges, other.on(size)) for other in self.unwelcome)
        return round(hard, 3), round(soft * _SOFT)


def _outside(edges: FluidEdges, size: XY) -> float:
    left, top, right, bottom = edges
    inner = (_EDGE, _EDGE, size[0] - _EDGE, size[1] - _EDGE)
    return (right - left) * (bottom - top) - _common(edges, inner)


def _common(one: FluidEdges, other: FluidEdges) -> float:
    """The area that both cover."""
    across = min(one[2], other[2]) - max(one[0], other[0])
    down = min(one[3], other[3]) - max(one[1], other[1])
    return across * down if across > 0 and down > 0 else 0.0
