"""From a heap of photos to a job folder that can be read."""

# ruff: noqa: DTZ001 - the times of cameras have no zone

from __future__ import annotations

import datetime as dt
import hashlib
import re
from dataclasses import replace
from pathlib import Path

import pytest
import yaml
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import Image

from reporter import pipeline
from reporter.begin import Answers, begin
from reporter.begin.beginning import Begun
from reporter.begin.job_sheet import days_of, job_text, scalar
from reporter.collect.ledger import Ledger
from reporter.collect.photo_files import read_photo_files
from reporter.collect.text_file import Place
from reporter.door import group_by_gaps, read_photos
from reporter.errors import CannotWriteError, JobError, UsageError
from reporter.model.photo import PICTURES, OffsetBasis, PhotoFile, Taken
from reporter.outline import outline
from reporter.outputs.grades import summary
from reporter.registry import find, load
from tests.photos.scenes import scene

REGISTRY = load(find())
KNOWN = Answers(boat="Marram", author="R. Teale: surveyor", place="berth C14", steering="chain_and_wire")
DAY = dt.datetime(2026, 5, 12)


def _photo(name: str, minute: float | None) -> PhotoFile:
    time = None if minute is None else DAY + dt.timedelta(minutes=minute)
    basis = OffsetBasis.ASSUMED
    taken = Taken(camera_time=time, time=time, offset_minutes=0, offset_basis=basis) if time else None
    return PhotoFile(name=name, sha256="0" * 64, size_bytes=1, taken=taken)


def test_groups() -> None:
    photos = [
        _photo("e", None),
        _photo("d", 30),
        _photo("a", 0),
        _photo("c", 10),
        _photo("b", 5),
        _photo("0", None),
    ]
    names = [[photo.name for photo in group] for group in group_by_gaps(photos, 5)]
    assert names == [["a", "b", "c"], ["d"], ["0", "e"]]
    assert group_by_gaps([], 5) == []


def test_clock_correction_decides_the_order() -> None:
    """The camera wrote 00:00 but was an hour slow."""
    hour = dt.timedelta(hours=1)
    taken = Taken(
        camera_time=DAY, time=DAY + hour, correction=3600, offset_minutes=0, offset_basis=OffsetBasis.ASSUMED
    )
    moved = PhotoFile(name="late", sha256="0" * 64, size_bytes=1, taken=taken)
    groups = group_by_gaps([moved, _photo("b", 3)], 5)
    assert [[photo.name for photo in group] for group in groups] == [["b"], ["late"]]


def _save(file: Path, time: str = "") -> None:
    exif = Image.Exif()
    if time:
        exif.get_ifd(0x8769)[0x9003] = time
    scene(60, 40, len(file.name)).save(file, "JPEG", exif=exif)


@pytest.fixture
def heap(tmp_path: Path) -> Path:
    """Four photos in two groups, one without a time, and what else a phone leaves lying about."""
    folder = tmp_path / "from phone"
    folder.mkdir()
    _save(folder / "IMG_2.jpg", "2026:05:12 10:04:00")
    _save(folder / "IMG_1.jpg", "2026:05:12 10:00:00")
    _save(folder / "it's: 3.jpg", "2026:05:13 09:30:00")
    _save(folder / "no time.jpg")
    (folder / "film.mov").write_bytes(b"\0\0\0\x14ftypqt  " + b"\0" * 50)
    (folder / ".DS_Store").write_bytes(b"x")
    (folder / "Thumbs.db").write_bytes(b"x")
    (folder / "._IMG_1.jpg").write_bytes(b"x")
    return folder


def begun(folder: Path, photos: Path | None, answers: Answers = KNOWN) -> Begun:
    """A folder begun with the installed kinds."""
    return begin(folder, photos, answers, [REGISTRY], REGISTRY.template(answers.purpose))


