"""The thread of a rigging screw: how much of it holds, in thread diameters, and how unlike its two ends are.

Comes in: Evidence of rigging screws with `thread_engaged`. Goes out: checks, and what they lack.
"""

from __future__ import annotations

from collections.abc import Iterator

from reporter.contract import Assessment, Check, Evidence, MeasurementPoint, Missing, compare, say, worked_out
from reporter.engineering import work
from reporter.engineering.fasteners import ends_apart, engagement


def thread(evidence: Evidence) -> Assessment:
    """Every end against the customary figure, and end beside end."""
    diameter = evidence.facts.get("thread")
    ends = tuple(_ends(evidence))
    if not evidence.at("thread_engaged") or (diameter and diameter.value):
        return Assessment(checks=(*_engaged(evidence), *ends))
    title, why = say("thread", kind="rigging_screw"), say("no_thread", kind="rigging_screw")
    lacking = Missing(id="engaged_ratio", title=title, needed=False, why=why)
    return Assessment(checks=ends, missing=(lacking,))


def _engaged(evidence: Evidence) -> Iterator[Check]:
    diameter = evidence.facts.get("thread")
    if diameter is None or diameter.value is None:
        return
    limit = evidence.limit("rigging_screw.engaged.customary")
    for spot in evidence.at("thread_engaged"):
        ratio, sum_ = work(engagement, {"engaged": spot.value, "thread": diameter.value})
        yield compare(evidence, ratio, limit, like=spot, working=(sum_,))


def _ends(evidence: Evidence) -> Iterator[Check]:
    """Lower end beside upper end of one screw, where `at` ends in those words."""
    for lower in evidence.at("thread_engaged"):
        upper = _upper_of(evidence, lower)
        if upper:
            apart, sum_ = work(ends_apart, {"lower": lower.value, "upper": upper.value})
            pair = lower.model_copy(update={"at": lower.at.removesuffix("lower").strip(" ,")})
            yield worked_out("rigging_screw", "end_difference", apart, (sum_,), like=pair)


def _upper_of(evidence: Evidence, lower: MeasurementPoint) -> MeasurementPoint | None:
    if not lower.at.endswith("lower"):
        return None
    wanted = (lower.at.removesuffix("lower") + "upper", lower.side, lower.state)
    same = [each for each in evidence.at("thread_engaged") if (each.at, each.side, each.state) == wanted]
    return same[0] if same else None
