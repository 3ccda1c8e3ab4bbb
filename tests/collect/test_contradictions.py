"""What is left out is told as not stated, and what a folder both says and denies is asked about."""

from __future__ import annotations

from functools import cache
from pathlib import Path

import pytest

from reporter import pipeline
from reporter.model.job import Job
from reporter.outline.circumstances import particulars, write
from reporter.outline.context import context_of
from reporter.registry import Registry, find, load
from tests.outline.test_report import words_of

JOB = """\
format: 1
purpose: handover
report: {number: T-1}
vessel: {name: Invented%s}
people: [{role: author, name: A. Tester}]
inspection:
  dates: [2026-05-11]
  place: a berth
%s"""
FINDINGS = """\
format: 1
components:
  - id: shroud
    kind: standing_wire
    examined: part_seen
    observed: {looked: mast_down}
  - id: helm
    kind: wheel
    examined: part_seen
  - id: never-seen
    kind: wheel
    examined: {extent: not_seen, because: it is at home}
"""


@cache
def registry() -> Registry:
    return load(find())


def read(folder: Path, vessel: str = "", visit: str = "") -> Job:
    """A folder with these keys in job.yaml, and with a shroud looked at with the mast down."""
    (folder / "job.yaml").write_text(JOB % (vessel, visit), "utf-8")
    (folder / "findings.yaml").write_text(FINDINGS, "utf-8")
    return pipeline.collect(folder, registry())


def printed(job: Job) -> str:
    """Particulars and circumstances as a reader has them."""
    template = registry().template("handover")
    context = context_of(job, pipeline.grade(job, registry(), template), template, registry())
    blocks = (*particulars(context), *write(context))
    return "\n".join(text for block in blocks for text in words_of(block))


def test_what_is_left_out_is_told_as_not_stated(tmp_path: Path) -> None:
    job = read(tmp_path)
    text = printed(job)
    assert "not stated: afloat or ashore, mast up or down, rig tension and whether under way" in text
    for fact in ("mast up\n", "rig under tension", "not under way", "chain and wire"):
        assert fact not in text
    steering = text.split("Steering")[1]
    assert steering.lstrip().startswith("not stated")
    assert [each for each in job.remarks if "which is right" in each] == []


def test_what_is_stated_stays_and_the_rest_is_named(tmp_path: Path) -> None:
    text = printed(read(tmp_path, ", steering: tiller", "  conditions: {afloat: ashore, under_way: false}\n"))
    assert "ashore, not under way; not stated: mast up or down and rig tension" in text
    assert text.split("Steering")[1].lstrip().startswith("tiller\n"), "a tiller needs no other gear"
    text = printed(read(tmp_path, ", steering_gear: hydraulic"))
    assert "helm not stated, hydraulic" in text


def test_parts_of_the_commonest_gear_are_asked_for_where_none_is_stated(tmp_path: Path) -> None:
    """So leaving the key out makes no report milder."""
    said = read(tmp_path, ", steering: wheel, steering_gear: chain_and_wire").sheet.vessel
    assert read(tmp_path).sheet.vessel.gears == said.gears
    assert "chain_and_wire" not in read(tmp_path, ", steering: tiller").sheet.vessel.gears


@pytest.mark.parametrize(
    ("vessel", "visit", "asked"),
    [
        ("", "mast: up", "findings.yaml, line 3: 'shroud' was looked at with the mast down, but job.yaml says 'mast: up'"),
        ("", "mast: down", ""),
        ("", "mast: down, rig_tension: on", "job.yaml, line 9: The mast is down, and the rig under tension"),
        ("", "afloat: slings, under_way: true", "job.yaml, line 9: She was under way, and never afloat"),
        (", steering: tiller", "mast: down", "findings.yaml, line 7: 'helm' is there to be seen, but job.yaml says 'steering: tiller'"),
        (", steering: wheel", "mast: down", ""),
    ],
)  # fmt: skip
def test_contradictions_are_asked_about_once(vessel: str, visit: str, asked: str, tmp_path: Path) -> None:
    remarks = read(tmp_path, vessel, f"  conditions: {{{visit}}}\n").remarks
    assert [each for each in remarks if each.endswith("which is right?")] == (
        [f"{asked}: which is right?"] if asked else []
    )
