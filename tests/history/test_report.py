"""Two job folders through the whole program: the comparison, the sections, the photos, the two pages of a handover."""

from __future__ import annotations

import itertools
import json
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

from reporter import pipeline
from reporter.door import close
from reporter.errors import UsageError
from reporter.model.assessment import Assessments
from reporter.model.job import Job
from reporter.model.measure_bar import MeasureBar
from reporter.model.report import Figure, Heading, PhotoPair, Report
from reporter.model.template import Template
from reporter.outline import outline
from reporter.outputs.comparison import SCREEN
from tests.history.folders import findings, two_visits, write
from tests.outline.small import ROOT, registry
from tests.outline.test_report import whole
from tests.test_words import claims

DONE = """\
    done:
      - {what: pin renewed, by: a yard, date: 2026-10, remedy: refit, documents: [bill.pdf]}
    proved: [all]
"""
MORE = """\
earlier: [../outgoing]
incidents:
  - {date: 2026-06-03, what: a rope was caught by the rudder, component: chain}
inventory:
  - {what: spare chain link, count: two, where: chart table}
documents:
  - {file: bill.pdf, shows: invoice for the pin}
"""


@pytest.fixture(scope="module")
def folders(tmp_path_factory: pytest.TempPathFactory) -> Iterator[tuple[Path, Path]]:
    """Out and in again, with an incident, a repair, its receipt and an inventory."""
    root = tmp_path_factory.mktemp("visits")
    made = two_visits(root, findings_text=findings("chain", lubrication="dry", more=DONE), more=MORE)
    (made[1] / "documents").mkdir()
    (made[1] / "documents" / "bill.pdf").write_bytes(b"%PDF-1.4 a receipt")
    yield made
    close()


def graded(folder: Path, template: str, *more: str) -> tuple[Job, Assessments, Report]:
    """The report by a template, with sections that the template leaves out."""
    job, chosen = pipeline.collect(folder, registry()), registry().template(template)
    chosen = Template.model_validate({**chosen.model_dump(), "sections": (*chosen.sections, *more)})
    assessments = pipeline.grade(job, registry(), chosen)
    return job, assessments, outline(job, assessments, chosen, registry())


def test_compare_fits_a_screen_and_tells_what_differs(folders: tuple[Path, Path]) -> None:
    told = pipeline.compare(*folders, registry())
    text = "\n".join(told)
    assert len(told) <= SCREEN
    assert any(line.startswith("  Chain elongation, worse: ") for line in told), (
        "it grew, and its limit is one of at most"
    )
    assert len(pipeline.compare(*folders, registry(), everything=True)) > len(told)
    assert max(map(len, told)) <= 80
    assert "Steering chain (clear → watch)" in text or "Steering chain (clear → first)" in text
    assert "0.20 ± 0.06 % → 0.69 ± 0.06 %, +0.49 %" in " ".join(text.split())
    assert "As in the earlier record: Emergency tiller" in text
    assert "H-2025-1/1 · open" in text
    assert claims(text) == []


def test_much_that_differs_still_fits_a_screen() -> None:
    """The demo has more of everything than a screen holds; whole it runs over several."""
    demo = ROOT / "demo_job"
    told = pipeline.compare(demo / "outgoing", demo, registry())
    assert SCREEN - 4 < len(told) <= SCREEN
    assert told[-1].endswith("More: “gudgeon compare --all”.")
    assert len(pipeline.compare(demo / "outgoing", demo, registry(), everything=True)) > 2 * SCREEN
    assert "13 of 16 parts differ" in " ".join(told)
    assert not [line for line in told if line.endswith("…")], "nothing is cut off"
    assert "  Wheel brake (clear → plan): Shoes or lining are worn thin." in told


def test_compare_wants_the_earlier_folder_first(folders: tuple[Path, Path]) -> None:
    with pytest.raises(UsageError, match="lies after"):
        pipeline.compare(folders[1], folders[0], registry())


