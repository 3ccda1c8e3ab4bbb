"""What happens to a folder and its photos while the desk is open: moved away, write-protected, broken off, very large."""

from __future__ import annotations

import io
import os
import socket
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from urllib.parse import quote

import pytest
from PIL import Image
from starlette.testclient import TestClient

from reporter.editing import Edit, JobFiles
from reporter.errors import CannotWriteError
from tests.desk.conftest import Serve, edit
from tests.desk.test_hostile import _connected, _entered
from tests.desk.test_views import jpeg
from tests.living import until

WHEEL = ["components", {"id": "wheel"}, "name"]
NOBODY = 65534
HEIC = Path(__file__).parents[3] / "shared/photos/files/iphone8plus_orientation6.heic"


def test_a_folder_that_was_moved_away_is_told_and_not_begun_anew(page: TestClient, job: Path) -> None:
    away = job.with_name("elsewhere")
    job.rename(away)
    told = page.get("/api/job")
    assert (told.status_code, told.json()["error"]) == (404, "The job folder is not where it was.")
    assert told.json()["do"]
    assert edit(page, WHEEL, "Wheel and shaft", "x").status_code == 507, (
        "the page keeps the edit, and tries again"
    )
    assert page.post("/api/photos", params={"name": "new.jpg"}, content=jpeg()).status_code == 507
    assert page.post("/api/take", content=b"%PDF-1.4").status_code == 507
    assert not job.exists()
    away.rename(job)
    assert len(page.get("/api/job").json()["parts"]) == 50
    assert edit(page, WHEEL, "Wheel and shaft", "x").status_code == 200


@contextmanager
def somebody_else() -> Iterator[None]:
    """Whoever may do everything does this as one who may not."""
    if os.name == "nt" or os.geteuid() != 0:
        yield
        return
    os.seteuid(NOBODY)
    try:
        yield
    finally:
        os.seteuid(0)


def test_a_file_that_may_not_be_written_is_not_exchanged() -> None:
    with tempfile.TemporaryDirectory() as scratch:
        folder = Path(scratch)
        file = folder / "findings.yaml"
        file.write_text("format: 1\ncomponents:\n  - {id: wheel, kind: wheel, name: a}\n", "utf-8")
        before = file.read_bytes()
        file.chmod(0o444)
        folder.chmod(0o777)
        wanted = Edit("findings.yaml", ("components", {"id": "wheel"}, "name"), "a", "b")
        with somebody_else(), pytest.raises(CannotWriteError):
            JobFiles(folder).accept("x", [wanted])
        assert file.read_bytes() == before
        assert sorted(each.name for each in folder.iterdir()) == [".gudgeon", "findings.yaml"]


@pytest.mark.slow
def test_a_photo_that_broke_off_on_its_way_leaves_nothing(serve: Serve, job: Path) -> None:
    """A phone that goes out of reach amid a photo; sent again, it arrives."""
    _, base, key = serve(job)
    host = base.removeprefix("http://")
    cookie, data = _entered(host, key), jpeg()
    head = (
        f"POST /api/photos?name={quote('deck.jpg')} HTTP/1.1\r\nHost: {host}\r\nOrigin: {base}\r\n"
        f"Cookie: {cookie}\r\nContent-Length: {len(data)}\r\n\r\n"
    ).encode()
    coming = job / ".gudgeon" / "coming"
    with _connected(host) as line:
        line.sendall(head + data[: len(data) // 2])
        assert until(lambda: coming.is_dir() and any(coming.iterdir()))
        line.shutdown(socket.SHUT_RDWR)
    assert until(lambda: not any(coming.iterdir()))
    assert not (job / "photos/deck.jpg").exists()
    with _connected(host) as line:
        line.sendall(head + data)
        assert line.recv(100).startswith(b"HTTP/1.1 200")
    assert (job / "photos/deck.jpg").read_bytes() == data


@pytest.mark.slow
def test_a_photo_of_forty_megapixels_is_shown(page: TestClient, job: Path) -> None:
    large = io.BytesIO()
    Image.new("RGB", (7728, 5152), (70, 90, 110)).save(large, "JPEG", quality=90)
    told = page.post("/api/photos", params={"name": "large.jpg"}, content=large.getvalue()).json()
    shown = Image.open(io.BytesIO(page.get(f"/photo/{told['file']}?w=400").content))
    assert (shown.format, shown.size) == ("JPEG", (400, 267))
    assert (job / "photos/large.jpg").read_bytes() == large.getvalue()


@pytest.mark.slow
def test_a_photo_of_a_phone_that_browsers_do_not_know_is_shown(page: TestClient, job: Path) -> None:
    """HEIC, lying as its EXIF says."""
    if not HEIC.is_file():
        pytest.skip(f"{HEIC.name} is not there: it lies in shared/photos beside the repository")
    told = page.post("/api/photos", params={"name": "IMG_1.HEIC"}, content=HEIC.read_bytes()).json()
    shown = Image.open(io.BytesIO(page.get(f"/thumb/{told['file']}").content))
    assert (shown.format, shown.width < shown.height) == ("JPEG", True)
    assert told["taken"]["time"].startswith("2018-07-31T14:52:07")
    assert (job / "photos" / told["file"]).read_bytes() == HEIC.read_bytes()
