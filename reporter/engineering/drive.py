"""Sums of the drive between wheel and quadrant that plugins of several kinds share.

In: metres, radians, turns. Out: the same. It holds no limit and knows no component.
"""

from __future__ import annotations

import math

from reporter.engineering import domain
from reporter.engineering.chain import pitch_diameter
from reporter.engineering.declaration import formula


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
