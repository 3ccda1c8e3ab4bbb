"""Wire rope.

Breaking force, diameter loss, bending, ends, the lengths that broken wires are counted over, and the trade sizes, of which
some lie too near each other to be told by a guess.

In: metres, newtons, pascals, ratios as fractions. Out: the same. Published figures come from `tables/`; which
of them applies to a part is the caller's to say, and no figure is read beyond or between published sizes.
"""

from __future__ import annotations

import itertools
import math

from reporter.engineering import domain
from reporter.engineering.constants import INCH, POUND_FORCE
from reporter.engineering.declaration import formula
from reporter.engineering.reference import lookup, row_with, table
from reporter.engineering.rows import BendingStrength, CableStrength, EndEfficiency, RopeFactor, WireSize

_SAME_SIZE = 0.02
"""A diameter that differs from a published size by no more than this part of it is taken for that size; *common practice*."""


@formula
def minimum_breaking_force(diameter: float, grade: float, factor: float) -> float:
    """Breaking force in newtons of a wire rope; diameter in metres, grade in pascals."""
    domain.positive(wire_diameter=diameter, tensile_grade=grade, strength_factor=factor)
    return diameter**2 * grade * factor


@formula
def with_end(breaking: float, kept: float) -> float:
    """Breaking force in newtons of a wire with its end termination."""
    domain.positive(breaking_force=breaking)
    domain.between(0, 1, share_kept=kept)
    return breaking * kept


@formula
def load_allowed(breaking: float, share: float) -> float:
    """Part of a breaking force that may be used, in newtons."""
    domain.positive(breaking_force=breaking)
    domain.between(0, 1, share=share)
    return breaking * share


@formula
def loss_of_nominal(nominal: float, measured: float) -> float:
    """Diameter lost as a fraction of the nominal diameter; negative while a wire is still over nominal."""
    domain.positive(nominal_diameter=nominal, measured_diameter=measured)
    return (nominal - measured) / nominal


@formula
def loss_of_baseline(baseline: float, measured: float) -> float:
    """Diameter lost as a fraction of the wire's own diameter when new."""
    domain.positive(baseline_diameter=baseline, measured_diameter=measured)
    return (baseline - measured) / baseline


@formula
def counting_length(diameter: float, multiple: float) -> float:
    """Reference length in metres of so many wire diameters (6, 8 and 30 are in use)."""
    domain.positive(wire_diameter=diameter, number_of_diameters=multiple)
    return multiple * diameter


@formula
def clips(diameter: float) -> float:
    """How many U-bolt clips an end needs; `diameter` in metres, the rule itself in inches."""
    domain.positive(rope_diameter=diameter)
    # The tiny allowance keeps 1 in, which is 0.0254 m only up to rounding, from asking for a fifth clip.
    return float(math.ceil(3 * diameter / INCH + 1 - 1e-9))


@lookup(BendingStrength)
def bending_strength(ratio: float) -> float:
    """Share of its strength that a wire keeps over a sheave of D/d = `ratio`, between published points.

    ValueError beyond the published points (1 to 40).
    """
    points = sorted((row.ratio, row.kept) for row in table(BendingStrength))
    # Straight lines between published points; beyond them nobody has published anything.
    for (low, kept_low), (high, kept_high) in itertools.pairwise(points):
        if low <= ratio <= high:
            return kept_low + (ratio - low) / (high - low) * (kept_high - kept_low)
    msg = f"the bending table runs from D/d {points[0][0]:g} to {points[-1][0]:g}; {ratio:g} lies outside it"
    raise ValueError(msg)


@lookup(CableStrength)
def control_cable(diameter: float, construction: str) -> CableStrength:
    """The row for a diameter in metres.

    ValueError for a size or construction that the table does not print.
    """
    domain.positive(wire_diameter=diameter)
    for row in table(CableStrength):
        if row.construction == construction and abs(diameter / INCH / row.diameter_in - 1) <= _SAME_SIZE:
            return row
    printed = ", ".join(f"{row.diameter} in {row.construction}" for row in table(CableStrength))
    msg = f"the table prints no {construction} of {diameter * 1000:g} mm; it has {printed}"
    raise ValueError(msg)


@lookup(CableStrength)
def control_cable_strength(diameter: float, construction: str, *, stainless: bool) -> float:
    """Minimum breaking strength in newtons from the same table."""
    row = control_cable(diameter, construction)
    return (row.stainless_lbf if stainless else row.carbon_lbf) * POUND_FORCE


@lookup(RopeFactor)
def rope_factor(name: str, core: str = "") -> RopeFactor:
    """Factors of a rope: a yacht's name for it (7x19), or a class (6x36) with its core (FC, IWRC, WSC)."""
    for row in table(RopeFactor):
        if (not core and row.yacht_name == name) or (row.rope_class == name and row.core == core):
            return row
    msg = f"no factors for {name} {core}".rstrip()
    raise ValueError(msg)


@lookup(EndEfficiency)
def end_efficiency(ident: str) -> EndEfficiency:
    """The row of an end: swaged, sleeve or clips. ValueError for another."""
    return row_with(EndEfficiency, f"no efficiency published for an end called {ident}", id=ident)


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
