"""The measure bar: a reading as a dot with its whisker on a bar from unworn to just past the limit.

Comes in: a `MeasureBar`. Goes out: one slice, one Figure element. Where labels go is pure arithmetic. Must not judge anything.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from reporter.model.report import MeasureBar
from reporter.model.terms import Grade
from reporter.typeset.desk import Desk
from reporter.typeset.glyphs import width
from reporter.typeset.pen import Pen
from reporter.typeset.setting import Run, set_lines
from reporter.typeset.slices import Slice
from reporter.typeset.styles import BLOCK, INK, LABEL, MM, NOTE, RGB, RULE, SECOND, WATER, WHITE
from reporter.typeset.tags import Tag

_INSET = 6 * MM
_TRACK = BLOCK - 2 * _INSET
_BAR = 4.6 * MM
_ROW = 9.6
_GAP = 5.0
_DOT = 3.1
_PALE = 0.5


@dataclass(frozen=True, slots=True)
class Tagline:
    """A label on one of the rows above or below the bar: its words, left edge, row from the bar outwards, its mark."""

    text: str
    left: float
    row: int
    at: float
    bold: bool = False


def rows_of(
    labels: Sequence[tuple[str, float]], whole: float, wide: Sequence[float], *, bold: bool = False
) -> list[Tagline]:
    """Labels centred over their marks, moved in from the edges, and on as many rows as they need not to touch.

    `labels` are words and the mark's place in points; `whole` is the room, `wide` the width of each label.
    """
    rows: list[list[tuple[float, float]]] = []
    placed = []
    for (text, at), breadth in zip(labels, wide, strict=True):
        left = min(max(0.0, at - breadth / 2), max(0.0, whole - breadth))
        row = next((number for number, taken in enumerate(rows) if _is_free(taken, left, breadth)), len(rows))
        if row == len(rows):
            rows.append([])
        rows[row].append((left, left + breadth))
        placed.append(Tagline(text, left, row, at, bold))
    return placed


def _is_free(taken: list[tuple[float, float]], left: float, breadth: float) -> bool:
    return all(left + breadth + _GAP <= start or end + _GAP <= left for start, end in taken)


def place_on(bar: MeasureBar, value: float) -> float:
    """Where a value stands on the track in points from its left end; a value off the bar stands at the nearer end."""
    span = bar.high - bar.low
    if not math.isfinite(value) or not math.isfinite(span) or span == 0:
        return _TRACK if value == math.inf else 0.0
    return min(max((value - bar.low) / span, 0.0), 1.0) * _TRACK


def measure_bar(desk: Desk, block: MeasureBar) -> list[Slice]:
    """The bar with the reading's label above, limits and earlier readings below."""
    above = _labels(desk, [(block.label, block.value)], block, bold=True)
    ticks = [(tick.label, tick.at) for tick in block.ticks]
    below = _labels(desk, ticks + [(dot.label, dot.value) for dot in block.earlier], block, bold=False)
    up = (1 + max((line.row for line in above), default=-1)) * _ROW + 1.4 * MM
    down = (1 + max((line.row for line in below), default=-1)) * _ROW + 1.6 * MM
    tag = desk.tag("Figure", alt=block.alt or block.label)

    def paint(pen: Pen, top: float, height: float) -> None:
        tag.bbox = pen.box(pen.left, top, BLOCK, height)
        with pen.mark(tag):
            _track(pen, block, top + up)
            _taglines(pen, above, top + up - 1.4 * MM, -1)
            _taglines(pen, below, top + up + _BAR + 1.6 * MM, 1)

    return [Slice(up + _BAR + down, paint, above=2.5 * MM, below=3.5 * MM, wide=True)]


def _labels(desk: Desk, labels: list[tuple[str, float]], block: MeasureBar, *, bold: bool) -> list[Tagline]:
    kind = LABEL if bold else NOTE
    parts = []
    for text, value in labels:
        lines = set_lines([Run(desk.clean(text).replace("\n", " "), kind, Tag("Span"))], BLOCK)
        parts += [
            ("".join(piece.text for piece in line.pieces), place_on(block, value) + _INSET) for line in lines
        ]
    parts = [part for part in parts if part[0]]
    return rows_of(parts, BLOCK, [width(text, kind) for text, _ in parts], bold=bold)


def _taglines(pen: Pen, lines: list[Tagline], edge: float, way: int) -> None:
    """Rows grow away from the bar, upwards or downwards."""
    for line in lines:
        kind = LABEL if line.bold else NOTE.but(ink=INK)
        base = edge + way * line.row * _ROW + (kind.size * 0.75 if way > 0 else -1.5)
        pen.words(line.text, kind, pen.left + line.left, base)


def _track(pen: Pen, block: MeasureBar, top: float) -> None:
    left = pen.left + _INSET
    pen.rectangle((left, top), (_TRACK, _BAR), fill=WHITE)
    for band in block.bands:
        start, end = sorted((place_on(block, band.start), place_on(block, band.end)))
        pen.rectangle((left + start, top), (end - start, _BAR), fill=_pale(WATER[band.grade], band.grade))
        if start > 0:
            pen.rule((left + start, top), (left + start, top + _BAR), 0.5, WHITE)
    pen.rectangle((left, top), (_TRACK, _BAR), stroke=SECOND, weight=0.35)
    for tick in block.ticks:
        at = left + place_on(block, tick.at)
        pen.rule((at, top - 1 * MM), (at, top + _BAR + 1.2 * MM), 1.4, INK)
    middle = top + _BAR / 2
    for dot in block.earlier:
        at = left + place_on(block, dot.value)
        pen.rule((at, top + _BAR), (at, top + _BAR + 1.2 * MM), 0.35, SECOND)
        pen.ellipse((at, middle), (_DOT - 0.7, _DOT - 0.7), stroke=SECOND, fill=WHITE, weight=0.8)
    _whisker(pen, block, left, middle)
    at = left + place_on(block, block.value)
    pen.rule((at, top - 1 * MM), (at, top), 0.7, INK)
    pen.ellipse((at, middle), (_DOT, _DOT), stroke=WHITE, fill=INK, weight=0.9)


def _whisker(pen: Pen, block: MeasureBar, left: float, middle: float) -> None:
    """The expanded uncertainty, white under dark so that it shows on every band."""
    start = left + place_on(block, block.value - block.expanded)
    end = left + place_on(block, block.value + block.expanded)
    if not math.isfinite(block.expanded) or end - start < 2 * _DOT:
        return
    for ink, weight in ((WHITE, 2.6), (INK, 1.1)):
        pen.rule((start, middle), (end, middle), weight, ink)
        for at in (start, end):
            pen.rule((at, middle - 2.4), (at, middle + 2.4), weight, ink)


def _pale(tone: RGB, grade: Grade) -> RGB:
    """A band is a wash of its grade's colour; order in lightness stays."""
    if grade is Grade.UNSEEN:
        return RULE
    red, green, blue = (part + (1 - part) * _PALE for part in tone)
    return (red, green, blue)