def test_the_handover_tells_it_all(folders: tuple[Path, Path]) -> None:
    _, _, report = graded(folders[1], "handover")
    text = whole(report)
    for said in (
        "1 of 2 parts differ from the earlier record", "a rope was caught by the rudder", "pin renewed", "bill.pdf", "invoice for the pin",
        "spare chain link", "Skipper handing over", "Skipper taking over", "no question of liability", "3\u00a0May\u00a02025",
    ):  # fmt: skip
        assert said in text, said
    assert not re.search(r"damage[sd]? (on|during) (the )?passage", text)
    assert claims(text) == []
    assert "Deviation on four headings" in text


def test_earlier_readings_stand_as_dots_on_todays_bar(folders: tuple[Path, Path]) -> None:
    _, _, report = graded(folders[1], "handover", "components")
    bars = [block for block in report.blocks if isinstance(block, MeasureBar)]
    assert [[dot.label for dot in bar.earlier] for bar in bars][:1] == [["3\u00a0May\u00a02025"]]


def test_photos_of_both_visits_stand_side_by_side(folders: tuple[Path, Path]) -> None:
    _, _, report = graded(folders[1], "handover", "photo_register")
    pairs = [block for block in report.blocks if isinstance(block, PhotoPair)]
    assert [(pair.left.file, pair.right.file) for pair in pairs][:1] == [
        ("../outgoing/photos/chain_dry.jpg", "photos/chain_dry.jpg")
    ]
    assert pairs[0].left.plate != pairs[0].right.plate
    assert "H-2025-1: chain_dry.jpg" in whole(report), "the photo register lists it"


def plots(report: Report) -> list[Figure]:
    return [block for block in report.blocks if isinstance(block, Figure) and "Plot of" in block.drawing.alt]


def test_the_plot_says_in_words_what_it_shows(folders: tuple[Path, Path]) -> None:
    _, _, report = graded(folders[1], "insurance")
    found = plots(report)
    assert len(found) == 2
    assert "3\u00a0May\u00a02025: 0.20" in found[0].drawing.alt
    assert "10 to 90\u00a0%" in found[0].drawing.alt
    for shape in found[0].drawing.shapes:
        for x, y in getattr(shape, "points", ()):
            assert 0 <= x <= found[0].drawing.width
            assert 0 <= y <= found[0].drawing.height


def test_a_purchase_holds_no_forecast(tmp_path: Path) -> None:
    two_visits(tmp_path, purpose="pre_purchase")
    _, assessments, report = graded(tmp_path / "incoming", "pre_purchase")
    assert assessments.history.forecasts == ()
    assert plots(report) == []
    assert "a year. At that rate" not in whole(report)
    attached = next(each for each in report.attachments if each.name == "assessments.json")
    data = json.loads(attached.content)
    assert data["history"]["forecasts"] == []
    assert (data["history"]["changes"], data["schedule"]) == ([], []), (
        "what it does not print it does not attach"
    )


@pytest.mark.parametrize(
    ("more", "state"),
    [
        ("", "not asked for again; no work on record"),
        ("    done: [{what: clip turned, by: A. Hand, date: 2026-01, settles: [chain.joint]}]\n", "done January\u00a02026, A. Hand, clip turned"),
        ("    actions: [{id: chain.joint, decline: yes, reason: it lies as the maker wants it}]\n", "declined: it lies as the maker wants it"),
    ],
)  # fmt: skip
def test_the_completion_page_tells_what_became_of_a_recommendation(
    more: str, state: str, tmp_path: Path
) -> None:
    outgoing, _ = two_visits(tmp_path, findings_text=findings("chain", more=more))
    text = (outgoing / "findings.yaml").read_text("utf-8")
    (outgoing / "findings.yaml").write_text(text.replace("joint: locked", "joint: clip_reversed"), "utf-8")
    _, _, report = graded(tmp_path / "incoming", "insurance")
    assert f"H-2025-1/1\nSteering chain\nRefit the joint with a new clip or split pin\n{state}" in whole(
        report
    )


