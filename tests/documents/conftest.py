"""Whole documents written once per run: every template, both page sizes, both usages, the work list."""

from __future__ import annotations

import shutil
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from itertools import product
from pathlib import Path

import pytest

from reporter import pipeline
from reporter.archive import archive
from reporter.develop import develop
from reporter.door import close
from reporter.model.pages import Pages, Picture
from reporter.model.report import Report
from reporter.outline import outline
from reporter.outline.work_list import work_list
from reporter.registry import find, load
from reporter.typeset import typeset

ROOT = Path(__file__).parents[2]
TEMPLATES = ("pre_purchase", "handover", "insurance")
VARIANTS = {"A4": "", "Letter": "\npage: Letter\nunits: imperial\nterms: us\n"}


@dataclass(frozen=True)
class Written:
    """A document on disk, the job folder that it was written from, and the laid-out pages before archiving."""

    name: str
    file: Path
    folder: Path
    pages: Pages
    document: Report
    pictures: Mapping[str, Picture]


def quiet(_step: str) -> None:
    """Progress that nobody reads."""


def write(name: str, document: Report, folder: Path, place: Path) -> Written:
    """Steps 4 to 6 as the pipeline takes them, with the laid-out pages kept for the tests."""
    scratch = place / f"scratch {name}"
    scratch.mkdir()
    pictures = develop(document, folder, scratch)
    pages = typeset(document, pictures, scratch / "pages.pdf")
    file = place / f"{name.replace(' ', '-')}.pdf"
    archive(document, pages, file)
    return Written(name, file, folder, pages, document, pictures)


@pytest.fixture(scope="session")
def documents(tmp_path_factory: pytest.TempPathFactory) -> Iterator[list[Written]]:
    """Every document that the program writes of the demo."""
    yield written(tmp_path_factory.mktemp("documents"))
    close()


def written(place: Path) -> list[Written]:
    """Every document of the demo, written below `place`."""
    registry = load(find())
    made = []
    for (page, extra), template in product(VARIANTS.items(), TEMPLATES):
        folder = place / f"job-{page}"
        if not folder.exists():
            shutil.copytree(ROOT / "demo_job", folder)
            with (folder / "job.yaml").open("a", encoding="utf-8") as sheet:
                sheet.write(extra)
        job, chosen = pipeline.collect(folder, registry), registry.template(template)
        document = outline(job, pipeline.grade(job, registry, chosen), chosen, registry)
        made.append(write(f"{template} {page}", document, folder, place))
    for name, folder in (("work", ROOT / "demo_job"), ("outgoing", ROOT / "demo_job" / "outgoing")):
        job = pipeline.collect(folder, registry)
        chosen = registry.template(job.sheet.purpose)
        make = work_list if name == "work" else outline
        made.append(
            write(name, make(job, pipeline.grade(job, registry, chosen), chosen, registry), folder, place)
        )
    return made
