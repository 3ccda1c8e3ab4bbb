"""What every section writer needs at hand: the job, what was graded, the words, the numbers given to photos and sources."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from functools import cached_property

from reporter.model.assessment import Assessments, Graded, SystemGrade
from reporter.model.citation import Citation
from reporter.model.history import Due
from reporter.model.job import Job
from reporter.model.plugin import Kinds, Plugin, System
from reporter.model.quantity import Value
from reporter.model.report import Figure, plain
from reporter.model.template import Template
from reporter.model.terms import Extent, Grade
from reporter.outline.speaking import spoken
from reporter.wording import Catalogue, catalogue, joined, quantity
from reporter.wording.numbers import as_written

TOLD = frozenset({Grade.STOP, Grade.FIRST, Grade.PLAN, Grade.WATCH})
"""Grades of parts that have an opening line of their own however short the report is."""

BOAT = ""
"""What stands for a component's id where a photo shows the boat herself."""


@dataclass(frozen=True)
class Context:
    """The inputs of every section. `plates` numbers the photo uses as (component, position) -> number from 1."""

    job: Job
    assessments: Assessments
    template: Template
    plugins: Mapping[str, Plugin]
    systems: Mapping[str, System]
    words: Catalogue
    plates: dict[tuple[str, int], int] = field(default_factory=dict)
    cited: dict[Citation, int] = field(default_factory=dict)
    """The sources printed so far with their numbers: one that nothing points to is not listed."""

    @property
    def imperial(self) -> bool:
        """True when values are printed in imperial units first."""
        return self.job.sheet.units == "imperial"

    @property
    def title(self) -> str:
        """The document's title; an owner's own record has its own."""
        author = self.job.sheet.person("author")
        own = author is not None and self.job.sheet.person("owner") in {None, author}
        is_owner = (
            own and self.template.owner_title_id and author is not None and "owner" in author.capacity.lower()
        )
        return self.words(self.template.owner_title_id if is_owner else self.template.title_id)

    def source_number(self, source: Citation) -> int:
        """The number of a source in the annex, from 1 in the order in which they are first pointed to."""
        return self.cited.setdefault(source, len(self.cited) + 1)

    @property
    def brief(self) -> bool:
        """True when only serious findings are told in full; the job's word goes before the template's."""
        return (self.job.sheet.evidence or self.template.evidence) == "serious"

    def home(self, part: Graded) -> str:
        """The anchor of the place where a part is told."""
        if not self.brief or part.grade in TOLD:
            return part.component.id
        gap = part.grade is Grade.UNSEEN and part.component.examined.extent is not Extent.NOT_FITTED
        return "not_seen" if gap and "not_seen" in self.template.sections else f"system-{part.system}"

    def grade_word(self, part: Graded) -> str:
        """The word beside a part's sign."""
        if part.component.examined.extent is Extent.NOT_FITTED:
            return self.words("grade.not_fitted_word")
        return self.words("grade.unjudged" if part.unjudged else f"grade.{part.grade}")

    def joint_word(self, grade: Grade, idents: Iterable[str]) -> str:
        """The word for the grade of several parts together: not seen only where one of them was not."""
        parts = [part for ident in idents if (part := self.assessments.part(ident))]
        dark = [part for part in parts if part.grade is Grade.UNSEEN]
        unjudged = grade is Grade.UNSEEN and dark and all(part.unjudged for part in dark)
        return self.words("grade.unjudged" if unjudged else f"grade.{grade}")

    def drawn_word(self, part: Graded) -> str:
        """The word on a drawing, which also tells what was not graded or not found aboard."""
        if part.failed:
            return self.words("drawing.failed")
        if part.component.examined.extent is Extent.NOT_FOUND:
            return self.words("drawing.not_found", grade=self.grade_word(part))
        return self.grade_word(part)

    def place(self, part: Graded) -> str:
        """Where aboard the part is, with its side or group."""
        told = part.component
        side = self.words(f"side.{told.side}") if told.side else told.group
        return joined(", ", side, told.place)

    def value(self, value: Value | None, metric: str, imperial: str) -> str:
        """A value as written, with its conversion in brackets where the report's units are the other ones."""
        if value is None:
            return ""
        unit = imperial if self.imperial else metric
        shown = quantity(value.value, unit)
        if not value.written or value.unit == unit:
            return shown
        return f"{as_written(value.written, value.unit)} ({shown})"

    @cached_property
    def worked_on(self) -> dict[str, Graded]:
        """Kind -> the first part of it to which something is to be done."""
        asking = (part for part in reversed(self.assessments.components) if part.actions)
        return {part.component.kind: part for part in asking}

    @cached_property
    def due(self) -> dict[int, Due]:
        """Number of an action -> what the schedule says of it."""
        return {each.number: each for each in reversed(self.assessments.schedule)}

    @property
    def drawn_at_a_glance(self) -> bool:
        """With one or two systems their drawings stand at a glance; with more, each opens its own section."""
        return sum(bool(system.components) for system in self.assessments.systems) <= 2  # noqa: PLR2004

    def drawing(self, system: SystemGrade) -> Figure | None:
        """A system's drawing of itself with its grades."""
        drawing = self.systems[system.id].draw(self.job, self.assessments, Drawn(self))
        return Figure(drawing=drawing, caption=plain(system.title)) if drawing else None

    def fitted(self) -> list[Graded]:
        """Every part that is aboard or should be."""
        return [
            part
            for part in self.assessments.components
            if part.component.examined.extent is not Extent.NOT_FITTED
        ]

    def with_grade(self, *grades: Grade) -> list[Graded]:
        """The parts of these grades, in walking order."""
        return [part for part in self.fitted() if part.grade in grades]


def context_of(job: Job, assessments: Assessments, template: Template, kinds: Kinds) -> Context:
    """What every section of a job needs, its assessments put into words and its photos numbered."""
    told = spoken(assessments, job, kinds)
    words = catalogue(job.sheet.lang, job.sheet.terms)
    return Context(job, told, template, kinds.plugins, kinds.systems, words, numbered_photos(job, told))


def numbered_photos(job: Job, assessments: Assessments) -> dict[tuple[str, int], int]:
    """Plate numbers from 1: the boat herself, then the parts in the order in which they are told."""
    uses = [(BOAT, place) for place in range(len(job.sheet.vessel.photos))]
    uses += [
        (part.component.id, place)
        for part in assessments.components
        for place in range(len(part.component.photos))
    ]
    return {use: number for number, use in enumerate(uses, start=1)}


@dataclass(frozen=True)
class Drawn:
    """The words that a drawing is given."""

    context: Context

    def __call__(self, part: Graded, /) -> str:
        """The part's grade as a drawing tells it."""
        return self.context.drawn_word(part)

    def say(self, ident: str, /, **values: object) -> str:
        """A message of the catalogue."""
        return self.context.words(ident, **values)
