"""Lines for a terminal of 80 columns."""

from __future__ import annotations

from textwrap import wrap

from reporter.model.unseen_characters import visible

WIDTH = 78


def wrapped(text: str, indent: int) -> list[str]:
    """The text on lines of at most `WIDTH` characters, all but the first set in by two more."""
    pad = " " * indent
    return wrap(
        visible(text.replace("\u00a0", " ")),
        WIDTH,
        initial_indent=pad,
        subsequent_indent=pad + "  ",
        break_on_hyphens=False,
    )
