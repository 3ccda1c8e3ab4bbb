"""The way from the hand on the rim to the rudder stock and back: forces, torques, angles, play, margins.

In: metres, newtons, newton metres, radians. Out: the same. Friction is left out everywhere (each sheave costs
a few per cent): forces at the far end are somewhat smaller, efforts somewhat larger, than reckoned here. Free play is for
information, since no yacht limit is published: the lash limits are road-vehicle law, and each row names its jurisdiction.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from reporter.engineering import domain
from reporter.engineering.chain import pitch_diameter
from reporter.engineering.constants import INCH
from reporter.engineering.declaration import formula
from reporter.engineering.reference import lookup, table
from reporter.engineering.rows import LashLimit


@formula
def chain_pull(rim_force: float, wheel_radius: float, sprocket_radius: float) -> float:
    """Pull in newtons that a hand's force at the rim puts on the chain."""
    domain.not_negative(rim_force=rim_force)
    domain.positive(wheel_radius=wheel_radius, sprocket_radius=sprocket_radius)
    return rim_force * wheel_radius / sprocket_radius


@formula
def stock_torque(pull: float, quadrant_radius: float) -> float:
    """Torque in newton metres of one wire pulling on the quadrant."""
    domain.not_negative(pull=pull)
    domain.positive(quadrant_radius=quadrant_radius)
    return pull * quadrant_radius


@formula
def equivalent_tiller(wheel_radius: float, sprocket_radius: float, quadrant_radius: float) -> float:
    """Length in metres of the tiller that would give the same leverage."""
    domain.positive(
        wheel_radius=wheel_radius, sprocket_radius=sprocket_radius, quadrant_radius=quadrant_radius
    )
    return wheel_radius / sprocket_radius * quadrant_radius


@formula
def turns_lock_to_lock(rudder_angle: float, quadrant_radius: float, teeth: float, pitch: float) -> float:
    """Turns of the wheel for a rudder angle in radians; θ stands for the angle in radians when put in."""
    domain.positive(
        rudder_angle=rudder_angle, quadrant_radius=quadrant_radius, teeth=teeth, chain_pitch=pitch
    )
    return rudder_angle * quadrant_radius / (teeth * pitch)


@formula
def rim_play_as_rudder(
    rim_play: float, wheel_radius: float, sprocket_radius: float, quadrant_radius: float
) -> float:
    """Rudder angle in radians that free play at the rim stands for."""
    domain.not_negative(rim_play=rim_play)
    domain.positive(
        wheel_radius=wheel_radius, sprocket_radius=sprocket_radius, quadrant_radius=quadrant_radius
    )
    return rim_play * sprocket_radius / (wheel_radius * quadrant_radius)


@formula
def factor_of_safety(strength: float, load: float) -> float:
    """Breaking force over load; holds for the undamaged part only."""
    domain.positive(breaking_force=strength, load=load)
    return strength / load


@formula
def shorter_side(to_port: float, to_starboard: float) -> float:
    """The smaller of the two rudder angles in radians: the total would hide a short side."""
    domain.not_negative(angle_to_port=to_port, angle_to_starboard=to_starboard)
    return min(to_port, to_starboard)


@formula
def steering_ratio(wheel_angle: float, rudder_angle: float) -> float:
    """Wheel angle over rudder angle, as measured; also the ratio of the torques without friction."""
    domain.positive(wheel_angle=wheel_angle, rudder_angle=rudder_angle)
    return wheel_angle / rudder_angle


@formula
def torque_at_speed(torque: float, known_speed: float, speed: float) -> float:
    """Torque in newton metres scaled with the square of the speed."""
    domain.positive(known_speed=known_speed, speed=speed)
    return torque * (speed / known_speed) ** 2


@formula
def sheave_ratio(tread: float, wire: float) -> float:
    """Tread diameter (bottom of the groove) over wire diameter."""
    domain.positive(tread_diameter=tread, wire_diameter=wire)
    return tread / wire


@formula
def fleet_angle(offset: float, distance: float) -> float:
    """Angle in radians at which a wire enters a sheave that it is out of line with."""
    domain.not_negative(offset=offset)
    domain.positive(distance_from_the_sheave=distance)
    return math.atan(offset / distance)


@formula
def pressed_tension(force: float, span: float, sag: float) -> float:
    """Tension in newtons of a line that sags so far under a force in the middle of its span.

    Exact for a line without stiffness. The usual F·s / (4·f) leaves the slope out: it lies 0.5 % below this at a
    sag of a twentieth of the span, 2 % at a tenth.
    """
    domain.positive(pressing_force=force, span=span, sag=sag)
    return force / 2 * math.hypot(span / 2, sag) / sag


@formula
def sprocket_radius(pitch: float, teeth: float) -> float:
    """Radius in metres of the circle through the pin centres: the lever that the chain pulls on."""
    return pitch_diameter(pitch, teeth) / 2


@formula
def rudder_per_turn(rudder_angle: float, turns: float) -> float:
    """Rudder angle in radians that one turn of the wheel gives."""
    domain.positive(rudder_angle=rudder_angle, turns=turns)
    return rudder_angle / turns


@formula
def difference_of_sides(port: float, starboard: float) -> float:
    """How far two lengths in metres differ, whichever is longer."""
    domain.not_negative(port_side=port, starboard_side=starboard)
    return math.fabs(port - starboard)


@formula
def play_angle(rim_play: float, wheel: float) -> float:
    """Angle in radians that the wheel turns before the rudder follows."""
    domain.not_negative(rim_play=rim_play)
    domain.positive(wheel_diameter=wheel)
    return 2 * rim_play / wheel


@formula
def arc_kept(reached: float, full: float) -> float:
    """Share of the steering arc of one side that is still reached."""
    domain.not_negative(angle_reached=reached)
    domain.positive(full_angle=full)
    return reached / full


@dataclass(frozen=True)
class LashYardstick:
    """A lash limit in metres for a wheel, and the row it comes from."""

    limit: float
    row: LashLimit


@lookup(LashLimit)
def lash_limits(wheel: float) -> tuple[LashYardstick, ...]:
    """Every jurisdiction's limit for a wheel of this diameter in metres.

    A rule whose rows stop below it is left out.
    """
    domain.positive(wheel_diameter=wheel)
    # 16 in entered as 406.4 mm must not miss the 16 in row by a rounding error.
    inches = round(wheel / INCH, 6)
    return tuple(LashYardstick(row.limit_in * INCH, row) for row in table(LashLimit) if _covers(row, inches))


def _covers(row: LashLimit, inches: float) -> bool:
    # Jurisdictions differ on which row a wheel of exactly the bound belongs to.
    above = inches > row.over_in if row.up_to_included or row.over_in == 0 else inches >= row.over_in
    if row.up_to_in is None:
        return above
    return above and (inches <= row.up_to_in if row.up_to_included else inches < row.up_to_in)
