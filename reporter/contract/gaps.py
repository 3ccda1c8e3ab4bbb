"""What is not known well enough: it decides nothing and becomes a question, or something missing.

A nominal size that nobody saw marked, with a neighbour too near; and a part aloft that was looked at from deck, which is
part seen, whatever binoculars showed. Comes in: Evidence, with a size among its details and a limit that says how near is too
near, or with the observation `looked`. Goes out: neighbours, what is missing, its action. It grades nothing.
"""

from __future__ import annotations

from collections.abc import Iterator

from reporter.engineering import units
from reporter.engineering.wire import near_neighbours
from reporter.model.assessment import Action, Assessment, Missing
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


FROM_DECK, WITHIN_REACH = "from_deck", "within_reach"


def not_close(evidence: Evidence) -> Iterator[Missing]:
    """The parts aloft as missing, where somebody looked from deck; the kind says `aloft` what they are."""
    if not _far(evidence):
        return
    yield Missing(
        id="close_up",
        title=say("said.close_by", what=Saying(say="aloft", kind=evidence.component.kind)),
        needed=True,
        why=say("said.from_deck"),
    )


def aloft_alone(evidence: Evidence) -> Assessment:
    """The whole arithmetic of a kind that has none: observations decide, and what is aloft is missing while seen from deck."""
    return Assessment(missing=tuple(not_close(evidence)))


def _far(evidence: Evidence) -> bool:
    """True when any answer says from deck, or the examination says so where the answer says otherwise."""
    answers = {each.choice for each in evidence.observed.get("looked", ())}
    how = evidence.component.examined.how
    # Two statements that disagree: the lesser one is taken.
    contradicted = "aloft" in answers and FROM_DECK in how and "aloft" not in how
    return FROM_DECK in answers or contradicted
