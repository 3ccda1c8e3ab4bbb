"""What is due: the report's section, the lines of `gudgeon due`, by date, by place aboard or by supply, and the calendar.

Comes in: schedules. Goes out: blocks, lines, or the text of an iCalendar file (RFC 5545). Today is what it is told; whole
days only, so that no time zone can move a date.
"""

from __future__ import annotations

import datetime as dt
import hashlib
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from reporter.model.assessment import Assessments
from reporter.model.history import Due
from reporter.model.job import Job
from reporter.model.report import Block, Cell, Column, Heading, Paragraph, Span, Table, plain
from reporter.outline.blocks import cell, head, heading, note
from reporter.outline.desk import Desk, Kinds
from reporter.outline.speaking import spoken
from reporter.outline.summary import wrapped
from reporter.wording import Catalogue, catalogue, date

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


def write(desk: Desk) -> list[Block]:
    """By date with the place aboard, then what to buy."""
    due, words = desk.assessments.schedule, desk.words
    blocks: list[Block] = [heading(desk, "schedule"), note(words("schedule.note"))]
    if not due:
        return [*blocks, Paragraph(text=plain(words("schedule.nothing")))]
    columns = tuple(
        Column(title=words(f"schedule.{title}"), share=share)
        for title, share in (("on", 1.1), ("what", 2.8), ("part", 1.5), ("where", 1.3), ("when", 1.6))
    )
    blocks.append(Table(columns=columns, rows=tuple(_row(desk, each) for each in merged(due, words))))
    if wanted := supplies([("", each) for each in due], words):
        pair = (
            Column(title=words("schedule.supply"), share=1.6),
            Column(title=words("schedule.wanted_for"), share=2),
        )
        rows = tuple((head(words.terms(supply)), cell("; ".join(uses))) for supply, uses in wanted.items())
        blocks += [
            Heading(level=3, text=words("schedule.supplies"), listed=False),
            Table(columns=pair, rows=rows),
        ]
    return blocks


def _row(desk: Desk, due: Due) -> tuple[Cell, ...]:
    words = desk.words
    number = f"{due.number} · " if due.number else ""
    return (
        head(date(due.on) if due.on else words("schedule.no_day")),
        Cell(text=(Span(text=f"{number}{words.terms(due.what)}", href="#actions" if due.number else ""),)),
        cell(due.title or words("schedule.all")),
        cell(due.place or "–"),
        cell(due.when),
    )


def merged(due: Sequence[Due], words: Catalogue) -> list[Due]:
    """The yearly looks of one day as one line: twenty equal lines would bury what differs."""
    looks: dict[dt.date | None, list[Due]] = {}
    for each in due:
        if each.reason == "look":
            looks.setdefault(each.on, []).append(each)
    kept = [each for each in due if each.reason != "look"]
    for day, group in looks.items():
        named = list(dict.fromkeys(each.title for each in group))
        kept.append(
            group[0].model_copy(
                update={"title": words.listed(named), "place": "", "component": "", "on": day}
            )
        )
    return sorted(kept, key=lambda each: each.on or dt.date.min)


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
    rows = [(boat.name if named else "", each) for boat in boats for each in merged(boat.due, words)]
    rows.sort(key=lambda row: row[1].on or dt.date.min)
    told = [f"{'' if named else f'{boats[0].name}. '}{words('schedule.as_of', date=date(as_of))}", ""]
    body = {"date": _by_date, "place": _by_place, "supply": _by_supply}[by](rows, as_of, words)
    return [line.replace("\u00a0", " ") for line in (*told, *(list(body) or [words("schedule.nothing")]))]


def _by_date(rows: Sequence[tuple[str, Due]], as_of: dt.date, words: Catalogue) -> Iterator[str]:
    day: object = ""
    for boat, due in rows:
        if due.on != day:
            day = due.on
            late = due.on is not None and due.on < as_of
            shown = date(due.on) if due.on else words("schedule.no_day")
            yield f"{shown} ({words('schedule.overdue')})" if late else shown
        yield from wrapped(_line(boat, due, words), 2)


def _line(boat: str, due: Due, words: Catalogue) -> str:
    lead = ", ".join(text for text in (boat, due.title or words("schedule.all")) if text)
    number = f"{due.number} · " if due.number else ""
    return f"{number}{lead}: {words.terms(due.what)} ({due.when})"


def _by_place(rows: Sequence[tuple[str, Due]], as_of: dt.date, words: Catalogue) -> Iterator[str]:
    places: dict[str, list[tuple[str, Due]]] = {}
    for boat, due in rows:
        places.setdefault(due.place or words("schedule.elsewhere"), []).append((boat, due))
    for place, group in sorted(places.items()):
        yield place
        for boat, due in group:
            late = f", {words('schedule.overdue')}" if due.on and due.on < as_of else ""
            shown = date(due.on) if due.on else words("schedule.no_day")
            yield from wrapped(f"{shown}{late}: {_line(boat, due, words)}", 2)


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
