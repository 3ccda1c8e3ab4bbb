"""44 real photos against the values that exiftool reads (12.57 and 13.59, which agree); see `table.json` beside them."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from reporter import door
from reporter.model.photo import OffsetBasis, PhotoFile

Rows = list[dict[str, Any]]
Read = dict[str, PhotoFile]

TURNING = (5, 6, 7, 8)


def test_there_are_44(real: Rows, real_read: Read) -> None:
    assert len(real) == len(real_read) == 44


def test_time_taken(real: Rows, real_read: Read) -> None:
    for row in real:
        written = row["truth"]["DateTimeOriginal"]
        expected = None if written in {None, "0000:00:00 00:00:00"} else written
        found = real_read[row["file"]].taken
        assert (found and f"{found.camera_time:%Y:%m:%d %H:%M:%S}") == expected, row["file"]


def test_parts_of_a_second(real: Rows, real_read: Read) -> None:
    checked = 0
    for row in real:
        found, digits = real_read[row["file"]].taken, row["truth"]["SubSecTimeOriginal"]
        if found and digits is not None and str(digits).strip().isdigit():
            assert found.camera_time.microsecond == round(float(f"0.{str(digits).strip()}") * 1e6), row[
                "file"
            ]
            checked += 1
    assert checked >= 10


def test_offset_written(real: Rows, real_read: Read) -> None:
    written = [row for row in real if row["truth"]["OffsetTimeOriginal"]]
    assert len(written) >= 5
    for row in written:
        text, found = row["truth"]["OffsetTimeOriginal"], real_read[row["file"]].taken
        minutes = int(text[0] + "1") * (int(text[1:3]) * 60 + int(text[4:]))
        assert found is not None
        assert (found.offset_minutes, found.offset_basis) == (minutes, OffsetBasis.WRITTEN), row["file"]


def test_offset_inferred_where_the_table_says_so_and_nowhere_else(real: Rows, real_read: Read) -> None:
    for row in real:
        found, check = real_read[row["file"]].taken, row["gps_offset_check"]
        if found is None or row["truth"]["OffsetTimeOriginal"]:
            continue
        quarter = check and check["nearest_quarter_hour"]
        if quarter:
            minutes = int(quarter[0] + "1") * (int(quarter[1:3]) * 60 + int(quarter[4:]))
            assert (found.offset_minutes, found.offset_basis) == (minutes, OffsetBasis.INFERRED), row["file"]
        else:
            assert (found.offset_minutes, found.offset_basis) == (-210, OffsetBasis.ASSUMED), row["file"]


def test_position_flag(real: Rows, real_read: Read) -> None:
    for row in real:
        if row["file"] == "files/gps_time_without_date.jpg":
            continue
        expected = row["truth"]["GPSLatitude"] not in {None, ""}
        assert real_read[row["file"]].has_position is expected, row["file"]


def test_upright_size(real: Rows, real_read: Read) -> None:
    for row in real:
        found, truth = real_read[row["file"]], row["truth"]
        if found.problem:
            continue
        size = truth["ImageWidth"], truth["ImageHeight"]
        upright = size[::-1] if truth["Orientation"] in TURNING else size
        assert (found.width, found.height) == upright, row["file"]
        assert found.turned == "", row["file"]


def test_camera_holds_make_and_model(real: Rows, real_read: Read) -> None:
    for row in real:
        model = row["truth"]["Model"]
        if model is not None:
            assert " ".join(str(model).split()) in real_read[row["file"]].camera, row["file"]


def test_hash(real: Rows, real_read: Read) -> None:
    for row in real:
        assert real_read[row["file"]].sha256 == row["sha256"]
        assert real_read[row["file"]].size_bytes == row["bytes"]


def test_decoding_finds_the_truncated_one_and_the_raw_one(real: Rows) -> None:
    folder = real[0]["path"].parents[1]
    problems = door.decode_check([row["path"] for row in real], folder)
    assert {problem.file: problem.what for problem in problems} == {
        "files/canon_350d.dng": "it is a camera raw file",
        "files/pixel6_ultrahdr_truncated.jpg": "the end of it is missing",
    }


def test_heif_without_a_rotation_of_its_own_is_turned_and_told(real: Rows, tmp_path: Path) -> None:
    """The file's own `irot` box taken away by renaming it: what is left is EXIF 6, as two known phones write it."""
    source = next(row["path"] for row in real if row["file"] == "files/iphone8plus_orientation6.heic")
    data = source.read_bytes()
    assert data.count(b"irot") >= 1
    (tmp_path / "with.heic").write_bytes(data)
    (tmp_path / "without.heic").write_bytes(data.replace(b"irot", b"free"))
    with_box, without = door.read_photos(
        [tmp_path / "with.heic", tmp_path / "without.heic"], tmp_path, time_zone="UTC"
    )
    assert (with_box.width, with_box.height, with_box.turned) == (3024, 4032, "")
    if without.problem:
        pytest.skip(f"the reader refuses a file without that box: {without.problem}")
    assert (without.width, without.height) == (3024, 4032)
    assert "EXIF" in without.turned
