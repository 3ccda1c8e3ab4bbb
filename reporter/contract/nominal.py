"""A nominal size that nobody saw marked, with a neighbour too near: it decides nothing and becomes a question.

Comes in: Evidence with a size among its details and a limit that says how near is too near. Goes out: the names of the
neighbours, or the question as something missing with its action.
"""

from __future__ import annotations

from reporter.engineering import units
from reporter.engineering.wire_sizes import near_neighbours
from reporter.model.assessment import Action, Missing
from reporter.model.evidence import Evidence
from reporter.model.job import Fact
from reporter.model.terms import Grade, Remedy


def neighbours(evidence: Evidence, detail: str, limit_id: str) -> tuple[str, ...]:
    """Sizes that a guessed nominal could be taken for; none where it was seen on a mark, a paper or a gauge."""
    fact = evidence.facts.get(detail)
    if fact is None or fact.value is None or not fact.basis.is_guess:
        return ()
    limit = evidence.limit(limit_id)
    found = near_neighbours(fact.value.value, units.to_base(limit.value, limit.unit))
    return tuple(size.name for size in found)


def size_question(evidence: Evidence, detail: str, limit_id: str, what: str) -> tuple[Missing, Action] | None:
    """The question that takes the place of a verdict; `what` names the part ("the chain")."""
    names, fact = neighbours(evidence, detail, limit_id), evidence.facts.get(detail)
    if not names or fact is None:
        return None
    shown, others = _shown(fact), " or ".join(names)
    why = f"A size of {shown} that nobody saw marked could as well be {others}: no loss is reckoned from it."
    ident = f"{evidence.component.kind}.nominal_size"
    ask = f"Find out whether {what} is {shown} or {others}: look for a mark or an invoice, or gauge a part that carries nothing"
    missing = Missing(
        id="nominal_size",
        title=f"Size of {what}, by a mark, a paper or an unworn part",
        needed=False,
        why=why,
    )
    return missing, Action(id=ident, what=ask, remedy=Remedy.LOOK, why=why, grade=Grade.UNSEEN)


def _shown(fact: Fact) -> str:
    value = fact.value
    if value is None:
        return fact.words
    return value.written or f"{units.from_base(value.value, value.unit):g} {value.unit}"
