"""Slips that a tired person makes and nobody would see: sizes that cannot be, rows pasted twice, texts that YAML leaves out."""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from reporter.collect import collect
from reporter.collect.plausible import SIZES
from reporter.errors import JobError, Problem
from reporter.model.sheet import Particulars

Write = Callable[..., Path]


def sheet(good: dict[str, str], **vessel: str) -> dict[str, str]:
    """The good job with other keys of the vessel."""
    lines = "".join(f"  {key}: {text}\n" for key, text in vessel.items())
    kept = [
        line
        for line in good["job.yaml"].splitlines(keepends=True)
        if line.strip().partition(":")[0] not in vessel or not re.match(r"  \w", line)
    ]
    return {"job.yaml": "".join(kept).replace("vessel:\n", f"vessel:\n{lines}")}


def problems(root: Path, installed: Any, photos: Any) -> list[Problem]:
    with pytest.raises(JobError) as refused:
        collect(root, installed, photos=photos)
    return refused.value.problems


@pytest.mark.parametrize(
    ("key", "text"),
    [
        ("displacement", "6.900 kg"), ("length_overall", "1120 m"), ("beam", "365 m"), ("draught", "195 m"), ("draught", "1.95 mm"),
        ("length_waterline", "0.9 m"), ("sail_area", "64000 m²"), ("righting_moment", "11 N·m"), ("engine_hours", "145000 h"),
        ("miles", "1800000 nmi"), ("displacement", "6900 t"),
    ],
)  # fmt: skip
def test_a_size_that_cannot_be_is_refused_with_its_range(
    key: str, text: str, folder: Write, good: dict[str, str], installed: Any, photos: Any
) -> None:
    (told,) = problems(folder(sheet(good, **{key: text})), installed, photos)
    title, _, unit = SIZES[key]
    assert told.key == f"vessel › {key}"
    assert told.what.startswith(f"{title} {text}")
    assert f" {unit}: is the decimal point right?" in told.what
    assert "e+" not in told.what


def test_every_size_of_the_vessel_has_a_range() -> None:
    """Those of the format that are quantities."""
    held = {key for key, field in Particulars.model_fields.items() if "Value" in str(field.annotation)}
    assert held == set(SIZES)


@pytest.mark.parametrize("key", SIZES)
def test_the_edges_of_a_range_are_taken(
    key: str, folder: Write, good: dict[str, str], installed: Any, photos: Any
) -> None:
    _, edges, unit = SIZES[key]
    for number, edge in enumerate(edges):
        vessel = {"beam": "1 m", "displacement": "6900 kg", key: f"{edge} {unit}"}
        collect(folder(sheet(good, **vessel), name=f"job{number}"), installed, photos=photos)


@pytest.mark.parametrize(
    ("vessel", "asked"),
    [
        ({"length_overall": "11.2 m", "displacement": "690 kg"}, "A displacement of 690 kg is odd"),
        ({"length_overall": "11.2 m", "displacement": "69 t"}, "A displacement of 69 t is odd"),
        ({"length_overall": "11.2 m", "length_waterline": "12 m"}, "is more than her length overall"),
        ({"length_overall": "11.2 m", "length_waterline": "9.6 m"}, ""),
        ({"length_overall": "20 m", "displacement": "7400 kg", "beam": "4 m"}, ""),
        ({"length_overall": "4 m", "displacement": "1200 kg"}, ""),
    ],
)
def test_sizes_that_do_not_go_together_are_asked_about(
    vessel: dict[str, str], asked: str, folder: Write, good: dict[str, str], installed: Any, photos: Any
) -> None:
    remarks = collect(folder(sheet(good, **vessel)), installed, photos=photos).remarks
    assert [asked in each for each in remarks] == [True] * bool(asked)


def test_rows_pasted_twice_are_asked_about(
    folder: Write, good: dict[str, str], installed: Any, photos: Any
) -> None:
    head, *rows = good["measurements.csv"].splitlines(keepends=True)
    job = collect(folder({"measurements.csv": "".join([head, *rows, *rows[:2]])}), installed, photos=photos)
    assert [each for each in job.remarks if "pasted twice" in each] == [
        "measurements.csv, line 5, 6: the same in every cell as a row above: pasted twice? Each row counts as a reading of its own, and narrows the uncertainty."
    ]
    again = rows[0].replace("254.5", "254.0")
    job = collect(
        folder({"measurements.csv": "".join([head, *rows, again])}, name="b"), installed, photos=photos
    )
    assert job.remarks == ()


@pytest.mark.parametrize("blank", ['"   "', "'\u00a0'", '"\u200b"', '"\\t\\n"', "|\n   "])
def test_a_name_of_blanks_is_none(
    blank: str, folder: Write, good: dict[str, str], installed: Any, photos: Any
) -> None:
    (told,) = problems(folder(sheet(good, name=blank)), installed, photos)
    assert (told.key, told.what) == ("vessel › name", "Nothing is written after 'name:'.")


def test_what_yaml_takes_for_a_comment_is_told(
    folder: Write, good: dict[str, str], installed: Any, photos: Any
) -> None:
    (told,) = problems(folder(sheet(good, name="#1")), installed, photos)
    assert told.do == "Write '#1' in quotes if it is meant: what follows # is a comment."
    lost = {
        "home_port": "Berth C #14",
        "rig": "#7",
        "hull_number": '"A #3"',
        "flag": "none # not told",
        "type": "'it''s' #9",
    }
    remarks = collect(folder(sheet(good, **lost), name="b"), installed, photos=photos).remarks
    assert [each.split(" is a comment")[0] for each in remarks] == [
        "job.yaml, line 6: vessel › home_port: '#14'",
        "job.yaml, line 7: vessel › rig: '#7'",
        "job.yaml, line 10: vessel › type: '#9'",
    ]
