"""A part that was seen whole and told too little of is not judged; "not seen" is said only of what was not seen."""

from __future__ import annotations

from pathlib import Path

import pytest

from reporter import pipeline
from reporter.model.assessment import Graded
from reporter.outline import outline
from reporter.outputs.grades import summary
from reporter.registry import find, load
from tests.outline.test_report import words_of

JOB = """\
format: 1
purpose: pre_purchase
report: {number: T-1}
vessel: {name: Invented, steering: wheel}
people: [{role: author, name: A. Tester}]
inspection: {dates: [2026-05-11], place: a berth}
"""
FINDINGS = """\
format: 1
components:
  - id: chain
    kind: chain
    examined: {extent: EXTENT, included: [all_links, sprocket, joints]}
    observed: {corrosion: none, stiff_links: none, cracks: none, lubrication: oiled, teeth: even, joint: locked, travel: clear}
"""  # fmt: skip


@pytest.mark.parametrize(
    ("extent", "word", "because"),
    [
        ("seen", "not judged", "Seen, but this was neither told nor measured, so it could not be judged."),
        ("part_seen", "not seen", "Part of it."),
    ],
)
def test_check_and_report_say_which_it_was(extent: str, word: str, because: str, tmp_path: Path) -> None:
    """The chain's elongation was not measured: that is all that is missing of one seen whole."""
    (tmp_path / "job.yaml").write_text(JOB, "utf-8")
    (tmp_path / "findings.yaml").write_text(FINDINGS.replace("EXTENT", extent), "utf-8")
    registry = load(find())
    job, template = pipeline.collect(tmp_path, registry), registry.template("pre_purchase")
    graded = pipeline.grade(job, registry, template)
    assert graded.components[0].unjudged is (extent == "seen")
    told = " ".join(" ".join(summary(job, graded, template, registry)).split())
    assert because in told
    assert f"Steering gear: {word}, 1 of 11" in told
    texts = [text for block in outline(job, graded, template, registry).blocks for text in words_of(block)]
    printed = "\n".join(texts)
    assert (f"{because[0].lower()}{because[1:]}" in printed) is (extent == "seen")
    assert ("Seen, but not judged for want of a detail or a reading" in printed) is (extent == "seen")
    assert f"not scored: Steering chain and sprocket {'not judged' if extent == 'seen' else 'not fully'}" in (
        printed
    )
    hidden: list[dict[str, object]] = [
        {"not_included": ("a link",)},
        {"failed": "its plugin failed"},
        {"missing": tuple(each.model_copy(update={"id": "teeth"}) for each in graded.components[0].missing)},
        {"missing": tuple(each.model_copy(update={"id": "close_up"}) for each in graded.components[0].missing)},
    ]  # fmt: skip
    part: Graded = graded.components[0]
    assert [part.model_copy(update=each).unjudged for each in hidden] == [False] * 4


def test_what_the_inspector_judged_by_is_told_where_the_rules_saw_too_little(tmp_path: Path) -> None:
    (tmp_path / "job.yaml").write_text(JOB, "utf-8")
    judged = "    judgement: {grade: stop, reason: It moved under my hand}\n"
    (tmp_path / "findings.yaml").write_text(FINDINGS.replace("EXTENT", "part_seen") + judged, "utf-8")
    registry = load(find())
    job, template = pipeline.collect(tmp_path, registry), registry.template("pre_purchase")
    told = summary(job, pipeline.grade(job, registry, template), template, registry)
    place = told.index("Stop: not to be used until put right.")
    assert told[place + 1] == "  Steering chain and sprocket: It moved under my hand."


@pytest.mark.parametrize(
    ("extent", "because"),
    [("seen", "Seen, but it is not told"), ("part_seen", "Not all of the part could be")],
)
def test_it_is_said_that_something_could_not_be_seen_only_by_who_said_so(
    extent: str, because: str, tmp_path: Path
) -> None:
    (tmp_path / "job.yaml").write_text(JOB, "utf-8")
    sheet = FINDINGS.replace("EXTENT", extent).replace(", joints]", "]")
    (tmp_path / "findings.yaml").write_text(sheet, "utf-8")
    registry = load(find())
    job, template = pipeline.collect(tmp_path, registry), registry.template("pre_purchase")
    told = " ".join(
        " ".join(summary(job, pipeline.grade(job, registry, template), template, registry)).split()
    )
    assert because in told
    assert ("could be seen" in told) is (extent == "part_seen")
