"""From a heap of photos to a job folder that can be read."""

# ruff: noqa: DTZ001 - the times of cameras have no zone

from __future__ import annotations

import datetime as dt
import hashlib
from pathlib import Path

import pytest
import yaml
from PIL import Image

from reporter.collect.ledger import Ledger
from reporter.collect.photo_files import read_photo_files
from reporter.collect.text_file import Place
from reporter.door import group_by_gaps, new_job, read_photos
from reporter.errors import CannotWriteError, UsageError
from reporter.model.job import FindingsSheet, JobSheet
from reporter.model.photo import PICTURES, OffsetBasis, PhotoFile, Taken

from .scenes import scene

DAY = dt.datetime(2027, 5, 12)


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
    _save(folder / "IMG_2.jpg", "2027:05:12 10:04:00")
    _save(folder / "IMG_1.jpg", "2027:05:12 10:00:00")
    _save(folder / "it's: 3.jpg", "2027:05:13 09:30:00")
    _save(folder / "no time.jpg")
    (folder / "film.mov").write_bytes(b"\0\0\0\x14ftypqt  " + b"\0" * 50)
    (folder / ".DS_Store").write_bytes(b"x")
    (folder / "Thumbs.db").write_bytes(b"x")
    (folder / "._IMG_1.jpg").write_bytes(b"x")
    return folder


def test_new_job(heap: Path, tmp_path: Path) -> None:
    job = tmp_path / "job"
    notes = new_job(job, heap)
    assert notes == ("film.mov: it is a film, not a photo: take it out",)
    assert sorted(each.name for each in tmp_path.iterdir()) == ["from phone", "job"]
    copies = {each.name: each.read_bytes() for each in (job / "photos").iterdir()}
    assert sorted(copies) == ["IMG_1.jpg", "IMG_2.jpg", "it's: 3.jpg", "no time.jpg"]
    assert all(data == (heap / name).read_bytes() for name, data in copies.items())
    sheet = JobSheet.model_validate(yaml.safe_load((job / "job.yaml").read_text()))
    assert sheet.inspection.dates == (dt.date(2027, 5, 12), dt.date(2027, 5, 13))
    assert FindingsSheet.model_validate(yaml.safe_load((job / "findings.yaml").read_text())).components == ()


def test_what_is_taken_is_what_a_folder_knows(tmp_path: Path) -> None:
    """Whatever ending a photo has: what is copied is found by reading the folder, and what is not copied is told."""
    heap, job = tmp_path / "heap", tmp_path / "job"
    heap.mkdir()
    good = [f"a{ending.upper()}" for ending in (*PICTURES, ".hif", ".mpo")]
    for name in (*good, "IMG_9", "x.photo"):
        _save(heap / name)
    notes = new_job(job, heap)
    assert [note.partition(":")[0] for note in notes] == ["IMG_9", "x.photo"]
    assert all("ends in .jpg" in note for note in notes)
    found = read_photo_files(Place(job), None, read_photos, Ledger())
    assert {each.name for each in found} == {f"photos/{name}" for name in good}


def test_the_groups_can_be_taken_up_as_they_stand(heap: Path, tmp_path: Path) -> None:
    """As the file itself says: remove the # signs, and the [] after `components:`."""
    new_job(tmp_path / "job", heap)
    text = (tmp_path / "job" / "findings.yaml").read_text()
    assert "#   film.mov: it is a film" in text
    groups = text.split("# Not copied")[0].replace("components: []", "components:")
    taken_up = "\n".join(
        line.removeprefix("#") if line.startswith("#  ") else line for line in groups.splitlines()
    )
    read = FindingsSheet.model_validate(yaml.safe_load(taken_up))
    assert [[use.file for use in component.photos] for component in read.components] == [
        ["IMG_1.jpg", "IMG_2.jpg"],
        ["it's: 3.jpg"],
        ["no time.jpg"],
    ]


def test_nothing_is_overwritten(heap: Path, tmp_path: Path) -> None:
    job = tmp_path / "job"
    job.mkdir()
    new_job(job, heap)
    before = {each: hashlib.sha256(each.read_bytes()).digest() for each in job.rglob("*") if each.is_file()}
    with pytest.raises(CannotWriteError, match="exists already"):
        new_job(job, heap)
    assert before == {
        each: hashlib.sha256(each.read_bytes()).digest() for each in job.rglob("*") if each.is_file()
    }
    (tmp_path / "file").write_text("x")
    with pytest.raises(CannotWriteError):
        new_job(tmp_path / "file", heap)
    with pytest.raises(UsageError):
        new_job(tmp_path / "other", tmp_path / "nowhere")


def test_no_photos_at_all(tmp_path: Path) -> None:
    (tmp_path / "heap").mkdir()
    new_job(tmp_path / "job", tmp_path / "heap")
    sheet = JobSheet.model_validate(yaml.safe_load((tmp_path / "job" / "job.yaml").read_text()))
    assert len(sheet.inspection.dates) == 1
