"""What is due and what to buy for it: the report's sections, and the schedule drawn together as every list of it tells it."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Iterator, Sequence
from itertools import groupby

from reporter.model.history import Due
from reporter.model.report import Block, Cell, Paragraph, Span, plain
from reporter.outline.blocks import Row, cell, head, heading, note, table
from reporter.outline.context import Context
from reporter.outline.plainly import runs
from reporter.wording import Catalogue, date, joined

NAMED = 8
"""Parts that a row of the report names; of more it tells the number."""


def write(context: Context) -> list[Block]:
    """By day; the numbered jobs of a day stand as numbers, since another list tells them."""
    due, words = context.assessments.schedule, context.words
    blocks: list[Block] = [heading(context, "schedule"), note(words("schedule.note"))]
    if not due:
        return [*blocks, Paragraph(text=plain(words("schedule.nothing")))]
    rows = [
        row
        for _, group in groupby(merged(due, words, named=NAMED), key=lambda each: (each.on, each.when))
        for row in _rows(context, list(group))
    ]
    return [*blocks, table(words, "schedule", rows, on=1, when=1.9, what=4.6)]


def _rows(context: Context, group: Sequence[Due]) -> Iterator[Row]:
    """What is due on one day for one reason: its numbered jobs as one row, then each of the others."""
    words = context.words
    day = date(group[0].on) if group[0].on else words("schedule.no_day")
    jobs = [each.number for each in group if each.number]
    if jobs:
        told = words("schedule.jobs" if len(jobs) > 1 else "schedule.job", numbers=runs(jobs))
        yield (head(day), cell(group[0].when), Cell(text=(Span(text=told, href="#open_jobs"),)))
    for each in group:
        if not each.number:
            lead = Span(text=f"{each.title or words('schedule.all')}: ", style="strong")
            yield (head(day), cell(each.when), Cell(text=(lead, Span(text=f"{words.terms(each.what)}."))))


def to_buy(context: Context) -> list[Block]:
    """What to buy or have ready, and for which job."""
    words = context.words
    wanted = supplies([("", each) for each in context.assessments.schedule], words)
    if not wanted:
        return []
    rows = ((head(words.terms(supply)), cell("; ".join(uses))) for supply, uses in wanted.items())
    return [heading(context, "supplies"), table(words, "schedule", rows, supply=1.6, wanted_for=2)]


def merged(due: Sequence[Due], words: Catalogue, *, care: bool = True, named: int = 1000) -> list[Due]:
    """What several parts have due on one day for one reason as one line: many equal lines bury the rest.

    That holds for yearly looks and ages, and with `care` for the care that no record tells of. More parts than `named`
    are counted.
    """
    groups: dict[object, list[Due]] = {}
    for place, each in enumerate(_told_once(due)):
        alike = {"look": "look", "interval": each.what}.get(
            each.reason, "never" if each.unrecorded and care else place
        )
        groups.setdefault((each.on, each.when, alike), []).append(each)
    found = [_one(group, words, named) if len(group) > 1 else group[0] for group in groups.values()]
    return sorted(found, key=lambda each: each.on or dt.date.min)


def _told_once(due: Sequence[Due]) -> list[Due]:
    """Without a look for wear at a part that a numbered job is due to on that very day for that very reason."""
    jobs = {(each.component, each.on, each.when) for each in due if each.number}
    return [
        each
        for each in due
        if each.number or each.reason != "forecast" or (each.component, each.on, each.when) not in jobs
    ]


def _one(group: Sequence[Due], words: Catalogue, named: int) -> Due:
    """What several parts have due on one day, as one thing due to all of them; of many it tells how many they are."""
    titles = list(dict.fromkeys(each.title for each in group))
    title = words.listed(titles) if len(titles) <= named else words("schedule.parts", count=len(titles))
    bring = tuple(dict.fromkeys(supply for each in group for supply in each.bring))
    update: dict[str, object] = {"title": title, "place": "", "component": "", "bring": bring}
    if group[0].unrecorded:
        update["what"] = words("schedule.care_group")
    elif group[0].reason == "look":
        update["what"] = words("schedule.look_each")
    return group[0].model_copy(update=update)


def supplies(due: Iterable[tuple[str, Due]], words: Catalogue) -> dict[str, list[str]]:
    """Supply -> what it is wanted for, both in order of the alphabet and of the schedule."""
    found: dict[str, list[str]] = {}
    for boat, each in due:
        use = joined(", ", boat, each.title, f"{words('action.number')} {each.number}" if each.number else "")
        for supply in each.bring:
            uses = found.setdefault(supply, [])
            if use not in uses:
                uses.append(use)
    return dict(sorted(found.items()))
