"""Whole documents written once per run: every template, both page sizes, both usages, the work list."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import product
from pathlib import Path

import pytest

from reporter import pipeline
from reporter.door import close
from reporter.registry import find, load

ROOT = Path(__file__).parents[2]
TEMPLATES = ("pre_purchase", "handover", "insurance")
VARIANTS = {"A4": "", "Letter": "\npage: Letter\nunits: imperial\nterms: us\n"}


@dataclass(frozen=True)
class Written:
    """A document on disk, and the job folder that it was written from."""

    name: str
    file: Path
    folder: Path


def quiet(_step: str) -> None:
    """Progress that nobody reads."""


@pytest.fixture(scope="session")
def documents(tmp_path_factory: pytest.TempPathFactory) -> Iterator[list[Written]]:
    """Every document that the program writes of the demo."""
    place = tmp_path_factory.mktemp("documents")
    registry = load(find())
    made = []
    for (page, extra), template in product(VARIANTS.items(), TEMPLATES):
        folder = place / f"job-{page}"
        if not folder.exists():
            shutil.copytree(ROOT / "demo_job", folder)
            with (folder / "job.yaml").open("a", encoding="utf-8") as sheet:
                sheet.write(extra)
        file = place / f"{template}-{page}.pdf"
        pipeline.report(folder, file, registry, registry.template(template), tell=quiet)
        made.append(Written(f"{template} {page}", file, folder))
    work = place / "work.pdf"
    pipeline.work(ROOT / "demo_job", work, registry, tell=quiet)
    made.append(Written("work", work, ROOT / "demo_job"))
    outgoing = ROOT / "demo_job" / "outgoing"
    if outgoing.is_dir():
        file = place / "outgoing.pdf"
        pipeline.report(outgoing, file, registry, tell=quiet)
        made.append(Written("outgoing", file, outgoing))
    yield made
    close()
