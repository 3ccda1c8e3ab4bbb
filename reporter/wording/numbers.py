"""Dates and numbers as every report prints them, in the language that is being spoken.

Names of months, the decimal mark and plural forms are Babel's (Unicode CLDR). Which language it is holds for one run of the
program from the moment it is said (`in_language`); all else about a number stands here.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from contextvars import ContextVar
from functools import cache
from typing import NamedTuple

from babel import Locale

from reporter.engineering import units
from reporter.engineering.figures import deserved, in_full
from reporter.model.quantity import PartialDate

ENGLISH = Locale("en", "GB")
ORDINAL = {"de": "."}
"""What stands behind the number of a day."""
NO_BREAK = "\u00a0"
MINUS = "\u2212"
NOISE = 1e-12


class Voice(NamedTuple):
    """The language of the run, and what it calls the units that are words: (one, several)."""

    locale: Locale = ENGLISH
    units: Mapping[str, tuple[str, str]] = {}


_VOICE: ContextVar[Voice] = ContextVar("voice", default=Voice())  # noqa: B039  (never changed, only replaced)


@contextmanager
def in_language(lang: str, units_called: Mapping[str, tuple[str, str]]) -> Iterator[None]:
    """Within this block dates and numbers are printed as that language does."""
    before = _VOICE.set(Voice(locale(lang), units_called))
    try:
        yield
    finally:
        _VOICE.reset(before)


@cache
def locale(lang: str) -> Locale:
    """What Babel knows of a language; English as it is written in Britain."""
    return ENGLISH if lang == "en" else Locale.parse(lang)


def now_spoken() -> Locale:
    """The language that is being spoken."""
    return _VOICE.get().locale


def date(day: dt.date | PartialDate | None) -> str:
    """A date as "12 May 2027"; as much of it as is known."""
    if day is None:
        return ""
    spoken = now_spoken()
    parts = [f"{day.day}{ORDINAL.get(spoken.language, '')}"] if day.day else []
    parts += [spoken.months["format"]["wide"][day.month]] if day.month else []
    return NO_BREAK.join([*parts, str(day.year)])


def number(value: float, *, expanded: float = 0.0, decimals: int | None = None) -> str:
    """A number with the decimals that its uncertainty deserves (two figures of U), or three figures without one."""
    value = _told_from_zero(value)
    if decimals is None:
        decimals = deserved(value, expanded)
    text = f"{round(value, decimals):.{max(decimals, 0)}f}"
    if float(text) == 0:
        text = text.lstrip("-")
    whole, point, rest = text.partition(".")
    if len(whole.lstrip("-")) > 4:  # noqa: PLR2004  (four figures stand without a gap: ISO 80000-1, 7.3.1)
        whole = f"{int(whole):,}".replace(",", NO_BREAK)
    mark = now_spoken().number_symbols["latn"]["decimal"] if point else ""
    return f"{whole}{mark}{rest}".replace("-", MINUS)


def _told_from_zero(value: float) -> float:
    """What a difference of equal numbers leaves in the last bit is nothing; no unit printed here is so small."""
    return 0.0 if abs(value) < NOISE else value


def exact(value: float) -> str:
    """A number that has no uncertainty (a limit, a count) with the figures it was given with."""
    value = _told_from_zero(value)
    decimals = in_full(value)
    return number(value, decimals=in_full(float(f"{value:.6g}")) if decimals is None else decimals)


def quantity(base: float, unit: str, *, expanded: float = 0.0, decimals: int | None = None) -> str:
    """A value of a base unit printed in `unit`, with "± U" where U (k = 2, base unit) is not 0."""
    shown, spread = units.from_base(base, unit), abs(units.from_base(expanded, unit))
    return with_unit(with_spread(shown, spread, decimals=decimals), unit)


def with_spread(value: float, expanded: float, *, decimals: int | None = None) -> str:
    """A number with "± U" where U is not 0: U with the figures that it deserves, and no more than the number has."""
    text = number(value, expanded=expanded, decimals=decimals)
    if not expanded:
        return text
    own = deserved(expanded, expanded)
    digits = own if decimals is None else min(own, decimals)
    return f"{text}{NO_BREAK}±{NO_BREAK}{number(expanded, decimals=digits)}"


def joined(by: str, *texts: str) -> str:
    """The texts that say something, with `by` between them."""
    return by.join(text for text in texts if text)


def as_written(text: str, unit: str) -> str:
    """A reading as it was written down, with the unit that its column gave where the text has none."""
    return text if any(char.isalpha() or char in "°%\"'" for char in text) else with_unit(text, unit)


def with_unit(text: str, unit: str) -> str:
    """`text` with its unit behind a space that does not break; nothing for a bare count; no space before °."""
    if unit in {"", "1"}:
        return text
    if called := _VOICE.get().units.get(unit):
        unit = called[0] if text == "1" else called[1]
    elif text == "1" and unit.endswith("s") and len(unit) > 2:  # noqa: PLR2004  (links, turns, years; not m/s)
        unit = unit[:-1]
    return f"{text}{unit}" if unit == "°" else f"{text}{NO_BREAK}{unit}"
