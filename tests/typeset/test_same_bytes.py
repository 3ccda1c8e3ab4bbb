"""The same report gives the same bytes, whatever the folder's name and Python's hash seed."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

from reporter.typeset import typeset
from tests.typeset.samples import BLOCKS, pictures, report

_RUN = """
import hashlib, pathlib, sys
from tests.typeset.test_same_bytes import write
print(hashlib.sha256(write(pathlib.Path(sys.argv[1]))).hexdigest())
"""


def write(folder: Path) -> bytes:
    """The bytes of a report with every kind of block."""
    folder.mkdir()
    whole = report(*(block for block, _ in BLOCKS.values()), draft="DRAFT")
    return typeset(whole, pictures(folder), folder / "pages.pdf").file.read_bytes()


def test_two_runs_in_two_folders(tmp_path: Path) -> None:
    assert write(tmp_path / "one") == write(tmp_path / "another")


def test_two_hash_seeds(tmp_path: Path) -> None:
    digests = set()
    for seed in ("1", "2"):
        done = subprocess.run(
            [sys.executable, "-c", _RUN, str(tmp_path / seed)],
            env=os.environ | {"PYTHONHASHSEED": seed},
            cwd=Path(__file__).parents[2],
            capture_output=True,
            text=True,
            check=True,
        )
        digests.add(done.stdout.strip())
    assert len(digests) == 1
