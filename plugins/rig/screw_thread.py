"""The thread of a rigging screw: how much of it holds, in thread diameters, and how unlike its two ends are.

Comes in: Evidence of rigging screws with `thread_engaged`. Goes out: checks, and what they lack.
"""

from __future__ import annotations

from collections.abc import Iterator

from reporter.contract import (
    Assessment,
    Check,
    Evidence,
    MeasurementPoint,
    Missing,
    against,
    at_place,
    say,
    stated,
    sums,
    worked_out,
)
from reporter.engineering import work
from reporter.engineering.fasteners import ends_apart, engagement


def assess(evidence: Evidence) -> Assessment:
    """Every end against the customary figure, and end beside end."""
    ends = tuple(_ends(evidence))
    if not evidence.at("thread_engaged") or stated(evidence, "thread"):
        return Assessment(checks=(*_engaged(evidence), *ends))
    title, why = say("thread", kind="rigging_screw"), say("no_thread", kind="rigging_screw")
    lacking = Missing(id="engaged_ratio", title=title, needed=False, why=why)
    return Assessment(checks=ends, missing=(lacking,))


def _engaged(evidence: Evidence) -> Iterator[Check]:
    thread = {"thread": stated(evidence, "thread")}
    for spot, ratio, sum_ in sums(evidence, engagement, {"engaged": "thread_engaged"}, thread):
        yield from against(evidence, "engaged_ratio", ratio, like=spot, working=(sum_,))


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
    place = lower.model_copy(update={"at": lower.at.removesuffix("lower") + "upper"})
    return at_place(evidence, "thread_engaged", place)
