"""`--keep-going` past photos that cannot be shown: a plate for each, each named, and the exit code that stays."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from reporter import pipeline
from reporter.errors import ExitCode, JobError
from reporter.registry import find, load
from tests.test_cli import run

from .scenes import scene

LOST = ["photos/cut.jpg", "photos/noise.jpg"]
JOB = """\
format: 1
purpose: pre_purchase
report: {number: "1"}
vessel: {name: Marram}
people: [{role: author, name: Rowan Teale}]
inspection: {dates: [2026-05-12], place: at the quay, time_zone: UTC}
"""
FINDINGS = """\
format: 1
components:
  - id: wheel
    kind: wheel
    examined: seen
    photos: [good.jpg, cut.jpg, noise.jpg]
    judgement: {grade: first, reason: the nut has no lock}
"""


@pytest.fixture(scope="module")
def job(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder with a good photo, one whose end is missing and one with no header."""
    folder = tmp_path_factory.mktemp("lost") / "job"
    (folder / "photos").mkdir(parents=True)
    good = folder / "photos/good.jpg"
    scene(300, 200).save(good, quality=95)
    (folder / "photos/cut.jpg").write_bytes(good.read_bytes()[:2000])
    (folder / "photos/noise.jpg").write_bytes(b"\xff\xd8" + bytes(range(256)))
    (folder / "job.yaml").write_text(JOB, "utf-8")
    (folder / "findings.yaml").write_text(FINDINGS, "utf-8")
    return folder


def test_a_photo_without_a_header_is_borne_and_told(job: Path) -> None:
    registry: Any = load(find())
    with pytest.raises(JobError, match="noise"):
        pipeline.collect(job, registry)
    read = pipeline.collect(job, registry, keep_going=True)
    assert any("'noise.jpg' cannot be shown" in each for each in read.remarks)
    assert [each.file for each in pipeline.not_shown(job, read, decode=False)] == LOST[1:]
    lost = pipeline.not_shown(job, read, decode=True)
    assert [each.file for each in lost] == LOST
    told = str(pipeline.photos_lost(lost, read, registry))
    assert told.startswith("2 photos cannot be shown; where the report would show them stand grey plates:\n")


def test_a_photo_that_is_not_there_is_never_borne(job: Path) -> None:
    named = {"findings.yaml": FINDINGS.replace("good", "gone")}
    from reporter.collect import collect
    from reporter.door import read_photos

    with pytest.raises(JobError, match="not in the photos folder"):
        collect(job, load(find()), photos=read_photos, texts=named, keep_going=True)


def test_a_plate_says_why_in_the_language_of_the_report(job: Path, tmp_path: Path) -> None:
    target, told = tmp_path / "made.html", list[JobError]()
    pipeline.report(job, target, load(find()), lang="de", miss=told.append, tell=list[str]().append)
    page = target.read_text("utf-8")
    assert "ihr Ende fehlt" in page
    assert "the end of it" not in page
    assert "ihr Ende fehlt" in str(told[-1])


@pytest.mark.slow
@pytest.mark.parametrize("target", ["made.pdf", "made.html"])
def test_the_report_is_written_and_the_exit_code_stays(job: Path, tmp_path: Path, target: str) -> None:
    refused = run("report", job, "-o", target, cwd=tmp_path)
    assert (refused.returncode, (tmp_path / target).exists()) == (ExitCode.JOB_INVALID, False)
    kept = run("report", job, "-o", target, "--keep-going", cwd=tmp_path)
    assert (kept.returncode, (tmp_path / target).exists()) == (ExitCode.JOB_INVALID, True)
    assert [name for name in LOST if name in kept.stderr] == LOST
    assert "good.jpg" not in kept.stderr
    plainly = run("check", job, "--photos", cwd=tmp_path)
    assert plainly.returncode == ExitCode.JOB_INVALID
    assert "findings.yaml, line 6" in plainly.stderr, "the place where the broken photo is named"
    assert ("photos/cut.jpg" in plainly.stderr, "photos/noise.jpg" in plainly.stderr) == (True, False)
    checked = run("check", job, "--photos", "--keep-going", cwd=tmp_path)
    assert (checked.returncode, [name for name in LOST if name in checked.stderr]) == (3, LOST)
