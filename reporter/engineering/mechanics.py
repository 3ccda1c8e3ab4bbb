"""The way from the hand on the rim to the rudder stock and back: forces, torques, angles, play, margins.

In: metres, newtons, newton metres, radians. Out: the same. Friction is left out everywhere (each sheave costs
a few per cent): forces at the far end are somewhat smaller, efforts somewhat larger, than reckoned here.
"""

from __future__ import annotations

import math

from reporter.engineering import domain
from reporter.engineering.cite import GEOMETRY, MECHANICS
from reporter.engineering.declaration import Symbol, formula

_RIM = Symbol("F_r", "force at the rim", "N")
_WHEEL = Symbol("R_w", "radius of the wheel", "mm")
_SPROCKET = Symbol("r_s", "pitch radius of the sprocket", "mm")
_QUADRANT = Symbol("R_q", "radius of the quadrant", "mm")
_PULL = Symbol("T", "pull in chain and wire", "N")
_STOCK = Symbol("Q", "torque at the rudder stock", "N·m")
_TURN = Symbol("θ", "rudder angle from stop to stop", "°")


@formula(
    title="Chain pull from the rim",
    text="T = F_r·R_w / r_s",
    symbols={"rim_force": _RIM, "wheel_radius": _WHEEL, "sprocket_radius": _SPROCKET},
    result=_PULL,
    source=MECHANICS,
)
def chain_pull(rim_force: float, wheel_radius: float, sprocket_radius: float) -> float:
    """Pull in newtons that a hand's force at the rim puts on the chain."""
    domain.not_negative(rim_force=rim_force)
    domain.positive(wheel_radius=wheel_radius, sprocket_radius=sprocket_radius)
    return rim_force * wheel_radius / sprocket_radius


@formula(
    title="Stock torque from the wire's pull",
    text="Q = T·R_q / 1000",
    symbols={"pull": _PULL, "quadrant_radius": _QUADRANT},
    result=_STOCK,
    source=MECHANICS,
)
def stock_torque(pull: float, quadrant_radius: float) -> float:
    """Torque in newton metres of one wire pulling on the quadrant."""
    domain.not_negative(pull=pull)
    domain.positive(quadrant_radius=quadrant_radius)
    return pull * quadrant_radius


@formula(
    title="Equivalent tiller",
    text="L_t = R_w·R_q / r_s",
    symbols={"wheel_radius": _WHEEL, "sprocket_radius": _SPROCKET, "quadrant_radius": _QUADRANT},
    result=Symbol("L_t", "length of the tiller of equal leverage", "mm"),
    source=MECHANICS,
)
def equivalent_tiller(wheel_radius: float, sprocket_radius: float, quadrant_radius: float) -> float:
    """Length in metres of the tiller that would give the same leverage."""
    domain.positive(
        wheel_radius=wheel_radius, sprocket_radius=sprocket_radius, quadrant_radius=quadrant_radius
    )
    return wheel_radius / sprocket_radius * quadrant_radius


@formula(
    title="Turns from stop to stop",
    text="n_w = θ·R_q / (z·p)",
    symbols={
        "rudder_angle": _TURN,
        "quadrant_radius": _QUADRANT,
        "teeth": Symbol("z", "teeth of the sprocket", ""),
        "pitch": Symbol("p", "chain pitch", "mm"),
    },
    result=Symbol("n_w", "turns of the wheel", "turns"),
    source=MECHANICS,
)
def turns_lock_to_lock(rudder_angle: float, quadrant_radius: float, teeth: float, pitch: float) -> float:
    """Turns of the wheel for a rudder angle in radians; θ stands for the angle in radians when put in."""
    domain.positive(
        rudder_angle=rudder_angle, quadrant_radius=quadrant_radius, teeth=teeth, chain_pitch=pitch
    )
    return rudder_angle * quadrant_radius / (teeth * pitch)


@formula(
    title="Rim play as rudder angle",
    text="δ = s·r_s / (R_w·R_q)",
    symbols={
        "rim_play": Symbol("s", "free play at the rim", "mm"),
        "wheel_radius": _WHEEL,
        "sprocket_radius": _SPROCKET,
        "quadrant_radius": _QUADRANT,
    },
    result=Symbol("δ", "rudder angle that the play hides", "°"),
    source=MECHANICS,
)
def rim_play_as_rudder(
    rim_play: float, wheel_radius: float, sprocket_radius: float, quadrant_radius: float
) -> float:
    """Rudder angle in radians that free play at the rim stands for."""
    domain.not_negative(rim_play=rim_play)
    domain.positive(
        wheel_radius=wheel_radius, sprocket_radius=sprocket_radius, quadrant_radius=quadrant_radius
    )
    return rim_play * sprocket_radius / (wheel_radius * quadrant_radius)


