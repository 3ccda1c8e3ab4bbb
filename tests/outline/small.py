"""The demo's folders read once, for tests that outline them with small changes."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from reporter.door import close
from reporter.model.job import Job
from reporter.pipeline import collect
from reporter.registry import Registry, find, load

ROOT = Path(__file__).parents[2]


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
