"""The rudder stock, its bearings' reactions, the emergency tiller and the brake.

Torque and bending as lengths and forces.

In: newtons, newton metres, metres, pascals. Out: the same. No friction; strengths hold for the undamaged
part.
"""

from __future__ import annotations

import math

from reporter.engineering import domain
from reporter.engineering.cite import GEOMETRY, MECHANICS
from reporter.engineering.constants import KILOGRAM_FORCE, KNOT
from reporter.engineering.declaration import Symbol, formula
from reporter.model.citation import Citation
from reporter.model.terms import LimitBasis

_FORCE = Symbol("F", "rudder force", "N")
_TORQUE = Symbol("Q", "torque at the rudder stock", "N·m")
_MOMENT = Symbol("M", "combined moment", "N·m")
_SPROCKET = Symbol("r_s", "pitch radius of the sprocket", "mm")
_QUADRANT = Symbol("R_q", "radius of the quadrant", "mm")


@formula(
    title="Moment of a force",
    text="Q = F·a / 1000",
    symbols={"force": _FORCE, "arm": Symbol("a", "arm", "mm")},
    result=Symbol("Q", "moment", "N·m"),
    source=MECHANICS,
)
def moment(force: float, arm: float) -> float:
    """Moment in newton metres: torque about the stock, or bending about a bearing."""
    domain.not_negative(force=force, arm=arm)
    return force * arm


@formula(
    title="Bending and torsion together",
    text="M = √(M_b² + Q²)",
    symbols={"bending": Symbol("M_b", "bending moment", "N·m"), "torque": _TORQUE},
    result=_MOMENT,
    source=Citation(title="handbook page on rudder stocks", clause="combined bending and twist"),
)
def combined_moment(bending: float, torque: float) -> float:
    """Bending and twist as one moment in newton metres, by the root of their squares."""
    domain.not_negative(bending_moment=bending, torque=torque)
    return math.hypot(bending, torque)


@formula(
    title="Stress in a solid stock",
    text="σ = 32000·M / (π·d³)",
    symbols={"moment": _MOMENT, "diameter": Symbol("d", "stock diameter", "mm")},
    result=Symbol("σ", "stress at the surface", "N/mm²"),
    source=MECHANICS,
)
def stock_stress(moment: float, diameter: float) -> float:
    """Bending stress in pascals at the surface of a solid round stock."""
    domain.not_negative(moment=moment)
    domain.positive(stock_diameter=diameter)
    return 32 * moment / (math.pi * diameter**3)


@formula(
    title="Solid stock for a moment",
    text="d = (32000·n·M / (π·σ))^(1/3)",
    symbols={
        "moment": _MOMENT,
        "strength": Symbol("σ", "strength of the material", "N/mm²"),
        "safety": Symbol("n", "factor of safety", "1"),
    },
    result=Symbol("d", "least stock diameter", "mm"),
    source=MECHANICS,
)
def stock_for_moment(moment: float, strength: float, safety: float) -> float:
    """Least diameter in metres of a solid round stock."""
    domain.positive(moment=moment, strength=strength, factor_of_safety=safety)
    return float((32 * safety * moment / (math.pi * strength)) ** (1 / 3))


@formula(
    title="Force on the upper gudgeon",
    text="F_u = F·h / s",
    symbols={
        "force": _FORCE,
        "below": Symbol("h", "centre of pressure below the lower gudgeon", "mm"),
        "spacing": Symbol("s", "distance between the gudgeons", "mm"),
    },
    result=Symbol("F_u", "force on the upper gudgeon", "N"),
    source=MECHANICS,
)
def upper_gudgeon(force: float, below: float, spacing: float) -> float:
    """Reaction in newtons of the upper gudgeon or bearing of an overhung rudder."""
    domain.not_negative(force=force, centre_of_pressure_below_the_gudgeon=below)
    domain.positive(distance_between_the_gudgeons=spacing)
    return force * below / spacing


@formula(
    title="Force on the lower gudgeon",
    text="F_l = F·(h + s) / s",
    symbols={
        "force": _FORCE,
        "below": Symbol("h", "centre of pressure below the lower gudgeon", "mm"),
        "spacing": Symbol("s", "distance between the gudgeons", "mm"),
    },
    result=Symbol("F_l", "force on the lower gudgeon", "N"),
    source=MECHANICS,
)
def lower_gudgeon(force: float, below: float, spacing: float) -> float:
    """Reaction in newtons of the lower gudgeon or bearing of an overhung rudder."""
    return force + upper_gudgeon(force, below, spacing)


@formula(
    title="Stock with a bottom pintle",
    text="D = 16.67·(A·R·max(V, 8)²)^(1/3)",
    symbols={
        "area": Symbol("A", "rudder area, one face", "m²"),
        "radius": Symbol("R", "mean distance of the trailing edge from the stock", "m"),
        "speed": Symbol("V", "speed", "kn"),
    },
    result=Symbol("D", "least stock diameter", "mm"),
    source=Citation(
        title="Canada, Fishing Vessel Safety Regulations",
        edition="2006 to 2017",
        clause="s. 17",
        basis=LimitBasis.LAW,
    ),
    empirical=True,
)
def canadian_stock(area: float, radius: float, speed: float) -> float:
    """Stock diameter in metres of a rudder with a bottom pintle; speeds under 8 knots count as 8."""
    domain.positive(area=area, distance_of_the_trailing_edge=radius)
    domain.not_negative(speed=speed)
    return float(16.67e-3 * (area * radius * max(speed / KNOT, 8) ** 2) ** (1 / 3))


