"""Rigs made by hand for the drawing: a job with its sizes, and parts with their grades.

In: vessel sizes, and parts as (kind, name, grade, details). Out: a Job and its Assessments.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping

from reporter.model.assessment import Assessments, Graded
from reporter.model.findings import Component, Examined, Fact
from reporter.model.job import Job
from reporter.model.sheet import Inspection, Issue, JobSheet, Particulars, Person
from reporter.model.terms import Basis, Extent, Grade
from tests.plugins.evidence import value

CHOICES = {"role", "position", "holds", "rig_form"}
COUNTS = {"spreader_pairs", "pair"}

Given = tuple[str, str, Grade, Mapping[str, str | float]]


def part(kind: str, name: str = "", grade: Grade = Grade.CLEAR, **details: str | float) -> Given:
    """One part: choices as text, counts as numbers, lengths as numbers in metres."""
    return (kind, name, grade, details)


def _fact(name: str, given: str | float) -> Fact:
    if isinstance(given, str):
        return Fact(basis=Basis.SEEN, choice=given)
    return Fact(basis=Basis.MEASURED, value=value(given, "" if name in COUNTS else "m"))


def rig(
    *parts: Given,
    rig: str = "",
    mast_step: str = "deck",
    terms: str = "uk",
    extents: Mapping[int, Extent] | None = None,
    metres: Mapping[str, float] | None = None,
) -> tuple[Job, Assessments]:
    """A job of these parts on a boat of these sizes; `extents` by the part's place in the list."""
    sizes = {name: value(number, "m") for name, number in (metres or {}).items()}
    sheet = JobSheet(
        format=1,
        purpose="handover",
        terms="us" if terms == "us" else "uk",
        report=Issue(number="1"),
        vessel=Particulars.model_validate({"name": "Test", "rig": rig, "mast_step": mast_step, **sizes}),
        people=(Person(role="author", name="A"),),
        inspection=Inspection(dates=(dt.date(2026, 5, 12),), place="Afloat"),
    )
    graded, facts = [], {}
    for place, (kind, name, grade, details) in enumerate(parts):
        ident = f"{kind}_{place}"
        extent = (extents or {}).get(place, Extent.SEEN)
        component = Component(id=ident, kind=kind, name=name, examined=Examined(extent=extent, because="-"))
        title = name or kind.replace("_", " ").capitalize()
        graded.append(
            Graded(
                component=component,
                title=title,
                system="rig",
                station="deck",
                load_path=True,
                grade=grade,
                computed=grade,
            )
        )
        facts[ident] = {key: _fact(key, given) for key, given in details.items()}
    return Job(sheet=sheet, components=tuple(each.component for each in graded), facts=facts), Assessments(
        components=tuple(graded)
    )
