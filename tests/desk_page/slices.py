"""A part of the demo as a folder that somebody wrote by hand, and the same as plain data for the hands at the page."""

from __future__ import annotations

import csv
import io
import shutil
from pathlib import Path
from typing import Any

import yaml

from tests.effort import WHOLE

ROOT = Path(__file__).parents[2]
DEMO = ROOT / "demo_job"
CHOSEN = (
    "wheel",
    "chain",
    "pedestal",
    "engine-controls",
    "rudder-bearing",
    *(["wheel-brake"] if WHOLE else []),
)
"""Parts with marks of nearly every kind, readings at places, sides and repeats, details with basis, told, found, opinion.

What the last of them has, one of the others has too.
"""
Data = dict[str, Any]


def raw(file: Path) -> Data:
    """A YAML file as it is written: every scalar a text."""
    data: Data = yaml.load(file.read_text("utf-8"), yaml.BaseLoader)  # noqa: S506 - it makes texts and nothing else
    return data


def sheet() -> Data:
    """job.yaml of the demo, without what needs other folders or papers."""
    data = raw(DEMO / "job.yaml")
    return {key: value for key, value in data.items() if key not in {"earlier", "documents"}}


def parts() -> list[Data]:
    """Some parts of the demo as findings.yaml holds them."""
    found = raw(DEMO / "findings.yaml")["components"]
    return [_on_the_page(each) for each in found if each["id"] in CHOSEN]


def _on_the_page(part: Data) -> Data:
    """The part without work done on a proposed job, for which the page has no field."""
    jobs = [each for each in part.get("actions", []) if "done" not in each]
    told = {key: value for key, value in part.items() if key != "actions"}
    return {**told, "actions": jobs} if jobs else told


def rows() -> list[dict[str, str]]:
    """Their readings."""
    with (DEMO / "measurements.csv").open(encoding="utf-8", newline="") as file:
        return [row for row in csv.DictReader(file) if row["component"] in CHOSEN]


def uses(part: Data) -> list[Data]:
    """The photos of a part, each with its caption and marks."""
    return [{"file": each} if isinstance(each, str) else each for each in part.get("photos", [])]


def photos() -> list[str]:
    """The files of the photos that they use."""
    return [str(DEMO / "photos" / use["file"]) for part in parts() for use in uses(part)]


def by_hand(folder: Path, page: Path) -> Path:
    """The folder as somebody writes it without the page, each file in the order that the page's folder has.

    The order in which answers and readings stand in a file is the order of checks and of jobs of one urgency.
    """
    (folder / "photos").mkdir(parents=True)
    asked = raw(page / "findings.yaml")
    findings = in_order_of({"format": "1", "components": parts()}, asked)
    for name, data in (("job.yaml", sheet()), ("findings.yaml", findings)):
        (folder / name).write_text(yaml.safe_dump(data, allow_unicode=True, sort_keys=False), "utf-8")
    with (page / "measurements.csv").open(encoding="utf-8", newline="") as file:
        order = [(row["component"], row["quantity"]) for row in csv.DictReader(file)]
    out = io.StringIO()
    table = csv.DictWriter(out, list(rows()[0]), lineterminator="\n")
    table.writeheader()
    table.writerows(sorted(rows(), key=lambda row: order.index((row["component"], row["quantity"]))))
    (folder / "measurements.csv").write_text(out.getvalue(), "utf-8")
    for photo in photos():
        shutil.copy(photo, folder / "photos")
    return folder


def in_order_of(data: Any, other: Any) -> Any:
    """The same data, keys of mappings in the order that `other` has them."""
    if isinstance(data, dict) and isinstance(other, dict):
        ranked = sorted(data, key=lambda key: list(other).index(key) if key in other else len(other))
        return {key: in_order_of(data[key], other.get(key)) for key in ranked}
    if isinstance(data, list) and isinstance(other, list) and len(data) == len(other):
        return [in_order_of(*pair) for pair in zip(data, other, strict=True)]
    return data
