"""Standing wire: calculated strand strength, elastic stretch, and tension by the folding rule or a gauge.

In: metres, newtons, pascals, ratios as fractions. Out: the same. A breaking load is a value with a source,
never a property of the diameter alone: the published ones stand in `tables/strand_strength.toml`, each with
its own.
"""

from __future__ import annotations

import math

from reporter.engineering import domain
from reporter.engineering.cite import MECHANICS
from reporter.engineering.declaration import Symbol, formula
from reporter.engineering.reference import lookup, table
from reporter.engineering.rows import FoldingRule, StrandStrength, StretchFactor
from reporter.model.citation import Citation
from reporter.model.terms import SourceStatus

_DIAMETER = Symbol("d", "wire diameter", "mm")
_BREAKING = Symbol("F", "breaking load", "kN")
_TENSION = Symbol("T", "tension", "kN")
_LENGTH = Symbol("L", "length of wire", "mm")
_MODULUS = Symbol("E", "modulus on the gross circle", "N/mm²")
_SAME_SIZE = 0.005
"""How near a diameter must lie to a published one, as a fraction, to be it.

1/4 in and 6.3 mm are two sizes.
"""


@formula(
    title="Calculated strand load of 1x19",
    text="F = k·19·π·(d / 10)²·R / 1000",
    symbols={
        "diameter": _DIAMETER,
        "grade": Symbol("R", "tensile grade of the wires", "N/mm²"),
        "stranding": Symbol("k", "stranding factor", "1"),
    },
    result=_BREAKING,
    source=Citation(title="trade page on wire strength", clause="r²·π·wires·1570 N/mm², times 0.88 for 1x19"),
)
def calculated_strength(diameter: float, grade: float = 1570e6, stranding: float = 0.88) -> float:
    """Breaking load in newtons of a 1x19 strand whose wires are a fifth of its diameter (metres, pascals)."""
    domain.positive(wire_diameter=diameter, tensile_grade=grade)
    domain.between(0, 1, stranding_factor=stranding)
    return stranding * 19 * math.pi * (diameter / 10) ** 2 * grade


@formula(
    title="Elastic stretch",
    text="Δ = 4000·T·L / (E·π·d²)",
    symbols={"tension": _TENSION, "length": _LENGTH, "modulus": _MODULUS, "diameter": _DIAMETER},
    result=Symbol("Δ", "elastic stretch", "mm"),
    source=Citation(title="trade table of cable stretch", clause="ΔL = W·L / (E·A), A the gross circle"),
)
def elastic_stretch(tension: float, length: float, modulus: float, diameter: float) -> float:
    """Stretch in metres; the modulus is that of the strand on its gross circle, never that of solid steel."""
    domain.not_negative(tension=tension)
    domain.positive(length=length, modulus=modulus, wire_diameter=diameter)
    return 4 * tension * length / (modulus * math.pi * diameter**2)


@formula(
    title="Tension by the folding rule",
    text="t = 0.05·Δ / (L·ε₅)",
    symbols={
        "growth": Symbol("Δ", "growth of the measured length", "mm"),
        "length": Symbol("L", "measured length", "mm"),
        "strain": Symbol("ε₅", "growth at 5 % of the breaking load, of the length", "%"),
    },
    result=Symbol("t", "tension, of the breaking load", "%"),
    source=Citation(title="trade page on the folding-rule method", clause="1x19: 1 mm over 2 m is 5 %"),
)
def tension_by_growth(growth: float, length: float, strain: float) -> float:
    """Tension as a fraction of the breaking load, whatever the diameter.

    `strain` is the construction's row.
    """
    domain.not_negative(growth=growth)
    domain.positive(measured_length=length, growth_at_five_per_cent=strain)
    return 0.05 * growth / (length * strain)


@formula(
    title="Tension share",
    text="t = T / F",
    symbols={"tension": _TENSION, "breaking": _BREAKING},
    result=Symbol("t", "tension, of the breaking load", "%"),
    source=MECHANICS,
)
def tension_share(tension: float, breaking: float) -> float:
    """Tension read on a gauge as a fraction of a breaking load that has a source."""
    domain.not_negative(tension=tension)
    domain.positive(breaking_load=breaking)
    return tension / breaking


@formula(
    title="Tension from its share",
    text="T = t·F",
    symbols={"share": Symbol("t", "tension, of the breaking load", "%"), "breaking": _BREAKING},
    result=_TENSION,
    source=MECHANICS,
)
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
    for row in table(FoldingRule):
        if row.construction == construction:
            _refuse_misprint(row.misprint)
            return row
    msg = f"no folding-rule figure for {construction}"
    raise ValueError(msg)


@lookup(StretchFactor)
def stretch_factor(construction: str, material: str) -> StretchFactor:
    """The row of that construction and material; its `gross_modulus` is in pascals.

    ValueError for a misprinted row.
    """
    for row in table(StretchFactor):
        if row.construction == construction and row.material == material:
            _refuse_misprint(row.misprint)
            return row
    msg = f"no stretch factor for {construction} in {material}"
    raise ValueError(msg)


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


def _refuse_misprint(misprint: str) -> None:
    if misprint:
        msg = f"the printed figure is a misprint and is not used: {misprint}"
        raise ValueError(msg)
