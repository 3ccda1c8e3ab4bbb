"""Edits of measurements.csv: a record changes, comes or goes; every other record keeps its bytes."""

from __future__ import annotations

import csv
import random
from io import StringIO
from pathlib import Path
from typing import Any

import pytest

from reporter.editing import ConflictError, Edit, EditError, edited, records, value_in
from reporter.model.job import COLUMNS

DEMO = (Path(__file__).parents[2] / "demo_job/measurements.csv").read_text("utf-8")
HEAD = ",".join(COLUMNS) + "\n"
TEXTS = {
    "demo": DEMO,
    "crlf": DEMO.replace("\n", "\r\n"),
    "semicolon": DEMO.replace('"', "").replace(",", ";"),
    "quoted": "\n".join(",".join(f'"{cell}"' for cell in row) for row in csv.reader(StringIO(DEMO))),
    "spreadsheet": "\ufeffsep=;\r\nComponent;Quantity;Value;At\r\na;play;2;top\r\n\r\na;play;3;top\r\n",
    "blank lines": "\n\r\n\n" + DEMO.replace("\nchain,", "\n\n\nchain,") + "\n\n",
    "cell of two lines": HEAD + 'a,play,top,found,,2,mm,,,"one\ntwo, and ""three"""\nb,play,,,,1,mm,,,',
}


def rows_of(text: str) -> list[dict[str, str]]:
    """The rows by the standard library's reader alone."""
    lines = text.removeprefix("\ufeff").removeprefix("sep=;\r\n")
    separator = ";" if ";" in lines.split("\n")[0] else ","
    header, *rows = [row for row in csv.reader(StringIO(lines, newline=""), delimiter=separator) if any(row)]
    names = [each.lower() for each in header]
    return [{name: cell for name, cell in zip(names, row, strict=False) if cell} for row in rows]


def edit_of(rng: random.Random, rows: list[dict[str, str]]) -> tuple[Edit, list[dict[str, str]]]:
    """A random edit, and the rows after it where order is not looked at."""
    row = rng.choice(rows)
    key = [row.get(name, "") for name in ("component", "quantity", "at")]
    alike = [each for each in rows if [each.get(n, "") for n in ("component", "quantity", "at")] == key]
    number = rng.randrange(len(alike) + 1)
    seen = alike[number] if number < len(alike) else None
    named = {name: word for name, word in zip(("component", "quantity", "at"), key, strict=True) if word}
    value = rng.choice(["12,5", "5/8", "a; b", 'he said "no"', "1\n2", " 7 ".strip()])
    wanted: Any = rng.choice(
        [None, {**(seen or named), "value": value}, {**named, "value": "9", "note": value}]
    )
    wanted = wanted if seen or wanted else {**named, "value": value}
    after = [each for each in rows if each is not seen] + ([wanted] if wanted else [])
    return Edit("measurements.csv", ({"row": [*key, number]},), seen, wanted), after


@pytest.mark.parametrize("name", TEXTS)
def test_forty_random_edits_touch_no_other_record(name: str) -> None:
    text = TEXTS[name]
    rng = random.Random(7)  # noqa: S311
    rows = rows_of(text)
    for _ in range(40):
        edit, wanted = edit_of(rng, rows)
        after = edited(text, [edit], table=True)
        assert sorted(map(str, map(sorted, map(dict.items, rows_of(after))))) == sorted(
            map(str, map(sorted, map(dict.items, wanted)))
        ), edit
        kept = text.splitlines()[2:] if "note" in str(edit.wanted) else text.splitlines()
        lost = [line for line in kept if line not in after.splitlines()]
        assert len(lost) <= 1 + str(edit.seen).count("\\n")


def test_a_cell_alone_changes_and_its_neighbours_keep_their_quotes() -> None:
    text = HEAD + '"a","play","","found","","2","mm","","",""\n'
    after = edited(text, [Edit("m", ({"row": ["a", "play", "", 0]}, "value"), "2", "2,5")], table=True)
    assert after == text.replace('"2"', '"2,5"')


def test_a_new_reading_stands_behind_those_of_its_part() -> None:
    text = HEAD + "a,play,,,,1,mm,,,\nb,play,,,,2,mm,,,\n"
    row = {"component": "a", "quantity": "gap", "value": "3", "unit": "mm"}
    after = edited(text, [Edit("m", ({"row": ["a", "gap", "", 0]},), None, row)], table=True)
    assert after.splitlines()[1:] == ["a,play,,,,1,mm,,,", "a,gap,,,,3,mm,,,", "b,play,,,,2,mm,,,"]


def test_all_rows_of_a_reading_are_set_at_once_and_an_empty_file_is_begun() -> None:
    address = ({"rows": ["a", "play", "top"]},)
    wanted = [{"component": "a", "quantity": "play", "at": "top", "value": each} for each in ("1", "2")]
    text = edited("", [Edit("m", address, None, wanted)], table=True)
    assert value_in(text, address, table=True) == wanted
    assert edited(text, [Edit("m", address, wanted, None)], table=True) == HEAD


def test_a_column_that_is_missing_is_added_to_the_header_alone() -> None:
    text = "component,quantity,value\na,play,2\nb,play,3\n"
    row = {"component": "a", "quantity": "play", "value": "2", "note": "again"}
    seen = {"component": "a", "quantity": "play", "value": "2"}
    after = edited(text, [Edit("m", ({"row": ["a", "play", "", 0]},), seen, row)], table=True)
    assert after == "component,quantity,value,note\na,play,2,again\nb,play,3\n"


def test_refusals() -> None:
    with pytest.raises(ConflictError):
        edited(
            HEAD + "a,play,,,,1,mm,,,\n",
            [Edit("m", ({"row": ["a", "play", "", 0]}, "value"), "2", "3")],
            table=True,
        )
    cases: list[tuple[str, Any]] = [
        (HEAD, ({"row": ["a", "play", "", 1]},)),
        (HEAD + 'a,"play\n', ({"row": ["a", "play", "", 0]},)),
        ("what,ever\n", ({"row": ["a", "play", "", 0]},)),
        (HEAD, ({"row": ["a", "play"]},)),
        (HEAD, ("value",)),
    ]
    for text, address in cases:
        with pytest.raises(EditError):
            edited(text, [Edit("m", address, None, {"value": "1"})], table=True)


def test_an_outcome_that_touches_another_row_is_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    """Whatever slip of ours: the outcome is read again before it is given out."""
    text = HEAD + "a,play,,,,1,mm,,,\nb,play,,,,2,mm,,,\n"
    real = records._one
    monkeypatch.setattr(records, "_one", lambda *given: real(*given).replace("b,play,,,,2", "b,play,,,,3"))
    with pytest.raises(EditError):
        edited(text, [Edit("m", ({"row": ["a", "play", "", 0]}, "value"), "1", "5")], table=True)


def test_blank_lines_are_passed_over_at_once(monkeypatch: pytest.MonkeyPatch) -> None:
    """A table may hold two million of them."""
    ends: list[int] = []
    real = records._next_line

    def counted(text: str, end: int) -> int:
        ends.append(end)
        return real(text, end)

    monkeypatch.setattr(records, "_next_line", counted)
    found = records._rows(HEAD + "\n" * 1000 + "a,play,,,,2,mm,,,\n" + "\r\n" * 1000)
    assert [row.cells[:2] for row in found] == [("component", "quantity"), ("a", "play")]
    assert len(ends) <= 3
