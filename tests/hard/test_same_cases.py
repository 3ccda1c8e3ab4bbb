"""The hard run can be repeated: a case follows from its seed and number, and from nothing else."""

from __future__ import annotations

import random
import shutil
from pathlib import Path

import pytest

from tests.hard.base import ROOT
from tests.hard.cases import CLASSES, drawn
from tests.hard.making import fresh
from tests.hard.oracle import stood
from tests.hard.running import Step

SPOILT = ("job.yaml", "findings.yaml", "measurements.csv", "template", "kind", "words")


@pytest.fixture
def small(tmp_path: Path) -> Path:
    """What the classes spoil, without the photos and documents that take seconds to make."""
    given, job = tmp_path / "base/given", tmp_path / "base/job"
    for place in (job / "photos", given, job / "outgoing"):
        place.mkdir(parents=True, exist_ok=True)
    for name in ("job.yaml", "findings.yaml", "measurements.csv", "outgoing"):
        source = ROOT / "demo_job" / name
        for each in source.glob("*.*") if source.is_dir() else (source,):
            shutil.copy(each, job / each.relative_to(ROOT / "demo_job"))
    for name in ("plugins/steering/wheel_brake.toml", "templates/pre_purchase.toml"):
        shutil.copy(ROOT / name, given / {"wheel_brake.toml": "brake.toml"}.get(Path(name).name, "mine.toml"))
    (given / "report.pdf").write_bytes(b"%PDF-")
    (job / "photos/brake.jpg").write_bytes(bytes(range(256)))
    return given.parent


def made(folder: Path, seed: int, number: int, small: Path) -> tuple[dict[str, str], list[Step]]:
    """Every file of a case, and its steps."""
    name, chance = drawn(seed, number)
    fresh(small, folder)
    steps = CLASSES[name].make(chance, folder).steps if name in SPOILT else []
    return stood(folder), list(steps)


def test_a_case_follows_from_seed_and_number_alone(small: Path, tmp_path: Path) -> None:
    first = [made(tmp_path / f"a{number}", 7, number, small) for number in range(1, 6)]
    random.seed(1)
    again = [made(tmp_path / f"b{number}", 7, number, small) for number in reversed(range(1, 6))]
    assert first == again[::-1]
    assert first != [made(tmp_path / f"c{number}", 8, number, small) for number in range(1, 6)]
