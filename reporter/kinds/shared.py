"""What lies beneath and over a kind's own file: blocks that several kinds share, and words of another language.

Comes in: a kind's file as read. Goes out: the same with both put in. `use = ["aloft"]` lays the tables of `shared/aloft.toml`
beneath: an entry that the kind names itself stays where it stands and changes only what it says; the others of a block follow
the kind's own. `<kind>.<lang>.toml` beside `<kind>.toml` holds its words under the same keys: only words change; ids, numbers,
grades, order and sources stay.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from functools import cache
from importlib import resources
from typing import Any

import tomli

KeyPath = tuple[str, ...]
WORDS = frozenset(
    {
        "title", "plural", "purpose", "consequence", "words", "help", "method", "better", "recheck", "what", "supply", "why",
        "of", "written_for", "note",
    }
)  # fmt: skip
"""Keys that hold words, wherever they stand."""
LISTS = frozenset({"cautions", "tools", "supplies", "parts", "places"})
"""Keys that hold lists of words; a translation gives the whole list."""
ALL_WORDS = frozenset({"examination", "proof", "says"})
"""Tables in which every value is words."""


def texts(data: Mapping[str, Any], path: KeyPath = ()) -> Iterator[tuple[KeyPath, str | list[str]]]:
    """Every text of a kind's file that a reader may see, by the path of its key."""
    for key, value in data.items():
        here = (*path, key)
        if isinstance(value, Mapping):
            if path[:1] == ("source",) or here[0] == "source" or key in {"source", "only_if", "applies"}:
                continue
            yield from texts(value, here)
        elif _is_words(here, value):
            yield here, value


def _is_words(path: KeyPath, value: Any) -> bool:
    if not value or not isinstance(value, str | list):
        return False
    key = path[-1]
    named = path[0] in ALL_WORDS or (len(path) == 4 and path[0] == "detail" and path[2] == "choices")  # noqa: PLR2004
    return named or key in WORDS or (key in LISTS and isinstance(value, list))


def translated(data: Mapping[str, Any], words: Mapping[str, Any]) -> dict[str, Any]:
    """The kind's file with the words of another language where they are given, in its own order.

    KeyError names a key that the kind does not have, or that holds no words.
    """
    known = {path for path, _ in texts(data)}
    result = _copied(data)
    for path, value in leaves(words):
        if path not in known:
            raise KeyError(f"{'.'.join(path)}: the kind has no such words")
        held = result
        for step in path[:-1]:
            held = held[step]
        if isinstance(value, list) is not isinstance(held[path[-1]], list):
            raise KeyError(f"{'.'.join(path)}: a list stands for a list, and words for words")
        held[path[-1]] = value
    return result


def _copied(data: Mapping[str, Any]) -> dict[str, Any]:
    return {key: _copied(value) if isinstance(value, Mapping) else value for key, value in data.items()}


def leaves(words: Mapping[str, Any], path: KeyPath = ()) -> Iterator[tuple[KeyPath, Any]]:
    """Every text of a language's file, with its path."""
    for key, value in words.items():
        if isinstance(value, Mapping):
            yield from leaves(value, (*path, key))
        else:
            yield (*path, key), value


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
