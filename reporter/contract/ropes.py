"""What every fibre rope aboard has in common: its details, its readings, and the arithmetic of wear and load.

Comes in: Evidence of a halyard, a sheet or a rope rode, each with limits of its own under the same names. Goes out:
details and readings to be declared; diameter lost, working load with and without its knot, load factor.
"""

from __future__ import annotations

from collections.abc import Iterator

from reporter.contract.gaps import neighbours, size_question
from reporter.contract.given import chosen, stated
from reporter.contract.margins import is_spent, withheld
from reporter.contract.summed import against, sums, worked_out
from reporter.engineering import units, work
from reporter.engineering.mechanics import factor_of_safety
from reporter.engineering.tackle import diameter_loss, knot, knotted_load, strength_at_knot, working_load
from reporter.model.assessment import Assessment, Check, Working
from reporter.model.evidence import Evidence
from reporter.model.quantity import Value
from reporter.model.saying import Amount, Text, named, say
from reporter.model.terms import Dimension

KNOTS = {
    "bowline": "bowline",
    "half_hitches": "two half hitches on a ring",
    "anchor_bend": "anchor bend on a ring",
    "thimble": "eye splice with thimble",
}
"""Ends that the knot table has a row for, under the row's own name."""
_TIED = {"bowline", "half_hitches", "anchor_bend", "other_knot"}
_WEAR = ("abrasion", "broken_strands")


def rope_checks(evidence: Evidence) -> Assessment:
    """Diameter lost, and the loads of the undamaged rope; a guessed size with a near neighbour becomes a question."""
    kind = evidence.component.kind
    worn = tuple(_diameter(evidence, kind))
    question = None
    if evidence.at("rope_diameter"):
        question = size_question(evidence, "diameter", f"{kind}.diameter.neighbour")
    spent = is_spent(evidence, worn, _WEAR)
    loads: tuple[Check, ...] = (withheld(kind, "working_load"),) if spent else tuple(_loads(evidence, kind))
    if not stated(evidence, "breaking_load"):
        loads = ()
    return Assessment(
        checks=(*worn, *loads),
        missing=question[:1] if question else (),
        actions=question[1:] if question else (),
    )


def _diameter(evidence: Evidence, kind: str) -> Iterator[Check]:
    if neighbours(evidence, "diameter", f"{kind}.diameter.neighbour"):
        return
    new = {"new": stated(evidence, "diameter")}
    for spot, loss, sum_ in sums(evidence, diameter_loss, {"now": "rope_diameter"}, new):
        yield from against(evidence, "diameter_loss", loss, like=spot, working=(sum_,))


def _loads(evidence: Evidence, kind: str) -> Iterator[Check]:
    breaking = stated(evidence, "breaking_load")
    if breaking is None:
        return
    # The share that may be used is the limit's own, so that one figure serves both the sum and the verdict.
    factor = evidence.limit(f"{kind}.load_factor.working").value
    allowed, sum_ = work(working_load, {"breaking": breaking, "design_factor": factor})
    yield worked_out(kind, "working_load", allowed, (sum_,))
    kept = _kept(evidence, kind)
    before: tuple[Working, ...] = ()
    strength = breaking
    if kept:
        share, note = kept
        knotted, working = work(knotted_load, {"breaking": breaking, "kept": share, "design_factor": factor})
        yield worked_out(kind, "knotted_load", knotted, (working,), note=note)
        strength, at_knot = work(strength_at_knot, {"breaking": breaking, "kept": share})
        before = (at_knot,)
    for spot, ratio, over in sums(evidence, factor_of_safety, {"load": "load"}, {"strength": strength}):
        yield from against(evidence, "load_factor", ratio, like=spot, working=(*before, over))


def _kept(evidence: Evidence, kind: str) -> tuple[Value, Text] | None:
    """The share that the end keeps, at the lower end of what is published, and where it comes from."""
    own, end = stated(evidence, "end_kept"), chosen(evidence, "end")
    if own:
        return own, say("said.kept_by_papers")
    if end in _TIED and chosen(evidence, "fibre") == "hmpe":
        limit = evidence.limit(f"{kind}.knot_kept.hmpe")
        told = (named(kind, "limit", "knot_kept.hmpe", *path) for path in (("note",), ("source", "title")))
        return _share(units.to_base(limit.value, limit.unit)), say(
            "said.with_source", text=next(told), source=next(told)
        )
    if end not in KNOTS:
        return None
    row = knot(KNOTS[end])
    low, high = (Amount(amount=each, unit="%", decimals=0) for each in (row.low, row.high))
    return _share(row.low), say(
        "said.kept", knot=say(f"said.knot_{end}"), low=low, high=high, source=row.cited
    )


def _share(value: float) -> Value:
    return Value(dimension=Dimension.RATIO, value=value, unit="%")
