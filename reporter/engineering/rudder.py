"""Water on the rudder.

Lift slope, force, centre of pressure and torque, each form with its source and status.

In: square metres, metres per second, radians, ratios. Out: newtons, newton metres. These are sizing checks on
request; several forms stand side by side because the sources differ, and none of them judges a rudder.
"""

from __future__ import annotations

import math

from reporter.engineering import domain
from reporter.engineering.cite import GEOMETRY, MECHANICS
from reporter.engineering.constants import FOOT, KILOGRAM_FORCE, KNOT, POUND_FORCE
from reporter.engineering.declaration import Symbol, formula
from reporter.engineering.reference import lookup, table
from reporter.engineering.rows import RudderCoefficient
from reporter.model.citation import Citation
from reporter.model.terms import LimitBasis, SourceStatus

SEA_WATER = 1025.0
"""Density of sea water in kilograms per cubic metre that the forms below take."""

_OPEN_CODE = Citation(
    title="Whicker and Fehlner's low-aspect-ratio lift slope, as cited in an open velocity-prediction code"
)
_OLD_GEAR = "handbook of ship steering gear"

_ASPECT = Symbol("a", "effective aspect ratio", "1")
_ANGLE = Symbol("α", "rudder angle", "°")
_AREA = Symbol("A", "rudder area", "m²")
_SPEED = Symbol("V", "speed", "kn")
_SLOPE = Symbol("C_α", "lift slope per radian", "1")


@formula(
    title="Aspect ratio",
    text="a_g = b² / A",
    symbols={"span": Symbol("b", "rudder span", "m"), "area": _AREA},
    result=Symbol("a_g", "geometric aspect ratio", "1"),
    source=GEOMETRY,
)
def aspect_ratio(span: float, area: float) -> float:
    """Geometric aspect ratio.

    The effective one is twice this for a blade close under the hull (open code).
    """
    domain.positive(span=span, area=area)
    return span**2 / area


@formula(
    title="Lift slope, low aspect ratio",
    text="C_α = 5.7·a / (1.8 + cos(Λ)·√(a² / cos(Λ)⁴ + 4))",
    symbols={"aspect": _ASPECT, "sweep": Symbol("Λ", "sweep of the quarter chord", "°")},
    result=_SLOPE,
    source=_OPEN_CODE,
)
def lift_slope(aspect: float, sweep: float = 0.0) -> float:
    """Lift coefficient per radian of a swept low-aspect-ratio blade; sweep in radians."""
    domain.positive(aspect_ratio=aspect)
    domain.between(-1.2, 1.2, sweep=sweep)
    cosine = math.cos(sweep)
    return 5.7 * aspect / (1.8 + cosine * math.sqrt(aspect**2 / cosine**4 + 4))


@formula(
    title="Lift slope, alternative",
    text="C_α = (0.105·180 / π) / (1 + 1.92 / a)",
    symbols={"aspect": _ASPECT},
    result=_SLOPE,
    source=Citation(title="offshore-race seminar on emergency rudders", clause="0.105 per degree"),
)
def lift_slope_alternative(aspect: float) -> float:
    """Lift coefficient per radian from the slope of 0.105 per degree of a blade without ends."""
    domain.positive(aspect_ratio=aspect)
    return 0.105 * 180 / math.pi / (1 + 1.92 / aspect)


@formula(
    title="Lift coefficient with cross-flow",
    text="C_L = C_α·sin(α)·cos(α) + C_c·sin(α)·abs(sin(α))·cos(α)",
    symbols={
        "slope": _SLOPE,
        "angle": _ANGLE,
        "cross_flow": Symbol("C_c", "cross-flow drag coefficient", "1"),
    },
    result=Symbol("C_L", "lift coefficient", "1"),
    source=_OPEN_CODE,
)
def lift_coefficient(slope: float, angle: float, cross_flow: float) -> float:
    """Lift coefficient below stall at an angle in radians; about 0.85 is the cross-flow of a flat plate."""
    domain.positive(lift_slope=slope)
    domain.between(-math.pi / 2, math.pi / 2, rudder_angle=angle)
    domain.not_negative(cross_flow_coefficient=cross_flow)
    sine = math.sin(angle)
    return (slope * sine + cross_flow * sine * abs(sine)) * math.cos(angle)


@formula(
    title="Cross-flow drag coefficient",
    text="C_c = 0.1 + 0.7·t",
    symbols={"taper": Symbol("t", "taper ratio, tip chord over root chord", "1")},
    result=Symbol("C_c", "cross-flow drag coefficient", "1"),
    source=Citation(title="thesis on sailing-yacht rudders", clause="cross-flow drag"),
)
def cross_flow(taper: float) -> float:
    """Cross-flow drag coefficient from the taper ratio (tip chord over root chord)."""
    domain.between(0, 1.5, taper_ratio=taper)
    return 0.1 + 0.7 * taper


@formula(
    title="Normal force coefficient",
    text="C_N = C_L·cos(α) + C_D·sin(α)",
    symbols={
        "lift": Symbol("C_L", "lift coefficient", "1"),
        "drag": Symbol("C_D", "drag coefficient", "1"),
        "angle": _ANGLE,
    },
    result=Symbol("C_N", "normal force coefficient", "1"),
    source=MECHANICS,
)
def normal_coefficient(lift: float, drag: float, angle: float) -> float:
    """Coefficient of the force square to the blade."""
    domain.finite(lift_coefficient=lift, drag_coefficient=drag, rudder_angle=angle)
    return lift * math.cos(angle) + drag * math.sin(angle)


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
        title="offshore-race seminar on emergency rudders",
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
        title="class rules for special service craft", clause="rudder torque", basis=LimitBasis.STANDARD
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


@lookup(RudderCoefficient)
def ship_coefficients(aspect: float, angle: float) -> RudderCoefficient:
    """Default coefficients at a printed aspect ratio (1 or 2) and angle (5 to 35 degrees by 5, in radians).

    ValueError between and beyond the printed points.
    """
    for row in table(RudderCoefficient):
        if row.aspect == aspect and math.isclose(row.angle_deg, math.degrees(angle), abs_tol=1e-6):
            return row
    msg = (
        "the coefficients are printed for aspect ratios 1 and 2 at 5, 10, 15, 20, 25, 30 and 35 degrees only"
    )
    raise ValueError(msg)