@formula(
    title="Factor of safety",
    text="n = F_b / F",
    symbols={"strength": Symbol("F_b", "breaking force", "N"), "load": Symbol("F", "load", "N")},
    result=Symbol("n", "factor of safety of the undamaged part", "1"),
    source=MECHANICS,
)
def factor_of_safety(strength: float, load: float) -> float:
    """Breaking force over load; holds for the undamaged part only."""
    domain.positive(breaking_force=strength, load=load)
    return strength / load


@formula(
    title="Rudder travel of the shorter side",
    text="θ_min = min(θ_p, θ_s)",
    symbols={
        "to_port": Symbol("θ_p", "rudder angle to port at the stop", "°"),
        "to_starboard": Symbol("θ_s", "rudder angle to starboard at the stop", "°"),
    },
    result=Symbol("θ_min", "rudder angle of the shorter side", "°"),
    source=GEOMETRY,
)
def shorter_side(to_port: float, to_starboard: float) -> float:
    """The smaller of the two rudder angles in radians: the total would hide a short side."""
    domain.not_negative(angle_to_port=to_port, angle_to_starboard=to_starboard)
    return min(to_port, to_starboard)


@formula(
    title="Steering ratio",
    text="i = φ_w / θ",
    symbols={
        "wheel_angle": Symbol("φ_w", "angle the wheel turns", "°"),
        "rudder_angle": Symbol("θ", "angle the rudder turns", "°"),
    },
    result=Symbol("i", "steering ratio", "1"),
    source=MECHANICS,
)
def steering_ratio(wheel_angle: float, rudder_angle: float) -> float:
    """Wheel angle over rudder angle, as measured; also the ratio of the torques without friction."""
    domain.positive(wheel_angle=wheel_angle, rudder_angle=rudder_angle)
    return wheel_angle / rudder_angle


@formula(
    title="Torque at another speed",
    text="Q = Q₀·(V / V₀)²",
    symbols={
        "torque": Symbol("Q₀", "torque at the known speed", "N·m"),
        "known_speed": Symbol("V₀", "known speed", "kn"),
        "speed": Symbol("V", "speed", "kn"),
    },
    result=_STOCK,
    source=MECHANICS,
)
def torque_at_speed(torque: float, known_speed: float, speed: float) -> float:
    """Torque in newton metres scaled with the square of the speed."""
    domain.positive(known_speed=known_speed, speed=speed)
    return torque * (speed / known_speed) ** 2


@formula(
    title="Sheave ratio",
    text="r = D / d",
    symbols={
        "tread": Symbol("D", "tread diameter of the sheave", "mm"),
        "wire": Symbol("d", "wire diameter", "mm"),
    },
    result=Symbol("r", "sheave ratio", "1"),
    source=GEOMETRY,
)
def sheave_ratio(tread: float, wire: float) -> float:
    """Tread diameter (bottom of the groove) over wire diameter."""
    domain.positive(tread_diameter=tread, wire_diameter=wire)
    return tread / wire


@formula(
    title="Fleet angle",
    text="φ = atan(a / l)",
    symbols={
        "offset": Symbol("a", "offset of the wire from the plane of the sheave", "mm"),
        "distance": Symbol("l", "distance from the sheave", "mm"),
    },
    result=Symbol("φ", "angle between the wire and the plane of the sheave", "°"),
    source=GEOMETRY,
)
def fleet_angle(offset: float, distance: float) -> float:
    """Angle in radians at which a wire enters a sheave that it is out of line with."""
    domain.not_negative(offset=offset)
    domain.positive(distance_from_the_sheave=distance)
    return math.atan(offset / distance)


@formula(
    title="Tension by the sag under a force",
    text="T = (F / 2)·√((s / 2)² + f²) / f",
    symbols={
        "force": Symbol("F", "force in the middle of the span", "N"),
        "span": Symbol("s", "span between supports", "mm"),
        "sag": Symbol("f", "sag under the force", "mm"),
    },
    result=Symbol("T", "tension", "N"),
    source=MECHANICS,
)
def pressed_tension(force: float, span: float, sag: float) -> float:
    """Tension in newtons of a line that sags so far under a force in the middle of its span.

    Exact for a line without stiffness. The usual F·s / (4·f) leaves the slope out: it lies 0.5 % below this at a
    sag of a twentieth of the span, 2 % at a tenth.
    """
    domain.positive(pressing_force=force, span=span, sag=sag)
    return force / 2 * math.hypot(span / 2, sag) / sag
