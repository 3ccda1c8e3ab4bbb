"""A job from nothing but its photos, by finger, through the page, to the report that the hand-written folder gives.

Compared are the words of every page, and the data that both PDFs carry: job, findings, readings, photos with their
digests, grades with every check, action and sum. Marks are drawn by a finger on the screen: their places may differ by
half a percent of the photo's width. The page asks in the order of the walk, so the hand-written files have that order.
"""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any

import pikepdf
import pytest
import yaml
from pypdfium2 import PdfDocument

from reporter import pipeline
from reporter.registry import find, load
from tests.desk_page.slices import by_hand, parts, photos, rows, sheet, uses

pytestmark = pytest.mark.slow

FINE = 0.005


def carried(pdf: Path) -> dict[str, bytes]:
    """The files that a report carries, by name."""
    with pikepdf.open(pdf) as document:
        return {name: document.attachments[name].get_file().read_bytes() for name in document.attachments}


def words_of(pdf: Path) -> list[list[str]]:
    """The words of every page, but for the digest of the data, which a thousandth in a mark changes."""
    document = PdfDocument(pdf)
    told = [page.get_textpage().get_text_bounded() for page in document]
    document.close()
    return [re.sub(r"(\b[0-9a-f]{4}\s+){15}[0-9a-f]{4}\b", "", text).split() for text in told]


def about_equal(one: Any, other: Any, where: str = "") -> list[str]:
    """Where two data differ; numbers inside marks may by `FINE`."""
    if isinstance(one, dict) and isinstance(other, dict):
        return [
            line
            for key in {*one, *other}
            for line in about_equal(one.get(key), other.get(key), f"{where}.{key}")
        ]
    if isinstance(one, list) and isinstance(other, list) and len(one) == len(other):
        return [
            line
            for at, pair in enumerate(zip(one, other, strict=True))
            for line in about_equal(*pair, f"{where}[{at}]")
        ]
    if ".marks[" in where and isinstance(one, int | float) and isinstance(other, int | float):
        return [] if abs(one - other) <= FINE else [f"{where}: {one} {other}"]
    if isinstance(one, str) and isinstance(other, str):
        one, other = one.strip(), other.strip()  # a folded text of YAML ends in a line break
    return [] if one == other else [f"{where}: {one!r} {other!r}"]


def test_a_job_is_made_of_its_photos_by_finger(start: Any, windows: Any, tmp_path: Path) -> None:
    home = tmp_path / "jobs"
    home.mkdir()
    hands = windows.first(start(home))
    hands.page.get_by_label("A name for it").fill("six")
    hands.tap(hands.page.get_by_role("button", name="Begin", exact=True))
    hands.page.locator(".top").wait_for()
    hands.bring(photos())
    kinds = {
        kind["kind"]: (system["system"], kind["title"])
        for system in hands.asked("/api/kinds")["systems"]
        for kind in system["kinds"]
    }
    hands.fill_sheet(sheet())
    for part in parts():
        system, title = kinds[part["kind"]]
        hands.begin(system, title)
        hands.all_saved()
        hands.give([use["file"] for use in uses(part)], title)
        hands.fill(part["id"], part, [row for row in rows() if row["component"] == part["id"]])
        for use in uses(part):
            hands.mark_up(use["file"], part["id"], use)
    hands.all_saved()
    made = tmp_path / "by_page.pdf"
    hands.make("Report (PDF)").save_as(made)

    written = tmp_path / "by_hand.pdf"
    assessed = pipeline.report(
        by_hand(tmp_path / "six", home / "six"), written, load(find()), tell=lambda _: None
    )
    grades = {part["id"]: part["grade"] for part in hands.asked("/api/job")["parts"]}
    assert grades == {part.component.id: part.grade.value for part in assessed.components}
    ours, theirs = carried(made), carried(written)
    assert set(ours) == set(theirs)
    for name in ("job.yaml", "findings.yaml", "assessments.json"):
        assert about_equal(yaml.safe_load(ours[name]), yaml.safe_load(theirs[name])) == [], name
    for name in ("measurements.csv", "photo_register.csv"):
        assert ours[name] == theirs[name]
    assert words_of(made) == words_of(written)
