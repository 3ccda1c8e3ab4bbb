"""Words inside pictures: how wide they come out, and the white plate under them.

The reader's own sans-serif sets the type, so widths are told from the shares of common ones, and the browser is asked
to fit each line to its width (SVG 2, 11.4: textLength).
"""

from __future__ import annotations

from collections.abc import Sequence
from textwrap import wrap

from reporter.web.markup import Markup, figure, joined, tag

SIZE = 13.0
"""Type (px) on photos and bars."""
LEADING = 15.0
PAD = 4.0
_NARROW, _BROAD = "iljtfr.,:;'|!()[]- \u00a0\u202f1", "mwMW@%—"


def screen_width(words: str, size: float = SIZE) -> float:
    """Width of `words`, as wide as `size` is high: a quarter to nine tenths of the size for each letter."""
    ems = sum(
        0.32 if letter in _NARROW else 0.86 if letter in _BROAD else 0.64 if letter.isupper() else 0.55
        for letter in words
    )
    return ems * size


def lines_of(words: str, letters: int) -> list[str]:
    """Words broken into lines of at most so many letters."""
    return wrap(" ".join(words.split(" ")), letters) or [""]


def plate(lines: Sequence[str], left: float, top: float) -> Markup:
    """Lines on a white plate, from its upper left corner."""
    wide, high = plate_size(lines)
    ground = tag("rect", class_="plate", x=left, y=top, width=wide, height=high, rx=2)
    set_lines = (
        tag(
            "text",
            line,
            class_="on-plate",
            x=left + PAD,
            y=top + PAD - 2 + LEADING * (number + 0.8),
            textLength=figure(screen_width(line)),
            lengthAdjust="spacingAndGlyphs",
        )
        for number, line in enumerate(lines)
    )
    return joined([ground, *set_lines])


def plate_size(lines: Sequence[str]) -> tuple[float, float]:
    """Width and height of such a plate."""
    return max(map(screen_width, lines)) + 2 * PAD, len(lines) * LEADING + 2 * PAD - 2
