"""What a case is made of: a fresh copy of the base, perhaps with an older document where the new one goes, and its steps."""

from __future__ import annotations

import random
import shutil
from collections.abc import Callable, Sequence
from contextlib import AbstractContextManager, nullcontext
from dataclasses import dataclass, field
from pathlib import Path

from tests.hard.running import Step

PLACES = ("out", "tmp", "cache", "config", "home")


@dataclass(frozen=True)
class Made:
    """The steps of a case, what holds meanwhile (a small disk), and why it cannot be tried here, where it cannot."""

    steps: Sequence[Step]
    meanwhile: Callable[[], AbstractContextManager[object]] = field(default=nullcontext)
    not_tried: str = ""


def fresh(base: Path, folder: Path) -> None:
    """The base copied, and empty places for what a run writes."""
    shutil.copytree(base, folder)
    for name in PLACES:
        (folder / name).mkdir()


def old_target(chance: random.Random, folder: Path, name: str) -> None:
    """An earlier report stands where a PDF is to be written, in some cases."""
    if name.endswith(".pdf") and chance.random() < 0.4:
        shutil.copy(folder / "given/report.pdf", folder / "out" / name)
