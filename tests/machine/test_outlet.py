"""Standard output: closed by its reader, closed from the start, on a full disk."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

pytestmark = pytest.mark.skipif(sys.platform == "win32", reason="descriptors of POSIX")
MUCH = "from reporter.machine import outlet; outlet.prepare(); print('x' * 200_000); outlet.flush(); import sys; sys.exit(10)"


def test_a_reader_that_has_enough_changes_nothing(tmp_path: Path) -> None:
    reads, writes = os.pipe()
    os.close(reads)
    done = subprocess.run(
        [sys.executable, "-P", "-c", MUCH], stdout=writes, stderr=subprocess.PIPE, check=False, cwd=tmp_path
    )
    os.close(writes)
    assert (done.returncode, done.stderr) == (10, b"")


def test_a_full_disk_is_told() -> None:
    with Path("/dev/full").open("wb") as full:
        done = subprocess.run(
            [sys.executable, "-P", "-c", MUCH], stdout=full, stderr=subprocess.PIPE, text=True, check=False
        )
    assert "MachineError: What was to be printed cannot be written: the disk is full." in done.stderr
    assert done.stderr.count("MachineError:") == 1


def test_closed_streams_lead_nowhere_and_never_into_a_file(tmp_path: Path) -> None:
    """The next file that is opened would else be standard output."""
    code = (
        "import sys\nfrom reporter.machine import outlet\noutlet.prepare()\n"
        f"file = open({str(tmp_path / 'file')!r}, 'w')\nassert file.fileno() > 2\n"
        "print('x'); sys.stderr.write('y'); assert not sys.stderr.isatty(); outlet.flush()"
    )
    command = f"exec '{sys.executable}' -P -c \"$CODE\" <&- >&- 2>&-"
    done = subprocess.run(["sh", "-c", command], env={**os.environ, "CODE": code}, check=False)
    assert (done.returncode, (tmp_path / "file").read_text()) == (0, "")
