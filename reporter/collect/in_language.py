"""What is wrong with a folder, told in the language of the job instead of English.

Comes in: problems and remarks as collecting words them, a language, the installed kinds. Goes out: the same in that language.
"""

from __future__ import annotations

import re
import stat
from collections.abc import Mapping
from dataclasses import dataclass, replace
from pathlib import Path

from reporter.errors import Frame, JobError
from reporter.model.plugin import Plugin
from reporter.wording import catalogue
from reporter.wording.sentences import Sentences, patterns, sentences_table

_LANG = re.compile(r"^lang: *['\"]?([a-z]{2})\b", re.MULTILINE)
_ENTRY = re.compile(r"\bentry ([0-9]+)(?= ›|$)")


def written_language(folder: Path) -> str:
    """The language that the folder's job.yaml asks for, as far as that can be read however broken the file is."""
    sheet = folder / "job.yaml"
    try:
        if not stat.S_ISREG(sheet.lstat().st_mode):
            return "en"  # a pipe would be waited for
        with sheet.open("rb") as file:
            found = _LANG.search(file.read(100_000).decode("utf-8", "replace").replace("\r\n", "\n"))
    except (OSError, ValueError):
        return "en"
    return found[1] if found else "en"


@dataclass(frozen=True)
class Translator(Sentences):
    """The table of one language; `words` also holds what kinds call their parts, from English to that language."""

    frame: Frame

    def error(self, error: JobError) -> JobError:
        """The same problems in this language."""
        told = [
            replace(each, what=self.text(each.what), do=self.text(each.do), key=self._key(each.key))
            for each in error.problems
        ]
        return JobError(told, self.frame)

    def _key(self, key: str) -> str:
        return _ENTRY.sub(lambda found: f"{self.words['entry']} {found[1]}", key)


def translator(lang: str, english: Mapping[str, Plugin], told: Mapping[str, Plugin]) -> Translator:
    """The translator of a language; the kinds in English and in that language give the names of what they ask for."""
    name = f"refusals.{lang}"
    table = sentences_table(name)
    # Trade terms stand in a problem as the kinds' own usage has them.
    terms = catalogue().terms
    kinds = {
        terms(one): other
        for kind, plugin in english.items()
        if kind in told
        for one, other in _names(plugin, told[kind])
    }
    return Translator({**kinds, **table["words"]}, patterns(name), Frame(**table["frame"]))


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
