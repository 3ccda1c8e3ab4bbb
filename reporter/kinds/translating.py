"""A kind in another language: `<kind>.<lang>.toml` beside `<kind>.toml` holds its words under the same keys.

Comes in: a kind's file as read, and its words in the other language. Goes out: the same file with those words put in, and
what is still missing. Only words change: ids, numbers, grades, order and sources stay as the kind's own file has them.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

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
