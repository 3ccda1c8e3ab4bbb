"""One component's grade: the worst check decides, then what was not seen, then the inspector.

Lowest-rating rule: US Navy MO-111.1, 4.2.1 (the lowest distress rating is the rating of the member).
"""

from __future__ import annotations

from collections.abc import Iterator

from reporter.grade.actions import propose, told_once
from reporter.grade.better_than_new import doubted, rechecks, unbelieved
from reporter.grade.materials import materials
from reporter.grade.observing import declared_checks
from reporter.grade.phrases import said
from reporter.grade.scoring import FLOORS, NODES, scored
from reporter.grade.settling import settling
from reporter.model.assessment import Assessment, Check, Graded, Missing
from reporter.model.evidence import Evidence
from reporter.model.plugin import ExaminationItem, Plugin
from reporter.model.saying import Text, named, say, series
from reporter.model.template import Template
from reporter.model.terms import Extent, Grade, LimitKind, State, Verdict, worst

ABSENT = {Extent.NOT_SEEN, Extent.NOT_FITTED}


def judge(
    plugin: Plugin,
    evidence: Evidence,
    assessment: Assessment,
    template: Template,
    *,
    failed: str = "",
) -> Graded:
    """The component graded: checks of the plugin and of the declaration, gaps, actions, the inspector's word."""
    component = evidence.component
    extent = component.examined.extent
    checks = () if extent in ABSENT or failed else _checks(plugin, evidence, assessment, template)
    checks = tuple(said(check, plugin) for check in checks)
    missing = () if extent in ABSENT else _missing(plugin, evidence, assessment)
    capped = (*_caps(plugin, evidence, missing, failed), *unbelieved(checks, plugin))
    computed = _grade(checks, capped, extent)
    judgement = component.judgement
    grade = judgement.grade if judgement else computed
    graded = Graded(
        component=component,
        title=component.name or named(plugin.kind, "title"),
        system=plugin.system,
        station=plugin.station,
        load_path=plugin.load_path,
        grade=grade,
        computed=computed,
        score=_score(checks, grade, computed),
        sentence=_sentence(checks, computed, capped) or (judgement.reason if judgement else ""),
        spots=evidence.spots,
        checks=checks,
        missing=missing,
        unmet=_unmet(plugin, evidence) if checks else (),
        not_included=_items(plugin, evidence),
        capped=capped,
        remarks=assessment.remarks,
        judgement=judgement,
        failed=failed,
    )
    return _with_actions(graded, plugin, evidence, assessment)


def _with_actions(graded: Graded, plugin: Plugin, evidence: Evidence, assessment: Assessment) -> Graded:
    """The part with what is to be done: what its checks ask for, what would settle doubt, and with which materials."""
    tests = (
        *settling(graded.checks, evidence.spots, plugin),
        *rechecks(graded.checks, plugin),
    )
    assessment = assessment.model_copy(update={"actions": (*assessment.actions, *tests)})
    actions = tuple(
        each.model_copy(update={"parts": materials(each, plugin, evidence.facts)})
        for each in propose(graded, plugin, assessment)
    )
    return graded.model_copy(update={"actions": actions})


def _checks(
    plugin: Plugin, evidence: Evidence, assessment: Assessment, template: Template
) -> tuple[Check, ...]:
    used = frozenset(check.limit.id for check in assessment.checks if check.limit)
    checks = [*assessment.checks, *declared_checks(plugin, evidence, used)]
    if extent_is_missing(evidence):
        checks.append(_not_found(plugin))
    if not template.as_found_only:
        checks = [_superseded(check, checks) for check in checks]
    return scored(doubted(checks, plugin), load_path=plugin.load_path)


def extent_is_missing(evidence: Evidence) -> bool:
    """True when the part was looked for and is not aboard: a defect, not a gap."""
    return evidence.component.examined.extent is Extent.NOT_FOUND


def _not_found(plugin: Plugin) -> Check:
    return Check(
        id=f"{plugin.kind}.not_found",
        subject="not_found",
        task="get",
        title=say("grade.not_found_title"),
        said=say("grade.not_found"),
        verdict=Verdict.SEEN,
        grade=Grade.FIRST,
    )


def _superseded(check: Check, checks: list[Check]) -> Check:
    """A fact as found no longer governs where the same thing was taken again as left, and was seen then."""
    later = (
        check.governs
        and check.state is State.FOUND
        and any(
            each.state is State.LEFT
            and each.verdict is not Verdict.UNSEEN
            and (each.subject, each.at, each.side) == (check.subject, check.at, check.side)
            for each in checks
        )
    )
    return check.model_copy(update={"governs": False, "superseded": True}) if later else check


