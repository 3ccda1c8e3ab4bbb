"""The measure bar: a reading as a dot with its whisker on a bar from unworn to just past the limit.

Each band is a stretched grade sign: water stands in it as high as in the sign, hatched closer with urgency, and its word
stands below. So a band is told apart on paper without grey, and by every kind of colour vision.

Comes in: a `MeasureBar`. Goes out: one slice, one Figure element. Where labels go is pure arithmetic. Must not judge anything.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

from reporter.model.drawing import XY
from reporter.model.measure_bar import MeasureBar
from reporter.model.terms import Grade
from reporter.typeset.glyphs import text_width
from reporter.typeset.pen import Pen
from reporter.typeset.places import Stretch, take_row
from reporter.typeset.print_context import PrintContext
from reporter.typeset.setting import broken
from reporter.typeset.signs import LEVELS, paint_sign
from reporter.typeset.slices import Slice
from reporter.typeset.styles import INK, LABEL, MM, NOTE, RGB, RISE, SECOND, WATER, WHITE, Type

_INSET = 6 * MM
_NARROW_INSET = 2.5 * MM
_BAR = 4.8 * MM
_ROW = 0.88
"""Height of a row of labels, as part of their leading."""
_GAP = 5.0
_DOT = 3.1
_PALE = 0.5
_SIGN = 6.4
_HATCH = {Grade.WATCH: 4.4, Grade.PLAN: 3.2, Grade.FIRST: 2.2}
"""Points between the lines of a band's water: closer with urgency, so that bands differ in black alone."""


@dataclass(frozen=True, slots=True)
class Tagline:
    """A label on one of the rows above or below the bar: words, left edge, row from the bar outwards, grade sign before it."""

    text: str
    left: float
    row: int
    grade: Grade | None = None


def measure_bar(context: PrintContext, block: MeasureBar) -> list[Slice]:
    """The bar with the reading's label above; what lies beyond each limit, limits, ends and earlier readings below."""
    bar = _Bar(context, block)
    tag = context.tag("Figure", alt=block.alt or block.label)

    def paint(pen: Pen, top: float, height: float) -> None:
        tag.bbox = pen.box(pen.left, top, context.look.block, height)
        with pen.mark(tag):
            bar.paint(pen, top)

    return [Slice(bar.height, paint, above=2.5 * MM, below=3.5 * MM, wide=True)]


class _Bar:
    """One bar laid out: its labels on their rows, and the heights above and below the track."""

    def __init__(self, context: PrintContext, block: MeasureBar) -> None:
        self.block = block
        self._context = context
        self._whole = context.look.block
        self._inset = _NARROW_INSET if context.look.is_narrow else _INSET
        self.track = self._whole - 2 * self._inset
        self._bold, self._note = context.look.of(LABEL), context.look.of(NOTE.but(ink=INK))
        self._above = self._labels([(block.label, self._at(block.value), None)], self._bold)
        self._below = self._labels(list(self._told()), self._note)
        self._up = self._rows(self._above, self._bold) + 1.4 * MM
        self.height = self._up + _BAR + self._rows(self._below, self._note) + 1.6 * MM

    def _at(self, value: float) -> float:
        return self.block.share(value) * self.track

    def _told(self) -> Iterator[tuple[str, float, Grade | None]]:
        """All labels below the track, the words of the bands first: they want to stand next to it."""
        block = self.block
        for band in block.bands:
            yield band.word, (self._at(band.start) + self._at(band.end)) / 2, band.grade
        for tick in block.ticks:
            yield tick.label, self._at(tick.at), None
        yield block.low_label, -self._inset, None
        yield block.high_label, self.track + self._inset, None
        for dot in block.earlier:
            yield dot.label, self._at(dot.value), None

    def _labels(self, labels: list[tuple[str, float, Grade | None]], kind: Type) -> list[Tagline]:
        """Labels centred over their marks, moved in from the edges, on as many rows as they need not to touch."""
        rows: list[list[Stretch]] = []
        made = []
        for text, at, grade in labels:
            lead = _SIGN + 2.0 if grade else 0.0
            lines = broken(self._context.clean(text).replace("\n", " "), kind, self._whole - lead)
            for words in filter(None, lines):
                wide = text_width(words, kind) + lead
                left = min(max(0.0, at + self._inset - wide / 2), max(0.0, self._whole - wide))
                made.append(Tagline(words, left, take_row(rows, (left, left + wide), _GAP), grade))
        return made

    @staticmethod
    def _rows(lines: list[Tagline], kind: Type) -> float:
        return (1 + max((line.row for line in lines), default=-1)) * kind.leading * _ROW

    def paint(self, pen: Pen, top: float) -> None:
        """Bands, limits and readings, then the labels."""
        _paint_track(pen, self, (pen.left + self._inset, top + self._up), self._at)
        self._paint_labels(pen, self._above, self._bold, (top + self._up - 1.4 * MM, -1))
        self._paint_labels(pen, self._below, self._note, (top + self._up + _BAR + 1.6 * MM, 1))

    @staticmethod
    def _paint_labels(pen: Pen, lines: list[Tagline], kind: Type, start: tuple[float, int]) -> None:
        """Rows grow away from the bar, upwards or downwards."""
        edge, way = start
        for line in lines:
            base = edge + way * line.row * kind.leading * _ROW + (kind.size * 0.75 if way > 0 else -1.5)
            left = pen.left + line.left
            if line.grade:
                paint_sign(pen, (left, base - kind.size * RISE - _SIGN / 2), _SIGN, line.grade)
                left += _SIGN + 2.0
            pen.words(line.text, kind, left, base)


