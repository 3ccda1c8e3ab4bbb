"""Silhouettes of fittings that have one size on paper, out of `symbols.toml`.

Comes in: a symbol's name, and where it stands in points. Goes out: shapes. A part that is not listed is drawn dashed and
without fill. Nothing here knows a job or a grade.
"""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from functools import cache
from importlib import resources
from typing import Any

from reporter.contract import XY, Ellipse, Path, Shape


def symbol(name: str, at: XY, size: float = 1.0, *, dashed: bool = False) -> tuple[Shape, ...]:
    """The shapes of a symbol; KeyError for a name that the file does not hold."""
    return tuple(_shape(each, at, size, dashed=dashed) for each in _symbols()[name]["shapes"])


@cache
def _symbols() -> dict[str, Any]:
    file = resources.files(__package__ or "") / "symbols.toml"
    return tomllib.loads(file.read_text("utf-8"))


def _shape(entry: Mapping[str, Any], at: XY, size: float, *, dashed: bool) -> Shape:
    if "dot" in entry:
        return dot(at, entry["dot"], dashed=dashed)
    look = {**entry, "dashed": dashed}
    if dashed:
        look["fill"] = "none"
    if "points" not in entry:
        return Ellipse.model_validate({**look, "centre": at})
    points = [(at[0] + x * size, at[1] + y * size) for x, y in entry["points"]]
    return Path.model_validate({**look, "points": points})


def dot(at: XY, radius: float, *, dashed: bool) -> Ellipse:
    """A dot; too small to be dashed, it is left empty where nothing is listed."""
    look = {"fill": "white", "stroke": "second"} if dashed else {"fill": "ink"}
    return Ellipse.model_validate({"centre": at, "radii": (radius, radius), "weight": "fine", **look})
