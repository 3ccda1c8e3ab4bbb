"""A filled sheet taken back: what is new is added, what differs is told, what cannot be read is named; nothing else changes."""

from __future__ import annotations

import shutil
import subprocess
from dataclasses import replace
from pathlib import Path

import pytest
import yaml

from reporter import pipeline, visiting
from reporter.archive import read_form
from reporter.begin import Answers, begin
from reporter.errors import CannotWriteError, UsageError, VerificationError
from reporter.taking import SheetTaken
from tests.sheet.answers import answers
from tests.sheet.making import REGISTRY, ROOT, fill_with_pdfium, fill_with_pikepdf, fill_with_pypdf, sheet_of

pytestmark = pytest.mark.slow

DEMO = ROOT / "demo_job"
JOB = """\
# a person's own notes stay
format: 1
purpose: insurance
report: {number: "7"}
vessel: {name: Sanderling, rig: sloop}
people: [{role: author, name: Rowan Teale, capacity: owner}]
inspection: {dates: [2026-05-12], place: Skerrow Haven}
instruments: [{id: rule, kind: steel rule}, {id: caliper, kind: vernier caliper}]
"""
FINDINGS = """\
format: 1
components:
  # the chain, before anything else
  - id: chain
    kind: chain      # as the schema calls it
    name: Chain
    examined: {extent: part_seen, how: [eye], because: dark below}
    observed:
      corrosion: {choice: surface, at: port run}   # by the joint
      cracks: none
  - id: brake
    kind: wheel_brake
    examined: {extent: not_seen, because: boxed in}
"""
ROWS = "component,quantity,at,state,side,value,unit,uncertainty,instrument,note\nchain,span,port run,found,,254.5,mm,,rule,cold\n"
PRINTED: dict[tuple[str, ...], bytes] = {}
"""Sheets made so far by what their folder said: the same folder gives the same bytes."""


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A small job folder."""
    made = tmp_path / "job"
    (made / "photos").mkdir(parents=True)
    shutil.copy(DEMO / "photos/brake.jpg", made / "photos/IMG_0412.jpg")
    (made / "job.yaml").write_text(JOB)
    (made / "findings.yaml").write_text(FINDINGS)
    (made / "measurements.csv").write_text(ROWS)
    return made


def filled(folder: Path, **values: str) -> Path:
    """The folder's full sheet with these fields filled in."""
    target = folder.parent / "sheet.pdf"
    state = (*texts(folder), (folder / "job.yaml").read_text())
    if state not in PRINTED:
        PRINTED[state] = sheet_of(folder, target, everything=True).read_bytes()
    target.write_bytes(PRINTED[state])
    return fill_with_pikepdf(target, folder.parent / "filled.pdf", values)


def taken_of(folder: Path, values: dict[str, str], *, replace: bool = False) -> SheetTaken:
    return visiting.take(folder, filled(folder, **values), REGISTRY, replace=replace)


def texts(folder: Path) -> tuple[str, str]:
    return (folder / "findings.yaml").read_text(), (folder / "measurements.csv").read_text()


def test_a_sheet_that_nobody_filled_in_changes_nothing(folder: Path) -> None:
    taken = taken_of(folder, {})
    assert (taken.edits, taken.notices) == ([], [])
    assert texts(folder) == (FINDINGS, ROWS)


