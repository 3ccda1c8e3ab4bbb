"""Lift and drag of a rudder blade: aspect ratio, lift slopes, and the coefficients of a ship design manual.

In: metres, square metres, radians, ratios. Out: coefficients, slopes per radian. Two slopes stand side by side because
the sources differ; printed coefficients are not read between their points.
"""

from __future__ import annotations

import math

from reporter.engineering import domain
from reporter.engineering.cite import GEOMETRY, MECHANICS
from reporter.engineering.declaration import Symbol, formula
from reporter.engineering.reference import lookup, table
from reporter.engineering.rows import RudderCoefficient
from reporter.model.citation import Citation

_OPEN_CODE = Citation(
    title="Whicker and Fehlner's low-aspect-ratio lift slope, as cited in an open velocity-prediction code"
)

_ASPECT = Symbol("a", "effective aspect ratio", "1")
_ANGLE = Symbol("α", "rudder angle", "°")
_SLOPE = Symbol("C_α", "lift slope per radian", "1")


@formula(
    title="Aspect ratio",
    text="a_g = b² / A",
    symbols={"span": Symbol("b", "rudder span", "m"), "area": Symbol("A", "rudder area", "m²")},
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
    # Once, since the printed form has it to the first and to the fourth power.
    cosine = math.cos(sweep)
    return 5.7 * aspect / (1.8 + cosine * math.sqrt(aspect**2 / cosine**4 + 4))


@formula(
    title="Lift slope, alternative",
    text="C_α = (0.105·180 / π) / (1 + 1.92 / a)",
    symbols={"aspect": _ASPECT},
    result=_SLOPE,
    source=Citation(title="handbook page on lift", clause="0.105 per degree"),
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
    source=Citation(title="handbook page on lift", clause="non-linear term"),
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
    source=Citation(title="handbook page on lift", clause="cross-flow drag, with a thesis as its example"),
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
