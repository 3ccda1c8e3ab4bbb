"""Tension of a stay at rest: by the growth of a folding-rule length, or by a gauge beside a breaking force.

Comes in: Evidence of one stay with on-request readings. Goes out: tension in per cent of the breaking force against
published figures, and what the stretch factor of the strand would have the growth be: two independent rules side by
side. The modulus is the strand's on its gross circle, never that of solid steel.
"""

from __future__ import annotations

from collections.abc import Iterator

from reporter.contract import (
    Assessment,
    Check,
    Dimension,
    Evidence,
    MeasurementPoint,
    Missing,
    Text,
    Value,
    Working,
    against,
    at_place,
    chosen,
    lacking,
    say,
    worked_out,
)
from reporter.engineering import units, work
from reporter.engineering.rows import FoldingRule
from reporter.engineering.strand import (
    elastic_stretch,
    folding_rule,
    stretch_factor,
    tension_by_growth,
    tension_of_share,
    tension_share,
)

from .stay_strength import Strength, known_strengths
from .stay_wear import is_spent

ROWS = {"1x19": "1x19", "compact": "compact strand", "rod": "rod"}
STRETCH = {"302_304": "302", "galvanised": "galvanised"}
"""Materials that the table of stretch factors prints, by our choices."""


def tension(evidence: Evidence) -> Assessment:
    """Tension by every reading that was taken; nothing when none was."""
    if not evidence.at("fold_growth"):
        return Assessment(checks=tuple(_by_gauge(evidence)), missing=tuple(_gauge_lacks(evidence)))
    construction = chosen(evidence, "construction")
    try:
        row = folding_rule(ROWS.get(construction, ""))
    except ValueError:
        why = say("said.folding_misprint" if construction in ROWS else "said.no_folding_rule")
        missing = lacking(evidence.component.kind, "tension", why)
        return Assessment(checks=tuple(_by_gauge(evidence)), missing=(missing,))
    by_rule = [check for spot in evidence.at("fold_growth") for check in _by_rule(evidence, spot, row)]
    return Assessment(checks=(*by_rule, *_by_gauge(evidence)), missing=tuple(_gauge_lacks(evidence)))


def _by_rule(evidence: Evidence, spot: MeasurementPoint, row: FoldingRule) -> Iterator[Check]:
    length = _base(evidence, spot, row)
    strain = Value(dimension=Dimension.RATIO, value=row.strain, unit="%")
    share, sum_ = work(tension_by_growth, {"growth": spot.value, "length": length, "strain": strain})
    yield from _against(evidence, share, spot, (sum_,), note=row.cited)
    found = () if is_spent(evidence) else known_strengths(evidence)
    if found:
        yield from _force(evidence, spot, share, length, found[0])


def _base(evidence: Evidence, spot: MeasurementPoint, row: FoldingRule) -> Value:
    """The measured length as read beside the growth, else that of the rule."""
    if same := at_place(evidence, "fold_length", spot):
        return same.value
    return Value(dimension=Dimension.LENGTH, value=units.to_base(row.base_mm, "mm"), unit="mm")


def _force(
    evidence: Evidence, spot: MeasurementPoint, share: Value, length: Value, strong: Strength
) -> Iterator[Check]:
    """The tension as a force, and the growth that the stretch factor gives for it."""
    kind = evidence.component.kind
    pull, sum_ = work(tension_of_share, {"share": share, "breaking": strong.force})
    yield worked_out(kind, "tension_force", pull, (sum_,), like=spot, note=strong.source)
    diameter, material = evidence.facts.get("diameter"), STRETCH.get(chosen(evidence, "grade_material"))
    if not (diameter and diameter.value and material):
        return
    try:
        row = stretch_factor(chosen(evidence, "construction"), material)
    except ValueError:
        return
    modulus = Value(dimension=Dimension.PRESSURE, value=row.gross_modulus, unit="N/mm²")
    inputs = {"tension": pull, "length": length, "modulus": modulus, "diameter": diameter.value}
    growth, stretched = work(elastic_stretch, inputs)
    yield worked_out(kind, "expected_growth", growth, (sum_, stretched), like=spot, note=row.cited)


def _by_gauge(evidence: Evidence) -> Iterator[Check]:
    found = () if is_spent(evidence) else known_strengths(evidence)
    for spot in evidence.at("gauge_tension") if found else ():
        share, sum_ = work(tension_share, {"tension": spot.value, "breaking": found[0].force})
        for check in _against(evidence, share, spot, (*found[0].sums, sum_), note=found[0].source):
            yield check.model_copy(update={"id": f"{check.id}/gauge"})


def _gauge_lacks(evidence: Evidence) -> Iterator[Missing]:
    if evidence.at("gauge_tension") and not is_spent(evidence) and not known_strengths(evidence):
        yield lacking(evidence.component.kind, "tension", say("said.gauge_alone"))


def _against(
    evidence: Evidence, share: Value, spot: MeasurementPoint, sums: tuple[Working, ...], *, note: Text
) -> Iterator[Check]:
    """The share against every figure that speaks of this stay; where none does, the share by itself."""
    found = tuple(against(evidence, "tension", share, like=spot, working=sums, notes=(note,)))
    yield from found or (worked_out(evidence.component.kind, "tension", share, sums, like=spot, note=note),)