def test_what_is_new_is_added_and_every_other_byte_stays(folder: Path) -> None:
    taken = taken_of(
        folder,
        {
            "chain/observed/stiff_links/1/stiff": "on",
            "chain/examined/how/gauge": "on",
            "chain/details/size": "08b_1",
            "chain/details/size/basis": "stamped",
            "chain/readings/span/@port run/-/2": "255",
            "chain/readings/span/+1/at": "near the sprocket",
            "chain/readings/span/+1/-/1": "10 1/16 in",
            "chain/readings/links_left/-/port/1": "4",
            "chain/photos": "412",
        },
    )
    assert [each.kind for each in taken.notices] == ["added"] * 8
    findings, rows = texts(folder)
    assert findings == (
        FINDINGS.replace("how: [eye]", "how: [eye, gauge]").replace(
            "      cracks: none\n",
            "      cracks: none\n      stiff_links: stiff\n    photos:\n      - file: IMG_0412.jpg\n    details:\n"
            "      size: {value: 08b_1, basis: stamped}\n",
        )
    )
    assert rows == (
        ROWS
        + "chain,span,port run,,,255,mm,,rule,\nchain,span,near the sprocket,,,10 1/16 in,,,rule,\nchain,links_left,,,port,4,links,,,\n"
    )
    pipeline.collect(folder, REGISTRY)


def test_what_differs_is_told_and_left_alone_without_replace(folder: Path) -> None:
    values = {
        "chain/observed/corrosion/1/surface": "",
        "chain/observed/corrosion/1/pitted": "on",
        "chain/readings/span/@port run/-/1": "256",
        "chain/name": "Main chain",
        "chain/examined/how/eye": "",
    }
    taken = taken_of(folder, values)
    assert {each.kind for each in taken.notices} == {"differs"}
    assert "the folder says surface (port run), the sheet pitted (port run)" in "\n".join(taken.lines())
    assert "the folder says 254.5 mm, the sheet 256 mm" in "\n".join(taken.lines())
    assert len(taken.notices) == 4
    assert texts(folder) == (FINDINGS, ROWS)
    replaced = visiting.take(folder, folder.parent / "filled.pdf", REGISTRY, replace=True)
    assert {each.kind for each in replaced.notices} == {"replaced"}
    findings, rows = texts(folder)
    assert "corrosion: {choice: pitted, at: port run}   # by the joint" in findings
    assert "name: Main chain" in findings
    assert "how" not in findings
    assert rows == ROWS.replace("254.5", "256")


def test_taking_a_sheet_twice_adds_nothing_the_second_time(folder: Path) -> None:
    values = {
        "chain/observed/joint/1/locked": "on",
        "chain/readings/span/@starboard run/-/1": "254 ± 0.5",
        "chain/found": "dry",
    }
    assert len(taken_of(folder, values).notices) == 3
    before = texts(folder)
    again = visiting.take(folder, folder.parent / "filled.pdf", REGISTRY)
    assert (again.edits, again.notices) == ([], [])
    assert texts(folder) == before


@pytest.mark.parametrize("before", ["", "25o4"])
def test_cells_with_gaps_between_them_are_no_new_readings_the_second_time(folder: Path, before: str) -> None:
    """A cell that was left empty, or cannot be read, has no row: the next one stands for the row that it made itself."""
    cell = "chain/readings/span/@starboard run/-/"
    sheet = filled(folder, **{f"{cell}1": before, f"{cell}2": "255", f"{cell}3": "256"})
    assert len(visiting.take(folder, sheet, REGISTRY).of("added")) == 2
    once = texts(folder)
    assert (
        once[1]
        == ROWS + "chain,span,starboard run,,,255,mm,,rule,\nchain,span,starboard run,,,256,mm,,rule,\n"
    )
    assert visiting.take(folder, sheet, REGISTRY, replace=True).edits == []
    assert texts(folder) == once


def test_a_cleared_cell_takes_no_other_reading_away_the_second_time(folder: Path) -> None:
    """The row behind it moves up to its number."""
    second = "chain,span,port run,found,,255.5,mm,,rule,\n"
    (folder / "measurements.csv").write_text(ROWS + second)
    sheet = filled(folder, **{"chain/readings/span/@port run/-/1": ""})
    assert len(visiting.take(folder, sheet, REGISTRY, replace=True).of("replaced")) == 1
    once = texts(folder)
    assert once[1] == ROWS.splitlines(keepends=True)[0] + second
    assert visiting.take(folder, sheet, REGISTRY, replace=True).edits == []
    assert texts(folder) == once


