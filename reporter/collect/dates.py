"""What is wrong with a text that should be a date, in plain words.

In: the text, and whether a bare year or month will do. Out: None, or what is wrong and what to write.
"""

from __future__ import annotations

import datetime as dt
import re

_ISO = re.compile(r"([0-9]{4})(?:-([0-9]{1,2})(?:-([0-9]{1,2}))?)?")
_DAY_FIRST = re.compile(r"([0-9]{1,2})[./ -]([0-9]{1,2})[./ -]([0-9]{4})")
_MONTH_YEAR = re.compile(r"(0?[1-9]|1[0-2])[./ -]([0-9]{4})")
_MONTHS = ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec")
_WORDY = re.compile(
    r"(?:([0-9]{1,2})(?:st|nd|rd|th)?[ .-]+)?([A-Za-z]{3,9})\.?[ ,-]+(?:([0-9]{1,2}),? +)?([0-9]{4})"
)
EARLIEST = 1850
LATEST = 2199


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
    if wordy := _WORDY.fullmatch(text):
        before, name, after, year = wordy.groups()
        day = before or after
        month = _MONTHS.index(name[:3].lower()) + 1 if name[:3].lower() in _MONTHS else 0
        if month:
            return what, f"Write {year}-{month:02d}" + (f"-{int(day):02d}." if day else ".")
    elif month_year := _MONTH_YEAR.fullmatch(text):
        return what, f"Write {month_year[2]}-{int(month_year[1]):02d}."
    elif numeric := _DAY_FIRST.fullmatch(text):
        first, second, year = (int(each) for each in numeric.groups())
        one, other = f"{year}-{second:02d}-{first:02d}", f"{year}-{first:02d}-{second:02d}"
        possible = [each for each in (one, other) if date_fault(each, partial=False) is None]
        if possible:
            return what, f"Write {' or '.join(dict.fromkeys(possible))}."
    return what, form
