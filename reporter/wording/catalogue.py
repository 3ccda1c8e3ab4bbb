"""One catalogue of words per language, behind ids; trade terms as they are used in the UK or in the US.

Comes in: a language and a choice of terms. Goes out: text. Nothing here knows what a report looks like.
"""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from functools import lru_cache
from importlib import resources

from reporter.wording.numbers import date


class _Phrase(str):
    """Text that knows how it looks inside a sentence."""

    __slots__ = ()

    def __format__(self, spec: str) -> str:
        if spec != "small":
            return super().__format__(spec)
        # A name or a unit keeps its capitals.
        return self[:1].lower() + self[1:] if self[1:2].islower() else str(self)


class Listed(tuple[str, ...]):
    """Several texts that print as `a`, `a and b`, `a, b and c`; `small` begins each with a small letter."""

    __slots__ = ()

    def __str__(self) -> str:
        if len(self) < 2:  # noqa: PLR2004  (a list of one needs no "and")
            return "".join(self)
        return f"{', '.join(self[:-1])} and {self[-1]}"

    def __format__(self, spec: str) -> str:
        return str(Listed(format(_Phrase(each), spec) for each in self))


class Catalogue:
    """Words by id; `{name}` is filled in, `{{term}}` names a trade term of the chosen usage."""

    def __init__(self, words: dict[str, str], terms: dict[str, str]) -> None:
        self._words = words
        self._terms = terms

    def __call__(self, ident: str, /, **values: object) -> str:
        """The words of `ident` with `values` put in; KeyError for an unknown id."""
        return self.filled(self._words[ident], values)

    def filled(self, message: str, values: Mapping[str, object]) -> str:
        """A message with `values` put in; `{title:small}` begins the word with a small letter, as inside a sentence."""
        put = {key: _Phrase(value) if isinstance(value, str) else value for key, value in values.items()}
        return self.terms(message.format(**put))

    def terms(self, text: str) -> str:
        """`text` with each `[term]` replaced by the chosen usage: [bottle screw], [split pin]."""
        for term, chosen in self._terms.items():
            text = text.replace(f"[{term}]", chosen)
        return text

    def either(self, ident: str, otherwise: str) -> str:
        """The words of `ident`, else `otherwise`: what English declares beside its code stands there and nowhere else."""
        return self.terms(self._words.get(ident, otherwise))

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
    data = tomllib.loads(resources.files(__package__).joinpath(f"{lang}.toml").read_text("utf-8"))
    words = {
        f"{section}.{key}": text
        for section, rows in data.items()
        if section != "usage"
        for key, text in rows.items()
    }
    chosen = {row["uk"]: row[terms] for row in data["usage"]}
    return Catalogue(words, chosen)