def test_what_the_folder_has_learnt_since_is_not_taken_back(folder: Path) -> None:
    """A field that stands as printed says nothing, whatever the folder says by now."""
    sheet = filled(folder, **{"chain/found": "dry"})
    learnt = FINDINGS.replace("cracks: none", "cracks: bent")
    (folder / "findings.yaml").write_text(learnt)
    taken = visiting.take(folder, sheet, REGISTRY, replace=True)
    assert [each.kind for each in taken.notices] == ["added"]
    assert "cracks: bent" in texts(folder)[0]


UNREADABLE = {
    "chain/readings/span/@port run/-/2": ("25o4", "25o4"),
    "chain/readings/span/@port run/-/3": ("25450", "is the decimal point right?"),
    "chain/readings/span/with": ("micrometer", "none of the possible answers"),
    "chain/details/size": ("ansi", "none of the possible answers"),
    "chain/details/pitch/basis": ("seen", "not what"),
    "chain/details/installed": ("long " * 200, "999 characters"),
    "chain/photos": ("777", "no one photo"),
    "chain/observed/travel/1/at": ("port", "no box is ticked"),
    "chain/examined/extent/seen": ("on", "More than one box"),
}


def test_what_cannot_be_read_is_named_with_page_and_field(folder: Path) -> None:
    taken = taken_of(folder, {name: value for name, (value, _) in UNREADABLE.items()})
    fields = {each.name: each for each in read_form(folder.parent / "filled.pdf").fields}
    told = {(each.page, each.label): each.text for each in taken.of("unreadable")}
    for name, (_, text) in UNREADABLE.items():
        assert text in told[fields[name].page, fields[name].label], name
    assert len(taken.notices) == len(UNREADABLE)
    assert all(each.do for each in taken.notices)
    assert texts(folder) == (FINDINGS, ROWS)


def test_what_was_not_seen_gets_no_findings(folder: Path) -> None:
    taken = taken_of(folder, {"brake/observed/holds/1/holds": "on"})
    assert [each.kind for each in taken.notices] == ["unreadable"]
    values = {
        "brake/observed/holds/1/holds": "on", "brake/examined/extent/not_seen": "",
        "brake/examined/extent/seen": "on", "brake/examined/because": "",
    }  # fmt: skip
    taken_of(folder, values, replace=True)
    part = next(each for each in pipeline.collect(folder, REGISTRY).components if each.id == "brake")
    assert (part.examined.extent, part.observed["holds"][0].choice) == ("seen", "holds")


def test_not_seen_needs_its_reason(folder: Path) -> None:
    named = "terminal/examined/extent/not_seen"
    assert [each.kind for each in taken_of(folder, {named: "on"}).notices] == ["unreadable"]
    taken_of(folder, {named: "on", "terminal/examined/because": "mast not climbed"})
    part = next(each for each in pipeline.collect(folder, REGISTRY).components if each.id == "terminal")
    assert part.examined.because == "mast not climbed"


def test_a_part_that_the_purpose_expects_is_added_whole(folder: Path) -> None:
    names = {each.name for each in read_form(filled(folder)).fields}
    seen = next(name for name in sorted(names) if name.startswith("mast/observed/") and name.count("/") == 4)
    values = {"mast/examined/extent/seen": "on", seen: "on"}
    taken_of(folder, values)
    part = next(each for each in pipeline.collect(folder, REGISTRY).components if each.id == "mast")
    assert (part.kind, part.examined.extent) == ("mast", "seen")
    assert texts(folder)[0].startswith(FINDINGS)


def test_without_a_box_for_how_much_it_counts_as_part_seen(folder: Path) -> None:
    names = {each.name for each in read_form(filled(folder)).fields}
    seen = next(
        name for name in sorted(names) if name.startswith("terminal/observed/") and name.count("/") == 4
    )
    taken = taken_of(folder, {seen: "on"})
    assert any("part seen" in line for line in taken.remarks)
    part = next(each for each in pipeline.collect(folder, REGISTRY).components if each.id == "terminal")
    assert part.examined.extent == "part_seen"


