"""Trade sizes of wire in millimetres and inches, and which of them lie too near each other to be told by a guess.

In: a diameter in metres. Out: sizes as people say them. It knows no limit; what a near neighbour means for a
verdict is the caller's to say.
"""

from __future__ import annotations

from reporter.engineering import domain
from reporter.engineering.reference import lookup, table
from reporter.engineering.rows import WireSize

_ITSELF = 0.001
"""Two diameters this near, as a fraction, are one size written twice (6.35 mm is 1/4 in)."""


@lookup(WireSize)
def wire_sizes() -> tuple[WireSize, ...]:
    """Every size that wire is sold in, metric and inch; each has its `name` and its `diameter` in metres."""
    return table(WireSize)


@lookup(WireSize)
def near_neighbours(diameter: float, within: float) -> tuple[WireSize, ...]:
    """Other sizes whose diameter (metres) lies within that share of this one: 5/32 in beside 4 mm."""
    domain.positive(wire_diameter=diameter)
    domain.between(0, 1, share=within)
    apart = [(size, abs(size.diameter / diameter - 1)) for size in wire_sizes()]
    return tuple(size for size, share in apart if _ITSELF < share <= within)
