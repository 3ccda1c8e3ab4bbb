"""The plan of a visit: what will be looked at, what to ask for beforehand, what to bring, what last time left open.

Comes in: a job and what the last record of the boat says, or kinds alone. Goes out: sections in words, which a page or a
terminal shows. Every part has the number that it has on the field sheet.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property

from reporter.asking import Part, Stop, asked, walk
from reporter.model.assessment import Assessments
from reporter.model.job import Job
from reporter.model.plugin import Kinds, Plugin, Together
from reporter.model.template import Template
from reporter.model.terms import Grade
from reporter.outline.left_open import left_open
from reporter.outline.plainly import runs
from reporter.wording import Catalogue, date

LOOK_MINUTES, READ_MINUTES = 0.5, 3.0
"""For one observation, and for one reading with its repeats at one place: common practice, of no written source."""
PRESSING = frozenset({Grade.STOP, Grade.FIRST})
"""Jobs of these grades are worth bringing material for."""
_WORD = re.compile(r"\w+")
QUARTER = 15
HOUR = 60


@dataclass(frozen=True)
class PlanSection:
    """A heading, and under it rows of a lead and its text; `note` stands before them."""

    title: str
    rows: tuple[tuple[str, str], ...]
    note: str = ""


@dataclass(frozen=True)
class VisitPlan:
    """One visit in the making. `last` is the latest record of the boat with its grades in words."""

    kinds: Kinds
    words: Catalogue
    job: Job | None = None
    template: Template | None = None
    wanted: Sequence[str] = ()
    last: tuple[Job, Assessments] | None = None

    @cached_property
    def stops(self) -> list[Stop]:
        """The walk."""
        return walk(self.kinds, self.job, self.template, self.wanted)

    @property
    def parts(self) -> list[Part]:
        """Every part of the walk, in its order."""
        return [part for stop in self.stops for part in stop.parts]

    @property
    def plugins(self) -> list[Plugin]:
        """The kinds met, each once, in the order of the walk."""
        return [self.kinds.plugins[kind] for kind in dict.fromkeys(part.kind for part in self.parts)]

    @property
    def title(self) -> str:
        """What the plan is for."""
        if self.job is None:
            return self.words("plan.title_kinds")
        return self.words("plan.title", vessel=self.job.sheet.vessel.name)

    def sections(self) -> list[PlanSection]:
        """All there is to say; a section without anything is left out."""
        found = [self._before(), self._open(), self._walk(), self._bring(), self._care()]
        return [each for each in found if each.rows]

    def _before(self) -> PlanSection:
        """Whom to ask, for what; who has to help; how long it takes."""
        words = self.words
        loaded = [
            (part.number, words.terms(seen.title))
            for part in self.parts
            for seen in self.kinds.plugins[part.kind].observations
            if seen.loaded_test and seen.asked == "usual"
        ]
        tests = "; ".join(
            f"{title} ({runs([number for number, each in loaded if each == title])})"
            for title in dict.fromkeys(title for _, title in loaded)
        )
        rows = [
            (words("plan.ask"), self._whom()),
            (words("plan.open_up"), words("plan.open_up_says")),
            (words("plan.under_load"), words("plan.under_load_says", tests=tests) if tests else ""),
            (words("plan.work"), self._permission()),
            (words("plan.helper"), words("plan.helper_says") if tests else ""),
            (words("plan.time"), self._hours(sum(self._minutes(part) for part in self.parts))),
        ]
        return PlanSection(words("plan.before"), tuple(row for row in rows if row[1]))

    def _whom(self) -> str:
        """The owner, or who sells for her, by name where one is known."""
        person = self.job.sheet.person("owner", "seller") if self.job else None
        return (
            f"{person.name}, {self.words.inside(self.words(f'role.{person.role}'))}"
            if person
            else self.words("plan.owner")
        )

    def _permission(self) -> str:
        permission = self.job.sheet.permission if self.job else None
        if permission is None or not permission.work:
            return self.words("plan.ask_permission" if self._works else "plan.no_permission")
        return self.words("plan.permission", by=permission.by or "–", day=date(permission.date) or "–")

    @property
    def _works(self) -> bool:
        """Whether anything may be worked on: always, but where the state as found is told and no permission is there."""
        as_found = self.template is not None and self.template.as_found_only
        return not as_found or bool(self.job and self.job.sheet.permission.work)

    def _open(self) -> PlanSection:
        """What the last record left open, doubtful or unseen."""
        if self.last is None:
            return PlanSection("", ())
        job, graded = self.last
        rows = left_open(graded, {part.ident: part.number for part in self.parts}, self.words)
        day = date(job.sheet.inspection.last_day)
        note = self.words("plan.left_of", number=job.sheet.report.number, day=day)
        return PlanSection(self.words("plan.left"), tuple(rows), note)

    def _walk(self) -> PlanSection:
        """Station by station, the first of each system led by its name: the parts, and what of them has to be reached."""
        first = {stop.system.id: stop for stop in reversed(self.stops)}
        rows = [
            (
                f"{stop.system.title}: {stop.title}" if first[stop.system.id] is stop else stop.title,
                self._station(stop),
            )
            for stop in self.stops
        ]
        return PlanSection(self.words("plan.walk"), tuple(rows), self.words("plan.walk_note"))

    def _station(self, stop: Stop) -> str:
        names = [self._name(part) for part in stop.parts]
        items = [
            self.words.terms(item.words)
            for kind in dict.fromkeys(part.kind for part in stop.parts)
            for item in self.kinds.plugins[kind].examination
        ]
        told = [f"{'; '.join(names)}."]
        if items:
            told.append(self.words("plan.reach", items="; ".join(dict.fromkeys(items))))
        return " ".join(told)

    def _name(self, part: Part) -> str:
        named = f"{part.number} {part.name}"
        return named if part.component or self.job is None else self.words("plan.not_listed", part=named)

    def _bring(self) -> PlanSection:
        """Tools and supplies of all kinds, each once; and what the open jobs ask for, in the boat's own sizes.

        Who only tells the state as found uses nothing up.
        """
        tools = [tool for plugin in self.plugins for tool in plugin.tools]
        usual = [each for plugin in self.plugins for each in plugin.together if _is_usual(plugin, each)]
        tools += [tool for group in usual for tool in group.tools]
        supplies = [supply for plugin in self.plugins for supply in plugin.supplies]
        graded = self.last[1].actions if self.last else ()
        sized = [
            part for action in graded if action.is_open and action.grade in PRESSING for part in action.parts
        ]
        rows = [
            (self.words(f"plan.{name}"), "; ".join(texts))
            for name, texts in (
                ("tools", self._once(tools)),
                ("supplies", dict.fromkeys(map(self.words.terms, supplies))),
                ("sized", dict.fromkeys(map(self.words.terms, sized))),
            )
            if name == "tools" or self._works
        ]
        return PlanSection(self.words("plan.bring"), tuple(row for row in rows if row[1]))

    def _once(self, texts: Sequence[str]) -> Iterator[str]:
        """Each once; what is said with fewer words of one that asks for more is left out ("magnifier")."""
        told = list(dict.fromkeys(self.words.terms(each) for each in texts))
        bags = {text: frozenset(_WORD.findall(text.casefold())) for text in told}
        for text in told:
            if not any(
                bags[text] < bags[other]
                or (bags[text] == bags[other] and told.index(other) < told.index(text))
                for other in told
                if other != text
            ):
                yield text

    def _care(self) -> PlanSection:
        """What to take care of first of all, once for each kind, under its system; the sheet says the rest at each part."""
        rows = []
        for system in self.kinds.systems.values():
            cautions = [
                text for plugin in self.plugins if plugin.system == system.id for text in plugin.cautions[:1]
            ]
            if cautions:
                rows.append((system.title, " ".join(self._once(cautions))))
        return PlanSection(self.words("plan.care"), tuple(rows), self.words("plan.care_note"))

    def _minutes(self, part: Part) -> float:
        """How long the usual questions of a part take, by common practice."""
        form = asked(self.kinds.plugins[part.kind], self.words, part.component, self.job)
        questions = [each for block in form.blocks for each in block.questions if each.usual and each.asked]
        looks = sum(each.key[0] == "observed" for each in questions)
        takes = sum(
            max(1, len(each.places)) * (2 if each.per_side else 1) for each in questions if each.is_reading
        )
        return looks * LOOK_MINUTES + takes * READ_MINUTES

    def _hours(self, minutes: float) -> str:
        """In quarters of an hour, rounded up, and marked as what it is."""
        quarters = max(1, -int(-minutes // QUARTER))
        hours = f"{quarters * QUARTER // HOUR}:{quarters * QUARTER % HOUR:02d}"
        return self.words("plan.hours", hours=hours)


def _is_usual(plugin: Plugin, group: Together) -> bool:
    """Whether a round holds anything that is asked of everybody."""
    questions = (plugin.observation(ident) or plugin.quantity(ident) for ident in group.holds)
    return any(each is not None and each.asked == "usual" for each in questions)