def test_a_sheet_fills_a_folder_that_has_just_been_begun(tmp_path: Path) -> None:
    folder = tmp_path / "begun"
    answers = Answers(boat="Marram", author="R", place="P")
    begin(folder, DEMO / "photos", answers, [REGISTRY], REGISTRY.template(answers.purpose))
    sheet = sheet_of(folder, tmp_path / "sheet.pdf")
    told = {
        "wheel/examined/extent/seen": "on",
        "wheel/observed/play/1/taut": "on",
        "wheel/readings/turns/-/-/1": "2.5",
    }
    told["wheel/photos"] = "wheel_hub, brake.jpg"
    taken = visiting.take(folder, fill_with_pikepdf(sheet, tmp_path / "filled.pdf", told), REGISTRY)
    assert [each.kind for each in taken.notices] == ["added"] * 5
    job = pipeline.collect(folder, REGISTRY)
    (part,) = job.components
    assert (part.id, part.kind, part.observed["play"][0].choice) == ("wheel", "wheel", "taut")
    assert [use.file for use in part.photos] == ["photos/wheel_hub.jpg", "photos/brake.jpg"]
    assert [each.value.value for each in job.readings] == [2.5]


def test_a_sheet_of_another_boat_is_refused(folder: Path) -> None:
    sheet = filled(folder)
    (folder / "job.yaml").write_text(JOB.replace("Sanderling", "Dunlin"))
    with pytest.raises(UsageError, match="belongs to Sanderling"):
        visiting.take(folder, sheet, REGISTRY)
    (folder / "job.yaml").write_text(JOB.replace('"7"', '"8"'))
    assert "report 7" in visiting.take(folder, sheet, REGISTRY).remarks[0]


def test_a_kind_that_asks_otherwise_by_now_is_told(folder: Path) -> None:
    """What is still asked is taken; what is not is named."""
    sheet = filled(folder, **{"chain/observed/joint/1/locked": "on", "chain/observed/teeth/1/even": "on"})
    chain = REGISTRY.plugin("chain")
    rounds = tuple(
        each.model_copy(update={"holds": tuple(ident for ident in each.holds if ident != "teeth")})
        for each in chain.together
    )
    seen = tuple(each for each in chain.observations if each.id != "teeth")
    changed = chain.model_copy(update={"observations": seen, "together": rounds})
    registry = replace(REGISTRY, plugins={**REGISTRY.plugins, "chain": changed})
    taken = visiting.take(folder, sheet, registry)
    assert sorted(each.kind for each in taken.notices) == ["added", "unreadable"]
    assert "its questions have changed" in taken.remarks[0]


def test_the_last_visits_parts_are_on_the_sheet_and_keep_what_they_are_called(folder: Path) -> None:
    """A part of the earlier folder that this one does not list: printed, and added under its id when it is filled in."""
    earlier = folder / "before"
    earlier.mkdir()
    (earlier / "job.yaml").write_text(JOB.replace("2026", "2024"))
    (earlier / "findings.yaml").write_text(
        "format: 1\ncomponents:\n  - {id: boom-1, kind: boom, name: Boom, side: port, examined: seen, observed: {gooseneck: firm}}\n"
    )
    (folder / "job.yaml").write_text(JOB + "earlier: [before]\n")
    sheet = filled(folder, **{"boom-1/examined/extent/seen": "on", "boom-1/examined/how/hand": "on"})
    assert len(visiting.take(folder, sheet, REGISTRY).of("added")) == 2
    part = next(each for each in pipeline.collect(folder, REGISTRY).components if each.id == "boom-1")
    assert (part.kind, part.name, part.side, part.observed) == ("boom", "Boom", "port", {})


