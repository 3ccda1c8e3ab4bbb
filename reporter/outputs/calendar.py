"""What is due as a calendar file (iCalendar, RFC 5545).

Comes in: schedules. Goes out: the text of the file. Whole days only, so that no time zone can move a date.
"""

from __future__ import annotations

import datetime as dt
import hashlib
from collections.abc import Sequence
from typing import TYPE_CHECKING

from reporter.model.history import Due
from reporter.outline.due import merged
from reporter.outputs.due_list import Boat
from reporter.wording import Catalogue, catalogue

if TYPE_CHECKING:
    from icalendar import Event


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
