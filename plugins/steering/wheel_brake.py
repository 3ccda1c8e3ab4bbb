"""Wheel brake or lock: what holds the wheel at anchor, and must let go of it under way.

Comes in: Evidence of one brake. Goes out: the torque of a weight that it holds: no holding figure for a yacht is published,
so that a measured one is printed and compared with last time, and what was felt is an observation.
"""

from __future__ import annotations

from collections.abc import Iterator

from reporter.contract import (
    Assessment,
    Check,
    Evidence,
    beside,
    worked_out,
)
from reporter.engineering import work
from reporter.engineering.stock import hung_torque


def assess(evidence: Evidence) -> Assessment:
    """The torque of a weight that the brake just holds, for information; observations decide."""
    return Assessment(checks=tuple(_hung(evidence)))


def _hung(evidence: Evidence) -> Iterator[Check]:
    for spot in evidence.at("hung_mass"):
        if radius := beside(evidence, "hung_radius", spot):
            torque, sum_ = work(hung_torque, {"mass": spot.value, "radius": radius.value})
            yield worked_out("wheel_brake", "hung_torque", torque, (sum_,), like=spot)