def _missing(plugin: Plugin, evidence: Evidence, assessment: Assessment) -> tuple[Missing, ...]:
    """What was not taken: needed first. `on request` things are missing to nobody."""
    if extent_is_missing(evidence):
        return ()
    named = {each.id: each for each in (*_untaken(plugin, evidence), *assessment.missing)}
    return tuple(sorted(named.values(), key=lambda each: not each.needed))


def _unmet(plugin: Plugin, evidence: Evidence) -> tuple[str, ...]:
    """Inputs from elsewhere that are usually known, without which a sum could not be made."""
    return tuple(
        named(plugin.kind, "need", need.id, "why")
        for need in plugin.needs
        if need.id in evidence.unmet and need.asked == "usual"
    )


def _untaken(plugin: Plugin, evidence: Evidence) -> Iterator[Missing]:
    taken = {spot.quantity for spot in evidence.spots}
    for quantity in plugin.readings:
        if quantity.asked == "usual" and quantity.id not in taken and evidence.meets(quantity.only_if):
            yield Missing(
                id=quantity.id,
                title=named(plugin.kind, "reading", quantity.id, "title"),
                needed=quantity.required == "needed",
            )
    for observation in plugin.observations:
        asked = observation.asked == "usual" and evidence.may_meet(observation.only_if)
        if asked and not observation.was_seen(evidence.observed.get(observation.id, ())):
            yield Missing(
                id=observation.id,
                title=named(plugin.kind, "observation", observation.id, "title"),
                needed=observation.required == "needed",
            )
    for detail in plugin.details:
        # A detail that nothing needs is no gap in the examination.
        asked = detail.required == "needed" and evidence.may_meet(detail.only_if)
        if asked and detail.id not in evidence.facts:
            yield Missing(id=detail.id, title=named(plugin.kind, "detail", detail.id, "title"), needed=True)


def _left_out(plugin: Plugin, evidence: Evidence) -> list[ExaminationItem]:
    component = evidence.component
    if component.examined.extent in {*ABSENT, Extent.NOT_FOUND} or "all" in component.examined.included:
        return []
    return [item for item in plugin.examination if item.id not in component.examined.included]


def _items(plugin: Plugin, evidence: Evidence) -> tuple[Text, ...]:
    """What the examination left out, in the kind's words."""
    return tuple(named(plugin.kind, "examination", item.id, "words") for item in _left_out(plugin, evidence))


def _caps(plugin: Plugin, evidence: Evidence, missing: tuple[Missing, ...], failed: str) -> Iterator[Text]:
    """Why the part cannot be called clear, in plain words."""
    examined = evidence.component.examined
    if failed:
        yield failed
    elif examined.extent is Extent.NOT_SEEN:
        yield say("grade.not_seen", because=examined.because or say("grade.no_reason"))
    elif examined.extent is Extent.NOT_FITTED:
        yield say("grade.not_fitted")
    else:
        needed = [each.title for each in told_once(missing) if each.needed]
        if needed:
            yield say("grade.needed_missing", items=series(needed))
        if left := _items(plugin, evidence):
            yield say("grade.part_seen", items=series(left))
        elif examined.extent is Extent.PART_SEEN:
            yield say("grade.part_seen_because", because=examined.because or say("grade.no_reason"))


def _grade(checks: tuple[Check, ...], capped: tuple[Text, ...], extent: Extent) -> Grade:
    """A bad check always decides; else whatever keeps the part from being clear leaves it unseen."""
    if extent in ABSENT:
        return Grade.UNSEEN
    reached = worst([check.grade for check in checks if check.governs])
    if reached.rank > Grade.CLEAR.rank:
        return reached
    return Grade.UNSEEN if capped or not checks else reached


def _score(checks: tuple[Check, ...], grade: Grade, computed: Grade) -> float | None:
    """The lowest score of the condition checks, kept inside the band of the grade that stands."""
    found = [check.score for check in checks if check.score is not None and check.kind is LimitKind.CONDITION]
    if Grade.UNSEEN in {grade, computed} or not found:
        return None
    lowest = min(found)
    # A limit of design, rule or age may set a worse grade than any condition check; the score must not hide it.
    return (
        min(max(lowest, FLOORS[grade] + 0.1), NODES[grade])
        if grade is not Grade.STOP
        else min(lowest, NODES[grade])
    )


def _sentence(checks: tuple[Check, ...], grade: Grade, capped: tuple[Text, ...]) -> Text:
    """The words of the worst governing check, or what was not seen; what was put right meanwhile is not hidden."""
    if grade is Grade.CLEAR:
        found = max(
            (check for check in checks if check.superseded),
            key=lambda check: check.grade.rank,
            default=None,
        )
        put_right = found is not None and found.grade.rank > Grade.CLEAR.rank
        return say("grade.left_clear", found=found.sentence) if found and put_right else ""
    deciding = [check for check in checks if check.governs and check.grade is grade and check.said]
    if (grade is Grade.UNSEEN and capped) or not deciding:
        return capped[0] if capped else ""
    return deciding[0].sentence
