"""The measure bar as inline SVG: a reading as a dot with its whisker on a bar from unworn to just past the limit.

Comes in: a `MeasureBar`. Goes out: one SVG whose places are percentages, so that it fits any screen; labels keep their
size, on as many rows as they need not to touch on the narrowest. Must not judge anything.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from reporter.model.measure_bar import MeasureBar
from reporter.typeset.places import Stretch, take_row
from reporter.web.lettering import LEADING, lines_of, screen_width
from reporter.web.markup import Markup, joined, share, tag
from reporter.web.places import NARROW

_INSET = 0.025
_BAR = 18.0
_GAP = 6.0
_LETTERS = 36


@dataclass(frozen=True, slots=True)
class _Label:
    """One line of a label: where its mark is as a fraction, how it hangs there, and its row from the bar outwards."""

    words: str
    at: float
    anchor: str
    row: int


def measure_bar(block: MeasureBar) -> Markup:
    """The bar with the reading's label above, limits and earlier readings below; `alt` says the same in words."""
    bands = [(band.word, _at(block, (band.start + band.end) / 2)) for band in block.bands if band.word]
    above = _labels([(block.label, _at(block, block.value)), *bands])
    ticks = [(tick.label, _at(block, tick.at)) for tick in block.ticks]
    ends = [(block.low_label, _at(block, block.low)), (block.high_label, _at(block, block.high))]
    past = [(dot.label, _at(block, dot.value)) for dot in block.earlier]
    below = _labels([*ticks, *past, *(end for end in ends if end[0])])
    top = _depth(above) + 6
    parts = [
        _track(block, top),
        *(_line(label, top - 8 - label.row * LEADING, "reading") for label in above),
        *(_line(label, top + _BAR + 15 + label.row * LEADING, "limit") for label in below),
    ]
    high = top + _BAR + _depth(below) + 8
    return tag("svg", *parts, class_="bar", height=high, role="img", aria_label=block.alt or block.label)


def _labels(wanted: list[tuple[str, float]]) -> list[_Label]:
    rows: list[list[Stretch]] = []
    made: list[_Label] = []
    for words, at in wanted:
        lines = [line for line in lines_of(words, _LETTERS) if line]
        anchor, left, right = _hang(max(map(screen_width, lines), default=0.0), at * NARROW)
        row = take_row(rows, (left, right), _GAP, len(lines))
        made += [_Label(line, at, anchor, row + number) for number, line in enumerate(lines)]
    return made


def _hang(wide: float, at: float) -> tuple[str, float, float]:
    """How a label hangs at its mark so as to fit the narrowest screen, and its edges there."""
    if wide / 2 <= at <= NARROW - wide / 2:
        return "middle", at - wide / 2, at + wide / 2
    return ("end", at - wide, at) if at > NARROW / 2 else ("start", at, at + wide)


def _depth(labels: list[_Label]) -> float:
    return LEADING * (1 + max((label.row for label in labels), default=-1))


def _line(label: _Label, base: float, look: str) -> Markup:
    return tag("text", label.words, x=share(label.at), y=base, text_anchor=label.anchor, class_=look)


def _track(block: MeasureBar, top: float) -> Markup:
    box: dict[str, str | float] = {"y": top, "height": _BAR}
    whole: dict[str, str | float] = {"x": share(_INSET), "width": share(1 - 2 * _INSET), **box}
    parts = [tag("rect", class_="track", **whole)]
    for band in block.bands:
        start, end = sorted((_at(block, band.start), _at(block, band.end)))
        parts.append(
            tag("rect", x=share(start), width=share(end - start), class_=f"band f-{band.grade.value}", **box)
        )
    parts.append(tag("rect", class_="frame", **whole))
    parts += [_upright(_at(block, tick.at), top - 4, top + _BAR + 5, "tick") for tick in block.ticks]
    middle = top + _BAR / 2
    for dot in block.earlier:
        at = _at(block, dot.value)
        parts += [
            _upright(at, top + _BAR, top + _BAR + 5, "stem"),
            tag("circle", cx=share(at), cy=middle, r=3.6, class_="earlier"),
        ]
    at = _at(block, block.value)
    parts += [*_whisker(block, middle), _upright(at, top - 5, top, "stem")]
    return joined([*parts, tag("circle", cx=share(at), cy=middle, r=4.6, class_="now")])


def _whisker(block: MeasureBar, middle: float) -> list[Markup]:
    """The expanded uncertainty, light under dark so that it shows on every band."""
    start = _at(block, block.value - block.expanded)
    end = _at(block, block.value + block.expanded)
    if not math.isfinite(block.expanded) or end == start:
        return []
    parts = []
    for cut in ("halo", "core"):
        parts.append(tag("line", x1=share(start), y1=middle, x2=share(end), y2=middle, class_=cut))
        parts += [_upright(at, middle - 4, middle + 4, cut) for at in (start, end)]
    return parts


def _upright(at: float, top: float, bottom: float, look: str) -> Markup:
    return tag("line", x1=share(at), y1=top, x2=share(at), y2=bottom, class_=look)


def _at(bar: MeasureBar, value: float) -> float:
    """Where a value stands as a fraction of the picture's width."""
    return _INSET + bar.share(value) * (1 - 2 * _INSET)
