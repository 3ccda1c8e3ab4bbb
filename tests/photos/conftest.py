"""What the tests of photos share: files made on the spot, a report around them, the real files where they are at hand."""

from __future__ import annotations

import datetime as dt
import hashlib
import json
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest

from reporter import door
from reporter.model.photo import Mark, PhotoFile
from reporter.model.report import Photo, Report

SHARED = Path(__file__).parents[3] / "shared" / "photos"


@pytest.fixture(scope="session", autouse=True)
def _workers_end() -> Iterator[None]:
    yield
    door.close()


@pytest.fixture(scope="session")
def real() -> list[dict[str, Any]]:
    """The rows of the table of real photos; each has `path` added."""
    table = SHARED / "table.json"
    if not table.is_file():
        pytest.skip("../shared/photos is not here: the real photos are not part of this repository")
    rows: list[dict[str, Any]] = json.loads(table.read_text("utf-8"))["files"]
    return [{**row, "path": SHARED / row["file"]} for row in rows]


@pytest.fixture(scope="session")
def real_read(real: list[dict[str, Any]]) -> dict[str, PhotoFile]:
    """What the door says of each real photo, by its name in the table."""
    photos = door.read_photos([row["path"] for row in real], SHARED, time_zone="-03:30")
    return {photo.name: photo for photo in photos}


ReportOf = Callable[..., Report]


@pytest.fixture
def report_of() -> ReportOf:
    """A report that uses photos of a folder: `report_of(folder, ("a.jpg", "full", marks), ...)`."""

    def make(folder: Path, *uses: tuple[str, str, tuple[Mark, ...]]) -> Report:
        photos = tuple(
            Photo(
                file=name,
                sha256=hashlib.sha256((folder / name).read_bytes()).hexdigest()
                if (folder / name).is_file()
                else "",
                width_px=1,
                height_px=1,
                plate=number,
                caption=(),
                alt="a photo",
                marks=marks,
                size=size,  # type: ignore[arg-type]
            )
            for number, (name, size, marks) in enumerate(uses, start=1)
        )
        return Report(
            title="t", subject="s", author="a", number="1", dated=dt.date(2027, 5, 12), running_head="", running_foot="",
            blocks=photos,
        )  # fmt: skip

    return make


@pytest.fixture
def read_one(tmp_path: Path) -> Callable[[Path], PhotoFile]:
    """Reads one file of the temporary folder."""

    def read(file: Path) -> PhotoFile:
        return door.read_photos([file], tmp_path, time_zone="UTC")[0]

    return read
