"""What is told first, what once, what not at all: a person corrects the cause, and what follows from it is gone."""

from __future__ import annotations

import csv
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from reporter.collect import collect, collect_parts
from reporter.collect.ledger import Ledger, listed, nearest
from reporter.errors import MOST_SHOWN, JobError, Problem

Write = Callable[..., Path]
SHEETS = {"job.yaml", "findings.yaml"}


def told(root: Path, installed: Any, photos: Any) -> str:
    """The whole message of a folder that is not in order."""
    with pytest.raises(JobError) as refused:
        collect(root, installed, photos=photos)
    return str(refused.value)


def many_photos(good: dict[str, str]) -> str:
    names = "".join(f"      - {number}.jpg\n" for number in range(33))
    return good["findings.yaml"].replace("      - belt.jpg\n", names)


@pytest.mark.parametrize("there", ["file", "link", "nothing"])
def test_a_photos_folder_that_is_none_is_the_one_thing_told(
    there: str, folder: Write, good: dict[str, str], installed: Any, photos: Any
) -> None:
    changes = {"findings.yaml": many_photos(good), "photos/belt.jpg": None}
    root = folder({**changes, "photos": "a file"} if there == "file" else changes)
    if there == "link":
        (root / "photos").symlink_to(root)
    text = told(root, installed, photos)
    assert text.startswith("1 problem in the job folder:\nphotos\n")
    assert (f"is a {there}, not a folder" in text) is (there != "nothing")


def test_a_part_of_an_unknown_kind_is_no_part_that_is_missing(
    folder: Write, good: dict[str, str], installed: Any, photos: Any
) -> None:
    """What else names the part is at no fault: the path that runs over it, the part that belongs to it."""
    sheet = good["findings.yaml"] + "paths:\n  - {id: a, name: A, parts: [port-belt, cloth], lost: All.}\n"
    sheet = sheet.replace("kind: rope", "kind: rppe").replace("kind: belt", "part_of: cloth\n    kind: belt")
    _, problems = collect_parts(folder({"findings.yaml": sheet}), installed, photos=photos)
    assert [each.what for each in problems] == ["There is no component kind 'rppe'."]


def test_the_same_wrong_in_many_rows_is_told_once_with_its_lines(
    folder: Write, good: dict[str, str], installed: Any, photos: Any
) -> None:
    rows = good["measurements.csv"].splitlines()[0] + "\n" + "cahin,span,,,,254,mm,,,\n" * 30
    text = told(folder({"measurements.csv": rows}), installed, photos)
    assert text.startswith(
        "1 problem in the job folder:\nmeasurements.csv, lines 2, 3, 4, 5, 6 and 25 more · component\n"
    )


def test_a_sheet_of_the_other_ending_is_told_first(
    folder: Write, good: dict[str, str], installed: Any, photos: Any
) -> None:
    old = good["job.yaml"].replace("purpose: trial", "purpose: trail")
    text = told(folder({"job.yaml": old, "job.yml": good["job.yaml"]}), installed, photos)
    first, second = text.splitlines()[1], text.splitlines()[2]
    assert first == "job.yaml"
    assert "'job.yml' lies beside this file" in second
    assert "There is no template 'trail'." in text


def test_no_more_than_a_screenful_is_shown_and_the_rest_is_counted() -> None:
    problems = [Problem("a.csv", line, "", f"wrong {line}", "Mend it.") for line in range(1, 51)]
    text = str(JobError([*problems, Problem("z", 0, "", "the cause", "Mend it.")]))
    lines = text.splitlines()
    assert lines[:3] == ["51 problems in the job folder:", "z", "    the cause"]
    assert MOST_SHOWN == 20
    assert text.count("→") == 20
    assert lines[-1] == "… and 31 more. Correct these first."


@pytest.mark.parametrize(
    ("word", "choices", "near"),
    [
        ("blet", {"belt", "rope"}, "belt"), ("autor", {"author", "owner"}, "author"), ("belt", {"port-belt", "cloth"}, "port-belt"),
        ("good", {"cord", "firm", "none"}, ""), ("clean", {"none", "clear"}, "clear"), ("what", {"at", "note"}, ""),
        ("grey", {"green", "bright"}, ""), ("belt", {"port-belt", "starboard-belt"}, ""),
    ],
)  # fmt: skip
def test_a_suggestion_is_made_only_where_it_is_near(word: str, choices: set[str], near: str) -> None:
    assert nearest(word, sorted(choices)) == near


def test_every_kind_is_listed(folder: Write, good: dict[str, str], installed: Any, photos: Any) -> None:
    from types import SimpleNamespace

    many = {f"kind{number:02d}": installed.plugins["rope"] for number in range(43)}
    wide = SimpleNamespace(plugins={**installed.plugins, **many}, templates=installed.templates)
    text = told(
        folder({"findings.yaml": good["findings.yaml"].replace("kind: rope", "kind: halyard")}), wide, photos
    )
    assert all(kind in text for kind in many)
    assert listed(map(str, range(43))).endswith("and 19 more")


@pytest.mark.parametrize(
    ("row", "said"),
    [
        ('port-belt,span,,,,254,mm,,,"' + "x" * (csv.field_size_limit() + 1) + '"\n', "longer than 131072 characters"),
        ('port-belt,span,,,,254,mm,,,"never closed\n', "opened here and never closed"),
        ('port-belt,span,,,,254,mm,,,"a" b\n', "out of place"),
    ],
)  # fmt: skip
def test_a_table_that_cannot_be_read_says_why(
    row: str, said: str, folder: Write, good: dict[str, str], installed: Any, photos: Any
) -> None:
    rows = good["measurements.csv"] + row
    text = told(folder({"measurements.csv": rows}), installed, photos)
    assert said in text
    assert "measurements.csv, line 5" in text


def test_a_long_word_is_not_told_back_whole() -> None:
    ledger = Ledger()
    ledger.tell("job.yaml", 1, "a", f"'{'x' * 5000}' is no date.", "Write a date.")
    assert ledger.problems[0].what == f"'{'x' * 60} …' is no date."
