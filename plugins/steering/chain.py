"""Steering chain and sprocket: the loop's upper part, from the wheel shaft down to the joints with the wire.

Comes in: Evidence of one chain, with the wheel and a force at the rim of the same helm. Goes out: elongation against its
limits; pull and breaking force over pull, for information: no figure is published for steering, and it is withheld once
the chain is worn or damaged. Limits stand in chain.toml; everything else that can be seen of a chain is an observation.
"""

from __future__ import annotations

from collections.abc import Iterator

from reporter.contract import (
    Assessment,
    Check,
    Dimension,
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
    stated,
    withheld,
    worked_out,
)
from reporter.engineering import work
from reporter.engineering.chain import (
    breaking_force,
    elongation,
    elongation_limit,
    length_by_rollers,
    size_named,
)
from reporter.engineering.mechanics import chain_pull, factor_of_safety, sprocket_radius

from .drive import SIZES, half, kept_up, largest, needed_value, pitch_of


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


def against_pull(evidence: Evidence, pitch: Value, size: str, *, spent: bool) -> Iterator[Check]:
    """Pull from the rim, and what the undamaged chain breaks at over it; `size` is the chain's name, if known."""
    wheel, teeth = needed_value(evidence, "wheel_diameter"), stated(evidence, "teeth")
    if wheel is None or teeth is None:
        return
    radius, first = work(sprocket_radius, {"pitch": pitch, "teeth": teeth})
    inputs = {"rim_force": _rim_force(evidence), "wheel_radius": half(wheel), "sprocket_radius": radius}
    pull, second = work(chain_pull, inputs)
    yield worked_out("chain", "chain_pull", pull, (first, second))
    if spent:
        yield withheld("chain", "factor")
        return
    found = _strength(evidence, size)
    if found:
        strong, source = found
        factor, third = work(factor_of_safety, {"strength": strong, "load": pull})
        yield worked_out("chain", "factor", factor, (first, second, third), note=source)


def _strength(evidence: Evidence, size: str) -> tuple[Value, Text] | None:
    """The marked strength, else the table's for carbon steel; a stainless chain without a mark has none here."""
    marked = stated(evidence, "marked_strength")
    if marked:
        return marked, say("marked", kind="chain")
    if not size or chosen(evidence, "material") != "carbon":
        return None
    newtons = breaking_force(size, stainless=False)
    source = say("by_size", kind="chain", size=size, source=size_named(size).cited)
    return Value(dimension=Dimension.FORCE, value=newtons, unit="kN"), source


def _rim_force(evidence: Evidence) -> Value:
    """The largest force read at the rim for the quadrant; without one, the helm force that can be kept up."""
    spots = evidence.needed.get("rim_force")
    found = largest(spots) if isinstance(spots, tuple) else None
    return found or kept_up(evidence.limit("chain.rim_force.kept_up"))
