"""The demo's folders read and graded once, for all tests that look at them, or outline them with small changes."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from reporter.door import close
from reporter.model.assessment import Assessments
from reporter.model.job import Job
from reporter.pipeline import collect, grade
from reporter.registry import Registry, find, load

ROOT = Path(__file__).parents[2]
DEMO = ROOT / "demo_job"


@cache
def registry() -> Registry:
    """The installed kinds and templates."""
    return load(find())


@cache
def job_of(folder: Path) -> Job:
    """A folder, read; nobody may change it."""
    job = collect(folder, registry())
    close()
    return job


@cache
def graded_of(folder: Path, template: str) -> Assessments:
    """A folder's grades by one template; nobody may change them."""
    return grade(job_of(folder), registry(), registry().template(template))
