"""Force of the water on a rudder, with its source and status.

In: square metres, metres per second. Out: newtons. A sizing check on request that judges no rudder.
"""

from __future__ import annotations

from reporter.engineering import domain
from reporter.engineering.constants import FOOT, KNOT, POUND_FORCE
from reporter.engineering.declaration import Symbol, formula
from reporter.model.citation import Citation

_SPEED = Symbol("V", "speed", "kn")


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
