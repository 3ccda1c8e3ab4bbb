"""Lines for a terminal, as wide as it is; for a file or another program as for one of 80 columns."""

from __future__ import annotations

import os
import re
import sys
from textwrap import wrap

from reporter.model.unseen_characters import visible

PIPED, LEAST, MOST = 80, 32, 102
"""Columns where no terminal reads; the fewest and the most that lines are made for: longer ones are lost on the way back."""
SPARE = 2
TITLE_AT = 20
"""Where the second column of a list begins."""


def columns() -> int:
    """The columns of the terminal that reads, else those of one that may."""
    try:
        # A terminal that was told no size says 0.
        return (sys.stdout.isatty() and os.get_terminal_size(sys.stdout.fileno()).columns) or PIPED
    except (OSError, ValueError):
        return PIPED


def width() -> int:
    """Characters that a line may have."""
    return min(max(columns(), LEAST), MOST) - SPARE


def fitted(text: str, columns: int) -> str:
    """Lines of any length on a terminal of that many columns: each goes on under its own beginning, whole words kept."""
    lines = []
    for line in text.split("\n"):
        pad = " " * (len(line) - len(line.lstrip()) + 2)
        broken = wrap(
            line, max(columns, 20), subsequent_indent=pad, break_long_words=False, break_on_hyphens=False,
            drop_whitespace=True, replace_whitespace=False,
        )  # fmt: skip
        lines += broken or [""]
    return "\n".join(lines)


def wrapped(text: str, indent: int) -> list[str]:
    """The text on lines of at most `width()` characters, all but the first set in by two more."""
    pad = " " * indent
    return _lines(text, pad, pad + "  ")


def hanging(lead: str, text: str) -> list[str]:
    """A list's entry: what leads it, and beside it the text, which stays in its column."""
    return _lines(text, f"{lead:<{TITLE_AT}}" if len(lead) < TITLE_AT else f"{lead} ", " " * TITLE_AT)


def on_screen(page: str) -> str:
    """A page of Markdown with its lines parted for a terminal; elsewhere it stays as it is, since a line is a paragraph."""
    if not sys.stdout.isatty():
        return page
    return "\n".join(
        line
        for text in page.splitlines()
        for line in (_lines(text, "", "  " if re.match(r"- ", text) else "") if text else [""])
    )


def _lines(text: str, first: str, others: str) -> list[str]:
    told = visible(text.replace("\u00a0", " "))
    return wrap(told, width(), initial_indent=first, subsequent_indent=others, break_on_hyphens=False)
