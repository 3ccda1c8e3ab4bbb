"""A part with a fault does not silence the rest: the whole ones are graded, the others told as incomplete."""

from __future__ import annotations

import json
import shutil
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any

import pytest
from typer.testing import CliRunner

from reporter.cli import app
from reporter.collect import collect_parts
from reporter.errors import GudgeonError, JobError
from reporter.model.terms import Grade
from reporter.pipeline import collect_parts as collect_told
from reporter.pipeline import grade
from tests.demo.test_demo import graded
from tests.outline.small import ROOT, registry

Write = Callable[..., Path]


def swapped(good: Mapping[str, str], file: str, old: str, new: str) -> dict[str, str]:
    assert old in good[file]
    return {file: good[file].replace(old, new)}


@pytest.mark.parametrize(
    ("file", "old", "new", "incomplete"),
    [
        ("findings.yaml", "examined: part_seen", "name: x", ["cloth"]),
        ("findings.yaml", "rust: surface", "rust: surfaces", ["port-belt"]),
        ("findings.yaml", "pitch: 12.7 mm", "pitch: 127 mm", ["port-belt"]),
        ("measurements.csv", "254.5,mm", "254.5,kg", ["port-belt"]),
        ("measurements.csv", "10 in,,,,", "10 in,,,,,,a", ["port-belt"]),
        ("findings.yaml", "- belt.jpg", "- bolt.jpg", []),
        ("findings.yaml", "kind: rope", "kind: rppe", []),
        ("measurements.csv", "port-belt,span,top", "belt,span,top", []),
        ("job.yaml", "name: A. Tester", "nome: A. Tester", []),
        ("job.yaml", "name: Invented", "name:", []),
    ],
)  # fmt: skip
def test_only_the_part_at_fault_is_incomplete(
    file: str, old: str, new: str, incomplete: list[str], folder: Write, good: Mapping[str, str], installed: Any,
    photos: Any,
) -> None:  # fmt: skip
    """What a photo shows, and who somebody is, leaves a grade as it is; a part of no known kind is not there at all."""
    job, problems = collect_parts(folder(swapped(good, file, old, new)), installed, photos=photos)
    assert problems
    assert list(job.incomplete) == incomplete


@pytest.mark.parametrize(
    ("file", "old", "new"),
    [
        ("job.yaml", "[2026-05-11, 2026-05-12]", "[2026-02-30]"),
        ("job.yaml", "purpose: trial", "purpose: trail"),
        ("job.yaml", "resolution: 0.5 mm", "resolution: fine"),
        ("job.yaml", "6900 kg", "6.9 kg"),
        ("findings.yaml", "components:", "componets:"),
        ("findings.yaml", "format: 1", "format: 2"),
        ("measurements.csv", "component,quantity", "component,what"),
        ("measurements.csv", "rule,\n", 'rule,"\n'),
    ],
)
def test_what_every_grade_rests_on_stops_all(
    file: str, old: str, new: str, folder: Write, good: Mapping[str, str], installed: Any, photos: Any
) -> None:
    with pytest.raises(JobError):
        collect_parts(folder(swapped(good, file, old, new)), installed, photos=photos)


def test_a_folder_in_order_has_no_part_that_is_incomplete(folder: Write, installed: Any, photos: Any) -> None:
    job, problems = collect_parts(folder(), installed, photos=photos)
    assert (job.incomplete, problems) == ({}, [])


def test_remarks_keep_their_lines_beside_a_fault(
    folder: Write, good: Mapping[str, str], installed: Any, photos: Any
) -> None:
    changes = {
        **swapped(good, "findings.yaml", "rust: surface", "rust: surfaces"),
        **swapped(good, "job.yaml", "place: a berth", "place: berth #14"),
    }
    job, _ = collect_parts(folder(changes), installed, photos=photos)
    assert [each.split(": '#14'")[0] for each in job.remarks] == ["job.yaml, line 15: inspection › place"]


