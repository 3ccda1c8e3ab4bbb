"""Force of the water on the rudder, its centre of pressure and lever, each form with its source and status.

In: square metres, metres per second, radians, ratios. Out: newtons, newton metres. These are sizing checks on
request; several forms stand side by side because the sources differ, and none of them judges a rudder.
"""

from __future__ import annotations

import math

from reporter.engineering import domain
from reporter.engineering.cite import MECHANICS
from reporter.engineering.constants import FOOT, KILOGRAM_FORCE, KNOT, POUND_FORCE
from reporter.engineering.declaration import Symbol, formula
from reporter.model.citation import Citation
from reporter.model.terms import LimitBasis, SourceStatus

SEA_WATER = 1025.0
"""Density of sea water in kilograms per cubic metre that the forms below take."""

_OLD_GEAR = "handbook page on ship steering gear"

_ANGLE = Symbol("α", "rudder angle", "°")
_AREA = Symbol("A", "rudder area", "m²")
_SPEED = Symbol("V", "speed", "kn")


@formula(
    title="Force of the water",
    text="F = 0.5·1025·C·A·(k·V·1852 / 3600)²",
    symbols={
        "coefficient": Symbol("C", "force coefficient", "1"),
        "area": _AREA,
        "speed": _SPEED,
        "inflow": Symbol("k", "speed at the rudder over boat speed", "1"),
    },
    result=Symbol("F", "rudder force", "N"),
    source=MECHANICS,
    empirical=True,
)
def force(coefficient: float, area: float, speed: float, inflow: float = 1.0) -> float:
    """Force in newtons in sea water of 1025 kg/m³.

    The open code takes 0.9 of the boat's speed at a yacht's rudder.
    """
    domain.finite(force_coefficient=coefficient)
    domain.positive(area=area, inflow=inflow)
    domain.not_negative(speed=speed)
    return 0.5 * SEA_WATER * coefficient * area * (inflow * speed) ** 2


@formula(
    title="Force on an emergency rudder",
    text="F = 8.5·A·V²",
    symbols={"area": Symbol("A", "blade area", "ft²"), "speed": _SPEED},
    result=Symbol("F", "rudder force", "lbf"),
    source=Citation(title="offshore-race seminar on emergency rudders", clause="force when pumping"),
    empirical=True,
)
def emergency_rudder_force(area: float, speed: float) -> float:
    """Force in newtons on an emergency rudder worked hard.

    The rule itself in square feet, knots, pounds-force.
    """
    domain.positive(area=area)
    domain.not_negative(speed=speed)
    return 8.5 * (area / FOOT**2) * (speed / KNOT) ** 2 * POUND_FORCE


@formula(
    title="Rudder force, old gear formula",
    text="P = 9.80665·0.0156·A·V_r²·sin(α)",
    symbols={"area": _AREA, "race_speed": Symbol("V_r", "speed of the race", "kn"), "angle": _ANGLE},
    result=Symbol("P", "rudder force", "kN"),
    source=Citation(title=_OLD_GEAR, clause="rudder force"),
    empirical=True,
)
def gear_force(area: float, race_speed: float, angle: float) -> float:
    """Force in newtons; the race is 1.15 of the ship's speed ahead and 0.5 astern."""
    domain.positive(area=area)
    domain.not_negative(race_speed=race_speed)
    domain.between(0, math.pi / 2, rudder_angle=angle)
    # 15.6 kgf is the printed 0.0156 tonne-force.
    return KILOGRAM_FORCE * 15.6 * area * (race_speed / KNOT) ** 2 * math.sin(angle)


@formula(
    title="Centre of pressure",
    text="x = b·(0.195 + 0.305·sin(α))",
    symbols={"chord": Symbol("b", "chord", "mm"), "angle": _ANGLE},
    result=Symbol("x", "centre of pressure behind the leading edge", "mm"),
    source=Citation(title=_OLD_GEAR, clause="balancing angle"),
)
def centre_of_pressure(chord: float, angle: float) -> float:
    """Distance in metres behind the leading edge at an angle in radians."""
    domain.positive(chord=chord)
    domain.between(0, math.pi / 2, rudder_angle=angle)
    return chord * (0.195 + 0.305 * math.sin(angle))


