"""Lines for a terminal of 80 columns."""

from __future__ import annotations

from textwrap import wrap

from reporter.model.unseen_characters import visible

WIDTH = 78


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
    """The text on lines of at most `WIDTH` characters, all but the first set in by two more."""
    pad = " " * indent
    return wrap(
        visible(text.replace("\u00a0", " ")),
        WIDTH,
        initial_indent=pad,
        subsequent_indent=pad + "  ",
        break_on_hyphens=False,
    )
