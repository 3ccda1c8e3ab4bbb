"""Rig loads and the strength of chainplates, pins and holes: sizing checks on request, never graded.

In: newtons, newton metres, metres, pascals. Out: newtons, pascals, ratios. Strengths hold for the undamaged
part, and a righting moment that is estimated makes everything after it an estimate.
"""

from __future__ import annotations

import math

from reporter.engineering import domain
from reporter.engineering.cite import MECHANICS, SECOND_HAND_PAGE
from reporter.engineering.declaration import Symbol, formula
from reporter.engineering.reference import lookup, table
from reporter.engineering.rows import StressFactor
from reporter.model.citation import Citation
from reporter.model.terms import SourceStatus

_THICKNESS = Symbol("t", "plate thickness", "mm")
_HOLE = Symbol("d_h", "hole diameter", "mm")
_PIN = Symbol("d", "pin diameter", "mm")
_LOAD = Symbol("F", "load", "N")


@formula(
    title="Transverse rig load",
    text="P = 1000·k·RM / (b / 2)",
    symbols={
        "righting_moment": Symbol("RM", "righting moment at 30° of heel", "N·m"),
        "beam": Symbol("b", "beam at the chainplates", "mm"),
        "factor": Symbol("k", "factor on the righting moment", "1"),
    },
    result=Symbol("P", "transverse load of all shrouds of one side", "N"),
    source=SECOND_HAND_PAGE,
)
def transverse_load(righting_moment: float, beam: float, factor: float = 1.5) -> float:
    """Load in newtons on the shrouds of one side, from the righting moment at 30 degrees."""
    domain.positive(righting_moment=righting_moment, beam_at_the_chainplates=beam, factor=factor)
    return factor * righting_moment / (beam / 2)


@formula(
    title="Wire strength asked for",
    text="F_w = P·s·n",
    symbols={
        "transverse": Symbol("P", "transverse load", "N"),
        "share": Symbol("s", "share of this wire", "%"),
        "safety": Symbol("n", "factor of safety", "1"),
    },
    result=Symbol("F_w", "breaking load asked for", "N"),
    source=SECOND_HAND_PAGE,
)
def wire_asked_for(transverse: float, share: float, safety: float) -> float:
    """Breaking load in newtons of one shroud: 45 % upper and 32.5 % each lower with double lowers."""
    domain.positive(transverse_load=transverse, factor_of_safety=safety)
    domain.between(0, 1, share=share)
    return transverse * share * safety


@formula(
    title="Net section at the hole",
    text="A = t·(w − d_h)",
    symbols={"thickness": _THICKNESS, "width": Symbol("w", "plate width", "mm"), "hole": _HOLE},
    result=Symbol("A", "net section", "mm²"),
    source=Citation(title="trade page on chainplates", clause="net section"),
)
def net_section(thickness: float, width: float, hole: float) -> float:
    """Section in square metres that is left beside the pin hole."""
    domain.positive(plate_thickness=thickness, plate_width=width, hole_diameter=hole)
    if hole >= width:
        msg = "the hole is as wide as the plate"
        raise ValueError(msg)
    return thickness * (width - hole)


@formula(
    title="Strength of a section",
    text="F = A·σ",
    symbols={
        "section": Symbol("A", "section", "mm²"),
        "strength": Symbol("σ", "strength of the material", "N/mm²"),
    },
    result=Symbol("F", "strength", "N"),
    source=MECHANICS,
)
def section_strength(section: float, strength: float) -> float:
    """Load in newtons that a section carries at a stress: yield or ultimate, as put in."""
    domain.positive(section=section, strength_of_the_material=strength)
    return section * strength


@formula(
    title="Pin in double shear",
    text="F = 2·(π·d² / 4)·τ",
    symbols={"pin": _PIN, "shear": Symbol("τ", "shear strength", "N/mm²")},
    result=Symbol("F", "strength of the pin", "N"),
    source=MECHANICS,
)
def pin_double_shear(pin: float, shear: float) -> float:
    """Load in newtons that a pin carries in double shear; bending in a wide fork comes on top."""
    domain.positive(pin_diameter=pin, shear_strength=shear)
    return 2 * math.pi * pin**2 / 4 * shear


@formula(
    title="Bearing pressure of the pin",
    text="p = F / (d·t)",
    symbols={"load": _LOAD, "pin": _PIN, "thickness": _THICKNESS},
    result=Symbol("p", "bearing pressure", "N/mm²"),
    source=MECHANICS,
)
def pin_bearing(load: float, pin: float, thickness: float) -> float:
    """Pressure in pascals of a pin on the side of its hole."""
    domain.not_negative(load=load)
    domain.positive(pin_diameter=pin, plate_thickness=thickness)
    return load / (pin * thickness)


@formula(
    title="Tear-out of the hole",
    text="F = 2·t·(e − d_h / 2)·τ",
    symbols={
        "thickness": _THICKNESS,
        "edge": Symbol("e", "centre of the hole to the edge", "mm"),
        "hole": _HOLE,
        "shear": Symbol("τ", "shear strength", "N/mm²"),
    },
    result=Symbol("F", "strength against tear-out", "N"),
    source=MECHANICS,
)
def tear_out(thickness: float, edge: float, hole: float, shear: float) -> float:
    """Load in newtons at which the pin shears its way out of the plate's end."""
    domain.positive(
        plate_thickness=thickness, distance_to_the_edge=edge, hole_diameter=hole, shear_strength=shear
    )
    if edge <= hole / 2:
        msg = "the hole runs out of the plate's edge"
        raise ValueError(msg)
    return 2 * thickness * (edge - hole / 2) * shear


@formula(
    title="Hole over pin",
    text="o = (d_h − d) / d",
    symbols={"hole": _HOLE, "pin": _PIN},
    result=Symbol("o", "oversize of the hole", "%"),
    source=MECHANICS,
)
def hole_oversize(hole: float, pin: float) -> float:
    """How much larger a hole is than its pin, as a fraction of the pin."""
    domain.positive(hole_diameter=hole, pin_diameter=pin)
    if hole < pin:
        msg = "the hole is smaller than the pin: one of the two is mismeasured"
        raise ValueError(msg)
    return (hole - pin) / pin


@formula(
    title="Strength lost by a slack hole",
    text="l = (5 / 7)·(d_h − d) / d",
    symbols={"hole": _HOLE, "pin": _PIN},
    result=Symbol("l", "strength lost", "%"),
    source=Citation(
        title="trade page quoting static tests",
        clause="5 % for each 7 % of oversize",
        status=SourceStatus.READ_2,
    ),
)
def slack_hole_loss(hole: float, pin: float) -> float:
    """Share of its strength that a connection loses by a slack hole."""
    return 5 / 7 * hole_oversize(hole, pin)


@formula(
    title="Strength over strength",
    text="r = F₁ / F₂",
    symbols={
        "part": Symbol("F₁", "strength of the part", "kN"),
        "wire": Symbol("F₂", "strength of the wire", "kN"),
    },
    result=Symbol("r", "strength ratio", "1"),
    source=Citation(title="boat handbook", clause="p. 181, chainplate over wire"),
)
def strength_ratio(part: float, wire: float) -> float:
    """Strength of a part over that of the wire it holds."""
    domain.positive(strength_of_the_part=part, strength_of_the_wire=wire)
    return part / wire


@lookup(StressFactor)
def stress_factor(part: str) -> StressFactor:
    """The class row of that part. ValueError for another."""
    for row in table(StressFactor):
        if row.part == part:
            return row
    msg = f"no stress factor for {part}; the table has {', '.join(row.part for row in table(StressFactor))}"
    raise ValueError(msg)
