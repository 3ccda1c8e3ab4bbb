"""What a spreadsheet program makes of a fraction or a number, recognised.

In: the text of a value cell. Out: what probably happened and what to do, or None. Spreadsheets take 3/16 for a date and
store it as 16-Mar, 03/16/2026 or a day number; they shorten numbers to 1,27E+02.
"""

from __future__ import annotations

import datetime as dt
import re

_MONTHS = ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec")
_DAY_MONTH = re.compile(r"(?P<number>[0-9]{1,4})[-. /]+(?P<month>[A-Za-z]{3,9})\.?(?:[-. /]+[0-9]{2,4})?")
_MONTH_DAY = re.compile(r"(?P<month>[A-Za-z]{3,9})[-. /]+(?P<number>[0-9]{1,4})")
_NUMERIC = re.compile(
    r"(?P<one>[0-9]{1,2})(?P<mark>[/.-])(?P<two>[0-9]{1,2})(?P=mark)[0-9]{2,4}(?: [0-9:]+)?"
)
_ISO = re.compile(r"[0-9]{4}-(?P<one>[0-9]{2})-(?P<two>[0-9]{2})(?:[ T][0-9:.]+)?")
_SHORTENED = re.compile(r"[-+]?[0-9]+(?:[.,][0-9]+)?E[-+]?[0-9]+", re.IGNORECASE)
_ERROR = re.compile(r"#+|#[A-Z/0!?]+[!?]?", re.IGNORECASE)
_SERIAL = re.compile(r"[0-9]{5}(?:[.,][0-9]+)?")
FIRST_SERIAL, LAST_SERIAL = 36526, 54788
"""Day numbers of 1 January 2000 and 31 December 2049, counted from 30 December 1899."""

AS_TEXT = "Set the column's format to 'text' and type the value again"


def mangled(text: str) -> tuple[str, str] | None:
    """What a spreadsheet did to the value, and what to do; None for a value that looks untouched."""
    if _ERROR.fullmatch(text):
        return f"'{text}' is a spreadsheet's error mark.", "Type the value itself."
    if _SHORTENED.fullmatch(text):
        return f"'{text}' is a number that a spreadsheet shortened.", f"{AS_TEXT}, in full."
    pair = _pair(text)
    if pair is None:
        return None
    fraction = " or ".join(
        dict.fromkeys(f"{over}/{under}" for over, under in (pair, pair[::-1]) if 0 < over < under)
    )
    instead = f"{AS_TEXT} ({fraction or 'the fraction'}, with its unit)."
    return f"'{text}' is a date: a spreadsheet probably made it of a fraction.", instead


def serial(text: str) -> tuple[str, str] | None:
    """The same for a day number such as 46097, which only makes sense to ask where such a value would be absurd."""
    if not _SERIAL.fullmatch(text) or not FIRST_SERIAL <= float(text.replace(",", ".")) <= LAST_SERIAL:
        return None
    day = dt.date(1899, 12, 30) + dt.timedelta(days=int(float(text.replace(",", "."))))
    what = f"'{text}' is absurd here; it may be the day number that a spreadsheet makes of {day.month}/{day.day}."
    return what, f"{AS_TEXT}, with its unit."


def _pair(text: str) -> tuple[int, int] | None:
    """Month and day of a date, the fraction it was made of; None when `text` is no date."""
    for pattern in (_DAY_MONTH, _MONTH_DAY):
        found = pattern.fullmatch(text)
        if found and found["month"][:3].lower() in _MONTHS:
            return _MONTHS.index(found["month"][:3].lower()) + 1, int(found["number"])
    found = _NUMERIC.fullmatch(text) or _ISO.fullmatch(text)
    return (int(found["one"]), int(found["two"])) if found else None
