"""Lifelines with their ends: the wires between pulpit, stanchions and pushpit.

Comes in: Evidence of the lifelines of one side or of both, with the vessel's length. Goes out: the sag test, which is
judged only under the force it is defined for, and the diameter by length. Limits stand in lifeline.toml.
"""

from __future__ import annotations

from collections.abc import Iterator

from reporter.contract import (
    Action,
    Amount,
    Assessment,
    Check,
    Evidence,
    MeasurementPoint,
    Missing,
    Remedy,
    SourceFigure,
    Text,
    asking,
    at_or_over,
    beside,
    chosen,
    compare,
    say,
    series,
    stated,
    vessel,
    worked_out,
)
from reporter.engineering import table, units, work
from reporter.engineering.lifelines import sag_limit, wire_for_length
from reporter.engineering.mechanics import pressed_tension
from reporter.engineering.rows import PublishedFigure

from .coated import coated

SAME_FORCE = 0.02
"""A test force this near to a rule's, as a fraction, is the rule's."""
LINES = {"sag_upper": "upper", "sag_intermediate": "intermediate"}


def assess(evidence: Evidence) -> Assessment:
    """Sag under its force, diameter by length, a single line by length; a sag under another force is asked for again."""
    tests = [(spot, _force_fault(evidence, spot)) for reading in LINES for spot in evidence.at(reading)]
    faults = tuple(dict.fromkeys(fault for _, fault in tests if fault))
    judged = [check for spot, fault in tests if not fault for check in _sag(evidence, spot)]
    older = [check for spot, fault in tests if fault for check in _older_test(evidence, spot)]
    tensions = [check for spot, _ in tests for check in _tension(evidence, spot)]
    hidden, bare = coated(evidence, say("clause", kind="lifeline"))
    checks = (*judged, *older, *tensions, *_wire(evidence), *_single(evidence), *hidden)
    asked = _test_again(series(faults, by="; ")) if faults else None
    return Assessment(
        checks=checks, missing=asked[:1] if asked else (), actions=(*(asked[1:] if asked else ()), *bare)
    )


def _force_fault(evidence: Evidence, spot: MeasurementPoint) -> Text:
    """Why this sag says nothing against the rule; nothing when the force was the rule's."""
    force = beside(evidence, "test_force", spot)
    if force is None:
        return say("no_force", kind="lifeline")
    try:
        sag_limit(force.value.value, upper=LINES[spot.quantity] == "upper")
    except ValueError:
        rule = next(row for row in table(PublishedFigure) if row.id == "lifeline.test_force")
        asked, used = (
            SourceFigure(figure=rule.value, unit=rule.unit),
            Amount(amount=force.value.value, unit=rule.unit),
        )
        return say("other_force", kind="lifeline", asked=asked, used=used)
    return ""


def _test_again(why: Text) -> tuple[Missing, Action]:
    missing, action = asking(
        "lifeline.sag_again", say("sag", kind="lifeline"), why, say("sag_ask", kind="lifeline")
    )
    tools = (say("balance", kind="lifeline"), say("rule", kind="lifeline"), say("string", kind="lifeline"))
    changes = {"remedy": Remedy.TEST, "tools": tools}
    return missing.model_copy(update={"id": "sag"}), action.model_copy(update=changes)


def _sag(evidence: Evidence, spot: MeasurementPoint) -> Iterator[Check]:
    line = LINES[spot.quantity]
    limit = evidence.limit(f"lifeline.sag.{line}")
    yield compare(evidence, spot.value, limit, like=spot)


def _older_test(evidence: Evidence, spot: MeasurementPoint) -> Iterator[Check]:
    """The test as it was before 2014, where the force was the older one: for information."""
    force, older = beside(evidence, "test_force", spot), evidence.limit("lifeline.sag.force_before_2014")
    if (
        force
        and spot.quantity == "sag_upper"
        and abs(force.value.value / units.to_base(older.value, older.unit) - 1) <= SAME_FORCE
    ):
        limit = evidence.limit("lifeline.sag.before_2014")
        yield compare(evidence, spot.value, limit, like=spot)


def _tension(evidence: Evidence, spot: MeasurementPoint) -> Iterator[Check]:
    force, span = beside(evidence, "test_force", spot), beside(evidence, "span", spot)
    if force and span and spot.value.value > 0:
        tension, sum_ = work(pressed_tension, {"force": force.value, "span": span.value, "sag": spot.value})
        yield worked_out("lifeline", f"tension_{LINES[spot.quantity]}", tension, (sum_,), like=spot)


def _wire(evidence: Evidence) -> Iterator[Check]:
    """The diameter against the row of the vessel's length; fibre lines have no row."""
    length, diameter = vessel(evidence, "length_overall"), stated(evidence, "diameter")
    if length is None or diameter is None or chosen(evidence, "material") == "fibre":
        return
    row = wire_for_length(length.value)
    limit = evidence.limit(f"lifeline.wire.{row.wire_mm:g}mm")
    yield compare(evidence, diameter, limit)


def _single(evidence: Evidence) -> Iterator[Check]:
    length = vessel(evidence, "length_overall")
    if chosen(evidence, "lines") == "single" and length:
        limit = evidence.limit("lifeline.single_length.under")
        yield at_or_over(compare(evidence, length, limit))
