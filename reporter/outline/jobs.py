"""The jobs of all parts: which of them the first page tells, which are alike, and what is left to say of them elsewhere.

Comes in: the context. Goes out: parts with their actions, and text. What stands on the first page is told nowhere again.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence

from reporter.model.assessment import Action, Graded
from reporter.model.report import Cell, Span
from reporter.model.terms import Grade
from reporter.outline.blocks import head
from reporter.outline.context import Context
from reporter.outline.plainly import ended, reason, reasons, runs

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


def what_to_do(context: Context, action: Action) -> Span:
    """The job itself as a sentence."""
    return Span(text=f"{ended(context.words.terms(action.what))} ")


def besides(context: Context, own: Sequence[ToDo]) -> str:
    """Of one part's jobs that the first page tells: the reasons that stand there no more for want of room."""
    part, first = own[0]
    told = reason(context, part, first)
    said = dict.fromkeys(text for _, action in own for text in reasons(context, part, action))
    return " ".join(text for text in said if text != told)
