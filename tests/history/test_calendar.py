"""The calendar file, read again by an independent parser (vobject) and line by line against RFC 5545."""

from __future__ import annotations

import datetime as dt
import importlib
import os
import re
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest

from reporter.model.history import Due
from reporter.model.sheet import Particulars
from reporter.model.terms import Remedy
from reporter.outputs.due_list import Boat, icalendar_text, latest, lines
from tests.history.folders import ROOT, two_visits

AS_OF = dt.date(2026, 5, 12)
AWKWARD = "Rüst; Öse, „Püttings“\nand a backslash \\ – " + "long " * 30


def due(what: str, on: dt.date | None, **more: object) -> Due:
    return Due.model_validate(
        {"what": what, "on": on, "when": "in time", "reason": "grade", "remedy": Remedy.LOOK, **more}
    )


BOATS = (
    Boat("Marram", "R-1", AS_OF, (
        due(AWKWARD, dt.date(2028, 2, 29), title="Shroud", place="port, aloft", bring=("[split pin]s", "grease")),
        due("No day of its own", None, title="Wheel"),
        due("Look at it again", dt.date(2027, 5, 12), title="Wheel", reason="look"),
        due("Look at it again", dt.date(2027, 5, 12), title="Chain", reason="look"),
    )),
    Boat("Dunlin", "R-2", dt.date(2026, 4, 1), (due("No day of its own", None, title="Wheel"),)),
)  # fmt: skip


def text() -> str:
    return icalendar_text(BOATS, AS_OF)


def events() -> list[Any]:
    """The events as vobject reads them; it shares no code with the writer."""
    vobject: Any = importlib.import_module("vobject")
    return list(vobject.readOne(text()).vevent_list)


def test_an_independent_parser_reads_what_was_written() -> None:
    found = events()
    assert len(found) == 4
    first = next(each for each in found if each.dtstart.value == dt.date(2028, 2, 29))
    assert first.summary.value == f"Marram: {AWKWARD} (Shroud)"
    assert first.dtend.value == dt.date(2028, 3, 1), (
        "the day after the last day: DTEND is not included (RFC 5545, 3.6.1)"
    )
    assert first.location.value == "port, aloft"
    assert "split pins; grease" in first.description.value
    assert "in time" in first.description.value


def test_the_days_are_whole_days_without_a_zone() -> None:
    """RFC 5545, 3.3.4: a DATE has no zone, so no clock of a phone can move it."""
    for each in events():
        assert type(each.dtstart.value) is dt.date
        assert each.dtstamp.value.utcoffset() == dt.timedelta(0)


def test_what_has_no_day_stands_on_the_day_asked_for_and_looks_of_a_day_are_one() -> None:
    found = {(each.summary.value, each.dtstart.value) for each in events()}
    assert ("Marram: No day of its own (Wheel)", AS_OF) in found
    assert ("Marram: Look at each of them again (Wheel and Chain)", dt.date(2027, 5, 12)) in found


def test_identities_are_distinct_and_last() -> None:
    uids = [each.uid.value for each in events()]
    assert len(set(uids)) == len(uids)
    later = icalendar_text(BOATS, dt.date(2026, 9, 1))
    assert re.findall(r"UID:(\S+)", later) == re.findall(r"UID:(\S+)", text())


def test_content_lines_are_those_of_the_standard() -> None:
    """RFC 5545, 3.1 (from memory): CRLF, at most 75 octets, folded by a blank, name ":" value."""
    raw = text().encode("utf-8")
    assert raw.endswith(b"END:VCALENDAR\r\n")
    assert b"\n" not in raw.replace(b"\r\n", b"")
    assert max(len(line) for line in raw.split(b"\r\n")) <= 75
    unfolded = raw.decode("utf-8").replace("\r\n ", "").removesuffix("\r\n").split("\r\n")
    assert all(re.fullmatch(r"[A-Z-]+(;[A-Z-]+=[^;:]+)*:.*", line) for line in unfolded)
    required = {"UID", "DTSTAMP", "DTSTART"}
    for event in "\n".join(unfolded).split("BEGIN:VEVENT")[1:]:
        assert required <= {re.split("[;:]", line)[0] for line in event.splitlines()}


