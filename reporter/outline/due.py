"""What is due: the report's section, the lines of `gudgeon due`, by date, by place aboard or by supply, and the calendar.

Comes in: schedules. Goes out: blocks, lines, or the text of an iCalendar file (RFC 5545). Today is what it is told; whole
days only, so that no time zone can move a date.
"""

from __future__ import annotations

import datetime as dt
import hashlib
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import groupby
from typing import TYPE_CHECKING

from reporter.model.assessment import Assessments
from reporter.model.history import Due
from reporter.model.job import Job
from reporter.model.report import Block, Cell, Column, Paragraph, Span, Table, plain
from reporter.outline.blocks import cell, head, heading, note
from reporter.outline.context import Context, Kinds
from reporter.outline.speaking import spoken
from reporter.outline.summary import wrapped
from reporter.wording import Catalogue, catalogue, date

NAMED = 8
"""Parts that a row of the report names; of more it tells the number."""

if TYPE_CHECKING:
    from icalendar import Event


@dataclass(frozen=True)
class Boat:
    """One boat's schedule: her name, her report's number, the day of its inspection, what is due, her hull number."""

    name: str
    report: str
    day: dt.date
    due: tuple[Due, ...]
    hull: str = ""


def boat_of(job: Job, assessments: Assessments, kinds: Kinds) -> Boat:
    """The schedule of one graded job."""
    assessments = spoken(assessments, job, kinds)
    sheet, vessel = job.sheet, job.sheet.vessel
    day = sheet.inspection.last_day
    return Boat(vessel.name, sheet.report.number, day, assessments.schedule, vessel.hull_number)


def write(context: Context) -> list[Block]:
    """By day; the numbered jobs of a day stand as numbers, since another list tells them."""
    due, words = context.assessments.schedule, context.words
    blocks: list[Block] = [heading(context, "schedule"), note(words("schedule.note"))]
    if not due:
        return [*blocks, Paragraph(text=plain(words("schedule.nothing")))]
    columns = tuple(
        Column(title=words(f"schedule.{title}"), share=share)
        for title, share in (("on", 1), ("when", 1.9), ("what", 4.6))
    )
    rows = [
        row
        for _, group in groupby(merged(due, words, named=NAMED), key=lambda each: (each.on, each.when))
        for row in _rows(context, list(group))
    ]
    return [*blocks, Table(columns=columns, rows=tuple(rows))]


def _rows(context: Context, group: Sequence[Due]) -> Iterator[tuple[Cell, ...]]:
    """What is due on one day for one reason: its numbered jobs as one row, then each of the others."""
    words = context.words
    day = date(group[0].on) if group[0].on else words("schedule.no_day")
    jobs = [each.number for each in group if each.number]
    if jobs:
        told = words("schedule.jobs" if len(jobs) > 1 else "schedule.job", numbers=ranges(jobs))
        yield (head(day), cell(group[0].when), Cell(text=(Span(text=told, href="#open_jobs"),)))
    for each in group:
        if not each.number:
            lead = Span(text=f"{each.title or words('schedule.all')}: ", style="strong")
            yield (head(day), cell(each.when), Cell(text=(lead, Span(text=f"{words.terms(each.what)}."))))


def ranges(numbers: Sequence[int]) -> str:
    """`1 to 5, 8, 10 to 12`: numbers in order, three or more in a row drawn together."""
    told: list[str] = []
    for _, run in groupby(enumerate(sorted(numbers)), key=lambda pair: pair[1] - pair[0]):
        found = [number for _, number in run]
        drawn = len(found) > 2  # noqa: PLR2004  (two numbers are as short without "to")
        told += [f"{found[0]} to {found[-1]}"] if drawn else [str(number) for number in found]
    return ", ".join(told)


def to_buy(context: Context) -> list[Block]:
    """What to buy or have ready, and for which job."""
    words = context.words
    wanted = supplies([("", each) for each in context.assessments.schedule], words)
    if not wanted:
        return []
    pair = (
        Column(title=words("schedule.supply"), share=1.6),
        Column(title=words("schedule.wanted_for"), share=2),
    )
    rows = tuple((head(words.terms(supply)), cell("; ".join(uses))) for supply, uses in wanted.items())
    return [heading(context, "supplies"), Table(columns=pair, rows=rows)]


def merged(due: Sequence[Due], words: Catalogue, *, care: bool = True, named: int = 1000) -> list[Due]:
    """What several parts have due on one day for one reason as one line: many equal lines bury the rest.

    That holds for yearly looks and ages, and with `care` for the care that no record tells of. More parts than `named`
    are counted.
    """
    groups: dict[object, list[Due]] = {}
    for place, each in enumerate(due):
        alike = {"look": "look", "interval": each.what}.get(
            each.reason, "never" if each.unrecorded and care else place
        )
        groups.setdefault((each.on, each.when, alike), []).append(each)
    found = [_one(group, words, named) if len(group) > 1 else group[0] for group in groups.values()]
    return sorted(found, key=lambda each: each.on or dt.date.min)


def _one(group: Sequence[Due], words: Catalogue, named: int) -> Due:
    """What several parts have due on one day, as one thing due to all of them."""
    titles = list(dict.fromkeys(each.title for each in group))
    title = words.listed(titles) if len(titles) <= named else words("schedule.parts", count=len(titles))
    bring = tuple(dict.fromkeys(supply for each in group for supply in each.bring))
    update: dict[str, object] = {"title": title, "place": "", "component": "", "bring": bring}
    if group[0].unrecorded:
        update["what"] = words("schedule.care_group")
    return group[0].model_copy(update=update)


