"""Diameter lost by a standing wire, against the figures written for cranes and mine hoists; and a stay's miles by the boat's log.

Comes in: Evidence of one stay. Goes out: checks, and whether a wire is spent. A nominal size that nobody saw marked gives no
loss: a metric and an inch size can lie within the wear that is looked for. The boat's miles are for information: the rig
may have seen fewer.
"""

from __future__ import annotations

from collections.abc import Iterator

from reporter.contract import Check, Evidence, Value, against, compare, say
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


def by_vessel(evidence: Evidence) -> Iterator[Check]:
    """The boat's miles against the rig's figure; nothing where the rig's own are known, which the core judges."""
    miles = evidence.needed.get("miles")
    if "rig_miles" in evidence.facts or not isinstance(miles, Value):
        return
    limit = evidence.limit(f"{evidence.component.kind}.rig_miles.insurer")
    check = compare(evidence, miles, limit, notes=(say("said.boats_log"),))
    yield check.model_copy(update={"governs": False})
