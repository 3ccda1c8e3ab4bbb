"""The walk through the boat: which parts are looked at on this visit, station by station.

Comes in: a job and the installed kinds, or kinds alone. Goes out: stations with their parts, those listed already and those
that this boat and purpose, or the last visit, expect. Nothing is judged.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass

from reporter.model.findings import Component
from reporter.model.job import Job
from reporter.model.plugin import Kinds, System
from reporter.model.template import Template


@dataclass(frozen=True)
class Part:
    """One part of the walk: its id (the one to give it, where it is not listed yet), and what is known of it.

    `component` is None for a part that the folder does not list. `before` is the latest earlier visit that tells of it.
    """

    number: int
    ident: str
    kind: str
    name: str
    place: str = ""
    component: Component | None = None
    before: tuple[Job, Component] | None = None


@dataclass(frozen=True)
class Stop:
    """One station of one system, with its parts."""

    system: System
    title: str
    parts: tuple[Part, ...]


def walk(kinds: Kinds, job: Job | None, template: Template | None, wanted: Sequence[str] = ()) -> list[Stop]:
    """The stops in walking order: the job's parts, those of the last visit, those expected; or one part of each kind wanted."""
    found = [*_listed(job), *_missed(job), *_expected(kinds, job, template)] if job else []
    found += [Part(0, kind, kind, "") for kind in wanted]
    stops: list[Stop] = []
    number = 0
    for system in kinds.systems.values():
        for station in system.stations:
            here = [each for each in found if _stands(kinds, each, system.id, station.id)]
            parts = [_named(each, number + place, kinds) for place, each in enumerate(here, start=1)]
            number += len(parts)
            stops += [Stop(system, station.title, tuple(parts))] if parts else []
    return stops


def _stands(kinds: Kinds, part: Part, system: str, station: str) -> bool:
    plugin = kinds.plugins[part.kind]
    return (plugin.system, plugin.station) == (system, station)


def _named(part: Part, number: int, kinds: Kinds) -> Part:
    name = part.name or kinds.plugins[part.kind].title
    return Part(number, part.ident, part.kind, name, part.place, part.component, part.before)


def _listed(job: Job) -> Iterator[Part]:
    for each in job.components:
        yield Part(0, each.id, each.kind, each.name, each.place, each, last_time(job, each))


def _missed(job: Job) -> Iterator[Part]:
    """The parts of the latest earlier visit that this folder does not list."""
    visits = _latest_first(job)
    known = {ident for each in job.components for ident in (each.id, each.was)}
    for each in visits[0].components if visits else ():
        if each.id not in known:
            yield Part(0, each.id, each.kind, each.name, each.place, None, (visits[0], each))


def _expected(kinds: Kinds, job: Job, template: Template | None) -> Iterator[Part]:
    """Kinds that the template wants listed for this gear and rig, and of which no part is listed now nor was last time."""
    visits = _latest_first(job)
    listed = {each.kind for each in (*job.components, *(visits[0].components if visits else ()))}
    taken = {each.id for each in job.components}
    for kind in dict.fromkeys(expected(template, job.sheet.vessel.gears) if template else ()):
        if kind not in listed and kind in kinds.plugins:
            ident = kind.replace("_", "-")
            yield Part(0, ident if ident not in taken else f"{ident}-new", kind, "")


def expected(template: Template, true: Collection[str]) -> list[str]:
    """The kinds that a template wants listed for a boat of which `true` holds: her steering gear, her rig, "any"."""
    return [kind for each in template.expects if set(each.when) & set(true) for kind in each.kinds]


def last_time(job: Job, part: Component) -> tuple[Job, Component] | None:
    """The latest earlier visit's record of a part, by its id or what it was called then; none of a part fitted since."""
    idents = {part.id, part.was} - {""}
    fitted = part.installed or (fact.date if (fact := job.fact(part.id, "installed")) else None)
    for visit in _latest_first(job):
        for old in visit.components:
            if old.id in idents and old.kind == part.kind:
                return None if fitted and fitted.first > visit.sheet.inspection.last_day else (visit, old)
    return None


def _latest_first(job: Job) -> list[Job]:
    return sorted(job.earlier, key=lambda visit: visit.sheet.inspection.last_day, reverse=True)
