"""Half-filled folders, and folders held in memory: read and graded as far as they go, every fault told once."""

from __future__ import annotations

import shutil
from pathlib import Path
from typing import Any

import pytest

from reporter import pipeline
from reporter.collect import collect, collect_begun
from reporter.door import read_photos
from reporter.errors import JobError, Problem
from reporter.model.assessment import Assessments
from reporter.model.job import Job
from reporter.model.photo import PhotoFile
from reporter.model.terms import Grade
from reporter.registry import Registry, find, load

DEMO = Path(__file__).parents[2] / "demo_job"
NAMES = ("job.yaml", "findings.yaml", "measurements.csv")


@pytest.fixture(scope="module")
def registry() -> Registry:
    """What is installed."""
    return load(find())


@pytest.fixture
def texts() -> dict[str, str]:
    """The text files of the demonstration job."""
    return {name: (DEMO / name).read_text("utf-8") for name in NAMES}


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A folder with nothing but the demonstration's papers: no text file is there to be read."""
    shutil.copytree(DEMO / "documents", tmp_path / "documents")
    shutil.copytree(DEMO / "outgoing", tmp_path / "outgoing")
    shutil.copytree(DEMO / "photos", tmp_path / "photos")
    return tmp_path


_OPENED: dict[str, list[PhotoFile]] = {}


def photos(files: list[Path], folder: Path, **how: Any) -> list[PhotoFile]:
    """What the photos say, each set of them opened once: no test here changes one, and every folder has the same."""
    asked = f"{[each.relative_to(folder) for each in files]} {how}"
    if asked not in _OPENED:
        _OPENED[asked] = read_photos(files, folder, **how)
    return _OPENED[asked]


@pytest.fixture(scope="module")
def whole(registry: Registry) -> Job:
    """The demonstration job."""
    return collect(DEMO, registry, photos=photos)


def begun(folder: Path, registry: Registry, texts: dict[str, str]) -> tuple[Job, list[Problem], Assessments]:
    """The job as far as it goes, what is wrong with it, and its grades."""
    job, problems = collect_begun(folder, registry, photos=photos, texts=texts)
    return job, problems, pipeline.grade(job, registry, registry.template(job.sheet.purpose), keep_going=True)


def test_a_folder_in_memory_is_the_same_job(
    folder: Path, registry: Registry, texts: dict[str, str], whole: Job
) -> None:
    texts["findings.yaml"] = "\ufeff" + texts["findings.yaml"].replace("\n", "\r\n")
    held = collect(folder, registry, photos=read_photos, texts=texts)
    assert held == whole
    assert collect_begun(folder, registry, photos=photos, texts=texts) == (held, [])


def test_one_wrong_answer_takes_nothing_else_away(
    folder: Path, registry: Registry, texts: dict[str, str], whole: Job
) -> None:
    before = pipeline.grade(whole, registry, registry.template(whole.sheet.purpose)).components
    texts["findings.yaml"] = texts["findings.yaml"].replace("noise: quiet", "noise: nonesuch", 1)
    job, problems, graded = begun(folder, registry, texts)
    assert [(each.key, each.line) for each in problems] == [("wheel › observed › noise", 37)]
    wheel = next(each for each in job.components if each.id == "wheel")
    assert "noise" not in wheel.observed
    assert "evenness" in wheel.observed
    assert [each.grade for each in graded.components[1:]] == [each.grade for each in before[1:]]
    with pytest.raises(JobError):
        collect(folder, registry, photos=photos, texts=texts)


def test_a_part_of_which_only_the_kind_is_told_is_unseen_and_says_what_is_missing(
    folder: Path, registry: Registry, texts: dict[str, str]
) -> None:
    texts["findings.yaml"] += "\n  - {id: half, kind: chain}\n  - {id: odd, kind: nokind}\n"
    job, problems, graded = begun(folder, registry, texts)
    half = graded.part("half")
    assert half
    assert (half.grade, len(half.missing)) == (Grade.UNSEEN, 11)
    assert {each.key for each in problems} == {"half › examined", "odd › examined", "odd › kind"}
    assert len(job.components) == len(graded.components)


@pytest.mark.parametrize(
    ("file", "before", "after", "key"),
    [
        ("findings.yaml", "extent: seen  ", "extent: sen", "wheel › examined › extent"),
        (
            "findings.yaml",
            "radius: 0.085",
            "radius: 9",
            "wheel › photos › wheel_hub.jpg › marks › entry 1 › radius",
        ),
        ("findings.yaml", "basis: measured", "basis: guess", "wheel › details › diameter › basis"),
        ("findings.yaml", "how: [hand, eye, gauge]", "how: [hand, nose]", "wheel › examined › how › entry 2"),
        ("findings.yaml", "nut]  ", "nut, bolt]", "wheel › examined › included › entry 5"),
        ("findings.yaml", "place: cockpit", "plase: cockpit", "wheel › plase"),
        ("job.yaml", "purpose: pre_purchase", "purpose: nonesuch", "purpose"),
        ("job.yaml", "time_zone: +01:00", "time_zone: nowhere", "inspection › time_zone"),
        ("job.yaml", "beam: 3.65 m", "beam: broad", "vessel › beam"),
        ("measurements.csv", "22,N", "22,kN", "value"),
    ],
)
def test_what_is_wrong_with_one_entry_is_told_and_all_parts_stay(
    folder: Path,
    registry: Registry,
    texts: dict[str, str],
    whole: Job,
    file: str,
    before: str,
    after: str,
    key: str,
) -> None:
    assert before in texts[file]
    texts[file] = texts[file].replace(before, after, 1)
    job, problems, graded = begun(folder, registry, texts)
    assert [each.key for each in problems] == [key]
    assert len(job.components) == len(graded.components) == len(whole.components)
    assert job.sheet.vessel.name == "Marram"


@pytest.mark.parametrize(
    "text", ["", "format: 1\n", "a: [1\n", "- one\n", "format: 1\nvessel: none\npeople: [1]\n"]
)
def test_without_a_readable_job_sheet_parts_are_still_graded(
    folder: Path, registry: Registry, texts: dict[str, str], text: str
) -> None:
    job, problems, graded = begun(folder, registry, {**texts, "job.yaml": text})
    assert problems
    assert len(graded.components) == len(job.components) > 1


@pytest.mark.parametrize(
    "text", ["", "format: 1\n", "a: [1\n", "components: none\n", "components: [none, {id: 1}]\n"]
)
def test_findings_that_say_nothing_are_no_parts(
    folder: Path, registry: Registry, texts: dict[str, str], text: str
) -> None:
    job, problems, _ = begun(folder, registry, {**texts, "findings.yaml": text})
    assert problems
    assert job.components == ()