def taken_up(folder: Path, *, answered: bool) -> None:
    """As findings.yaml says of itself: the first # of the lines of a part, then the second, leaving one answer."""
    file = folder / "findings.yaml"
    lines = []
    for line in file.read_text("utf-8").splitlines():
        text = line[1:] if line.startswith("#  ") and not line.startswith("#   film") else line
        if answered and re.match(r" {6,8}# ", text):
            text = text.replace("# ", "", 1).split(" | ")[0]
        lines.append(text)
    file.write_text("\n".join(lines), "utf-8")


def test_with_answers_the_folder_checks(heap: Path, tmp_path: Path) -> None:
    job = tmp_path / "job"
    notes = begun(job, heap).remarks
    assert notes == ("film.mov: it is a film, not a photo: take it out",)
    assert sorted(each.name for each in tmp_path.iterdir()) == ["from phone", "job"]
    copies = {each.name: each.read_bytes() for each in (job / "photos").iterdir()}
    assert sorted(copies) == ["IMG_1.jpg", "IMG_2.jpg", "it's: 3.jpg", "no time.jpg"]
    assert all(data == (heap / name).read_bytes() for name, data in copies.items())
    read = pipeline.collect(job, REGISTRY)
    assert read.sheet.inspection.dates == (dt.date(2026, 5, 12), dt.date(2026, 5, 13))
    vessel, author = read.sheet.vessel, read.sheet.people[0]
    assert (vessel.name, vessel.steering_gear, author.name) == (
        "Marram",
        "chain_and_wire",
        "R. Teale: surveyor",
    )
    assert read.components == ()


def test_what_nobody_answered_is_named_by_check_and_nothing_else_is(tmp_path: Path) -> None:
    begun(tmp_path / "job", None, Answers())
    with pytest.raises(JobError) as told:
        pipeline.collect(tmp_path / "job", REGISTRY)
    assert [(each.key, each.do) for each in told.value.problems] == [
        ("vessel › name", "Fill it in, as in 'name: Marram'."),
        ("people › entry 1 › name", "Fill it in, as in 'name: Rowan Teale'."),
        ("inspection › place", "Fill it in, as in 'place: Skerrow Haven, berth C14'."),
    ]


def test_the_stub_of_every_kind_reads_when_it_is_taken_up(tmp_path: Path) -> None:
    """All kinds that are installed: first with nothing answered, then with everything looked at and a first answer."""
    job, answers = tmp_path / "job", replace(KNOWN, systems=tuple(REGISTRY.systems), steering="")
    begun(job, None, answers)
    text = (job / "findings.yaml").read_text("utf-8")
    assert "its pin and split pin" in text
    assert not re.search(r"\[[a-z ]+ [a-z ]+\]", text), "a trade term is written in its usage"
    taken_up(job, answered=False)
    bare = pipeline.collect(job, REGISTRY)
    expected = {kind for each in REGISTRY.template("pre_purchase").expects for kind in each.kinds}
    others = {kind for kind, each in REGISTRY.plugins.items() if each.system not in {"steering", "rig"}}
    assert {each.kind for each in bare.components} == expected | others
    assert all(each.examined.extent == "seen" and not each.examined.included for each in bare.components)
    (job / "findings.yaml").write_text(text, "utf-8")
    taken_up(job, answered=True)
    for part in pipeline.collect(job, REGISTRY).components:
        plugin = REGISTRY.plugins[part.kind]
        assert list(part.examined.included) == [each.id for each in plugin.examination]
        assert {name: seen[0].choice for name, seen in part.observed.items()} == {
            each.id: each.choices[0].id for each in plugin.observations if each.asked == "usual"
        }


@pytest.mark.parametrize(
    ("steering", "has", "lacks"),
    [
        ("chain_and_wire", "chain", "other_steering"),
        ("hydraulic", "other_steering", "chain"),
        ("direct", "rudder_blade", "wheel"),
    ],
)
def test_the_steering_gear_decides_which_parts_are_expected(
    tmp_path: Path, steering: str, has: str, lacks: str
) -> None:
    begun(tmp_path / "job", None, replace(KNOWN, steering=steering, systems=("steering",)))
    text = (tmp_path / "job" / "findings.yaml").read_text("utf-8")
    assert f"kind: {has} " in text
    assert f"kind: {lacks} " not in text
    assert "kind: mast " not in text


