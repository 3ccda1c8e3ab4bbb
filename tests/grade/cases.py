"""Small jobs and kinds for the tests of grading: one invented part with one reading and one observation."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable
from typing import Any

from reporter.contract import (
    Assessment,
    Choice,
    Citation,
    DetailField,
    Dimension,
    Evidence,
    ExaminationItem,
    Grade,
    Limit,
    LimitKind,
    Observation,
    Plugin,
    ProofItem,
    Quantity,
    Remedy,
    Sense,
    Station,
    System,
    Task,
    Value,
)
from reporter.grade import grade
from reporter.model.assessment import Assessments, Graded
from reporter.model.findings import Component, Examined
from reporter.model.job import Job, Reading
from reporter.model.sheet import Inspection, Issue, JobSheet, Particulars, Person
from reporter.model.template import Template
from reporter.model.terms import Extent, State
from reporter.outline.speaking import spoken

SOURCE = Citation(title="a test's own figure")
SYSTEM = System(
    id="test",
    title="Test",
    stations=(Station(id="here", title="Here"),),
    draw=lambda _job, _graded, _told: None,
)
TEMPLATE = Template(id="t", title_id="title.handover", reader_id="reader.handover", sections=())


def limit(value: float, then: Grade = Grade.FIRST, *, ident: str = "wear", **more: object) -> Limit:
    """A limit on the reading `gap` in millimetres, unworn at 0."""
    given = {
        "id": f"part.gap.{ident}", "quantity": "gap", "value": value, "unit": "mm", "sense": Sense.AT_MOST, "then": then,
        "kind": LimitKind.CONDITION, "source": SOURCE, "unworn": 0.0, **more,
    }  # fmt: skip
    return Limit.model_validate(given)


def nothing(_evidence: Evidence) -> Assessment:
    """An `assess` that adds nothing to what the declaration decides."""
    return Assessment()


def plugin(
    *limits: Limit,
    load_path: bool = True,
    kind: str = "part",
    needed: bool = False,
    assess: Callable[[Evidence], Assessment] = nothing,
) -> Plugin:
    """A part with the reading `gap`, the observation `look`, one examination item and one proof item."""
    return Plugin(
        kind=kind,
        title="Part",
        system="test",
        load_path=load_path,
        station="here",
        examination=(ExaminationItem(id="whole", words="the whole part"),),
        proof=(ProofItem(id="works", words="works both ways"),),
        details=(DetailField(id="installed", title="Fitted", holds="date"),),
        readings=(
            Quantity(
                id="gap", title="Gap", dimension=Dimension.LENGTH, unit="mm", method="feeler", plausible=(0, 50),
                required="needed" if needed else "optional",
            ),
        ),
        observations=(
            Observation(
                id="look",
                title="Look",
                choices=(
                    Choice(id="good", words="good", grade=Grade.CLEAR),
                    Choice(id="rusty", words="rusty", grade=Grade.WATCH, task="clean"),
                    Choice(id="bent", words="bent", grade=Grade.PLAN, task="straighten", damage=True),
                    Choice(id="loose", words="loose", grade=Grade.FIRST, task="tighten"),
                    Choice(id="broken", words="broken", grade=Grade.STOP, task="replace"),
                ),
            ),
        ),
        tasks=(
            Task(id="clean", words="Clean it", remedy=Remedy.CLEAN),
            Task(id="straighten", words="Straighten it", remedy=Remedy.REPAIR),
            Task(id="tighten", words="Tighten it", remedy=Remedy.TIGHTEN),
            Task(id="replace", words="Replace it", remedy=Remedy.REPLACE),
        ),
        limits=limits,
        assess=assess,
    )  # fmt: skip


def gap(
    mm: float, *, expanded: float = 0.0, at: str = "", state: State = State.FOUND, part: str = "one"
) -> Reading:
    """A reading of the gap, `expanded` being U (k = 2) in millimetres."""
    value = Value(dimension=Dimension.LENGTH, value=mm / 1000, u=expanded / 2000, written=f"{mm}", unit="mm")
    return Reading(component=part, quantity="gap", at=at, state=state, value=value)


def part(ident: str = "one", *, kind: str = "part", **more: Any) -> Component:
    """A component fully examined."""
    examined = Examined(extent=Extent.SEEN, included=("whole",))
    return Component.model_validate({"id": ident, "kind": kind, "examined": examined, **more})


def job(*components: Component, readings: tuple[Reading, ...] = (), **more: object) -> Job:
    """A job of these components."""
    sheet = JobSheet(
        format=1,
        purpose="t",
        report=Issue(number="T-1"),
        vessel=Particulars(name="Invented"),
        people=(Person(role="author", name="A. Tester"),),
        inspection=Inspection(dates=(dt.date(2026, 5, 12),), place="on the hard"),
    )
    return Job.model_validate({"sheet": sheet, "components": components, "readings": readings, **more})


class Kinds:
    """Installed kinds for one test."""

    def __init__(self, *kinds: Plugin) -> None:
        self.plugins = {each.kind: each for each in kinds}
        self.systems = {"test": SYSTEM}


def grades(given: Job, *kinds: Plugin, template: Template = TEMPLATE) -> Assessments:
    """The job graded by these kinds."""
    installed = Kinds(*kinds)
    return spoken(grade(given, installed, template), given, installed)


def one(kind: Plugin, *readings: Reading, template: Template = TEMPLATE, **more: Any) -> Graded:
    """The single part `one`, graded."""
    return grades(job(part(**more), readings=readings), kind, template=template).components[0]
