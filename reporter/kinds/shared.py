"""Blocks that several kinds share: `use = ["aloft"]` lays the tables of `shared/aloft.toml` beneath the kind's own.

Comes in: a kind's file as read. Goes out: the same with its blocks laid beneath. An entry that the kind names
itself stays where it stands and changes only what it says; the others of a block follow the kind's own.
"""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from functools import cache
from importlib import resources
from typing import Any


def laid_over(data: Mapping[str, Any]) -> dict[str, Any]:
    """The kind's own tables over those of the blocks it uses; KeyError names a block that does not exist."""
    result = dict(data)
    for name in data.get("use", ()):
        result = merged(_block(name), result)
    return result


def merged(beneath: Mapping[str, Any], above: Mapping[str, Any]) -> dict[str, Any]:
    """Both, table by table; where both say something, `above` holds, and its order comes first."""
    result = dict(above)
    for key, low in beneath.items():
        high = above.get(key)
        if isinstance(low, Mapping) and isinstance(high, Mapping):
            result[key] = merged(low, high)
        elif key not in above:
            result[key] = low
    return result


@cache
def _block(name: str) -> dict[str, Any]:
    try:
        text = resources.files("reporter.kinds").joinpath(f"shared/{name}.toml").read_text("utf-8")
    except FileNotFoundError as error:
        raise KeyError(f"use: there is no shared block called '{name}'") from error
    return tomllib.loads(text)
