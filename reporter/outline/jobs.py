"""The jobs of all parts: which of them the first page tells, which are alike, what is left to say elsewhere; and for a yard.

Comes in: the context. Goes out: parts with their actions, text, and `YardJob`s: what is open, by precedence and trade. What
stands on the first page is told nowhere again.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from reporter.model.assessment import Action, Graded
from reporter.model.base import grouped
from reporter.model.report import Cell, Span
from reporter.model.terms import URGENCY, Grade
from reporter.outline.blocks import head
from reporter.outline.context import Context
from reporter.outline.details import UNKNOWN, known
from reporter.outline.plainly import reason, reasons, runs
from reporter.wording import Catalogue

ToDo = tuple[Graded, Action]
"""A part, and one thing that is to be done to it."""
SERIOUS = frozenset({Grade.STOP, Grade.FIRST})
"""What the first page tells in full."""


def jobs(context: Context) -> list[ToDo]:
    """Every job of every part, done and declined ones too, by number."""
    found = [(part, action) for part in context.assessments.components for action in part.actions]
    return sorted(found, key=lambda job: job[1].number)


def urgent(context: Context) -> list[ToDo]:
    """Every open job of a serious grade, by number: what the first page tells."""
    return [job for job in jobs(context) if job[1].is_open and job[1].grade in SERIOUS]


def usual_day(group: Sequence[ToDo]) -> str:
    """The day by which most open jobs of a group are to be done, in words; what is closed is due on no day."""
    days = Counter(action.by_when for _, action in group if action.is_open)
    return days.most_common(1)[0][0] if days else ""


def part_names(parts: Iterable[Graded], end: str) -> Iterator[Span]:
    """Each part's name once, leading to where it is told, then `end`."""
    titles = {part.component.id: part.title for part in parts}
    for place, (ident, title) in enumerate(titles.items(), start=1):
        yield Span(text=title, style="strong", href=f"#{ident}")
        yield Span(text="; " if place < len(titles) else end, style="strong")


def numbers(own: Sequence[ToDo]) -> Cell:
    """The head of a row: the numbers of the jobs that share it."""
    return head(runs([action.number for _, action in own]))


def follows(context: Context, part: Graded, action: Action) -> str:
    """What happens if it is left: what the part's kind says, but of the compass where its deviation is asked for."""
    if action.id.endswith(".deviation"):
        return context.words("deviation.otherwise")
    return context.words.terms(context.plugins[part.component.kind].consequence)


def besides(context: Context, own: Sequence[ToDo]) -> str:
    """Of one part's jobs that the first page tells: the reasons that stand there no more for want of room."""
    part, first = own[0]
    told = reason(context, part, first)
    said = dict.fromkeys(text for _, action in own for text in reasons(context, part, action))
    return " ".join(text for text in said if text != told)


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
            title = context.words.inside(context.words.terms(field.title))
            told.append(f"{title}: {known(context, field, fact)}")
    return "; ".join(told)


def plates(context: Context, part: Graded) -> list[int]:
    """The numbers of the part's photos."""
    return [context.plates[part.component.id, place] for place in range(len(part.component.photos))]
