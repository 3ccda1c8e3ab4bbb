"""Every sum that the program declares, found by importing all of it."""

from __future__ import annotations

import importlib
import pkgutil
from functools import cache

import reporter.engineering
from reporter.engineering.declaration import Formula


@cache
def every_formula() -> tuple[Formula[...], ...]:
    """The formulas of all modules, sorted by name."""
    found: dict[int, Formula[...]] = {}
    for package in (reporter.engineering, importlib.import_module("reporter_plugins")):
        for module in pkgutil.walk_packages(package.__path__, f"{package.__name__}."):
            for each in vars(importlib.import_module(module.name)).values():
                if isinstance(each, Formula):
                    found[id(each)] = each
    return tuple(sorted(found.values(), key=lambda each: each.name))
