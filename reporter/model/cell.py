"""One cell of a table, so that a spreadsheet shows it and never runs it.

What begins with one of `RUN` a spreadsheet takes for a formula, quoted or not; a single quote before it makes it text
(OWASP, "CSV Injection"; CWE-1236; ASVS 5.0, 1.2.10). A sign before a plain number stays: it is a number, and is to be one.
Reading takes the quote off again, so a table that went through here says the same as before.
"""

from __future__ import annotations

import re

RUN = "=+-@\t\r\n\0\uff1d\uff0b\uff0d\uff20"
"""The signs themselves, what spreadsheets pass over before one, and the wide forms that East Asian editions read alike."""
_NUMBER = re.compile(r"[-+]?[0-9]+(?:[.,][0-9]+)?")


def inert(text: str) -> str:
    """The cell as it is written into a file."""
    # A quote that stands there already gets another, so that reading gives back what was written.
    runs = text.lstrip(" '").startswith(tuple(RUN)) and not _NUMBER.fullmatch(text.lstrip("'"))
    return f"'{text}" if runs else text


def plain(text: str) -> str:
    """The cell as it was meant, read out of a file."""
    return text[1:] if text.startswith("'") and inert(text[1:]) != text[1:] else text
