"""The demo's report and its developed pictures, made once per run, as a page and as a PDF's structure."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

import pytest

from reporter import pipeline
from reporter.develop import develop
from reporter.door import close
from reporter.model.pages import Picture
from reporter.model.report import Report
from reporter.outline import outline
from reporter.registry import find, load
from reporter.web import web

ROOT = Path(__file__).parents[2]


@dataclass(frozen=True)
class Demo:
    """The demo's report, its pictures, and the page made of both."""

    report: Report
    pictures: dict[str, Picture]
    page: str
    file: Path


@pytest.fixture(scope="session")
def demo(tmp_path_factory: pytest.TempPathFactory) -> Demo:
    """Small copies of the photos do: what is looked at is where things stand."""
    scratch = tmp_path_factory.mktemp("web")
    registry, folder = load(find()), ROOT / "demo_job"
    job = pipeline.collect(folder, registry)
    template = registry.template(job.sheet.purpose)
    report = outline(job, pipeline.grade(job, registry, template), template, registry)
    pictures = develop(report, folder, scratch, dpi=60)
    close()
    file = scratch / "demo.html"
    page = web(report, pictures)
    file.write_text(page, "utf-8")
    return Demo(report, pictures, page, file)
