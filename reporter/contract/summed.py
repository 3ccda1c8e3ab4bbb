"""What most kinds do with a sum: it is made of each reading, and its result is held against every limit that speaks of it.

Comes in: Evidence, a declared function, the names of readings and what is known beside them. Goes out: results with the
sum that led to them, and checks.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from reporter.contract.given import beside, meant
from reporter.engineering import Formula, work
from reporter.engineering.verdict import compare
from reporter.model.assessment import Check, Working
from reporter.model.evidence import Evidence, MeasurementPoint
from reporter.model.quantity import Value
from reporter.model.saying import Text


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
