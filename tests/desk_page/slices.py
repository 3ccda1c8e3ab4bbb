"""A part of the demo as a folder that somebody wrote by hand, and the same as plain data for the hands at the page."""

from __future__ import annotations

import csv
import io
import shutil
from pathlib import Path
from typing import Any

import yaml

ROOT = Path(__file__).parents[2]
DEMO = ROOT / "demo_job"
SIX = ("wheel", "wheel-brake", "chain", "pedestal", "engine-controls", "rudder-bearing")
"""Parts with marks of nearly every kind, readings at places, sides and repeats, details with basis, told, found, opinion."""
NOT_ON_THE_PAGE = ("actions",)
"""What the page has no field for."""

Data = dict[str, Any]


def sheet() -> Data:
    """job.yaml of the demo, without what needs other folders or papers."""
    data: Data = yaml.load((DEMO / "job.yaml").read_text("utf-8"), yaml.BaseLoader)
    return {key: value for key, value in data.items() if key not in {"earlier", "documents"}}


def parts() -> list[Data]:
    """Six parts of the demo as findings.yaml holds them."""
    found = yaml.load((DEMO / "findings.yaml").read_text("utf-8"), yaml.BaseLoader)["components"]
    return [
        {key: value for key, value in each.items() if key not in NOT_ON_THE_PAGE} for each in found if each["id"] in SIX
    ]


def rows() -> list[dict[str, str]]:
    """The six parts' readings."""
    with (DEMO / "measurements.csv").open(encoding="utf-8", newline="") as file:
        return [row for row in csv.DictReader(file) if row["component"] in SIX]


def uses(part: Data) -> list[Data]:
    """The photos of a part, each with its caption and marks."""
    return [{"file": each} if isinstance(each, str) else each for each in part.get("photos", [])]


def photos() -> list[str]:
    """The files of the photos that the six parts use."""
    return [str(DEMO / "photos" / use["file"]) for part in parts() for use in uses(part)]


def by_hand(folder: Path) -> Path:
    """The folder as somebody writes it without the page."""
    (folder / "photos").mkdir(parents=True)
    (folder / "job.yaml").write_text(yaml.safe_dump(sheet(), allow_unicode=True, sort_keys=False), "utf-8")
    findings = {"format": "1", "components": parts()}
    (folder / "findings.yaml").write_text(yaml.safe_dump(findings, allow_unicode=True, sort_keys=False), "utf-8")
    out = io.StringIO()
    table = csv.DictWriter(out, list(rows()[0]), lineterminator="\n")
    table.writeheader()
    table.writerows(rows())
    (folder / "measurements.csv").write_text(out.getvalue(), "utf-8")
    for photo in photos():
        shutil.copy(photo, folder / "photos")
    return folder
