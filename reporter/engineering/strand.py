"""Standing wire: strand strength never above a published row, elastic stretch, and tension by the folding rule or a gauge.

In: metres, newtons, pascals, ratios as fractions. Out: the same. A breaking load is a value with a source,
never a property of the diameter alone: the published ones stand in `tables/strand_strength.toml`, each with
its own.
"""

from __future__ import annotations

import itertools
import math

from reporter.engineering import domain
from reporter.engineering.declaration import formula, work
from reporter.engineering.reference import lookup, row_with, table
from reporter.engineering.rows import FoldingRule, StrandStrength, StretchFactor
from reporter.engineering.units import to_base
from reporter.model.assessment import Working
from reporter.model.quantity import Value
from reporter.model.terms import SourceStatus

_SAME_SIZE = 0.005
"""How near a diameter must lie to a published one, as a fraction, to be it.

1/4 in and 6.3 mm are two sizes.
"""


@formula
def strength_between(
    diameter: float, smaller: float, smaller_strength: float, larger: float, larger_strength: float
) -> float:
    """Breaking load in newtons on the straight line over the square of the diameter.

    Published loads fall behind the square as wire gets thicker, so that this line lies below their curve.
    """
    domain.positive(smaller_diameter=smaller, smaller_strength=smaller_strength)
    domain.between(smaller, larger, wire_diameter=diameter)
    domain.at_least(smaller_strength, larger_strength=larger_strength)
    part = (diameter**2 - smaller**2) / (larger**2 - smaller**2)
    return smaller_strength + (larger_strength - smaller_strength) * part


@formula
def strength_beyond(diameter: float, factor: float) -> float:
    """Breaking load in newtons from the least that any published row gives for the square of its diameter."""
    domain.positive(wire_diameter=diameter, factor=factor)
    return factor * diameter**2


@formula
def elastic_stretch(tension: float, length: float, modulus: float, diameter: float) -> float:
    """Stretch in metres; the modulus is that of the strand on its gross circle, never that of solid steel."""
    domain.not_negative(tension=tension)
    domain.positive(length=length, modulus=modulus, wire_diameter=diameter)
    return 4 * tension * length / (modulus * math.pi * diameter**2)


@formula
def tension_by_growth(growth: float, length: float, strain: float) -> float:
    """Tension as a fraction of the breaking load, whatever the diameter.

    `strain` is the construction's row.
    """
    domain.not_negative(growth=growth)
    domain.positive(measured_length=length, growth_at_five_per_cent=strain)
    return 0.05 * growth / (length * strain)


@formula
def tension_share(tension: float, breaking: float) -> float:
    """Tension read on a gauge as a fraction of a breaking load that has a source."""
    domain.not_negative(tension=tension)
    domain.positive(breaking_load=breaking)
    return tension / breaking


@formula
def tension_of_share(share: float, breaking: float) -> float:
    """Tension in newtons for a share of the breaking load."""
    domain.between(0, 1, share=share)
    domain.positive(breaking_load=breaking)
    return share * breaking


@lookup(FoldingRule)
def folding_rule(construction: str) -> FoldingRule:
    """The row of that construction.

    ValueError where there is none or where the print is a known misprint (rod).
    """
    row = row_with(FoldingRule, f"no folding-rule figure for {construction}", construction=construction)
    _refuse_misprint(row.misprint)
    return row


@lookup(StretchFactor)
def stretch_factor(construction: str, material: str) -> StretchFactor:
    """The row of that construction and material; its `gross_modulus` is in pascals.

    ValueError for a misprinted row.
    """
    refusal = f"no stretch factor for {construction} in {material}"
    row = row_with(StretchFactor, refusal, construction=construction, material=material)
    _refuse_misprint(row.misprint)
    return row


@lookup(StrandStrength)
def published_strengths(
    construction: str, diameter: float, *, unverified: bool = False
) -> tuple[StrandStrength, ...]:
    """Every published breaking load for a diameter in metres; figures known from memory only on request."""
    domain.positive(wire_diameter=diameter)
    return tuple(
        row
        for row in table(StrandStrength)
        if row.construction == construction
        and abs(diameter * 1000 / row.diameter_mm - 1) <= _SAME_SIZE
        and (unverified or row.status is not SourceStatus.MEMORY)
    )


@lookup(StrandStrength)
def strength_ladder() -> tuple[tuple[float, float], ...]:
    """Diameter in metres and lowest published breaking load in newtons of every size of 1x19 in 316, ascending.

    Figures known from memory are left out.
    """
    read = [
        row
        for row in table(StrandStrength)
        if row.construction == "1x19" and row.status is not SourceStatus.MEMORY
    ]
    lowest: dict[float, float] = {}
    for size in {row.diameter_mm for row in read if row.material == "316"}:
        # A print that names no material may be of 316: at the same size it can only pull the figure down.
        same = [row for row in read if row.diameter_mm == size and row.material in {"316", "unstated"}]
        lowest[size / 1000] = min(to_base(row.strength, row.unit) for row in same)
    return tuple(sorted(lowest.items()))


@lookup(StrandStrength)
def reckoned_strength(diameter: Value) -> tuple[Value, Working]:
    """Breaking load of 1x19 in stainless steel where no row has its size, with its sum; never above a row.

    Between two published sizes by a line through both, outside them by the least factor of all. 302 and 304 are
    stronger than 316 and have too few rows for a line of their own: they are taken as 316.
    """
    ladder = strength_ladder()
    for (smaller, weak), (larger, strong) in itertools.pairwise(ladder):
        if smaller <= diameter.value <= larger:
            between = {
                "smaller": smaller,
                "smaller_strength": weak,
                "larger": larger,
                "larger_strength": strong,
            }
            return work(strength_between, {"diameter": diameter, **between})
    factor = min(force / size**2 for size, force in ladder)
    return work(strength_beyond, {"diameter": diameter, "factor": factor})


def _refuse_misprint(misprint: str) -> None:
    if misprint:
        msg = f"the printed figure is a misprint and is not used: {misprint}"
        raise ValueError(msg)
