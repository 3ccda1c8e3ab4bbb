"""The jobs of a yard's sheet: what is open, by precedence and trade; the same job on several parts is one.

Comes in: the context. Goes out: `YardJob`s, and what is known of a part that is to be worked on.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from reporter.model.assessment import Action, Graded
from reporter.model.base import grouped
from reporter.model.terms import URGENCY
from reporter.outline.context import Context
from reporter.outline.details import UNKNOWN
from reporter.outline.jobs import ToDo, jobs
from reporter.wording import Catalogue

_ORDER = {grade: place for place, grade in enumerate(URGENCY)}


@dataclass(frozen=True)
class YardJob:
    """One job: its numbers, the trade, the parts and where they are, what is done to them, what it takes."""

    numbers: tuple[int, ...]
    trade: str
    parts: tuple[Graded, ...]
    place: str
    action: Action
    material: tuple[str, ...]

    def names(self, words: Catalogue) -> str:
        """The parts as a list in words."""
        return words.listed(list(dict.fromkeys(part.title for part in self.parts)))


def yard_jobs(context: Context, *, merge: bool = True) -> list[YardJob]:
    """Every open job by precedence, trade and number; with `merge` equal jobs on several parts as one."""
    trades = [system.id for system in context.assessments.systems]
    found = [job for job in jobs(context) if job[1].is_open]
    found.sort(key=lambda pair: (_ORDER.get(pair[1].grade, 9), trades.index(pair[0].system), pair[1].number))

    def same(job: ToDo) -> object:
        part, action = job
        if not merge:
            return part.component.id, action.number
        return (
            part.system,
            action.grade,
            action.what,
            material(context, action),
            action.access,
            action.by_when,
        )

    return [_job(context, group) for group in grouped(found, same).values()]


def _job(context: Context, group: Sequence[ToDo]) -> YardJob:
    part, action = group[0]
    titles = {system.id: system.title for system in context.assessments.systems}
    return YardJob(
        numbers=tuple(each.number for _, each in group),
        trade=titles[part.system],
        parts=tuple(each for each, _ in group),
        place=context.place(part) if len(group) == 1 else "",
        action=action,
        material=material(context, action),
    )


def material(context: Context, action: Action) -> tuple[str, ...]:
    """What the job uses up: as the schedule tells it, so that both lists ask for the same."""
    due = context.due.get(action.number)
    return due.bring if due else (*action.parts, *action.supplies)


def sizes(context: Context, part: Graded) -> str:
    """The part's sizes, materials and the like, as far as they are known."""
    told = []
    for field in context.plugins[part.component.kind].details:
        fact = context.job.facts.get(part.component.id, {}).get(field.id)
        if fact and field.holds != "date" and fact.choice not in UNKNOWN:
            shown = field.choices.get(fact.choice, "") or context.value(
                fact.value, field.unit, field.imperial or field.unit
            )
            title = context.words.inside(context.words.terms(field.title))
            told.append(f"{title} {context.words.terms(shown) or fact.words}")
    return ", ".join(told)


def plates(context: Context, part: Graded) -> list[int]:
    """The numbers of the part's photos."""
    return [context.plates[part.component.id, place] for place in range(len(part.component.photos))]
