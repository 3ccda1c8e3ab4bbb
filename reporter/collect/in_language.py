"""What is wrong with a folder, told in the language of the job instead of English.

Comes in: problems and remarks as collecting words them, a language, the installed kinds. Goes out: the same in that language.
As with any table of translations keyed by its source text, the English sentence is the key; what was put into it (a name, a
number, a list) is found again by its place and put into the other language's sentence. A sentence that the table lacks
stays English; `refusals.<lang>.toml` beside the catalogues holds the table.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import lru_cache
from importlib import resources
from pathlib import Path

import tomli

from reporter.errors import Frame, JobError
from reporter.model.plugin import Plugin

_SLOT = re.compile(r"\\\{([0-9])\\\}")
_LANG = re.compile(r"^lang: *['\"]?([a-z]{2})\b", re.MULTILINE)
_MORE = re.compile(r"(.*), and ([0-9]+) more")
_FIGURE = re.compile(r"(.+?) (-?[0-9(].*)")
_TOLD = re.compile(r"([\w.-]+) \((.+)\)")
_ENTRY = re.compile(r"\bentry ([0-9]+)(?= ›|$)")
_END = re.compile(r"(?<=[.?]) ")


def written_language(folder: Path) -> str:
    """The language that the folder's job.yaml asks for, as far as that can be read however broken the file is."""
    try:
        found = _LANG.search((folder / "job.yaml").read_text("utf-8", errors="replace")[:100_000])
    except (OSError, ValueError):
        return "en"
    return found[1] if found else "en"


@dataclass(frozen=True)
class Translator:
    """The table of one language; `words` also holds what kinds call their parts, from English to that language."""

    frame: Frame
    words: Mapping[str, str]
    sentences: tuple[tuple[re.Pattern[str], str], ...]

    def error(self, error: JobError) -> JobError:
        """The same problems in this language."""
        told = [
            replace(each, what=self.text(each.what), do=self.text(each.do), key=self._key(each.key))
            for each in error.problems
        ]
        return JobError(told, self.frame)

    def text(self, english: str) -> str:
        """Sentence after sentence; English where the table lacks one."""
        return self._all(english) or english

    def _key(self, key: str) -> str:
        return _ENTRY.sub(lambda found: f"{self.words['entry']} {found[1]}", key)

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
        inner = f"{english[:1].lower()}{english[1:-1]}"
        if english[1:].endswith(".") and (
            told := self._one(inner)
        ):  # what also stands inside other sentences
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


def translator(lang: str, english: Mapping[str, Plugin], told: Mapping[str, Plugin]) -> Translator:
    """The translator of a language; the kinds in English and in that language give the names of what they ask for."""
    table = _read(lang)
    kinds = dict(
        pair for kind, plugin in english.items() if kind in told for pair in _names(plugin, told[kind])
    )
    return Translator(Frame(**table["frame"]), {**kinds, **table["words"]}, _patterns(lang))


@lru_cache
def _patterns(lang: str) -> tuple[tuple[re.Pattern[str], str], ...]:
    """The sentences, those with most words of their own first: they say more exactly what is meant."""
    sentences = sorted(_read(lang)["say"].items(), key=lambda pair: -len(re.sub(r"\{[0-9]\}", "", pair[0])))
    return tuple((_pattern(english), told) for english, told in sentences)


def _pattern(english: str) -> re.Pattern[str]:
    return re.compile(_SLOT.sub(r"(?P<p\1>.+?)", re.escape(english)), re.DOTALL)


@lru_cache
def _read(lang: str) -> dict[str, dict[str, str]]:
    file = resources.files("reporter.wording").joinpath(f"refusals.{lang}.toml")
    return tomli.loads(file.read_text("utf-8"))


def _names(english: Plugin, told: Plugin) -> list[tuple[str, str]]:
    """Each name of a kind, in English and in the other language."""
    pairs = [(english.title.lower(), told.title)]
    for table in ("readings", "details", "observations", "examination", "proof"):
        for one, other in zip(getattr(english, table), getattr(told, table), strict=True):
            pairs += [
                (getattr(one, name), getattr(other, name))
                for name in ("title", "words")
                if hasattr(one, name)
            ]
    for one, other in zip(english.observations, told.observations, strict=True):
        pairs += [(a.words, b.words) for a, b in zip(one.choices, other.choices, strict=True)]
    for one_, other_ in zip(english.details, told.details, strict=True):
        pairs += [(words, other_.choices[ident]) for ident, words in one_.choices.items()]
    return pairs
