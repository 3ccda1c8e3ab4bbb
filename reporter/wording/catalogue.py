"""One catalogue of words per language, behind ids; trade terms as they are used in the UK or in the US.

Comes in: a language and a choice of terms. Goes out: text. Nothing here knows what a report looks like.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from functools import lru_cache
from importlib import resources
from typing import Any

import tomli
from babel import Locale
from babel.lists import format_list

from reporter.wording.numbers import ENGLISH, NO_BREAK, date, in_language, locale, now_spoken

_NO_NOUNS = re.compile(
    "(Auf|Damit|Das|Fehlende|Gebrochene|Gemessene|Gesichert|In|Laufendes|Nach|Ob|Sein|Seitliche?s?|Sichtbarer?|Stehendes|"
    "Steht|Totes|Verbleibender?|Von|Was|Welche?s?|Wie|Wo|Woran|Zeigt|Zuletzt|Zulässige) "
)
"""With these words titles of the German catalogues begin; every other begins with a noun."""


class _Phrase(str):
    """A text to be put into a sentence: `{x:small}` begins it with a small letter, `{x:large}` with a capital one.

    `{x:on}` puts before a German date what belongs there: "am 20. Juni 2026", "im Oktober 2026", "2026".
    """

    __slots__ = ()

    def __format__(self, spec: str) -> str:
        if spec == "large":
            return self[:1].upper() + self[1:]
        if spec == "on":
            return f"{'im' if self[:1].isalpha() else 'am'} {self}" if NO_BREAK in self else str(self)
        if spec != "small":
            return super().__format__(spec)
        # A name or a unit keeps its capitals.
        return self[:1].lower() + self[1:] if self[1:2].islower() else str(self)


class Listed(tuple[str, ...]):
    """Several texts that print as `a`, `a and b`, `a, b and c`; `small` begins each with a small letter.

    Where one of them has a comma or an "and" of its own, semicolons part them: "mast; boom and vang".
    """

    __slots__ = ()

    def __str__(self) -> str:
        spoken = now_spoken()
        joint = format_list(["", ""], locale=spoken)
        if len(self) > 1 and any(", " in each or joint in each for each in self):
            return "; ".join(self)
        # British lists have no comma before "and".
        return format_list(list(self), locale=spoken) if self else ""

    def __format__(self, spec: str) -> str:
        return str(Listed(format(_Phrase(each), spec) for each in self))


class Catalogue:
    """Words by id; `{name}` is filled in, `[term]` names a trade term of the chosen usage."""

    def __init__(
        self,
        words: dict[str, str],
        terms: dict[str, str],
        spoken: Locale = ENGLISH,
        cited: Mapping[str, str] | None = None,
    ) -> None:
        self._words = words
        self._cited = cited or {}
        self._terms = terms
        self.locale = spoken

    def __call__(self, ident: str, /, **values: object) -> str:
        """The words of `ident` with `values` put in; KeyError for an unknown id."""
        return self.filled(self._words[ident], values)

    def filled(self, message: str, values: Mapping[str, object]) -> str:
        """A message with `values` put in; `{title:small}` begins the word with a small letter, as inside a sentence."""
        put = {key: _Phrase(value) if isinstance(value, str) else value for key, value in values.items()}
        return self.terms(message.format(**put))

    def terms(self, text: str) -> str:
        """`text` with each `[term]` replaced by the chosen usage: [bottle screw], [split pin]."""
        for term, chosen in self._terms.items() if "[" in text else ():
            text = text.replace(f"[{term}]", chosen)
        return text

    def inside(self, word: str) -> str:
        """A title as it stands inside a sentence: English begins it with a small letter, German only what is no noun."""
        small = self.locale.language == "en" or bool(_NO_NOUNS.match(word))
        return format(_Phrase(word), "small") if small else word

    def either(self, ident: str, otherwise: str) -> str:
        """The words of `ident`, else `otherwise`: what English declares beside its code stands there and nowhere else."""
        return self.terms(self._words.get(ident, otherwise))

    def cited(self, text: str) -> str:
        """The generic words of a source ("common practice") in this language; the name of a publication stands as it is."""
        return self._cited.get(text, text)

    def has(self, ident: str) -> bool:
        """True when there are words for `ident`."""
        return ident in self._words

    @property
    def ids(self) -> tuple[str, ...]:
        """Every id, sorted."""
        return tuple(sorted(self._words))

    @staticmethod
    def listed(parts: list[str]) -> str:
        """`a`, `a and b`, `a, b and c`."""
        return str(Listed(parts))

    date = staticmethod(date)


@lru_cache
def catalogue(lang: str = "en", terms: str = "uk") -> Catalogue:
    """The catalogue of a language and usage; FileNotFoundError for a language that has none."""
    english = _read("en")
    data = english if lang == "en" else _read(lang)
    usage = {row["uk"]: row.get(terms, row["uk"]) for row in english["usage"]}
    if lang != "en":
        usage |= {row["uk"]: row[lang] for row in data["usage"]}
    cited = {} if lang == "en" else _read(f"sources.{lang}")["said"]
    return Catalogue({**_messages("en"), **_messages(lang)}, usage, locale(lang), cited)


@contextmanager
def speaking(lang: str) -> Iterator[None]:
    """Within this block dates, numbers, lists and units are printed as that language does."""
    called = {
        name: (each["one"], each["other"])
        for name, each in _read(lang).get("unit", {}).items()
        if "one" in each
    }
    with in_language(lang, called):
        yield


def languages() -> tuple[str, ...]:
    """Every language that has a catalogue, English first."""
    found = {file.name.removesuffix(".toml") for file in resources.files(__package__).iterdir()}
    return ("en", *sorted(name for name in found if len(name) == 2 and name != "en"))  # noqa: PLR2004


def completeness(lang: str) -> tuple[int, int]:
    """How many of the program's messages a language has, and how many there are."""
    ids = _messages("en").keys()
    return len(ids & _messages(lang).keys()), len(ids)


@lru_cache
def _read(lang: str) -> dict[str, Any]:
    return tomli.loads(resources.files(__package__).joinpath(f"{lang}.toml").read_text("utf-8"))


@lru_cache
def _messages(lang: str) -> dict[str, str]:
    return dict(_flat(_read(lang)))


def _flat(data: Mapping[str, Any], before: str = "") -> Iterator[tuple[str, str]]:
    """Messages by dotted id; `usage` is no message."""
    for key, value in data.items():
        if isinstance(value, Mapping):
            yield from _flat(value, f"{before}{key}.")
        elif isinstance(value, str):
            yield f"{before}{key}", value
