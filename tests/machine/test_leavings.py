"""What lies about: swept when its process is dead, left alone in every other case."""

from __future__ import annotations

import errno
import os
import signal
import subprocess
import sys
from pathlib import Path

import pytest

from reporter.errors import ExitCode, MachineError
from reporter.machine import leavings, scratch, shortage

pytestmark = pytest.mark.skipif(sys.platform == "win32", reason="nothing is swept on Windows")
WAITS = """
import sys, signal
from pathlib import Path
from reporter.machine.scratch import scratch
from reporter.archive.beside import beside
with scratch() as place, beside(Path(sys.argv[1]) / "report.pdf") as (file, draft):
    (place / "photo.jpg").write_bytes(b"x")
    print(place.name, draft.name, flush=True)
    signal.pause()
"""


@pytest.fixture
def here(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder for temporary files of its own."""
    monkeypatch.setenv("TMPDIR", str(tmp_path))
    monkeypatch.setattr(leavings, "_places", {})
    return tmp_path


def dead_process() -> int:
    """The number of a process that is no more."""
    done = subprocess.Popen(["true"])
    done.wait()
    return done.pid


def test_the_next_run_sweeps_what_a_killed_one_left_and_no_living_one(here: Path) -> None:
    with subprocess.Popen(
        [sys.executable, "-P", "-c", WAITS, str(here)], stdout=subprocess.PIPE, text=True
    ) as other:
        try:
            assert other.stdout is not None
            left = set(other.stdout.readline().split())
            with scratch.scratch():
                assert left < {each.name for each in here.iterdir()}
        finally:
            other.send_signal(signal.SIGKILL)
            other.wait()
        assert left == {each.name for each in here.iterdir()}
        with scratch.scratch() as mine:
            assert [mine] == list(here.iterdir())
    assert list(here.iterdir()) == []


def test_only_what_is_surely_ours_is_swept(here: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Names of people's own, a link, another user's, one that is locked from elsewhere."""
    dead = dead_process()
    for name in ("gudgeon-2024-pictures", f"gudgeon-{dead}-abcdefgh", f"my gudgeon-{dead}-abcdefgh.scratch"):
        (here / name).mkdir()
    link = here / f"gudgeon-{dead}-linklink.scratch"
    link.symlink_to(here / "gudgeon-2024-pictures")
    locked = here / f"gudgeon-{dead}-lockedaa.scratch"
    locked.mkdir()
    (here / f"gudgeon-{os.getppid()}-abcdefgh.scratch").mkdir()
    ours = here / f".gudgeon-{dead}-abcdefgh.part"
    ours.touch()
    photo = here / f".gudgeon-{dead}-abcdefgh.part.jpg"
    photo.touch()
    before = set(here.iterdir())
    with leavings.locked(locked):
        monkeypatch.setattr(os, "getuid", lambda: 12345)
        leavings.begin_in(here)
        assert set(here.iterdir()) == before
        monkeypatch.undo()
        leavings.begin_in(here)
    assert before - set(here.iterdir()) == {ours, photo}


def test_an_interrupted_run_takes_its_own_away(here: Path) -> None:
    with scratch.scratch() as place:
        (here / f".gudgeon-{os.getpid()}-abcdefgh.part").touch()
        (here / "mine").touch()
        leavings.clear()
        assert not place.exists()
        assert [each.name for each in here.iterdir()] == ["mine"]


def test_a_folder_for_temporary_files_that_cannot_be_used_is_named(
    here: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Another one is never taken quietly: photos would lie where nobody expects them."""
    for place, told in ((here / "nowhere", "there is no such folder"), (here / "file", "is a file")):
        (here / "file").touch()
        monkeypatch.setenv("TMPDIR", str(place))
        with pytest.raises(MachineError, match=told) as caught, scratch.scratch():
            pass
        assert str(place) in str(caught.value)
        assert caught.value.advice.startswith("Name another folder"), "room made there is no help"
        assert caught.value.exit_code == ExitCode.CANNOT_WRITE


def test_a_disk_that_fills_up_is_told_as_the_disks_fault(here: Path) -> None:
    with (
        pytest.raises(MachineError, match=rf"written to {here}: the disk is full.\s+→ Make room"),
        scratch.scratch(),
    ):
        Path("/dev/full").write_bytes(b"x")
    with pytest.raises(FileNotFoundError), scratch.scratch():
        Path("/nowhere").read_bytes()


def test_room_is_refused_with_the_numbers(here: Path) -> None:
    """0.9 of what is free may be asked for, ten times as much may not."""
    import shutil

    free = shutil.disk_usage(here).free
    scratch.refuse_without(free * 9 // 10, here)
    with pytest.raises(MachineError, match=r"up to [\d,]+ MB in .*, and [\d,]+ MB are free"):
        scratch.refuse_without(free * 10, here)


@pytest.mark.parametrize(
    ("error", "told"),
    [
        (MemoryError(), "not enough memory"),
        (ImportError("x.so: failed to map segment from shared object"), "not enough memory"),
        (RuntimeError("can't start new thread"), "not enough memory"),
        (OSError(28, "No space left on device", "/x/y"), "/x/y cannot be written or read: the disk is full"),
        (OSError(30, "Read-only file system"), "can only be read"),
        (
            OSError(errno.ENAMETOOLONG, "File name too long", "/x/yy"),
            "/x/yy cannot be written or read: the name is too long",
        ),
        (FileNotFoundError(2, "No such file"), ""),
        (KeyError("No space"), ""),
    ],
)
def test_only_the_computers_faults_are_told_as_such(error: Exception, told: str) -> None:
    found = shortage.machines(error)
    assert (found is not None) is bool(told)
    assert told in str(found)
