"""Spreaders: roots, tubes, tips, and the angle at which the shroud goes over them.

Comes in: Evidence of one pair, or of all. Goes out: the angles above and below a tip side by side, for information, and
what was not seen from close by. That a spreader halves the shroud's angle is common practice, without a published figure.
"""

from __future__ import annotations

from collections.abc import Iterator

from reporter.contract import Assessment, Check, Evidence, at_place, not_close, worked_out
from reporter.engineering import work
from reporter.engineering.rigloads import angles_apart

from .metals import pair


def assess(evidence: Evidence) -> Assessment:
    """Angles side by side where they were read; roots and tips are missing while seen from deck."""
    metals = pair(evidence)
    return Assessment(
        checks=(*_angles(evidence), *metals.checks),
        missing=tuple(not_close(evidence)),
        remarks=metals.remarks,
    )


def _angles(evidence: Evidence) -> Iterator[Check]:
    for above in evidence.at("angle_above"):
        if below := at_place(evidence, "angle_below", above):
            apart, sum_ = work(angles_apart, {"above": above.value, "below": below.value})
            yield worked_out("spreader", "angle_difference", apart, (sum_,), like=above)
