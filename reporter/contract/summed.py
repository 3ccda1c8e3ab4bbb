"""What most kinds do with a sum: it is made of each reading, and its result is held against every limit that speaks of it.

Comes in: Evidence, a declared function, the names of readings and what is known beside them. Goes out: results with the
sum that led to them, and checks; one for information neither governs nor scores.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from reporter.contract.given import beside, meant
from reporter.engineering import Formula, work
from reporter.engineering.mechanics import pressed_tension
from reporter.engineering.verdict import compare
from reporter.model.assessment import Check, Working
from reporter.model.evidence import Evidence, MeasurementPoint
from reporter.model.quantity import Value
from reporter.model.saying import Text, say
from reporter.model.terms import Grade, LimitKind, State, Verdict


def worked_out(
    kind: str,
    subject: str,
    value: Value,
    working: tuple[Working, ...],
    *,
    like: MeasurementPoint | None = None,
    note: Text = "",
    title: Text = "",
) -> Check:
    """The check of a derived quantity that no published limit speaks of; `like` lends place, side and state."""
    place = f"@{like.at}/{like.side}/{like.state}" if like else ""
    return Check(
        id=f"{kind}.{subject}.worked{place}",
        subject=subject,
        title=title,
        value=value,
        verdict=Verdict.SEEN,
        grade=Grade.CLEAR,
        kind=LimitKind.DESIGN,
        at=like.at if like else "",
        side=like.side if like else "",
        state=like.state if like else State.FOUND,
        working=working,
        notes=(note,) if note else (),
        governs=False,
    )


def sums(
    evidence: Evidence,
    formula: Formula[...],
    readings: Mapping[str, str],
    known: Mapping[str, Value | None] | None = None,
) -> Iterator[tuple[MeasurementPoint, Value, Working]]:
    """The sum for each spot of the first of `readings` (parameter -> reading), the others as read beside it.

    `known` are the other parameters. Nothing where one of them is None, or where a reading beside is lacking.
    """
    given = {name: value for name, value in (known or {}).items() if value is not None}
    if len(given) < len(known or {}):
        return
    for spot in evidence.at(next(iter(readings.values()))):
        found = {name: beside(evidence, reading, spot) for name, reading in readings.items()}
        read = {name: each.value for name, each in found.items() if each}
        if len(read) == len(readings):
            value, working = work(formula, {**given, **read, next(iter(readings)): spot.value})
            yield spot, value, working


def against(
    evidence: Evidence,
    quantity: str,
    value: Value,
    *,
    like: MeasurementPoint | None = None,
    working: tuple[Working, ...] = (),
    notes: tuple[Text, ...] = (),
) -> Iterator[Check]:
    """The value against every limit of `quantity` that is meant for this part, in the order of the kind's file."""
    for limit in evidence.limits.values():
        if limit.quantity == quantity and meant(limit, evidence):
            yield compare(evidence, value, limit, like=like, working=working, notes=notes)


def pressed(evidence: Evidence, sag: str) -> Iterator[Check]:
    """Tension at each place where sag (the reading of that id), force and span were all read; at rest it is a little less."""
    for spot in evidence.at(sag):
        force, span = beside(evidence, "pressed_with", spot), beside(evidence, "pressed_span", spot)
        if force and span and spot.value.value > 0:
            inputs = {"force": force.value, "span": span.value, "sag": spot.value}
            tension, sum_ = work(pressed_tension, inputs)
            kind = evidence.component.kind
            yield worked_out(kind, "pressed_tension", tension, (sum_,), like=spot, note=say("said.pressed"))
