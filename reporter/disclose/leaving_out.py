"""The cut itself: a frozen job becomes another one, field by field, in the same shape.

Comes in: a Job and rules. Goes out: a Job whose texts hold no secret, and that says by which rules it was cut. Readings, answers,
dates and ids stay, so that every grade does.
"""

from __future__ import annotations

from collections.abc import Collection
from typing import Any

from reporter.disclose.secrets import SHORTEST, Secret, secrets, without
from reporter.model.base import Noun
from reporter.model.citation import Limit
from reporter.model.findings import Component, Detail, Done
from reporter.model.job import Job
from reporter.model.photo import PhotoFile
from reporter.model.sheet import JobSheet, Person
from reporter.model.template import RULES, Rule
from reporter.model.terms import Basis
from reporter.wording import catalogue

KEPT = frozenset({"file", "photos", "folder", "earlier", "id", "component", "sha256", "written"})
"""Fields that name something by its id or file; a photo whose name holds a secret is left out instead."""


def leave_out(job: Job, rules: Collection[Rule]) -> Job:
    """The job and its earlier folders without what the rules name; the job itself where there are none."""
    if not rules:
        return job
    hidden = secrets(job, rules)
    earlier = tuple(_cut(each, rules, hidden) for each in job.earlier)
    left_out = tuple(rule for rule in RULES if rule in rules)
    return _cut(job, rules, hidden).model_copy(update={"earlier": earlier, "left_out": left_out})


def _cut(job: Job, rules: Collection[Rule], hidden: tuple[Secret, ...]) -> Job:
    photos = tuple(each for each in job.photos if not _shows(each.name, job, rules, hidden))
    allowed = {each.name for each in photos} | {each.name.removeprefix("photos/") for each in photos}
    kept = _sheet(job.sheet, rules, hidden)
    parts = tuple(
        _component(each, rules, hidden, allowed, catalogue(kept.lang)("left_out.name"))
        for each in job.components
    )
    bare = job.model_copy(
        update={"sheet": kept, "components": parts, "photos": (), "earlier": (), "limits": {}}
    )
    limits = {name: _limit(limit, rules, hidden, kept.lang) for name, limit in job.limits.items()}
    spoken: Job = _spoken(bare, hidden)
    return spoken.model_copy(update={"photos": photos, "limits": limits})


def _limit(limit: Limit, rules: Collection[Rule], hidden: tuple[Secret, ...], lang: str) -> Limit:
    """Of a limit only what its author wrote on changing it is a person's text."""
    if limit.override is None:
        return limit
    told = _spoken(limit.override, hidden)
    nobody = {"by": catalogue(lang)("left_out.name")} if "names" in rules else {}
    return limit.model_copy(update={"override": told.model_copy(update=nobody)})


def _shows(name: str, job: Job, rules: Collection[Rule], hidden: tuple[Secret, ...]) -> bool:
    """Whether a photo shows what this version must not: by its use in the findings, or by its name."""
    bare, vessel = name.removeprefix("photos/"), job.sheet.vessel
    if "boat" in rules and {name, bare} & {vessel.photo, vessel.hull_number_photo}:
        return True
    uses = [use for part in job.components for use in part.photos if use.file in {name, bare}]
    return ("photos" in rules and any(use.holds for use in uses)) or _names_one(bare, hidden)


def _names_one(file: str, hidden: tuple[Secret, ...]) -> bool:
    """Whether the name of a file holds a secret, in whatever letters and however joined."""
    joined = "".join(char for char in file.lower() if char.isalnum())
    words = ("".join(char for char in each.words.lower() if char.isalnum()) for each in hidden)
    return any(len(word) > SHORTEST and word in joined for word in words)


