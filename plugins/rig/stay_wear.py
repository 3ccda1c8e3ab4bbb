"""Diameter lost by a standing wire, against the figures written for cranes and mine hoists.

Comes in: Evidence of one wire. Goes out: checks, and whether the wire is spent. A nominal size that
nobody saw marked gives no loss: a metric and an inch size can lie within the wear that is looked for.
"""

from __future__ import annotations

from collections.abc import Iterator

from reporter.contract import Check, Evidence, against
from reporter.contract import is_spent as worn_out
from reporter.engineering import work
from reporter.engineering.wire import loss_of_baseline, loss_of_nominal

COUNTS = ("broken_wires", "broken_in_lay", "broken_at_end")


def diameter_losses(evidence: Evidence) -> Iterator[Check]:
    """Loss of the nominal diameter and of that when new, wherever the diameter was measured."""
    nominal, baseline = (evidence.facts.get(name) for name in ("diameter", "baseline"))
    for spot in evidence.at("wire_diameter"):
        if nominal and nominal.value and not nominal.basis.is_guess:
            loss, sum_ = work(loss_of_nominal, {"nominal": nominal.value, "measured": spot.value})
            yield from against(evidence, "loss_of_nominal", loss, like=spot, working=(sum_,))
        if baseline and baseline.value:
            loss, sum_ = work(loss_of_baseline, {"baseline": baseline.value, "measured": spot.value})
            yield from against(evidence, "loss_of_baseline", loss, like=spot, working=(sum_,))


def is_spent(evidence: Evidence) -> bool:
    """True when damage was recorded, a wire counted broken, or wear has reached a limit: no strength is stated then."""
    counted = (spot.value.value for name in COUNTS for spot in evidence.at(name))
    return any(count > 0 for count in counted) or worn_out(
        evidence, diameter_losses(evidence), ("outer_wear",)
    )
