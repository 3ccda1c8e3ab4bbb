"""Lines for a terminal of 80 columns."""

from __future__ import annotations

from textwrap import wrap

WIDTH = 78


def wrapped(text: str, indent: int) -> list[str]:
    """The text on lines of at most `WIDTH` characters, all but the first set in by two more."""
    pad = " " * indent
    return wrap(
        text.replace("\u00a0", " "),
        WIDTH,
        initial_indent=pad,
        subsequent_indent=pad + "  ",
        break_on_hyphens=False,
    )