@formula(
    title="Balancing angle",
    text="α = asin((s − 0.195) / 0.305)",
    symbols={"stock": Symbol("s", "stock behind the leading edge, of the chord", "%")},
    result=Symbol("α", "angle at which the rudder balances", "°"),
    source=Citation(title=_OLD_GEAR, clause="balancing angle"),
)
def balancing_angle(stock: float) -> float:
    """Angle in radians where the centre of pressure lies on the stock; `stock` as a fraction of the chord."""
    domain.between(0.195, 0.5, position_of_the_stock=stock)
    return math.asin((stock - 0.195) / 0.305)


@formula(
    title="Design speed of a yacht",
    text="V = 2.7·√((2.65·L² / m^(2/3))·L)",
    symbols={"waterline": Symbol("L", "waterline length", "m"), "mass": Symbol("m", "mass", "kg")},
    result=_SPEED,
    source=Citation(
        title="handbook page on yacht rudders",
        clause="design speed; form inferred from garbled print, reproduces both printed results",
        status=SourceStatus.DERIVED,
    ),
    empirical=True,
)
def design_speed(waterline: float, mass: float) -> float:
    """Speed in metres per second that a rudder is to be designed for."""
    domain.positive(waterline_length=waterline, mass=mass)
    return 2.7 * math.sqrt(2.65 * waterline**2 / mass ** (2 / 3) * waterline) * KNOT


@formula(
    title="Class minimum speed",
    text="V_min = (V + 20) / 3",
    symbols={"speed": Symbol("V", "greatest ahead speed", "kn")},
    result=Symbol("V_min", "speed to reckon with", "kn"),
    source=Citation(
        title="class rules on rudder torque, as reproduced", clause="minimum speed", basis=LimitBasis.STANDARD
    ),
    empirical=True,
)
def class_minimum_speed(speed: float) -> float:
    """Speed in metres per second that a class asks to be reckoned with; governs when above the real speed."""
    domain.not_negative(speed=speed)
    return (speed / KNOT + 20) / 3 * KNOT


@formula(
    title="Rudder force, class form",
    text="C_R = 132·((min(b² / A, 2) + 2) / 3)·K₂·K₃·A·V²",
    symbols={
        "area": _AREA,
        "span": Symbol("b", "rudder height", "m"),
        "speed": _SPEED,
        "section": Symbol("K₂", "factor of the blade section", "1"),
        "place": Symbol("K₃", "factor of the place in the propeller race", "1"),
    },
    result=Symbol("C_R", "rudder force", "N"),
    source=Citation(
        title="IACS unified requirement S10",
        clause="rudder force",
        status=SourceStatus.MEMORY,
        basis=LimitBasis.STANDARD,
    ),
    empirical=True,
)
def class_force(area: float, span: float, speed: float, section: float = 1.1, place: float = 1.0) -> float:
    """Force in newtons; from memory, unverified. Knots and newtons.

    With metres per second 132 would be wrong.
    """
    domain.positive(area=area, span=span, section_factor=section, place_factor=place)
    domain.not_negative(speed=speed)
    return 132 * (min(span**2 / area, 2) + 2) / 3 * section * place * area * (speed / KNOT) ** 2


@formula(
    title="Lever of the rudder force, class form",
    text="r = max(c·(α_c − A_f / A), 0.1·c)",
    symbols={
        "chord": Symbol("c", "mean chord", "mm"),
        "alpha": Symbol("α_c", "class coefficient, 0.33 ahead", "1"),
        "balance_area": Symbol("A_f", "area before the stock", "m²"),
        "area": _AREA,
    },
    result=Symbol("r", "lever about the stock", "mm"),
    source=Citation(title="class guidance for large yachts", clause="Table 4.1.4", basis=LimitBasis.STANDARD),
)
def class_lever(chord: float, alpha: float, balance_area: float, area: float) -> float:
    """Lever in metres of the rudder force ahead, not under a tenth of the chord."""
    domain.positive(chord=chord, area=area, class_coefficient=alpha)
    domain.not_negative(area_before_the_stock=balance_area)
    return max(chord * (alpha - balance_area / area), 0.1 * chord)