@pytest.mark.parametrize(
    "zone", ["Pacific/Kiritimati", pytest.param("America/Los_Angeles", marks=pytest.mark.slow)]
)
def test_the_file_is_the_same_in_every_zone(zone: str) -> None:
    code = "from tests.history.test_calendar import text; import sys; sys.stdout.buffer.write(text().encode('utf-8'))"
    done = subprocess.run(
        [sys.executable, "-c", code],
        capture_output=True,
        cwd=ROOT,
        check=True,
        env={**os.environ, "TZ": zone},
    )
    assert done.stdout.decode("utf-8") == text()


@pytest.mark.parametrize("by", ["date", "place", "supply"])
def test_the_list_fits_a_terminal(by: str) -> None:
    told = lines(BOATS, dt.date(2028, 5, 1), by)
    assert max(map(len, told)) <= 80
    assert "split pins" in "\n".join(told) or by != "supply"


def test_what_is_past_is_told() -> None:
    told = lines(BOATS, dt.date(2028, 5, 1), "date")
    assert "12 May 2027 (overdue)" in told
    assert "29 February 2028 (overdue)" in told
    assert "overdue" not in "\n".join(lines(BOATS, AS_OF, "date"))


def test_the_command_writes_what_it_lists(tmp_path: Path) -> None:
    _, later = two_visits(tmp_path)
    gudgeon = Path(sys.executable).with_name("gudgeon")
    command = [str(gudgeon), "due", str(later), "--as-of", "2028-02-29", "--ics", str(tmp_path / "due.ics")]
    done = subprocess.run(command, capture_output=True, text=True, check=False)
    assert (done.returncode, done.stderr) == (0, "")
    assert "Due as of 29 February 2028" in done.stdout
    assert "overdue" in done.stdout
    assert (tmp_path / "due.ics").read_bytes().startswith(b"BEGIN:VCALENDAR\r\n")
    wrong = subprocess.run(
        [*command[:3], "--as-of", "yesterday"], capture_output=True, text=True, check=False
    )
    assert (wrong.returncode, "2026-05-12" in wrong.stderr) == (2, True)


def record(name: str, day: str, *parts: str, hull: str = "", whole: bool = True) -> Boat:
    """One visit: each of these parts, and the whole boat, has something due."""
    found = tuple(due(f"Renew of {day}", dt.date(2026, 1, 1), component=each, title=each) for each in parts)
    walk = (due(f"Walk over everything, {day}", dt.date(2026, 1, 1)),) if whole else ()
    vessel = Particulars(name=name, hull_number=hull)
    known = frozenset(parts)
    return Boat(name, f"R-{day}", dt.date.fromisoformat(day), (*found, *walk), hull, vessel, known)


def test_the_later_record_of_a_boat_replaces_the_earlier() -> None:
    """Whatever the order of the folders; what she lists no more stays due, and is told under no name of its own."""
    old, new = (
        record("Marram", "2025-05-01", "chain", "mast", hull="XX-1"),
        record("Sedge", "2026-05-01", "chain", hull="XX-1"),
    )
    for given in ((old, new), (new, old)):
        told = [(each.component, each.what) for boat in latest(given) for each in boat.due]
        assert told == [
            ("mast", "Renew of 2025-05-01"),
            ("chain", "Renew of 2026-05-01"),
            ("", "Walk over everything, 2026-05-01"),
        ]
        listed = "\n".join(lines(latest(given), AS_OF, "date"))
        assert listed.count("Walk over everything") == 1
        assert "Sedge," not in listed
    nothing_left = record("Marram", "2024-05-01", "chain", hull="XX-1")
    assert latest([new, nothing_left]) == [new]


def test_of_two_records_of_one_day_the_one_named_last_holds_and_other_boats_keep_theirs() -> None:
    one, two = (
        record("Marram", "2026-05-01", "chain", "wheel"),
        record("marram", "2026-05-01", "chain", whole=False),
    )
    assert [each.component for each in latest([one, two])[0].due] == ["wheel"]
    dunlin = record("Dunlin", "2025-05-01", "chain")
    assert latest([dunlin, two]) == [dunlin, two]
    assert any(line.strip().startswith("Dunlin, chain:") for line in lines([dunlin, two], AS_OF, "date"))
