"""Headers made to hold a reader up: a small budget of time and memory, after which the photo is shown without them."""

from __future__ import annotations

import signal
import struct
import subprocess
import sys
import time
from pathlib import Path

import pytest

from reporter.door import formats, frugal, metadata
from reporter.door.header import read_header

from .scenes import scene

pytestmark = pytest.mark.skipif(sys.platform == "win32", reason="that system has no such limits")
RATIONAL, DOUBLE = 5, 12


def table(entries: int, kind: int) -> bytes:
    """A TIFF whose entries, 999 values each, all lie over one another (TIFF 6.0, section 2)."""
    rows = b"".join(struct.pack("<HHII", 0x8000 + row % 0x4000, kind, 999, 8) for row in range(entries))
    return b"II*\0" + struct.pack("<IH", 8, entries) + rows + struct.pack("<I", 0)


def with_table(file: Path, exif: bytes) -> Path:
    """A good JPEG with that EXIF block (APP1: CP-3451, 4.7.2)."""
    scene(64, 48).save(file)
    data, block = file.read_bytes(), b"Exif\0\0" + exif
    file.write_bytes(data[:2] + b"\xff\xe1" + struct.pack(">H", len(block) + 2) + block + data[2:])
    return file


@pytest.mark.filterwarnings("ignore")  # as the workers do
def test_what_holds_a_reader_up_is_left(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(frugal, "SECONDS", 0.05)
    stopped: list[object] = []

    def stop(*_: object) -> None:
        stopped.append(_)
        raise frugal._TooMuch

    monkeypatch.setattr(frugal, "_stop", stop)
    file = with_table(tmp_path / "x.jpg", table(5000, RATIONAL))
    before = signal.getsignal(signal.SIGPROF)
    header = read_header(str(file), str(tmp_path))
    assert stopped
    assert (header.problem, header.width, header.tags.date) == ("", 64, "")
    assert signal.getitimer(signal.ITIMER_PROF)[0] == 0
    assert signal.getsignal(signal.SIGPROF) is before


def test_who_swallows_the_end_is_asked_again(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(frugal, "SECONDS", 0.01)
    monkeypatch.setattr(frugal, "AGAIN", 0.01)
    asked, begin = 0, time.process_time()
    with frugal.frugal():
        while time.process_time() - begin < 2:
            try:
                while time.process_time() - begin < 2:
                    pass
            except BaseException:
                asked += 1
                if asked > 1:
                    raise
    assert asked == 2
    assert signal.getitimer(signal.ITIMER_PROF)[0] == 0


def test_what_pillow_knows_needs_no_second_reader(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The date stands in the EXIF of a file whose other entries would hold the second reader up for half a minute."""
    from PIL import Image

    exif = Image.Exif()
    exif.get_ifd(0x8769)[0x9003] = "2027:05:12 10:00:00"
    scene(64, 48).save(tmp_path / "x.jpg", exif=exif)
    data = (tmp_path / "x.jpg").read_bytes()
    monkeypatch.setattr(metadata, "_by_exifread", lambda _: pytest.fail("read twice"))
    assert metadata.read_tags(data, formats.open_image(data)).date == "2027:05:12 10:00:00"


@pytest.mark.slow
@pytest.mark.parametrize("kind", [RATIONAL, DOUBLE])
def test_a_header_costs_two_seconds_and_256_megabytes_at_most(kind: int, tmp_path: Path) -> None:
    (tmp_path / "x.tif").write_bytes(table(65535, kind))
    script = (
        "import resource, sys, warnings\n"
        "warnings.simplefilter('ignore')\n"
        "from reporter.door import formats, frugal, header\n"
        "limit, begun = frugal._little_time, []\n"
        "frugal._little_time = lambda: begun.append(frugal.SECONDS) or limit()\n"
        "before = resource.getrusage(resource.RUSAGE_SELF)\n"
        "header.read_header(sys.argv[1], sys.argv[2])\n"
        "after = resource.getrusage(resource.RUSAGE_SELF)\n"
        "print(sum(begun), (after.ru_maxrss - before.ru_maxrss) / 1024)\n"
    )
    command = [sys.executable, "-c", script, str(tmp_path / "x.tif"), str(tmp_path)]
    done = subprocess.run(command, capture_output=True, text=True, check=True)
    seconds, megabytes = map(float, done.stdout.split())
    assert 0 < seconds <= 2
    assert megabytes < 256