def _paint_track(pen: Pen, bar: _Bar, corner: XY, place: Callable[[float], float]) -> None:
    left, top = corner
    block = bar.block
    pen.rectangle(corner, (bar.track, _BAR), fill=WHITE)
    for band in block.bands:
        start, end = sorted((place(band.start), place(band.end)))
        _paint_band(pen, (left + start, top), end - start, band.grade)
    pen.rectangle(corner, (bar.track, _BAR), stroke=SECOND, weight=0.5)
    for tick in block.ticks:
        at = left + place(tick.at)
        pen.rule((at, top - 1 * MM), (at, top + _BAR + 1.2 * MM), 1.4, INK)
    middle = top + _BAR / 2
    past = [left + place(dot.value) for dot in block.earlier]
    at = left + place(block.value)
    _paint_past(pen, past, at, middle)
    _whisker(pen, [left + place(block.value + way * block.expanded) for way in (-1, 1)], middle)
    pen.rule((at, top - 1 * MM), (at, top), 0.7, INK)
    pen.ellipse((at, middle), (_DOT, _DOT), stroke=WHITE, fill=INK, weight=1.1)


def _paint_band(pen: Pen, corner: XY, wide: float, grade: Grade) -> None:
    """Water as high as in the grade's sign; a band of what was not seen is hatched all over."""
    if wide <= 0:
        return
    level = LEVELS.get(grade, 1.0) * _BAR
    start, size = (corner[0], corner[1] + _BAR - level), (wide, level)
    if grade is Grade.STOP:
        pen.rectangle(start, size, fill=WATER[grade])
    elif grade in _HATCH:
        pen.rectangle(start, size, fill=_pale(WATER[grade]))
        pen.hatch(start, size, _HATCH[grade], 0.5, INK)
        pen.rule(start, (start[0] + wide, start[1]), 0.6, INK)
    elif grade is Grade.UNSEEN:
        pen.hatch(start, size, 2 * _HATCH[Grade.WATCH], 0.35, SECOND)
    if corner[0] > pen.left + _INSET:
        pen.rule(corner, (corner[0], corner[1] + _BAR), 0.5, WHITE)


def _paint_past(pen: Pen, past: list[float], now: float, middle: float) -> None:
    """Earlier readings as open dots, joined to the present one by a thin line in order of time."""
    way = [(at, middle) for at in [*past, now]]
    for ink, weight in ((WHITE, 2.0), (INK, 0.6)):
        pen.path(way, stroke=ink, weight=weight)
    for at in past:
        pen.ellipse((at, middle), (_DOT - 0.7, _DOT - 0.7), stroke=INK, fill=WHITE, weight=0.8)


def _whisker(pen: Pen, ends: Sequence[float], middle: float) -> None:
    """The expanded uncertainty, white under dark so that it shows on every band."""
    if not all(math.isfinite(at) for at in ends) or abs(ends[1] - ends[0]) < 2 * _DOT:
        return
    for ink, weight in ((WHITE, 2.8), (INK, 1.1)):
        pen.rule((ends[0], middle), (ends[1], middle), weight, ink)
        for at in ends:
            pen.rule((at, middle - 2.6), (at, middle + 2.6), weight, ink)


def _pale(tone: RGB) -> RGB:
    """A band is a wash of its grade's colour; order in lightness stays."""
    red, green, blue = (part + (1 - part) * _PALE for part in tone)
    return (red, green, blue)
