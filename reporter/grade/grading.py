"""The stage itself: every component through its plugin, then systems, then actions numbered once.

Comes in: a Job, the plugins and systems, a template. Goes out: Assessments. It reads no file and knows no date
but the inspection's.
"""

from __future__ import annotations

from reporter.errors import JobError, PluginError, Problem
from reporter.grade.actions import numbered
from reporter.grade.compass import with_deviation
from reporter.grade.component import judge
from reporter.grade.dating import dated
from reporter.grade.evidence import gather
from reporter.grade.forecast import forecasts
from reporter.grade.lineage import GradedVisit
from reporter.grade.looking_back import look_back
from reporter.grade.schedule import schedule
from reporter.grade.sides import Known, opposites, side_checks
from reporter.grade.systems import grade_system
from reporter.model.assessment import Assessment, Assessments, Graded
from reporter.model.citation import Citation, Limit
from reporter.model.evidence import Evidence
from reporter.model.findings import Component
from reporter.model.history import History
from reporter.model.job import Job
from reporter.model.plugin import Kinds, Plugin
from reporter.model.template import Template
from reporter.model.terms import Sense


def grade(job: Job, kinds: Kinds, template: Template, *, keep_going: bool = False) -> Assessments:
    """Grades every component of `job`.

    Raises JobError when the template is as-found only and work was done without the owner's permission on record,
    PluginError when a plugin raises or breaks its contract; with `keep_going` its component is printed as
    not graded instead, with the reason.
    """
    _permitted(job, template)
    parts = _parts(job, kinds, template, keep_going=keep_going)
    history = _history(job, parts, kinds, template, keep_going=keep_going)
    parts = dated(parts, history, job, template)
    return Assessments(
        components=parts,
        history=history,
        schedule=schedule(parts, history, job, kinds.plugins),
        systems=tuple(grade_system(system, parts, job, template) for system in kinds.systems.values()),
        relaxed_limits=tuple(limit for limit in job.limits.values() if _is_relaxed(limit)),
        yardsticks=tuple(limit for limit in job.limits.values() if not limit.governs),
        sources=_sources(parts),
    )


def _parts(job: Job, kinds: Kinds, template: Template, *, keep_going: bool) -> tuple[Graded, ...]:
    """Every component graded, in walking order, its actions numbered."""
    pairs = opposites(job, kinds.plugins)
    graded = [
        _one(job, component, pairs.get(component.id), kinds, template, keep_going=keep_going)
        for component in job.components
    ]
    order = _walking_order(kinds)
    graded.sort(key=lambda part: order.get((part.system, part.station), (99, 99)))
    return numbered(with_deviation(graded, kinds.plugins))


def _history(
    job: Job, parts: tuple[Graded, ...], kinds: Kinds, template: Template, *, keep_going: bool
) -> History:
    """Earlier visits graded with today's limits, and what they tell beside today's."""
    visits = []
    # What an earlier visit left behind is what this one is held against, also in a report as found.
    as_left = template.model_copy(update={"as_found_only": False})
    for past in job.earlier:
        again = past.model_copy(update={"limits": {**past.limits, **job.limits}})
        visits.append(GradedVisit(past, _parts(again, kinds, as_left, keep_going=keep_going)))
    history = look_back(GradedVisit(job, parts), visits, kinds.plugins)
    if not template.forecasts:
        return history
    return history.model_copy(update={"forecasts": forecasts(history.runs, parts, kinds.plugins, job)})


def _permitted(job: Job, template: Template) -> None:
    """A report as found tells no work, unless the owner's permission is on record."""
    if not template.as_found_only or job.sheet.permission.work:
        return
    worked = [component.id for component in job.components if component.done]
    if worked:
        what = f"Work was done on {', '.join(worked)}, and no permission for it is on record."
        do = "A report of this kind tells the state as found. Put the owner's permission into job.yaml (permission: work: yes, by, date) or take 'done' out."
        raise JobError([Problem("findings.yaml", 0, "done", what, do)])


def _walking_order(kinds: Kinds) -> dict[tuple[str, str], tuple[int, int]]:
    return {
        (system.id, station.id): (rank, place)
        for rank, system in enumerate(kinds.systems.values())
        for place, station in enumerate(system.stations)
    }


def _one(
    job: Job,
    component: Component,
    partner: Component | None,
    kinds: Kinds,
    template: Template,
    *,
    keep_going: bool,
) -> Graded:
    plugin = kinds.plugins[component.kind]
    evidence = gather(job, component, plugin, kinds.plugins)
    if component.id in job.incomplete:
        return judge(plugin, evidence, Assessment(), template, failed=job.incomplete[component.id])
    try:
        assessment = _assess(plugin, evidence)
    except PluginError as error:
        if not keep_going:
            raise
        return judge(plugin, evidence, Assessment(), template, failed=error.message)
    assessment = _with_sides(Known(evidence, assessment), partner, job, kinds)
    return judge(plugin, evidence, assessment, template)


def _with_sides(mine: Known, partner: Component | None, job: Job, kinds: Kinds) -> Assessment:
    """What the plugin made of the part, with both sides held against each other where a limit speaks of them."""
    component = mine.evidence.component
    plugin = kinds.plugins[component.kind]
    limits = [job.limits.get(each.id, each) for each in plugin.limits if each.between]
    if not limits:
        return mine.assessment
    other = None
    if partner:
        evidence = gather(job, partner, plugin, kinds.plugins)
        try:
            other = Known(evidence, _assess(plugin, evidence))
        except PluginError:
            other = None  # told at the partner itself
    checks = side_checks(mine, other, plugin, limits)
    return mine.assessment.model_copy(update={"checks": (*mine.assessment.checks, *checks)})


def _assess(plugin: Plugin, evidence: Evidence) -> Assessment:
    """Runs a plugin; whatever it raises becomes a PluginError, since it may be a stranger's code: want of memory does not."""
    name = evidence.component.id
    try:
        assessment = plugin.assess(evidence)
    except MemoryError:
        raise
    except Exception as error:
        msg = f"The plugin '{plugin.kind}' failed on '{name}': {type(error).__name__}: {error}"
        raise PluginError(msg, "Tell its author; --keep-going prints the component as not graded.") from error
    if not isinstance(assessment, Assessment):
        msg = f"The plugin '{plugin.kind}' returned no Assessment for '{name}' but a {type(assessment).__name__}."
        raise PluginError(msg, "Tell its author; --keep-going prints the component as not graded.")
    return assessment


def _is_relaxed(limit: Limit) -> bool:
    """True when an override lets through what the original limit would not; a yardstick lets nothing through."""
    if limit.override is None or not limit.governs:
        return False
    original = limit.override.original
    return limit.value > original if limit.sense is Sense.AT_MOST else limit.value < original


def _sources(parts: tuple[Graded, ...]) -> tuple[Citation, ...]:
    """Every source cited by a check, once, in the order of first use; the report numbers them so."""
    found: dict[Citation, None] = {}
    for part in parts:
        for check in part.checks:
            if check.limit:
                found.setdefault(check.limit.source)
            for working in check.working:
                found.setdefault(working.source)
    return tuple(found)
