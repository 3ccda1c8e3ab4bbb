"""The rudder stock and the emergency tiller.

Torque and bending as lengths and forces.

In: newtons, newton metres, metres, pascals. Out: the same. No friction; strengths hold for the undamaged
part.
"""

from __future__ import annotations

import math

from reporter.engineering import domain
from reporter.engineering.cite import GEOMETRY, MECHANICS
from reporter.engineering.constants import KILOGRAM_FORCE
from reporter.engineering.declaration import Symbol, formula
from reporter.model.citation import Citation

_FORCE = Symbol("F", "rudder force", "N")
_TORQUE = Symbol("Q", "torque at the rudder stock", "N·m")
_MOMENT = Symbol("M", "combined moment", "N·m")


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
