"""Rig loads and the strength of chainplates, pins and holes: sizing checks on request, never graded.

In: newtons, newton metres, metres, pascals. Out: newtons, pascals, ratios. Strengths hold for the undamaged
part, and a righting moment that is estimated makes everything after it an estimate.
"""

from __future__ import annotations

import math

from reporter.engineering import domain
from reporter.engineering.declaration import formula
from reporter.engineering.reference import listed, lookup, row_with
from reporter.engineering.rows import StressFactor


@formula
def transverse_load(righting_moment: float, beam: float, factor: float = 1.5) -> float:
    """Load in newtons on the shrouds of one side, from the righting moment at 30 degrees."""
    domain.positive(righting_moment=righting_moment, beam_at_the_chainplates=beam, factor=factor)
    return factor * righting_moment / (beam / 2)


@formula
def wire_asked_for(transverse: float, share: float, safety: float) -> float:
    """Breaking load in newtons of one shroud: 45 % upper and 32.5 % each lower with double lowers."""
    domain.positive(transverse_load=transverse, factor_of_safety=safety)
    domain.between(0, 1, share=share)
    return transverse * share * safety


@formula
def net_section(thickness: float, width: float, hole: float) -> float:
    """Section in square metres that is left beside the pin hole."""
    domain.positive(plate_thickness=thickness, plate_width=width, hole_diameter=hole)
    if hole >= width:
        msg = "the hole is as wide as the plate"
        raise ValueError(msg)
    return thickness * (width - hole)


@formula
def section_strength(section: float, strength: float) -> float:
    """Load in newtons that a section carries at a stress: yield or ultimate, as put in."""
    domain.positive(section=section, strength_of_the_material=strength)
    return section * strength


@formula
def pin_double_shear(pin: float, shear: float) -> float:
    """Load in newtons that a pin carries in double shear; bending in a wide fork comes on top."""
    domain.positive(pin_diameter=pin, shear_strength=shear)
    return 2 * math.pi * pin**2 / 4 * shear


@formula
def pin_bearing(load: float, pin: float, thickness: float) -> float:
    """Pressure in pascals of a pin on the side of its hole."""
    domain.not_negative(load=load)
    domain.positive(pin_diameter=pin, plate_thickness=thickness)
    return load / (pin * thickness)


@formula
def tear_out(thickness: float, edge: float, hole: float, shear: float) -> float:
    """Load in newtons at which the pin shears its way out of the plate's end."""
    domain.positive(
        plate_thickness=thickness, distance_to_the_edge=edge, hole_diameter=hole, shear_strength=shear
    )
    if edge <= hole / 2:
        msg = "the hole runs out of the plate's edge"
        raise ValueError(msg)
    return 2 * thickness * (edge - hole / 2) * shear


@formula
def hole_oversize(hole: float, pin: float) -> float:
    """How much larger a hole is than its pin, as a fraction of the pin."""
    return hole_over_pin(hole, pin) / pin


@formula
def slack_hole_loss(hole: float, pin: float) -> float:
    """Share of its strength that a connection loses by a slack hole."""
    return 5 / 7 * hole_oversize(hole, pin)


@formula
def strength_ratio(part: float, wire: float) -> float:
    """Strength of a part over that of the wire it holds."""
    domain.positive(strength_of_the_part=part, strength_of_the_wire=wire)
    return part / wire


@lookup(StressFactor)
def stress_factor(part: str) -> StressFactor:
    """The class row of that part. ValueError for another."""
    refusal = f"no stress factor for {part}; the table has {listed(StressFactor, 'part')}"
    return row_with(StressFactor, refusal, part=part)


@formula
def hole_over_pin(hole: float, pin: float) -> float:
    """How much wider the hole is than the pin, in metres; ValueError where it is narrower."""
    domain.positive(hole_diameter=hole, pin_diameter=pin)
    if hole < pin:
        msg = "the hole is smaller than the pin: one of the two is mismeasured"
        raise ValueError(msg)
    return hole - pin


@formula
def angles_apart(above: float, below: float) -> float:
    """How far a spreader is from halving the shroud's angle, in radians."""
    return abs(above - below)