@formula(
    title="Hydraulic steering torque",
    text="C = S·(0.4·L_g − L_c)·V²·K",
    symbols={
        "area": Symbol("S", "rudder area", "m²"),
        "chord": Symbol("L_g", "chord", "m"),
        "balance": Symbol("L_c", "length before the stock", "m"),
        "speed": Symbol("V", "speed", "kn"),
        "angle_factor": Symbol("K", "factor of the total rudder angle", "1"),
    },
    result=Symbol("C", "torque", "kgf·m"),
    source=Citation(
        title="trade table of hydraulic steering sizes", clause="K = 15.89 (70°), 17.80 (80°), 19.52 (90°)"
    ),
    empirical=True,
)
def hydraulic_torque(area: float, chord: float, balance: float, speed: float, angle_factor: float) -> float:
    """Torque in newton metres that a hydraulic gear is sized for."""
    domain.positive(area=area, chord=chord, angle_factor=angle_factor)
    domain.not_negative(length_before_the_stock=balance, speed=speed)
    # An overbalanced blade has no lever to size for: refused below, never a negative torque.
    lever = 0.4 * chord - balance
    domain.positive(lever_of_the_rudder_force=lever)
    return area * lever * (speed / KNOT) ** 2 * angle_factor * KILOGRAM_FORCE


@formula(
    title="Hand force on an emergency tiller",
    text="F = Q / L",
    symbols={"torque": _TORQUE, "tiller": Symbol("L", "length of the tiller", "m")},
    result=Symbol("F", "force at the hand", "N"),
    source=MECHANICS,
)
def tiller_force(torque: float, tiller: float) -> float:
    """Force in newtons at the end of a tiller."""
    domain.not_negative(torque=torque)
    domain.positive(length_of_the_tiller=tiller)
    return torque / tiller


@formula(
    title="Tiller for a hand force",
    text="L = Q / F",
    symbols={"torque": _TORQUE, "hand_force": Symbol("F", "force at the hand", "N")},
    result=Symbol("L", "length of the tiller", "m"),
    source=MECHANICS,
)
def tiller_for_force(torque: float, hand_force: float) -> float:
    """Length in metres of the tiller that holds a torque with a given hand force."""
    domain.not_negative(torque=torque)
    domain.positive(hand_force=hand_force)
    return torque / hand_force


@formula(
    title="Rudder tip movement",
    text="m = c_l + (c_l + c_u)·b / a",
    symbols={
        "lower": Symbol("c_l", "diametral clearance of the lower bearing", "mm"),
        "upper": Symbol("c_u", "diametral clearance of the upper bearing", "mm"),
        "bearing_distance": Symbol("a", "distance between the bearings", "mm"),
        "overhang": Symbol("b", "tip of the blade below the lower bearing", "mm"),
    },
    result=Symbol("m", "movement of the tip from side to side", "mm"),
    source=GEOMETRY,
)
def tip_movement(lower: float, upper: float, bearing_distance: float, overhang: float) -> float:
    """How far the tip can be moved from side to side, in metres, by the play of both bearings.

    A rigid stock.
    """
    domain.not_negative(lower_clearance=lower, upper_clearance=upper, overhang=overhang)
    domain.positive(distance_between_the_bearings=bearing_distance)
    return lower + (lower + upper) * overhang / bearing_distance


@formula(
    title="Torque that the wheel brake must hold",
    text="Q_b = Q·r_s / R_q",
    symbols={"torque": _TORQUE, "sprocket_radius": _SPROCKET, "quadrant_radius": _QUADRANT},
    result=Symbol("Q_b", "torque at the wheel's shaft", "N·m"),
    source=MECHANICS,
)
def brake_torque(torque: float, sprocket_radius: float, quadrant_radius: float) -> float:
    """Torque in newton metres at the wheel's shaft that balances a torque at the stock."""
    domain.not_negative(torque=torque)
    domain.positive(sprocket_radius=sprocket_radius, quadrant_radius=quadrant_radius)
    return torque * sprocket_radius / quadrant_radius


@formula(
    title="Torque of a hung weight",
    text="Q_h = 9.80665·m·r / 1000",
    symbols={
        "mass": Symbol("m", "mass hung at the rim", "kg"),
        "radius": Symbol("r", "level distance of its line from the wheel's centre", "mm"),
    },
    result=Symbol("Q_h", "torque at the wheel's shaft", "N·m"),
    source=MECHANICS,
)
def hung_torque(mass: float, radius: float) -> float:
    """Torque in newton metres of a weight that hangs on a wheel, by standard gravity (9.80665 m/s²)."""
    domain.not_negative(mass=mass)
    domain.positive(radius=radius)
    return KILOGRAM_FORCE * mass * radius


@formula(
    title="Speed for the auxiliary steering test",
    text="V_t = max(V / 2, 7)",
    symbols={"service_speed": Symbol("V", "service speed", "kn")},
    result=Symbol("V_t", "test speed", "kn"),
    source=Citation(title="46 CFR 182.620", basis=LimitBasis.LAW),
    empirical=True,
)
def auxiliary_test_speed(service_speed: float) -> float:
    """Half the service speed or 7 knots, whichever is greater, in metres per second."""
    domain.positive(service_speed=service_speed)
    return max(service_speed / 2, 7 * KNOT)
