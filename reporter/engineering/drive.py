"""Sums of the drive between wheel and quadrant that plugins of several kinds share.

In: metres, radians, turns. Out: the same. It holds no limit and knows no component.
"""

from __future__ import annotations

import math

from reporter.engineering import domain
from reporter.engineering.chain import pitch_diameter
from reporter.engineering.cite import GEOMETRY
from reporter.engineering.declaration import Symbol, formula
from reporter.model.citation import Citation


@formula(
    title="Sprocket pitch radius",
    text="r_s = p / (2·sin(180° / z))",
    symbols={"pitch": Symbol("p", "pitch", "mm"), "teeth": Symbol("z", "teeth of the sprocket", "")},
    result=Symbol("r_s", "pitch radius of the sprocket", "mm"),
    source=Citation(title="trade table of sprocket diameters", clause="pitch diameter"),
)
def sprocket_radius(pitch: float, teeth: float) -> float:
    """Radius in metres of the circle through the pin centres: the lever that the chain pulls on."""
    return pitch_diameter(pitch, teeth) / 2


@formula(
    title="Rudder angle per turn",
    text="i_w = θ / n_w",
    symbols={
        "rudder_angle": Symbol("θ", "rudder angle from stop to stop", "°"),
        "turns": Symbol("n_w", "turns of the wheel from stop to stop", "turns"),
    },
    result=Symbol("i_w", "rudder angle per turn of the wheel", "°"),
    source=GEOMETRY,
)
def rudder_per_turn(rudder_angle: float, turns: float) -> float:
    """Rudder angle in radians that one turn of the wheel gives."""
    domain.positive(rudder_angle=rudder_angle, turns=turns)
    return rudder_angle / turns


@formula(
    title="Difference of the two sides",
    text="Δ = |a_p − a_s|",
    symbols={"port": Symbol("a_p", "port side", "mm"), "starboard": Symbol("a_s", "starboard side", "mm")},
    result=Symbol("Δ", "difference of the two sides", "mm"),
    source=GEOMETRY,
)
def difference_of_sides(port: float, starboard: float) -> float:
    """How far two lengths in metres differ, whichever is longer."""
    domain.not_negative(port_side=port, starboard_side=starboard)
    return math.fabs(port - starboard)
