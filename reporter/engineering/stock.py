"""The rudder: the force of the water on it, its stock with torque and bending, its bearings, the emergency tiller.

In: newtons, newton metres, metres, square metres, metres per second, pascals. Out: the same. No friction; strengths hold
for the undamaged part. Of bearings, ship rules and the yacht handbook lie fifty times apart: whichever is shown must be
named.
"""

from __future__ import annotations

import math

from reporter.engineering import domain
from reporter.engineering.constants import FOOT, KILOGRAM_FORCE, KNOT, POUND_FORCE
from reporter.engineering.declaration import formula


@formula
def emergency_rudder_force(area: float, speed: float) -> float:
    """Force in newtons on an emergency rudder worked hard.

    The rule itself in square feet, knots, pounds-force.
    """
    domain.positive(area=area)
    domain.not_negative(speed=speed)
    return 8.5 * (area / FOOT**2) * (speed / KNOT) ** 2 * POUND_FORCE


@formula
def moment(force: float, arm: float) -> float:
    """Moment in newton metres: torque about the stock, or bending about a bearing."""
    domain.not_negative(force=force, arm=arm)
    return force * arm


@formula
def combined_moment(bending: float, torque: float) -> float:
    """Bending and twist as one moment in newton metres, by the root of their squares."""
    domain.not_negative(bending_moment=bending, torque=torque)
    return math.hypot(bending, torque)


@formula
def stock_stress(moment: float, diameter: float) -> float:
    """Bending stress in pascals at the surface of a solid round stock."""
    domain.not_negative(moment=moment)
    domain.positive(stock_diameter=diameter)
    return 32 * moment / (math.pi * diameter**3)


@formula
def tiller_force(torque: float, tiller: float) -> float:
    """Force in newtons at the end of a tiller."""
    domain.not_negative(torque=torque)
    domain.positive(length_of_the_tiller=tiller)
    return torque / tiller


@formula
def tiller_for_force(torque: float, hand_force: float) -> float:
    """Length in metres of the tiller that holds a torque with a given hand force."""
    domain.not_negative(torque=torque)
    domain.positive(hand_force=hand_force)
    return torque / hand_force


@formula
def tip_movement(lower: float, upper: float, bearing_distance: float, overhang: float) -> float:
    """How far the tip can be moved from side to side, in metres, by the play of both bearings.

    A rigid stock.
    """
    domain.not_negative(lower_clearance=lower, upper_clearance=upper, overhang=overhang)
    domain.positive(distance_between_the_bearings=bearing_distance)
    return lower + (lower + upper) * overhang / bearing_distance


@formula
def hung_torque(mass: float, radius: float) -> float:
    """Torque in newton metres of a weight that hangs on a wheel, by standard gravity (9.80665 m/s²)."""
    domain.not_negative(mass=mass)
    domain.positive(radius=radius)
    return KILOGRAM_FORCE * mass * radius


@formula
def torque_by_ratio(wheel_torque: float, ratio: float) -> float:
    """Torque at the stock in newton metres, without friction."""
    return wheel_torque * ratio


@formula
def new_allowance(stock: float) -> float:
    """Least diametral clearance in metres of a new yacht bearing."""
    domain.positive(stock_diameter=stock)
    return float(0.0073e-3 * (stock * 1000) ** 0.67)


@formula
def new_tolerance(stock: float) -> float:
    """Tolerance in metres on top of the allowance.

    The handbook's worked inch example prints 0.003 in for a 3.75 in stock where its own formula gives 0.0039
    in.
    """
    domain.positive(stock_diameter=stock)
    return float(0.0211e-3 * (stock * 1000) ** 0.34)


@formula
def light_craft_least(stock: float) -> float:
    """Least diametral clearance in metres of a new metal bearing in light craft."""
    domain.positive(stock_diameter=stock)
    return stock / 1000 + 0.001


@formula
def naval_greatest(stock: float) -> float:
    """Greatest clearance in metres that naval survey allows; written for ships."""
    domain.positive(diameter_over_the_liner=stock)
    return 0.005 + 0.002 * stock
