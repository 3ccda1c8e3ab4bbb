"""Ruled lines for signatures, and for each block the rectangle of one signature field.

Comes in: a `Signatures` block. Goes out: slices; when painted, the fields stand in the context. Must not make form fields:
the archive stage writes those.
"""

from __future__ import annotations

from reporter.model.pages import SignatureField
from reporter.model.report import Blank, Signatures, plain
from reporter.typeset.pen import Pen
from reporter.typeset.print_context import PrintContext, SetText
from reporter.typeset.slices import Paint, Slice
from reporter.typeset.styles import ABOVE_FIGURE, BODY, FIELD, INK, MM, SECOND
from reporter.typeset.tags import Artifact

_SIGN_HEIGHT = 17 * MM
_LINE_HEIGHT = 9.5 * MM


def signatures(context: PrintContext, block: Signatures) -> list[Slice]:
    """Two blocks side by side, or one where the page is narrow; what stands side by side stays on one page."""
    step = 1 if context.look.is_narrow else 2
    named = list(zip(block.blocks, block.fields or ("",) * len(block.blocks), strict=True))
    pairs = [named[at : at + step] for at in range(0, len(named), step)]
    slices = []
    for pair in pairs:
        columns = [_Column(context, blanks, name) for blanks, name in pair]
        _level(columns)
        height = max(column.height for column in columns)
        slices.append(Slice(height, _painter(columns), above=ABOVE_FIGURE, wide=True))
    return slices


def _level(columns: list[_Column]) -> None:
    """Rules side by side stand at one height, though one column has more to say above or below its own."""
    levels = [
        (max(above for above, _ in rooms), max(below for _, below in rooms))
        for rooms in zip(*(column.rooms for column in columns), strict=False)
    ]
    for column in columns:
        column.rooms[: len(levels)] = levels


class _Column:
    """One person's lines. The first line left blank is the one to sign on, and has the most room."""

    def __init__(self, context: PrintContext, blanks: tuple[Blank, ...], name: str) -> None:
        self._context = context
        self._name = name
        self._blanks = blanks
        self._wide = context.look.half - 4 * MM
        self._body, self._small = context.look.of(BODY), context.look.of(FIELD)
        self._empty = next((number for number, blank in enumerate(blanks) if not blank.value.strip()), -1)
        self._rows = [self._row(blank) for blank in blanks]
        self.rooms = [self._room(number) for number in range(len(blanks))]
        """For each line the room above its rule and below it."""

    @property
    def height(self) -> float:
        """All lines below each other."""
        return sum(above + below for above, below in self.rooms)

    def _row(self, blank: Blank) -> tuple[SetText, SetText]:
        tag = self._context.tag("P")
        value = self._context.lines(plain(blank.value), self._body, tag, self._wide)
        return value, self._context.lines(plain(blank.label), self._small, tag, self._wide)

    def _room(self, number: int) -> tuple[float, float]:
        value, label = self._rows[number]
        room = _SIGN_HEIGHT if number == self._empty else _LINE_HEIGHT
        return max(room, value.height + 3 * MM), label.height

    def paint(self, pen: Pen, left: float, top: float) -> None:
        """Values stand on the rules, labels below them."""
        for number, (value, label) in enumerate(self._rows):
            above, below = self.rooms[number]
            rule = top + above
            ink = INK if number == self._empty else SECOND
            with pen.mark(Artifact("layout")):
                pen.rule((left, rule), (left + self._wide, rule), 0.5, ink)
            value.paint(pen, left, rule - value.height - 0.5)
            label.paint(pen, left, rule + 1)
            if number == max(self._empty, 0):
                self._field(pen, left, rule, number)
            top = rule + below

    def _field(self, pen: Pen, left: float, rule: float, number: int) -> None:
        fields = self._context.fields
        rect = pen.box(left, rule - _SIGN_HEIGHT + 4 * MM, self._wide, _SIGN_HEIGHT - 4 * MM)
        label = self._context.clean(self._blanks[number].label).strip() or "Signature"
        name = self._name or f"signature_{len(fields) + 1}"
        fields.append(SignatureField(pen.canvas.page_index, rect, name, label))


def _painter(columns: list[_Column]) -> Paint:
    def paint(pen: Pen, top: float, _height: float) -> None:
        for number, column in enumerate(columns):
            column.paint(pen, pen.left + number * (pen.look.half + pen.look.gutter), top)

    return paint
