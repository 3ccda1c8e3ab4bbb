"""What is wrong with a text that should be a date, in plain words.

In: the text, and whether a bare year or month will do. Out: None, or what is wrong and what to write.
"""

from __future__ import annotations

import datetime as dt
import re

_ISO = re.compile(r"([0-9]{4})(?:-([0-9]{1,2})(?:-([0-9]{1,2}))?)?")
_DAY_FIRST = re.compile(r"([0-9]{1,2})[./ -]([0-9]{1,2})[./ -]([0-9]{4})")
_MONTH_YEAR = re.compile(r"(0?[1-9]|1[0-2])[./ -]([0-9]{4})")
_NAMES = tuple(
    frozenset(each.split())
    for each in (
        "january jan januar jänner", "february feb februar", "march mar märz mär", "april apr", "may mai", "june jun juni",
        "july jul juli", "august aug", "september sep sept", "october oct oktober okt", "november nov",
        "december dec dezember dez",
    )
)  # fmt: skip
_WORDY = re.compile(
    r"(?:([0-9]{1,2})(?:st|nd|rd|th)?[ .-]+)?([A-Za-zä]{3,9})\.?[ ,-]+(?:([0-9]{1,2}),? +)?([0-9]{4})"
)
EARLIEST = 1850
LATEST = 2199


def in_iso(text: str) -> str:
    """The date that a report prints as "3 May 2026", "May 2026" or "3. Mai 2026", as 2026-05-03; else the text itself."""
    found = _WORDY.fullmatch(text.strip().replace("\u00a0", " "))
    month = _month(found[2]) if found else 0
    if not found or not month:
        return text
    day = found[1] or found[3]
    return f"{found[4]}-{month:02d}" + (f"-{int(day):02d}" if day else "")


def _month(name: str) -> int:
    """1 to 12; 0 for what is no month in English or German."""
    tidy = name.casefold().removesuffix(".")
    return next((number for number, names in enumerate(_NAMES, 1) if tidy in names), 0)


def date_fault(text: str, *, partial: bool) -> tuple[str, str] | None:
    """What is wrong and what to do, or None when `text` is a date (or, if `partial`, a year or a month)."""
    form = (
        "Write 2026-05-12, or 2026-05 or 2026 if no more is known." if partial else "Write it as 2026-05-12."
    )
    text = text.strip()
    found = _ISO.fullmatch(text)
    if not found:
        return _other_order(text, form)
    year, month, day = (int(each) if each else None for each in found.groups())
    if fault := _impossible(text, int(year or 0), month, day):
        return fault, "Correct the date."
    if day is None and not partial:
        return f"'{text}' has no day.", form
    tidy = "-".join(each.zfill(2) for each in text.split("-"))
    return None if tidy == text else (f"'{text}' lacks a nought.", f"Write {tidy}.")


def _impossible(text: str, year: int, month: int | None, day: int | None) -> str:
    if not EARLIEST <= year <= LATEST:
        return f"'{text}' cannot be: the year is {year:04d}."
    if month is not None and not 1 <= month <= 12:  # noqa: PLR2004 - months of the year
        return f"'{text}' cannot be: there is no month {month}."
    try:
        dt.date(year, month or 1, 1 if day is None else day)
    except ValueError:
        return f"'{text}' cannot be: that month has no day {day}."
    return ""


def _other_order(text: str, form: str) -> tuple[str, str]:
    """A date in another order than ours; a suggestion only where it is clear which number is the day."""
    what = f"'{text}' is not written as a date."
    if _WORDY.fullmatch(text):
        if (iso := in_iso(text)) != text:
            return what, f"Write {iso}."
    elif month_year := _MONTH_YEAR.fullmatch(text):
        return what, f"Write {month_year[2]}-{int(month_year[1]):02d}."
    elif numeric := _DAY_FIRST.fullmatch(text):
        first, second, year = (int(each) for each in numeric.groups())
        one, other = f"{year}-{second:02d}-{first:02d}", f"{year}-{first:02d}-{second:02d}"
        possible = [each for each in (one, other) if date_fault(each, partial=False) is None]
        if possible:
            return what, f"Write {' or '.join(dict.fromkeys(possible))}."
    return what, form
