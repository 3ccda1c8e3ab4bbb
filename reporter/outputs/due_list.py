"""What `gudgeon due` says on a terminal, by date, by place aboard or by supply; and the same as a calendar (iCalendar, RFC 5545).

Comes in: schedules of one boat or more. Goes out: lines as wide as the terminal, or the text of a calendar file, in whole days
only, so that no time zone can move a date. Today is what it is told.
"""

from __future__ import annotations

import datetime as dt
import hashlib
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import groupby
from typing import TYPE_CHECKING

from reporter.model.assessment import Assessments
from reporter.model.base import grouped
from reporter.model.history import Due
from reporter.model.job import Job
from reporter.model.plugin import Kinds
from reporter.model.sheet import Particulars
from reporter.outline.due import NAMED, merged, supplies
from reporter.outline.plainly import runs
from reporter.outline.speaking import spoken
from reporter.outputs.screen import wrapped
from reporter.wording import Catalogue, catalogue, date, joined

if TYPE_CHECKING:
    from icalendar import Event


@dataclass(frozen=True)
class Boat:
    """One boat's schedule: her name, her report's number, the day of its inspection, what is due, her hull number.

    `vessel` is her as her job tells her; `parts` are the ids of the parts that were listed, and what they were called before.
    """

    name: str
    report: str
    day: dt.date
    due: tuple[Due, ...]
    hull: str = ""
    vessel: Particulars | None = None
    parts: frozenset[str] = frozenset()


def latest(boats: Sequence[Boat]) -> list[Boat]:
    """One boat's later record replaces her earlier ones: of those stays what is due to parts that she lists no more.

    What is due to the whole boat is told by the latest alone. Of two records of one day the one named later is the later.
    """
    found: list[Boat] = []
    for _, boat in sorted(enumerate(boats), key=lambda pair: (pair[1].day, pair[0]), reverse=True):
        after = [each for each in found if _same(each, boat)]
        known = {ident for each in after for ident in each.parts}
        left = tuple(each for each in boat.due if each.component and each.component not in known)
        if left or not after:
            found.append(replace(boat, due=left) if after else boat)
    return found[::-1]


def _same(one: Boat, other: Boat) -> bool:
    return bool(one.vessel and other.vessel and one.vessel.is_boat_of(other.vessel))


def boat_of(job: Job, assessments: Assessments, kinds: Kinds) -> Boat:
    """The schedule of one graded job."""
    assessments = spoken(assessments, job, kinds)
    sheet, vessel = job.sheet, job.sheet.vessel
    day = sheet.inspection.last_day
    parts = frozenset(ident for each in job.components for ident in (each.id, each.was) if ident)
    return Boat(
        vessel.name, sheet.report.number, day, assessments.schedule, vessel.hull_number, vessel, parts
    )


def lines(boats: Sequence[Boat], as_of: dt.date, by: str, lang: str = "en", terms: str = "uk") -> list[str]:
    """The list for a terminal, by `date`, `place` or `supply`; lines as wide as the terminal."""
    words = catalogue(lang, terms)
    named = any(not _same(boat, boats[0]) for boat in boats[1:])
    # By place and by supply each piece of care stands for itself: there it is looked for by where, or with what.
    rows = [
        (boat.name if named else "", each)
        for boat in boats
        for each in merged(boat.due, words, care=by == "date", named=NAMED)
    ]
    rows.sort(key=lambda row: row[1].on or dt.date.min)
    told = [
        *wrapped(f"{'' if named else f'{boats[0].name}. '}{words('schedule.as_of', date=date(as_of))}", 0),
        "",
    ]
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
            for text in _told(list(group), words):
                yield from wrapped(text, 4)


def _told(rows: list[tuple[str, Due]], words: Catalogue) -> Iterator[str]:
    """Each thing due; a job that several parts ask for in the same words is one entry with all their numbers."""
    same = grouped(rows, lambda row: (row[0], row[1].what) if row[1].number else id(row))
    for group in same.values():
        boat, due = group[0]
        if len(group) > 1:
            title = words.listed(list(dict.fromkeys(each.title for _, each in group)))
            due = due.model_copy(update={"title": title})
        yield _line(boat, due, words, [each.number for _, each in group])


def _line(boat: str, due: Due, words: Catalogue, numbers: Sequence[int] = ()) -> str:
    lead = joined(", ", boat, due.title or words("schedule.all"))
    number = f"{runs([*numbers] or [due.number])} · " if due.number else ""
    of_many = due.reason == "look" and not due.component
    return f"{number}{lead}: {words('schedule.look_each') if of_many else words.terms(due.what)}"


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
        yield from wrapped(words.terms(supply), 0)
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
