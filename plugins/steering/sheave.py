"""Sheaves, idlers and conduit that turn the steering wire between pedestal and quadrant.

Comes in: Evidence of one sheave or of all of one helm, with its wire. Goes out: the ratio of sheave to wire by the
wire's construction, as a design check. Limits stand in sheave.toml; what moves, wears and rubs is an observation.
"""

from __future__ import annotations

from collections.abc import Iterator

from reporter.contract import (
    Action,
    Amount,
    Assessment,
    Check,
    Evidence,
    Fact,
    Grade,
    LimitKind,
    Remedy,
    Text,
    Value,
    Verdict,
    against,
    compare,
    say,
    stated,
    sums,
)
from reporter.engineering import work
from reporter.engineering.mechanics import fleet_angle, sheave_ratio
from reporter.engineering.wire import bending_strength

from .drive import needed_value

STRAND = Check(
    id="sheave.strand",
    subject="strand",
    title=say("strand_title", kind="sheave"),
    said=say("strand", kind="sheave"),
    verdict=Verdict.SEEN,
    grade=Grade.PLAN,
    kind=LimitKind.DESIGN,
    method=say("strand_basis", kind="sheave"),
)
FLEXIBLE = Action(
    id="sheave.strand",
    what=say("flexible", kind="sheave"),
    remedy=Remedy.REPLACE,
    why=STRAND.said,
    grade=STRAND.grade,
    settles=(STRAND.id,),
)


def assess(evidence: Evidence) -> Assessment:
    """The ratio against what its wire's construction asks for; a strand of 1x19 over a sheave is told by itself."""
    strand = _construction(evidence) == "1x19"
    return Assessment(
        checks=(*_ratio(evidence), *_fleet(evidence), *((STRAND,) if strand else ())),
        actions=(FLEXIBLE,) if strand else (),
    )


def _construction(evidence: Evidence) -> str:
    found = evidence.needed.get("construction")
    return found.choice if isinstance(found, Fact) else ""


def _ratio(evidence: Evidence) -> Iterator[Check]:
    tread, wire = stated(evidence, "tread_diameter"), needed_value(evidence, "wire_diameter")
    if tread is None or wire is None:
        return
    ratio, sum_ = work(sheave_ratio, {"tread": tread, "wire": wire})
    quantities = {"ratio", f"ratio_{_construction(evidence)}"}
    for limit in evidence.limits.values():
        if limit.quantity in quantities:
            yield compare(evidence, ratio, limit, working=(sum_,), notes=_bent(ratio))


def _fleet(evidence: Evidence) -> Iterator[Check]:
    """Angle out of the sheave's plane by offset and distance, where it was measured so."""
    read = {"offset": "fleet_offset", "distance": "fleet_distance"}
    for spot, angle, sum_ in sums(evidence, fleet_angle, read):
        for check in against(evidence, "misalignment", angle, like=spot, working=(sum_,)):
            yield check.model_copy(update={"id": f"{check.id}/offset"})


def _bent(ratio: Value) -> tuple[Text, ...]:
    """How much of its strength the wire keeps while it is bent, where the table reaches so far."""
    try:
        kept = bending_strength(ratio.value)
    except ValueError:
        return ()
    return (say("bent", kind="sheave", share=Amount(amount=kept, unit="%", decimals=0)),)
