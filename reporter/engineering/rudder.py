"""Force of the water on a rudder, with its source and status.

In: square metres, metres per second. Out: newtons. A sizing check on request that judges no rudder.
"""

from __future__ import annotations

from reporter.engineering import domain
from reporter.engineering.constants import FOOT, KNOT, POUND_FORCE
from reporter.engineering.declaration import formula


@formula
def emergency_rudder_force(area: float, speed: float) -> float:
    """Force in newtons on an emergency rudder worked hard.

    The rule itself in square feet, knots, pounds-force.
    """
    domain.positive(area=area)
    domain.not_negative(speed=speed)
    return 8.5 * (area / FOOT**2) * (speed / KNOT) ** 2 * POUND_FORCE