def test_what_only_a_second_reading_finds_has_the_line_and_the_number_of_its_entry(
    folder: Write, good: Mapping[str, str], installed: Any, photos: Any
) -> None:
    """Entries before it were taken out for faults of their own; nothing that is whole goes with them."""
    named = "- {file: belt.jpg, colour: red, size: 2}\n      - nowhere.jpg\n      - {caption: no file}\n      - {file: gone.jpg, marks: [{kind: ring, at: [2, 0]}, {kind: line, start: [0, 0], end: [0, 0]}]}"
    text = good["findings.yaml"].replace("- belt.jpg", named)
    first = text[: text.index("- {file: belt")].count("\n") + 1
    _, problems = collect_parts(folder({"findings.yaml": text}), installed, photos=photos)
    told = {(each.line - first, each.key.removeprefix("port-belt › photos › ")) for each in problems}
    assert told == {
        (0, "belt.jpg › colour"),
        (0, "belt.jpg › size"),
        (1, "entry 2"),
        (2, "entry 3 › file"),
        (3, "gone.jpg › file"),
        (3, "gone.jpg › marks › entry 1 › at › entry 1"),
        (3, "gone.jpg › marks › entry 2"),
    }


@pytest.fixture(scope="module")
def faulty(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demo with one word of the chain misspelt and one reading of the wheel in kilograms."""
    root = tmp_path_factory.mktemp("faulty") / "job"
    shutil.copytree(ROOT / "demo_job", root)
    for file, old, new in (
        ("findings.yaml", "corrosion:", "corosion:"),
        ("measurements.csv", "1.9,turns", "1.9,kg"),
    ):
        text = (root / file).read_text("utf-8")
        assert old in text
        (root / file).write_text(text.replace(old, new, 1), "utf-8")
    return root


def test_the_whole_parts_are_graded_as_ever_and_the_others_not_at_all(faulty: Path) -> None:
    job, wrong = collect_told(faulty, registry())
    assert wrong
    template = registry().template("pre_purchase")
    told = grade(job, registry(), template)
    usual = {part.component.id: part.grade for part in graded("survey").components}
    for part in told.components:
        ident = part.component.id
        at_fault = ident in {"chain", "wheel"}
        assert part.grade is (Grade.UNSEEN if at_fault else usual[ident]), ident
        assert bool(part.failed) is at_fault
        assert not (at_fault and part.checks)


def test_check_grades_tells_and_ends_with_3(faulty: Path) -> None:
    done = CliRunner().invoke(app, ["check", str(faulty)])
    assert "Incomplete, and not graded: Wheel and shaft; Steering chain and sprocket." in done.stdout
    assert "Starboard steering wire: The cloth snagged" in done.stdout
    assert "Without it the part cannot be" not in done.stdout
    assert isinstance(done.exception, JobError)
    assert "Did you mean 'corrosion'?" in str(done.exception)
    told = CliRunner().invoke(app, ["check", str(faulty), "--json"])
    parts = {row["id"]: row for row in json.loads(told.stdout)["components"]}
    assert parts["chain"]["grade"] == "unseen"
    assert parts["chain"]["failed"] == "Something that is told of it is not in order."


def test_report_refuses_unless_told(faulty: Path, tmp_path: Path) -> None:
    target = tmp_path / "out.html"
    done = CliRunner().invoke(app, ["report", str(faulty), "-o", str(target)])
    assert isinstance(done.exception, JobError)
    assert not target.exists()


@pytest.mark.slow
def test_a_report_that_keeps_going_says_which_parts_are_not_graded(faulty: Path, tmp_path: Path) -> None:
    target = tmp_path / "out.html"
    done = CliRunner().invoke(app, ["report", str(faulty), "-o", str(target), "--keep-going"])
    assert isinstance(done.exception, GudgeonError)
    assert done.exception.exit_code == 3
    assert "Something that is told of it is not in order." in target.read_text("utf-8")
    sheet = faulty / "job.yaml"
    text = sheet.read_text("utf-8")
    sheet.write_text(text.replace("  name: Marram", "  name:"), "utf-8")
    target.unlink()
    done = CliRunner().invoke(app, ["report", str(faulty), "-o", str(target), "--keep-going"])
    sheet.write_text(text, "utf-8")
    assert isinstance(done.exception, JobError)
    assert not target.exists()


def test_an_earlier_visit_at_fault_is_told_and_left_out(tmp_path: Path) -> None:
    root = tmp_path / "job"
    shutil.copytree(ROOT / "demo_job", root)
    findings = root / "outgoing" / "findings.yaml"
    text = findings.read_text("utf-8")
    findings.write_text(text.replace("joint: locked", "joint: lokced", 1), "utf-8")
    assert findings.read_text("utf-8") != text
    job, wrong = collect_told(root, registry())
    assert wrong
    assert [each.file for each in wrong.problems] == ["outgoing/findings.yaml"]
    assert (job.earlier, job.incomplete) == ((), {})
    assert len(grade(job, registry(), registry().template("pre_purchase")).components) == len(job.components)
