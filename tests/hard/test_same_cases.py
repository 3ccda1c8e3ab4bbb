"""The hard run can be repeated: a case follows from its seed and number, and from nothing else."""

from __future__ import annotations

import random
import shutil
from pathlib import Path

import pytest

from tests.hard import base
from tests.hard.cases import CLASSES, drawn
from tests.hard.making import fresh
from tests.hard.oracle import stood
from tests.hard.running import Step

SPOILT = ("job.yaml", "findings.yaml", "measurements.csv", "photos", "template", "kind", "words")


@pytest.fixture
def small(tmp_path: Path) -> Path:
    """What the classes spoil, without the documents that take seconds to make."""
    given = tmp_path / "base/given"
    given.mkdir(parents=True)
    for source, name in (
        ("plugins/steering/wheel_brake.toml", "brake.toml"),
        ("templates/pre_purchase.toml", "mine.toml"),
    ):
        shutil.copy(base.ROOT / source, given / name)
    (given / "report.pdf").write_bytes(b"%PDF-")
    base._small(base.ROOT / "demo_job", given.parent / "job", base.EARLIER)
    base._small(base.ROOT / "demo_job/outgoing", given.parent / "job/outgoing", base.EARLIER)
    return given.parent


def made(folder: Path, seed: int, number: int, small: Path) -> tuple[dict[str, str], list[Step]]:
    """Every file of a case, and its steps."""
    name, chance = drawn(seed, number)
    fresh(small, folder)
    steps = CLASSES[name].make(chance, folder).steps if name in SPOILT else []
    return stood(folder), list(steps)


def test_a_case_follows_from_seed_and_number_alone(small: Path, tmp_path: Path) -> None:
    first = [made(tmp_path / f"a{number}", 7, number, small) for number in range(1, 9)]
    random.seed(1)
    again = [made(tmp_path / f"b{number}", 7, number, small) for number in reversed(range(1, 9))]
    assert first == again[::-1]
    assert first != [made(tmp_path / f"c{number}", 8, number, small) for number in range(1, 9)]
