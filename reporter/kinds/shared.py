"""Blocks that several kinds share: `use = ["aloft"]` lays the tables of `shared/aloft.toml` beneath the kind's own.

Comes in: a kind's file as read. Goes out: the same with its blocks laid beneath. An entry that the kind names
itself stays where it stands and changes only what it says; the others of a block follow the kind's own.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from importlib import resources
from typing import Any

import tomli

from reporter.kinds.translating import KeyPath, leaves, texts, translated


def laid_over(data: Mapping[str, Any], lang: str = "en") -> dict[str, Any]:
    """The kind's own tables over those of the blocks it uses; KeyError names a block that does not exist.

    In another language the blocks come with their own words, where they have them.
    """
    result = dict(data)
    for name in data.get("use", ()):
        result = merged(block(name, lang), result)
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
def block(name: str, lang: str = "en") -> dict[str, Any]:
    """A shared block, in English or with what it has of another language's words."""
    folder = resources.files("reporter.kinds").joinpath("shared")
    try:
        data = tomli.loads(folder.joinpath(f"{name}.toml").read_text("utf-8"))
    except FileNotFoundError as error:
        raise KeyError(f"use: there is no shared block called '{name}'") from error
    words = folder.joinpath(f"{name}.{lang}.toml")
    return translated(data, tomli.loads(words.read_text("utf-8"))) if words.is_file() else data


def words_of_kind(package: str, kind: str, lang: str) -> tuple[int, int]:
    """How many of a kind's own texts a language has, and how many there are; shared blocks count with every kind."""
    folder, shared = resources.files(package), resources.files("reporter.kinds").joinpath("shared")
    data = tomli.loads(folder.joinpath(f"{kind}.toml").read_text("utf-8"))
    english = {path for path, _ in texts(laid_over(data))}
    told: set[KeyPath] = set()
    for file in (
        folder.joinpath(f"{kind}.{lang}.toml"),
        *(shared.joinpath(f"{name}.{lang}.toml") for name in data.get("use", ())),
    ):
        if file.is_file():
            told |= {path for path, _ in leaves(tomli.loads(file.read_text("utf-8")))}
    return len(told & english), len(english)