def test_what_is_open_says_in_which_report_it_was_first_made(tmp_path: Path) -> None:
    outgoing, incoming = two_visits(tmp_path)
    for folder in (outgoing, incoming):
        text = (folder / "findings.yaml").read_text("utf-8")
        (folder / "findings.yaml").write_text(text.replace("joint: locked", "joint: clip_reversed"), "utf-8")
    _, _, report = graded(incoming, "insurance")
    assert "(first made as H-2025-1/1)" in whole(report)
    assert "open, now no.\u00a01" in whole(report)


def test_permuted_folders_give_the_same_report(tmp_path: Path) -> None:
    root = tmp_path
    for place, day in enumerate(("2024-05-01", "2025-05-01")):
        write(
            root / f"past{place}",
            number=f"P-{place}",
            day=day,
            findings_text=findings("chain"),
            top=508.6 + place,
        )
    reports: list[Report] = []
    for order in itertools.permutations(("../past0", "../past1")):
        folder = root / f"now{len(reports)}"
        write(
            folder,
            number="N",
            day="2026-05-01",
            findings_text=findings("chain"),
            top=511.0,
            more=f"earlier: [{', '.join(order)}]\n",
        )
        reports.append(graded(folder, "insurance")[2])
    without = [report.model_dump(exclude={"attachments"}) for report in reports]
    assert without[0] == without[1]


def test_was_follows_a_part_that_was_named_otherwise(tmp_path: Path) -> None:
    two_visits(tmp_path, findings_text=findings("loop", lubrication="dry", was="chain"), chain="loop")
    _, assessments, _ = graded(tmp_path / "incoming", "insurance")
    change = next(each for each in assessments.history.changes if each.component == "loop")
    assert (change.was, change.changed.value) == ("chain", "worse")
    assert {len(run.points) for run in assessments.history.runs if run.wears} == {2}


def test_grades_issued_then_come_from_the_report_that_was_taken_apart(
    folders: tuple[Path, Path], tmp_path: Path
) -> None:
    """An earlier folder may be what `extract` took out of a report: no photos, but the grades that were issued."""
    outgoing, _ = two_visits(tmp_path)
    _, _, report = graded(folders[0], "handover")
    for each in outgoing.rglob("*"):
        if each.is_file():
            each.unlink()
    (outgoing / "photos").rmdir()
    for attached in report.attachments:
        (outgoing / attached.name).write_bytes(attached.content)
    told = json.loads((outgoing / "assessments.json").read_text("utf-8"))
    for row in told["components"]:
        row["grade"] = "plan" if row["id"] == "chain" else row["grade"]
    (outgoing / "assessments.json").write_text(json.dumps(told), "utf-8")
    _, assessments, again = graded(tmp_path / "incoming", "handover")
    change = next(each for each in assessments.history.changes if each.component == "chain")
    assert (change.before, change.issued) == ("clear", "plan")
    assert "issued as plan" in whole(again)
    (outgoing / "assessments.json").write_text("[1", "utf-8")
    job, assessments, _ = graded(tmp_path / "incoming", "handover")
    assert assessments.history.changes[0].issued is None
    assert any("assessments.json: passed over" in remark for remark in job.remarks)


def test_the_handover_section_takes_two_pages(folders: tuple[Path, Path], tmp_path: Path) -> None:
    """From "What changed" to both signatures: two pages of the printed report, photos of both folders in it."""
    target = tmp_path / "in.pdf"
    pipeline.report(folders[1], target, registry(), registry().template("handover"), tell=lambda _step: None)
    import pypdfium2

    pages = [page.get_textpage().get_text_bounded() for page in pypdfium2.PdfDocument(target)]
    start = next(
        place
        for place, text in enumerate(pages)
        if "What changed since the earlier record" in text and place > 0
    )
    end = next(place for place, text in enumerate(pages) if "Skipper taking over" in text and place >= start)
    assert end - start <= 1


def test_a_first_visit_tells_no_history(tmp_path: Path) -> None:
    folder = write(tmp_path / "only", number="O", day="2026-05-01", findings_text=findings("chain"))
    _, assessments, report = graded(folder, "insurance")
    assert assessments.history.changes == ()
    assert [each.refused for each in assessments.history.forecasts]
    assert not [block for block in report.blocks if isinstance(block, Heading) and "changed" in block.text]