def supplies(due: Iterable[tuple[str, Due]], words: Catalogue) -> dict[str, list[str]]:
    """Supply -> what it is wanted for, both in order of the alphabet and of the schedule."""
    found: dict[str, list[str]] = {}
    for boat, each in due:
        use = ", ".join(
            text
            for text in (boat, each.title, f"{words('action.number')} {each.number}" if each.number else "")
            if text
        )
        for supply in each.bring:
            uses = found.setdefault(supply, [])
            if use not in uses:
                uses.append(use)
    return dict(sorted(found.items()))


def lines(boats: Sequence[Boat], as_of: dt.date, by: str, lang: str = "en", terms: str = "uk") -> list[str]:
    """The list for a terminal, by `date`, `place` or `supply`; lines of at most 78 characters."""
    words = catalogue(lang, terms)
    named = len(boats) > 1
    # By place and by supply each piece of care stands for itself: there it is looked for by where, or with what.
    rows = [
        (boat.name if named else "", each)
        for boat in boats
        for each in merged(boat.due, words, care=by == "date")
    ]
    rows.sort(key=lambda row: row[1].on or dt.date.min)
    told = [f"{'' if named else f'{boats[0].name}. '}{words('schedule.as_of', date=date(as_of))}", ""]
    body = {"date": _by_date, "place": _by_place, "supply": _by_supply}[by](rows, as_of, words)
    return [line.replace("\u00a0", " ") for line in (*told, *(list(body) or [words("schedule.nothing")]))]


def _by_date(rows: Sequence[tuple[str, Due]], as_of: dt.date, words: Catalogue) -> Iterator[str]:
    """Under each day what is due by it; the words for when stand once above all that they hold for."""
    for day, due in groupby(rows, key=lambda row: row[1].on):
        late = day is not None and day < as_of
        shown = date(day) if day else words("schedule.no_day")
        yield f"{shown} ({words('schedule.overdue')})" if late else shown
        for when, group in groupby(due, key=lambda row: row[1].when):
            yield from wrapped(f"{when}:", 2)
            for boat, each in group:
                yield from wrapped(_line(boat, each, words), 4)


def _line(boat: str, due: Due, words: Catalogue) -> str:
    lead = ", ".join(text for text in (boat, due.title or words("schedule.all")) if text)
    number = f"{due.number} · " if due.number else ""
    return f"{number}{lead}: {words.terms(due.what)}"


def _by_place(rows: Sequence[tuple[str, Due]], as_of: dt.date, words: Catalogue) -> Iterator[str]:
    places: dict[str, list[tuple[str, Due]]] = {}
    for boat, due in rows:
        places.setdefault(due.place or words("schedule.elsewhere"), []).append((boat, due))
    for place, group in sorted(places.items()):
        yield place
        for boat, due in group:
            late = f", {words('schedule.overdue')}" if due.on and due.on < as_of else ""
            shown = date(due.on) if due.on else words("schedule.no_day")
            yield from wrapped(f"{shown}{late}: {_line(boat, due, words)} ({due.when})", 2)


def _by_supply(rows: Sequence[tuple[str, Due]], _as_of: dt.date, words: Catalogue) -> Iterator[str]:
    for supply, uses in supplies(rows, words).items():
        yield words.terms(supply)
        yield from wrapped("; ".join(uses), 2)


def icalendar_text(boats: Sequence[Boat], as_of: dt.date, lang: str = "en", terms: str = "uk") -> str:
    """All-day events, one per thing due; what has no day of its own stands on the day of `as_of`."""
    from icalendar import Calendar

    words = catalogue(lang, terms)
    made = Calendar()
    made.add("prodid", "-//gudgeon//due//EN")
    made.add("version", "2.0")
    for boat in boats:
        for due in merged(boat.due, words):
            made.add_component(_event(boat, due, as_of, words))
    return bytes(made.to_ical()).decode("utf-8")


def _event(boat: Boat, due: Due, as_of: dt.date, words: Catalogue) -> Event:
    from icalendar import Event

    event, day = Event(), due.on or as_of
    event.add("uid", _uid(boat, due))
    # The stamp is the inspection's day: the same job gives the same file on every day and in every zone.
    event.add("dtstamp", dt.datetime.combine(boat.day, dt.time(), dt.UTC))
    event.add("dtstart", day)
    event.add("dtend", day + dt.timedelta(days=1))
    event.add("summary", f"{boat.name}: {words.terms(due.what)} ({due.title or words('schedule.all')})")
    bring = f"\n{words('schedule.supplies')}: {words.terms('; '.join(due.bring))}" if due.bring else ""
    event.add("description", f"{due.when}\n{boat.report}{bring}".replace("\u00a0", " "))
    if due.place:
        event.add("location", due.place)
    event.add("transp", "TRANSPARENT")
    return event


def _uid(boat: Boat, due: Due) -> str:
    """The same thing due keeps its identity when its day moves, from report to report, so that a calendar replaces it."""
    told = f"{boat.hull or boat.name}\n{due.component}\n{due.title}\n{due.reason}\n{due.what}"
    return f"{hashlib.sha256(told.encode('utf-8')).hexdigest()[:32]}@gudgeon.invalid"
