"""A nominal size that nobody saw marked, with a neighbour too near: it decides nothing and becomes a question.

Comes in: Evidence with a size among its details and a limit that says how near is too near. Goes out: the names of the
neighbours, or the question as something missing with its action.
"""

from __future__ import annotations

from reporter.engineering import units
from reporter.engineering.wire import near_neighbours
from reporter.model.assessment import Action, Missing
from reporter.model.evidence import Evidence
from reporter.model.findings import Fact
from reporter.model.saying import Amount, Saying, Text, either, say
from reporter.model.terms import Grade, Remedy


def neighbours(evidence: Evidence, detail: str, limit_id: str) -> tuple[str, ...]:
    """Sizes that a guessed nominal could be taken for; none where it was seen on a mark, a paper or a gauge."""
    fact = evidence.facts.get(detail)
    if fact is None or fact.value is None or not fact.basis.is_guess:
        return ()
    limit = evidence.limit(limit_id)
    found = near_neighbours(fact.value.value, units.to_base(limit.value, limit.unit))
    return tuple(size.name for size in found)


def size_question(evidence: Evidence, detail: str, limit_id: str) -> tuple[Missing, Action] | None:
    """The question that takes the place of a verdict; the kind says `this` what the part is called ("the chain")."""
    names, fact = neighbours(evidence, detail, limit_id), evidence.facts.get(detail)
    if not names or fact is None:
        return None
    kind = evidence.component.kind
    shown, others, what = stated_size(fact), either(names), Saying(say="this", kind=kind)
    return asking(
        f"{kind}.nominal_size",
        say("said.nominal", what=what),
        say("said.nominal_why", shown=shown, others=others),
        say("said.nominal_ask", what=what, shown=shown, others=others),
    )


def asking(ident: str, title: Text, why: Text, ask: Text) -> tuple[Missing, Action]:
    """Something not known that decides nothing, and the action by which it becomes known; `ident` begins with the kind."""
    missing = Missing(id=ident.partition(".")[2], title=title, needed=False, why=say("said.whole", text=why))
    return missing, Action(id=ident, what=ask, remedy=Remedy.LOOK, why=why, grade=Grade.UNSEEN)


def stated_size(fact: Fact) -> str | Amount:
    """A size as it was written down."""
    value = fact.value
    if value is None or not value.unit:
        return fact.words
    return value.written or Amount(amount=value.value, unit=value.unit)
