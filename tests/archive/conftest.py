"""The good file that most tests here read, written once."""

from __future__ import annotations

from pathlib import Path

import pytest

from reporter.archive import archive
from tests.archive.marked import REPORT, lay_out


@pytest.fixture(scope="session")
def good(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Write the finished file of the small document; tests copy it, never change it."""
    folder = tmp_path_factory.mktemp("good")
    archive(REPORT, lay_out(folder / "laid-out.pdf"), folder / "good.pdf")
    return folder / "good.pdf"
