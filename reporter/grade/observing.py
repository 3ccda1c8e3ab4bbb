"""Checks that a declaration alone decides: observations, ages, readings that stand directly against a limit."""

from __future__ import annotations

from collections.abc import Iterator

from reporter.contract import compare
from reporter.grade.evidence import age_of
from reporter.model.assessment import Check
from reporter.model.citation import Limit
from reporter.model.evidence import Evidence
from reporter.model.findings import Observed
from reporter.model.plugin import Observation, Plugin
from reporter.model.saying import named, say, series
from reporter.model.terms import Grade, LimitKind, State, Verdict

HARMLESS = frozenset({"clean", "lubricate", "look", "test"})
"""Remedies after which nothing needs proving but that the part was put back: they take nothing apart."""


def declared_checks(plugin: Plugin, evidence: Evidence, already: frozenset[str]) -> Iterator[Check]:
    """Every check that needs no plugin code. `already` are limit ids that the plugin has used itself."""
    for ident, answers in evidence.observed.items():
        observation = plugin.observation(ident)
        if observation is None:
            continue
        for number, each in enumerate(answers):
            yield _observed(plugin, observation, each, number)
    for limit in evidence.limits.values():
        if limit.id not in already and not limit.between and evidence.meets(limit.applies):
            yield from _against(plugin, evidence, limit)
    yield from _proof(plugin, evidence)


def _observed(plugin: Plugin, observation: Observation, answer: Observed, number: int) -> Check:
    choice = observation.choice(answer.choice)
    return Check(
        id=f"{plugin.kind}.{observation.id}.{number}",
        subject=observation.id,
        choice=choice.id,
        task=choice.task,
        verdict=Verdict.UNSEEN if choice.gap else Verdict.SEEN,
        grade=choice.grade,
        at=answer.at,
        side=answer.side,
        state=answer.state,
        method=named(plugin.kind, "observation", observation.id, "basis"),
        notes=(answer.note,) if answer.note else (),
    )


def _against(plugin: Plugin, evidence: Evidence, limit: Limit) -> Iterator[Check]:
    quantity = plugin.quantity(limit.quantity)
    if quantity is not None:
        for spot in evidence.at(quantity.id):
            yield compare(
                evidence,
                spot.value,
                limit,
                like=spot,
                method=named(plugin.kind, "reading", quantity.id, "method"),
            )
        return
    detail, fact = plugin.detail(limit.quantity), evidence.facts.get(limit.quantity)
    if detail is None or fact is None:
        return
    value = age_of(fact, evidence) if limit.kind is LimitKind.AGE else fact.value
    if value is not None:
        yield compare(evidence, value, limit)


def _proof(plugin: Plugin, evidence: Evidence) -> Iterator[Check]:
    """Work on a load path is not clear until proved: taking apart asks for proof before the next passage.

    A fact as left tells of work as well; where nothing says which, it counts as taking apart.
    """
    component = evidence.component
    left = component.tells_left or any(spot.state is State.LEFT for spot in evidence.spots)
    missing = [
        named(plugin.kind, "proof", item.id, "words")
        for item in plugin.proof
        if not {item.id, "all"} & set(component.proved)
    ]
    if not ((component.done or left) and plugin.load_path and missing):
        return
    opened = not component.done or any(
        done.remedy is None or done.remedy.value not in HARMLESS for done in component.done
    )
    yield Check(
        id=f"{plugin.kind}.proof",
        subject="proof",
        title=say("grade.proof_title"),
        said=say("grade.proof_missing", items=series(missing)),
        verdict=Verdict.UNSEEN,
        grade=Grade.FIRST if opened else Grade.WATCH,
    )
