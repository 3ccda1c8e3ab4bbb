"""Steering chain and sprocket: the loop's upper part, from the wheel shaft down to the joints with the wire.

Comes in: Evidence of one chain. Goes out: elongation against its limits, with the arithmetic. Limits stand in
chain.toml; everything else that can be seen of a chain is an observation.
"""

from __future__ import annotations

from collections.abc import Iterator

from reporter.contract import (
    Assessment,
    Check,
    Evidence,
    Limit,
    MeasurementPoint,
    SourceFigure,
    Text,
    Value,
    Working,
    beside,
    chosen,
    compare,
    is_spent,
    lacking,
    say,
)
from reporter.engineering import work
from reporter.engineering.chain import elongation, elongation_limit, length_by_rollers

from .chain_pull import against_pull
from .chain_sizes import SIZES, pitch_of


def assess(evidence: Evidence) -> Assessment:
    """Elongation wherever it was measured; without a pitch or a measurement it is missing, and needed."""
    pitch = pitch_of(evidence.facts.get("size"), evidence.facts.get("pitch"))
    if pitch is None:
        return _lacking(say("no_pitch", kind="chain"))
    checks = tuple(check for spot in _lengths(evidence) for check in _elongation(evidence, pitch, spot))
    if not checks:
        return _lacking("")
    size = SIZES.get(chosen(evidence, "size"), "")
    pull = against_pull(evidence, pitch, size, spent=is_spent(evidence, checks))
    return Assessment(checks=(*checks, *pull))


def _lacking(why: Text) -> Assessment:
    return Assessment(missing=(lacking("chain", "elongation", why, needed=True),))


def _lengths(evidence: Evidence) -> Iterator[tuple[MeasurementPoint, Value, Value, tuple[Working, ...]]]:
    """Each place measured: the spot, its length, its number of pitches, and the sum that led to the length."""
    for span in evidence.at("span"):
        if pitches := beside(evidence, "pitches", span):
            yield span, span.value, pitches.value, ()
    for inside in evidence.at("span_inside"):
        outside, pitches = beside(evidence, "span_outside", inside), beside(evidence, "pitches", inside)
        if outside and pitches:
            length, sum_ = work(length_by_rollers, {"inside": inside.value, "outside": outside.value})
            yield inside, length, pitches.value, (sum_,)


def _elongation(
    evidence: Evidence, pitch: Value, measured: tuple[MeasurementPoint, Value, Value, tuple[Working, ...]]
) -> Iterator[Check]:
    spot, length, pitches, before = measured
    result, sum_ = work(elongation, {"length": length, "links": pitches, "pitch": pitch})
    for ident in (
        "chain.elongation.smooth",
        "chain.elongation.wear",
        "chain.elongation.unseated",
        "chain.elongation.planning",
    ):
        limit, notes = _for_sprocket(evidence.limit(ident), evidence)
        yield compare(
            evidence, result, limit, like=spot, working=(*before, sum_),
            method=say("pin_to_pin", kind="chain"), notes=notes,
        )  # fmt: skip


def _for_sprocket(limit: Limit, evidence: Evidence) -> tuple[Limit, tuple[Text, ...]]:
    """The wear limit shrinks with a large sprocket: 3 % or 200 / N %, whichever is less."""
    teeth = evidence.facts.get("larger_teeth")
    if limit.id != "chain.elongation.wear" or teeth is None or teeth.value is None:
        return limit, ()
    product = evidence.limit("chain.elongation.large_sprocket").value
    lowest = elongation_limit(limit.value / 100, product / 100, teeth.value.value) * 100
    if lowest == limit.value:
        return limit, ()
    count, three = SourceFigure(figure=teeth.value.value), SourceFigure(figure=limit.value, unit=limit.unit)
    note = say("by_teeth", kind="chain", product=SourceFigure(figure=product), teeth=count, limit=three)
    return limit.model_copy(update={"value": lowest}), (note,)
