"""Whatever stands in a folder, the page can be shown: broken lines, odd values, half a file."""

from __future__ import annotations

import random
import shutil
from contextlib import suppress
from pathlib import Path

import pytest

from reporter.desk import forms, parts, views
from reporter.desk.standing import Standing
from reporter.desk.store import Store
from reporter.editing import EditError
from reporter.registry import Registry
from tests.desk.conftest import DEMO
from tests.editing import making
from tests.effort import share

FILES = ("findings.yaml", "job.yaml", "measurements.csv")
QUICK, ALL = 3, 80


def spoilt(rng: random.Random, text: str) -> str:
    """The text with one line lost, doubled, moved, or said wrongly."""
    lines = text.split("\n")
    at = rng.randrange(len(lines))
    line = lines[at]
    lines[at : at + 1] = rng.choice(
        [
            [],
            [line.replace(":", " ", 1)],
            [f"  {line}"],
            [line, rng.choice(lines)],
            [line.replace("seen", "sene").replace("mm", "kg").replace("20", "x")],
            [f"{line.split(':')[0]}: {rng.choice(making.WORDS)}".replace("\n", " ")],
        ]
    )
    return "\n".join(lines)


def shown(standing: Standing) -> None:
    """Everything that the page may ask of a job."""
    state = views.state(standing, "job", (None, None))
    views.kinds(standing)
    forms.sheet(standing)
    for part in state["parts"][:: max(1, len(state["parts"]) // 5)]:
        assert parts.part(standing, part["id"])
    for what in ("check", "work", "due"):
        views.told(standing, what, "")
    assert standing.problems or state["parts"]


@pytest.mark.parametrize(
    "seed",
    [
        pytest.param(each, marks=[] if each < QUICK else pytest.mark.slow)
        for each in [*range(QUICK), *share(range(QUICK, ALL), 22)]
    ],
)
def test_the_page_can_be_shown(seed: int, tmp_path: Path, registry: Registry) -> None:
    rng = random.Random(seed)  # noqa: S311
    folder = Path(shutil.copytree(DEMO, tmp_path / "job", ignore=shutil.ignore_patterns("photos")))
    store = Store(folder, registry)
    for _ in range(rng.randrange(1, 6)):
        with suppress(EditError):
            store.files.accept("x", [making.random_edit(rng, making.read(store.files.text("findings.yaml")))])
    for name in FILES:
        for _ in range(rng.randrange(3)):
            path = folder / name
            path.write_text(spoilt(rng, path.read_text("utf-8")), "utf-8")
    shown(store.standing())
    store.lost()