def test_the_command_tells_and_exits_by_what_it_could_not_read(folder: Path) -> None:
    def run(values: dict[str, str]) -> subprocess.CompletedProcess[str]:
        command = [
            str(each) for each in (ROOT / ".venv/bin/gudgeon", "take", folder, filled(folder, **values))
        ]
        return subprocess.run(command, capture_output=True, text=True, check=False)

    good = run({"chain/readings/span/@port run/-/2": "255"})
    assert (good.returncode, good.stdout.splitlines()[-1]) == (
        0,
        "1 added, 0 replaced, 0 differ, 0 not taken.",
    )
    bad = run({"chain/readings/span/@port run/-/3": "25o"})
    assert bad.returncode == 3
    assert bad.stdout.startswith("not taken, page ")


def test_a_report_is_no_sheet(folder: Path, tmp_path: Path) -> None:
    pipeline.work(DEMO, tmp_path / "work.pdf", REGISTRY, tell=lambda _: None)
    with pytest.raises(VerificationError, match="does not say which job"):
        visiting.take(folder, tmp_path / "work.pdf", REGISTRY)


def test_cleared_rows_go_from_the_end_when_replacing(folder: Path) -> None:
    rows = ROWS + "chain,span,port run,found,,255,mm,,rule,\nchain,span,port run,found,,256,mm,,rule,\n"
    (folder / "measurements.csv").write_text(rows)
    cleared = {f"chain/readings/span/@port run/-/{number}": "" for number in (2, 3)}
    assert len(taken_of(folder, cleared).of("differs")) == 2
    visiting.take(folder, folder.parent / "filled.pdf", REGISTRY, replace=True)
    assert texts(folder)[1] == ROWS


def bare(folder: Path) -> None:
    """Leaves of a folder which parts there are, and nothing that was found on them."""
    kept = ("id", "kind", "part_of")
    data = yaml.safe_load((folder / "findings.yaml").read_text("utf-8"))
    parts = [
        {key: each[key] for key in kept if key in each} | {"examined": "part_seen"}
        for each in data["components"]
    ]
    told = {
        "format": 1,
        "components": parts,
        **{key: each for key, each in data.items() if key not in {"format", "components"}},
    }
    (folder / "findings.yaml").write_text(yaml.safe_dump(told, sort_keys=False), "utf-8")
    (folder / "measurements.csv").write_text(ROWS.splitlines()[0] + "\n")


def test_a_filled_sheet_of_the_demo_gives_the_demos_grades(tmp_path: Path) -> None:
    """An empty sheet, filled in with what the demo says, taken into a folder that knows its parts alone."""
    folder = shutil.copytree(DEMO, tmp_path / "job")
    job = pipeline.collect(DEMO, REGISTRY)
    bare(folder)
    sheet = sheet_of(folder, tmp_path / "sheet.pdf", everything=True, empty=True)
    told = answers(job, {each.name for each in read_form(sheet).fields})
    taken = visiting.take(
        folder, fill_with_pikepdf(sheet, tmp_path / "filled.pdf", told), REGISTRY, replace=True
    )
    assert taken.of("unreadable") == []
    template = REGISTRY.template(job.sheet.purpose)
    again = pipeline.grade(pipeline.collect(folder, REGISTRY), REGISTRY, template)
    wanted = pipeline.grade(job, REGISTRY, template)
    assert [(each.component.id, each.grade, each.score) for each in again.components] == [
        (each.component.id, each.grade, each.score) for each in wanted.components
    ]


def test_a_filled_sheet_is_never_printed_over(folder: Path, tmp_path: Path) -> None:
    """Whatever program filled it in: one writes the file anew, another adds to it."""
    sheet = sheet_of(folder, tmp_path / "sheet.pdf")
    assert sheet_of(folder, sheet) == sheet
    name = next(field.name for field in read_form(sheet).fields if "/readings/" in field.name)
    for fill in (fill_with_pikepdf, fill_with_pypdf, fill_with_pdfium):
        target = fill(sheet, tmp_path / f"{fill.__name__}.pdf", {name: "12.5"})
        before = target.read_bytes()
        with pytest.raises(CannotWriteError):
            sheet_of(folder, target)
        assert target.read_bytes() == before
