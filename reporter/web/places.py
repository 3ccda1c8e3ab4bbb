"""Free places on a picture that is shown narrow on a phone and wide on a desk, from one file without scripts.

Comes in: areas whose edges grow with the picture, and areas that keep their size. Goes out: the one of some candidates
that hides least at both widths. Pure geometry, y downwards.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field

from reporter.model.drawing import XY
from reporter.typeset.places import Area

NARROW = 288.0
"""Width (px) of a picture on a phone of 320 px, between margins of 16."""
WIDE = 736.0
"""Width (px) of the column on a desk."""
_EDGE = 2.0
_SOFT = 0.02
_NOTHING = Area(0, 0, 0, 0)


@dataclass(frozen=True, slots=True)
class FluidArea:
    """An area each of whose edges is a fraction of the picture's width or height, and so many pixels from there."""

    part: Area
    fixed: Area = _NOTHING

    @classmethod
    def held(cls, at: XY, fixed: Area) -> FluidArea:
        """One that keeps its size, hung up at a place of the picture."""
        return cls(Area.round(at, 0), fixed)

    def on(self, size: XY) -> Area:
        """The area in pixels on a picture of that size."""
        (wide, high), part, fixed = size, self.part, self.fixed
        return Area(
            part.left * wide + fixed.left,
            part.top * high + fixed.top,
            part.right * wide + fixed.right,
            part.bottom * high + fixed.bottom,
        )


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
        # One file is shown at any width: what is free at the narrowest and at the widest is taken for free between them.
        hard = soft = 0.0
        for wide in (NARROW, WIDE):
            size = (wide, wide * self.ratio)
            shown = area.on(size)
            inside = shown.overlap(Area(0, 0, *size).grown(-_EDGE))
            hard += shown.size - inside + sum(shown.overlap(other.on(size)) for other in self.taken)
            soft += sum(shown.overlap(other.on(size)) for other in self.unwelcome)
        return round(hard, 3), round(soft * _SOFT)