def _spoken(value: Any, hidden: tuple[Secret, ...]) -> Any:
    """Every text of a noun without the secrets; what does not change is the same value."""
    if isinstance(value, str):
        return without(value, hidden) if type(value) is str else value
    if isinstance(value, tuple):
        return tuple(_spoken(each, hidden) for each in value)
    if isinstance(value, dict):
        return {key: _spoken(each, hidden) for key, each in value.items()}
    if isinstance(value, Noun) and not isinstance(value, PhotoFile):
        changes = {
            name: new
            for name, old in value
            if name not in KEPT and (new := _spoken(old, hidden)) is not old and new != old
        }
        if "photos" in type(value).model_fields and isinstance(value, Component):
            changes["photos"] = tuple(_spoken(each, hidden) for each in value.photos)
        return value.model_copy(update=changes) if changes else value
    return value


def _sheet(sheet: JobSheet, rules: Collection[Rule], hidden: tuple[Secret, ...]) -> JobSheet:
    words = catalogue(sheet.lang)
    update: dict[str, Any] = {
        "documents": tuple(each for each in sheet.documents if not _names_one(each.file, hidden))
    }
    people = tuple(_person(each, rules, words("left_out.name")) for each in sheet.people)
    if "names" in rules:
        nobody = {"ordered_by": "", "may_rely": ()}
        update["report"] = sheet.report.model_copy(update=nobody)
        update["inspection"] = sheet.inspection.model_copy(update={"attended_by": ()})
        update["permission"] = sheet.permission.model_copy(update={"by": words("left_out.name")})
        update["limits"] = tuple(
            each.model_copy(update={"by": words("left_out.name")}) for each in sheet.limits
        )
    vessel = sheet.vessel
    if "boat" in rules:
        gone = dict.fromkeys(("hull_number", "registration", "photo", "hull_number_photo"), "")
        gone["name"] = words("left_out.boat")
        vessel = vessel.model_copy(update=gone)
    if "places" in rules:
        vessel = vessel.model_copy(update={"home_port": ""})
        visit = update.get("inspection", sheet.inspection)
        update["inspection"] = visit.model_copy(update={"place": words("left_out.place")})
    if "told" in rules and vessel.rig_installed_basis is Basis.TOLD:
        vessel = vessel.model_copy(update={"rig_installed_evidence": ""})
    return sheet.model_copy(update={**update, "people": people, "vessel": vessel})


def _person(person: Person, rules: Collection[Rule], instead: str) -> Person:
    if ("author" if person.role == "author" else "names") not in rules:
        return person
    gone = dict.fromkeys(("organisation", "address", "contact", "membership", "cover"), "")
    return person.model_copy(update={"name": instead, **gone})


def _component(
    part: Component,
    rules: Collection[Rule],
    hidden: tuple[Secret, ...],
    allowed: Collection[str],
    instead: str,
) -> Component:
    update: dict[str, Any] = {
        "private": "",
        "photos": tuple(use for use in part.photos if use.file in allowed),
        "observed": {
            name: tuple(
                each.model_copy(update={"photos": tuple(file for file in each.photos if file in allowed)})
                for each in answers
            )
            for name, answers in part.observed.items()
        },
    }
    if "told" in rules:
        update["told"] = ()
        update["details"] = {name: _known(each) for name, each in part.details.items()}
    update["done"] = tuple(_done(each, rules, hidden, instead) for each in part.done)
    update["actions"] = tuple(
        each.model_copy(update={"done": _done(each.done, rules, hidden, instead)}) if each.done else each
        for each in part.actions
    )
    return part.model_copy(update=update)


def _known(detail: Detail) -> Detail:
    """A fact that somebody told stays, and that it was told; who and how goes."""
    return detail.model_copy(update={"note": ""}) if detail.basis is Basis.TOLD else detail


def _done(done: Done, rules: Collection[Rule], hidden: tuple[Secret, ...], instead: str) -> Done:
    """Work stays, and when; by whom goes, and a paper that is called after somebody."""
    papers = tuple(each for each in done.documents if not _names_one(each, hidden))
    return done.model_copy(
        update={"documents": papers, "by": instead if done.by and "names" in rules else done.by}
    )
