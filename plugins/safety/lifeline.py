"""Lifelines with their ends: the wires between pulpit, stanchions and pushpit.

Comes in: Evidence of the lifelines of one side or of both, with the vessel's length. Goes out: the sag test, which is
judged only under the force it is defined for, and the diameter by length. Limits stand in lifeline.toml.
"""

from __future__ import annotations

from collections.abc import Iterator

from reporter.contract import (
    Action,
    Assessment,
    Check,
    Evidence,
    Grade,
    Missing,
    Remedy,
    Spot,
    at_or_over,
    beside,
    chosen,
    compare,
    stated,
    vessel,
    worked_out,
)
from reporter.engineering import units, work
from reporter.engineering.lifelines import sag_limit, wire_for_length
from reporter.engineering.mechanics import pressed_tension

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
    hidden, bare = coated(evidence, "3.14.6 and a national rule 17.17")
    checks = (*judged, *older, *tensions, *_wire(evidence), *_single(evidence), *hidden)
    missing = (
        (Missing(id="sag", title="Sag test of the lifelines", needed=False, why="; ".join(faults)),)
        if faults
        else ()
    )
    return Assessment(checks=checks, missing=missing, actions=(*_test_again(faults), *bare))


def _force_fault(evidence: Evidence, spot: Spot) -> str:
    """Why this sag says nothing against the rule, in plain words; nothing when the force was the rule's."""
    force = beside(evidence, "test_force", spot)
    if force is None:
        return "The sag was taken without its force, and says nothing without it."
    try:
        sag_limit(force.value.value, upper=LINES[spot.quantity] == "upper")
    except ValueError as error:
        text = str(error)
        return f"{text[:1].upper()}{text[1:]}."
    return ""


def _test_again(faults: tuple[str, ...]) -> Iterator[Action]:
    if faults:
        yield Action(
            id="lifeline.sag_again",
            what="Make the sag test with the force of the rule: a spring balance in the middle of the widest span aft of the mast, straight down",
            remedy=Remedy.TEST, why=" ".join(faults), grade=Grade.UNSEEN, tools=("spring balance", "rule", "straight edge or string"),
        )  # fmt: skip


def _sag(evidence: Evidence, spot: Spot) -> Iterator[Check]:
    line = LINES[spot.quantity]
    limit = evidence.limit(f"lifeline.sag.{line}")
    yield compare(evidence, spot.value, limit, like=spot)


def _older_test(evidence: Evidence, spot: Spot) -> Iterator[Check]:
    """The test as it was before 2014, where the force was the older one: for information."""
    force, older = beside(evidence, "test_force", spot), evidence.limit("lifeline.sag.force_before_2014")
    if (
        force
        and spot.quantity == "sag_upper"
        and abs(force.value.value / units.to_base(older.value, older.unit) - 1) <= SAME_FORCE
    ):
        limit = evidence.limit("lifeline.sag.before_2014")
        yield compare(evidence, spot.value, limit, like=spot)


def _tension(evidence: Evidence, spot: Spot) -> Iterator[Check]:
    force, span = beside(evidence, "test_force", spot), beside(evidence, "span", spot)
    if force and span and spot.value.value > 0:
        tension, sum_ = work(pressed_tension, {"force": force.value, "span": span.value, "sag": spot.value})
        yield worked_out(
            "lifeline",
            f"tension_{LINES[spot.quantity]}",
            tension,
            (sum_,),
            like=spot,
        )


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
