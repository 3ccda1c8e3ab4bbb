"""Two metals that touch where it is wet: a caution, never a grade.

Comes in: Evidence with the details `fitting_metal` and the other part's metal. Goes out: the difference of potential with
its sum, and a remark. Only figures of one table, against one reference electrode, are compared.
"""

from __future__ import annotations

from typing import Any

from reporter.contract import (
    Amount,
    Assessment,
    Dimension,
    Evidence,
    SourceFigure,
    Text,
    Value,
    say,
    worked_out,
)
from reporter.engineering import cited, table, units, work
from reporter.engineering.galvanic import anode, difference, potential
from reporter.engineering.rows import PublishedFigure

_ROWS = {
    "aluminium": "aluminium, marine alloy",
    "mild_steel": "mild steel",
    "stainless": "stainless steel, active",
    "bronze": "silicon bronze",
    "brass": "brass or manganese bronze",
}
"""Stainless steel under a fitting is starved of oxygen, so that its active row is the one to take."""
OTHERS = ("spar_metal", "hull_metal")


def pair(evidence: Evidence) -> Assessment:
    """The pair of metals in figures and in words; nothing where they are not known or are one."""
    first, second = (_metal(evidence, names) for names in (OTHERS, ("fitting_metal",)))
    if not first or not second or first == second:
        return Assessment()
    values = [
        Value(
            dimension=Dimension.VOLTAGE,
            value=units.to_base(potential(_ROWS[each]).potential_mv, "mV"),
            unit="mV",
        )
        for each in (first, second)
    ]
    apart, sum_ = work(difference, {"first": values[0], "second": values[1]})
    row = potential(_ROWS[first])
    check = worked_out(evidence.component.kind, "metal_pair", apart, (sum_,), note=row.cited)
    return Assessment(checks=(check,), remarks=(_remark(first, second, apart),))


def _metal(evidence: Evidence, names: tuple[str, ...]) -> str:
    facts = (evidence.facts.get(name) for name in names)
    return next((fact.choice for fact in facts if fact and fact.choice in _ROWS), "")


def _remark(first: str, second: str, apart: Value) -> Text:
    limit = next(row for row in table(PublishedFigure) if row.id == "galvanic.pair")
    put: dict[str, Any] = {
        "first": say(f"said.metal_{first}"), "second": say(f"said.metal_{second}"), "source": cited(limit.citation),
        "apart": Amount(amount=apart.value, unit="mV", decimals=0),
    }  # fmt: skip
    if limit.met_by(units.from_base(apart.value, "mV")):
        return say("said.metals_apart", **put, least=SourceFigure(figure=limit.value, unit="mV"))
    suffers = "first" if anode(_ROWS[first], _ROWS[second]).metal == _ROWS[first] else "second"
    return say("said.metals_waste", **put, suffers=put[suffers])


assess = pair
"""Of a boom: it does not hold the mast up, so that a caution is all there is to work out."""
