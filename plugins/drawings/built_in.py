"""The built-in systems: their titles and walking orders stand in `systems.toml`, their drawings beside it."""

from __future__ import annotations

from importlib import import_module, resources
from typing import cast

import tomli

from reporter.contract import Assessments, Draw, Drawing, DrawingWords, Job, Station, System


def built_in(ident: str, *, draw: Draw, overview: Draw | None = None) -> System:
    """One system as the file tells it."""
    data = tomli.loads(resources.files(__package__).joinpath("systems.toml").read_text("utf-8"))[ident]
    stations = tuple(Station(id=each, title=title) for each, title in data["stations"].items())
    shown = {"title": data["title"], "order": data["order"]}
    return System(id=ident, **shown, stations=stations, draw=draw, overview=overview)


def later(module: str, name: str = "draw") -> Draw:
    """A drawing whose module is imported when it is first drawn: who only grades draws nothing."""

    def draw(job: Job, assessments: Assessments, told: DrawingWords) -> Drawing | None:
        made = cast("Draw", getattr(import_module(f".{module}", __package__), name))
        return made(job, assessments, told)

    return draw
