"""One small job of one part and one photo, shared by the tests of the command line in this folder."""

from __future__ import annotations

import re
import shutil
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]


@pytest.fixture(scope="session")
def small_job(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Tests read it and change nothing in it."""
    folder = tmp_path_factory.mktemp("small") / "job"
    shutil.copytree(ROOT / "demo_job", folder)
    parts = re.split(r"(?m)^(?=  - id: )", (folder / "findings.yaml").read_text("utf-8"))
    kept = next(part for part in parts if "swage_crack.jpg" in part)
    (folder / "findings.yaml").write_text(f"format: 1\ncomponents:\n{kept}", "utf-8")
    (folder / "measurements.csv").write_text("component,quantity,value,unit\n", "utf-8")
    sheet = (folder / "job.yaml").read_text("utf-8")
    (folder / "job.yaml").write_text(sheet.partition("\ndocuments:")[0] + "\n", "utf-8")
    return folder
