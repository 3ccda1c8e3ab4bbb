"""Wheel brake or lock: what holds the wheel at anchor, and must let go of it under way.

Comes in: Evidence of one brake. Goes out: the torque of a weight that it holds: no holding figure for a yacht is published,
so that a measured one is printed and compared with last time, and what was felt is an observation.
"""

from __future__ import annotations

from collections.abc import Iterator

from reporter.contract import Assessment, Check, Evidence, sums, worked_out
from reporter.engineering.stock import hung_torque


def assess(evidence: Evidence) -> Assessment:
    """The torque of a weight that the brake just holds, for information; observations decide."""
    return Assessment(checks=tuple(_hung(evidence)))


def _hung(evidence: Evidence) -> Iterator[Check]:
    for spot, torque, sum_ in sums(evidence, hung_torque, {"mass": "hung_mass", "radius": "hung_radius"}):
        yield worked_out("wheel_brake", "hung_torque", torque, (sum_,), like=spot)
