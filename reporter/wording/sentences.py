"""Sentences of the program that are worded in English where they arise, told in another language at the border.

As with any table of translations keyed by its source text, the English sentence is the key; what was put into it (a name, a
number, a list) is found again by its place and put into the other language's sentence. A sentence that the table lacks
stays English. `refusals.<lang>.toml` is the table of what is wrong with a folder, `terminal.<lang>.toml` that of the command line.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache
from importlib import resources
from typing import Any

import tomli

_SLOT = re.compile(r"\\\{([0-9])\\\}")
_MORE = re.compile(r"(.*), and ([0-9]+) more")
_FIGURE = re.compile(r"(.+?) (-?[0-9(].*)")
_TOLD = re.compile(r"([\w.-]+) \((.+)\)")
_END = re.compile(r"(?<=[.?]) ")


@dataclass(frozen=True)
class Sentences:
    """The sentences of one table as patterns, each with its translation; `words` are those that may stand in them."""

    words: Mapping[str, str]
    sentences: tuple[tuple[re.Pattern[str], str], ...]

    def text(self, english: str) -> str:
        """Sentence after sentence; English where the table lacks one."""
        return self._all(english) or english

    def _all(self, english: str) -> str:
        if whole := self._one(english):
            return whole
        for end in _END.finditer(english):
            first, rest = self._one(english[: end.start()]), english[end.end() :]
            if first and (told := self._all(rest)):
                return f"{first} {told}"
        return ""

    def _one(self, english: str) -> str:
        for pattern, told in self.sentences:
            if found := pattern.fullmatch(english):
                put = {f"{{{name[1:]}}}": self._put(text) for name, text in found.groupdict().items()}
                return re.sub(r"\{[0-9]\}", lambda slot, put=put: put[slot[0]], told)  # type: ignore[misc]
        # What also stands inside other sentences is in the table without its capital and full stop.
        inner = f"{english[:1].lower()}{english[1:-1]}"
        if english[1:].endswith(".") and (told := self._one(inner)):
            return f"{told[:1].upper()}{told[1:]}."
        return ""

    def _put(self, text: str) -> str:
        """What stands in a sentence: a known word, a list cut short, choices with their words, or a name as it is."""
        if text in self.words:
            return self.words[text]
        if cut := _MORE.fullmatch(text):
            return f"{cut[1]} (+ {cut[2]})"
        if (named := _FIGURE.fullmatch(text)) and named[1] in self.words:
            return f"{self.words[named[1]]} {named[2]}"
        parts = [_TOLD.fullmatch(each) for each in text.split("; ")]
        if all(parts):
            return "; ".join(f"{each[1]} ({self.words.get(each[2], each[2])})" for each in parts if each)
        return self._all(text) or text


@lru_cache
def patterns(table: str) -> tuple[tuple[re.Pattern[str], str], ...]:
    """The sentences of a table, those with most words of their own first: they say more exactly what is meant."""
    said = sentences_table(table)["say"].items()
    ordered = sorted(said, key=lambda pair: -len(re.sub(r"\{[0-9]\}", "", pair[0])))
    return tuple(
        (re.compile(_SLOT.sub(r"(?P<p\1>.+?)", re.escape(english)), re.DOTALL), told)
        for english, told in ordered
    )


@lru_cache
def sentences_table(table: str) -> dict[str, Any]:
    """The table of that name, such as `refusals.de`: its sentences under `say`, and what else stands in it."""
    return tomli.loads(resources.files(__package__).joinpath(f"{table}.toml").read_text("utf-8"))