def test_what_is_taken_is_what_a_folder_knows(tmp_path: Path) -> None:
    """Whatever ending a photo has: what is copied is found by reading the folder, and what is not copied is told."""
    heap, job = tmp_path / "heap", tmp_path / "job"
    heap.mkdir()
    good = [f"a{ending.upper()}" for ending in (*PICTURES, ".hif", ".mpo")]
    for name in (*good, "IMG_9", "x.photo"):
        _save(heap / name)
    notes = begun(job, heap).remarks
    assert [note.partition(":")[0] for note in notes] == ["IMG_9", "x.photo"]
    assert all("ends in .jpg" in note for note in notes)
    found = read_photo_files(Place(job), None, read_photos, Ledger())
    assert {each.name for each in found} == {f"photos/{name}" for name in good}


def test_photos_wait_in_groups_where_no_part_is_named(heap: Path, tmp_path: Path) -> None:
    assert begun(tmp_path / "job", heap).waiting == 4
    text = (tmp_path / "job" / "findings.yaml").read_text("utf-8")
    waiting = text.split("# Photos that no part")[1].split("# Remarks")[0]
    assert re.findall(r"(?m)^# (?:2026|photos).*|- \S.*?(?=   #|$)", waiting) == [
        "# 2026-05-12 10:00 to 10:04", "- IMG_1.jpg", "- IMG_2.jpg", "# 2026-05-13 09:30 to 09:30",
        '- "it\'s: 3.jpg"', "# photos without a time", "- no time.jpg",
    ]  # fmt: skip
    assert "#   film.mov: it is a film" in text


def test_a_caption_goes_into_the_findings_as_it_was_written(tmp_path: Path) -> None:
    said = "The chain: dry, {1} # [2]"
    packet = f"<dc:description><rdf:Alt><rdf:li>{said}</rdf:li></rdf:Alt></dc:description>"
    (tmp_path / "heap").mkdir()
    scene(60, 40).save(tmp_path / "heap" / "it's #1.jpg", xmp=packet.encode())
    made = begun(tmp_path / "job", tmp_path / "heap")
    assert (made.proposed, made.waiting) == (1, 0)
    taken_up(tmp_path / "job", answered=False)
    shown = {
        part.id: [(use.file, use.caption) for use in part.photos]
        for part in pipeline.collect(tmp_path / "job", REGISTRY).components
        if part.photos
    }
    assert shown == {"chain": [("photos/it's #1.jpg", said)]}


def test_a_wrong_clock_is_never_the_day_of_the_visit() -> None:
    """One that runs ahead, one that was reset; but a visit of two days, and the day after it across the date line."""
    today, hour = dt.date(2026, 5, 13), 60
    ahead, reset = _photo("ahead", 60 * 24 * 365 * 73), _photo("reset", -60 * 24 * 365 * 26)
    visit = [_photo("a", 9 * hour), _photo("b", 10 * hour), _photo("c", 24 * hour)]
    days, strange = days_of([ahead, reset, *visit], today)
    assert days == [dt.date(2026, 5, 12), dt.date(2026, 5, 13)]
    assert [each.name for each in strange] == ["ahead", "reset"]
    assert days_of([ahead], today) == ([today], [ahead])
    assert days_of([], today) == ([today], [])
    tomorrow = dt.date(2026, 5, 12)
    assert days_of(visit[2:], tomorrow) == ([dt.date(2026, 5, 13)], [])


def test_the_time_zone_is_what_the_cameras_wrote_where_they_agree() -> None:
    def zoned(minutes: int) -> PhotoFile:
        taken = Taken(camera_time=DAY, time=DAY, offset_minutes=minutes, offset_basis=OffsetBasis.WRITTEN)
        return PhotoFile(name="a", sha256="0" * 64, size_bytes=1, taken=taken)

    template = REGISTRY.template("handover")
    text = job_text(KNOWN, template, [DAY.date()], [zoned(-210), zoned(-210)])
    assert "time_zone: -03:30 " in text
    assert "as the camera wrote" in text
    assert "this computer's" in job_text(KNOWN, template, [DAY.date()], [zoned(60), zoned(120)])
    assert "# - role: skipper_in" in text


@settings(max_examples=40)
@given(st.text(min_size=1))
def test_an_answer_is_read_back_as_it_was_given(answer: str) -> None:
    """By an independent reader of YAML 1.1, of which 1.2's core is a part but for its truth values."""
    kept = " ".join("".join(each if each.isprintable() else " " for each in answer).split())
    assert yaml.safe_load(f"a: {scalar(kept)}   # b") == {"a": kept} or not kept


def test_nothing_is_overwritten(heap: Path, tmp_path: Path) -> None:
    job = tmp_path / "job"
    job.mkdir()
    begun(job, heap)
    before = {each: hashlib.sha256(each.read_bytes()).digest() for each in job.rglob("*") if each.is_file()}
    with pytest.raises(CannotWriteError, match="exists already"):
        begun(job, heap)
    assert before == {
        each: hashlib.sha256(each.read_bytes()).digest() for each in job.rglob("*") if each.is_file()
    }
    (tmp_path / "file").write_text("x")
    with pytest.raises(CannotWriteError):
        begun(tmp_path / "file", heap)
    with pytest.raises(UsageError):
        begun(tmp_path / "other", tmp_path / "nowhere")
    assert not (tmp_path / "other").exists()


def checked(folder: Path) -> str:
    """What `gudgeon check` says, on one line."""
    job = pipeline.collect(folder, REGISTRY)
    template = REGISTRY.template(job.sheet.purpose)
    return " ".join(
        "\n".join(summary(job, pipeline.grade(job, REGISTRY, template), template, REGISTRY)).split()
    )


@pytest.mark.parametrize("purpose", ["pre_purchase", "handover", "insurance"])
def test_where_nothing_was_looked_at_nothing_was_found_is_never_said(tmp_path: Path, purpose: str) -> None:
    """No part, one that is not fitted, one that was not seen: on the terminal and in a report, which can be made."""
    begun(tmp_path / "job", None, replace(KNOWN, purpose=purpose))
    template = REGISTRY.template(purpose)
    for part in ("", "  - {id: a, kind: chain, examined: not_fitted}\n",
                 "  - {id: a, kind: chain, examined: {extent: not_seen, because: locked}}\n"):  # fmt: skip
        (tmp_path / "job" / "findings.yaml").write_text(f"format: 1\ncomponents:\n{part}", "utf-8")
        told = checked(tmp_path / "job")
        assert "No part was looked at, so nothing can be said of her." in told
        assert "Nothing was found" not in told
        job = pipeline.collect(tmp_path / "job", REGISTRY)
        report = outline(job, pipeline.grade(job, REGISTRY, template), template, REGISTRY)
        shown = report.model_dump_json(exclude={"attachments"})
        assert "No part was looked at, so nothing can be said of her." in shown
        assert "Nothing was found that has to be put right" not in shown
    (tmp_path / "job" / "findings.yaml").write_text(
        "format: 1\ncomponents:\n  - {id: a, kind: chain, examined: seen}\n", "utf-8"
    )
    assert "Nothing was found that has to be put right" in checked(tmp_path / "job")


def test_check_names_the_key_that_tells_what_was_looked_at(tmp_path: Path) -> None:
    """Seen, with some of it named: the rest by id, under its key; none of it where all is named, or only part was seen."""
    begun(tmp_path / "job", None)
    file = tmp_path / "job" / "findings.yaml"
    for examined, named in (
        ("seen", "chain and sprocket: all_links, sprocket, joints"),
        ("{extent: seen, included: [sprocket]}", "chain and sprocket: all_links, joints"),
        ("{extent: seen, included: [all]}", ""),
        ("{extent: part_seen, because: cover stuck}", ""),
    ):
        text = f"format: 1\ncomponents:\n  - {{id: chain, kind: chain, examined: {examined}}}\n"
        file.write_text(text, "utf-8")
        told = checked(tmp_path / "job")
        assert ("write included: [all]" in told) is bool(named)
        assert named in told
