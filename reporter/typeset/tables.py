"""Tables composed into slices: one slice per row, the head once more on each page.

Comes in: a `Table`. Goes out: slices under one Table element, however many pages it runs over; repeated heads are
artifacts. Column and row spans, row heads and empty cells are tagged. Must not know pages.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from functools import partial
from itertools import pairwise

from reporter.model.report import Cell, Column, Table, plain
from reporter.typeset.columns import after_whole_part, column_widths, hangs
from reporter.typeset.look import Look
from reporter.typeset.pen import Pen
from reporter.typeset.print_context import PrintContext
from reporter.typeset.prose import washed
from reporter.typeset.setting import SetLine
from reporter.typeset.signs import paint_sign
from reporter.typeset.slices import Slice, Stick, stick_all, stick_edges
from reporter.typeset.spans import cells_in_place
from reporter.typeset.stacking import needs_stacking, stacked
from reporter.typeset.styles import (
    CELL_GAP,
    INK,
    MM,
    NARROW_GAP,
    PAD,
    RISE,
    RULE,
    SECOND,
    TABLE,
    TABLE_HEAD,
    WASH_PAD,
    Type,
)
from reporter.typeset.tags import Artifact, Tag

_SIGN = 2.9 * MM
_SIGN_GAP = 1.6 * MM
_BOX_HEIGHT = 8 * MM
_AROUND = (4 * MM, 3 * MM)
_CARD = 1 / 3
"""A card that takes no more than this part of a page is not torn."""
_EDGE = 3
"""So many rows at the least stay together at the beginning and the end of a table."""
_LONG_ROW = 0.23
"""A row taller than this part of a page is long."""


@dataclass(slots=True, eq=False)
class _Placed:
    """A cell with its place in the grid and its set lines."""

    cell: Cell
    column: int
    tag: Tag
    leading: float
    lines: list[SetLine] = field(default_factory=list)
    rest: float | None = None
    hang: float = 0.0

    @property
    def height(self) -> float:
        return max(len(self.lines), 1) * self.leading


@dataclass(frozen=True, slots=True)
class _Grid:
    """The measures of one table: left edges and widths of its columns, style, width of the whole."""

    look: Look
    block: Table
    lefts: tuple[float, ...]
    widths: tuple[float, ...]
    whole: float
    pad: float

    @property
    def body(self) -> Type:
        """How cells are set."""
        return self.look.of(TABLE)

    @property
    def head(self) -> Type:
        """How titles of columns are set."""
        return self.look.of(TABLE_HEAD)

    @property
    def sign(self) -> float:
        """Side of a grade sign beside a cell's text."""
        return _SIGN * self.look.scale

    @property
    def long_row(self) -> int:
        """A row with more lines than this is dealt out line by line, so that any text fits some page."""
        return int(self.look.room * _LONG_ROW / self.body.leading)

    @property
    def air(self) -> float:
        """Above and below the text of a row: a working is read in one piece, so its rows stand close."""
        close = 0.4 if self.block.fit else 0.7
        return PAD * {"working": 0.25, "compact": 0.4, "facts": close}.get(self.block.style, 1.0)

    @property
    def inset(self) -> float:
        """From a cell's left edge to its text: none where quiet rules let text begin with the block."""
        return PAD if self.block.style == "boxes" else 0.0

    def extent(self, column: int, columns: int = 1) -> float:
        """Width of a cell, over the columns it spans."""
        return sum(self.widths[column : column + columns])

    def room(self, column: int, columns: int = 1) -> float:
        """Width of its text."""
        between = NARROW_GAP if self.block.fit else CELL_GAP
        gap = 2 * PAD if self.inset else between if column + columns < len(self.widths) else 0.0
        return self.extent(column, columns) - gap


def table(context: PrintContext, block: Table) -> list[Slice]:
    """The slices of a table: caption, head, rows, closing room."""
    if not block.columns:
        return []
    look = context.look
    whole = look.block if block.width == "full" else look.column
    are_cards = needs_stacking(context, block, whole)
    if are_cards:
        block = stacked(block)
    pad = WASH_PAD if block.style == "working" else 0.0
    tag = context.tag("Table")
    widths = column_widths(context, block, whole - 2 * pad)
    lefts = tuple(pad + sum(widths[:number]) for number in range(len(widths)))
    grid = _Grid(look, block, lefts, widths, whole, pad)
    slices = _caption(context, block, tag)
    head, again = _head(context, grid, tag)
    rows = _rows(context, grid, tag, again)
    if are_cards:
        _hold_cards(rows, block, _CARD * (look.size[1] - look.top - look.bottom))
    slices += head + [piece for row in rows for piece in row]
    for piece in slices:
        piece.wide = piece.wide or block.width == "full"
    if not slices:
        return []
    slices[0].above, slices[-1].below = _AROUND
    if block.style != "working":
        return slices
    # A sum is read in one piece, so its rows stay together on their ground.
    slices[-1].below = 0.0
    return stick_all(washed(slices, whole), Stick.SOFT)


def _caption(context: PrintContext, block: Table, tag: Tag) -> list[Slice]:
    if not block.caption:
        return []
    kind = context.look.of(TABLE_HEAD.but(ink=INK))
    slices = context.lines(block.caption, kind, Tag("Caption", tag), context.look.column).slices()
    for piece in slices:
        piece.stick = Stick.FIRM
    slices[-1].below = 1 * MM
    return slices


def _head(context: PrintContext, grid: _Grid, tag: Tag) -> tuple[list[Slice], Slice | None]:
    """The head row, and the same once more as an artifact; none where no column has a title."""
    columns = grid.block.columns
    if not any(column.title.strip() for column in columns):
        return [], None
    row, kind = Tag("TR", tag), grid.head
    cells: list[tuple[Column, float, Tag, list[SetLine]]] = []
    for column, left in zip(columns, grid.lefts, strict=True):
        owner = Tag("TH", row, scope="Column")
        lines = context.lines(plain(column.title), kind, owner, grid.room(len(cells))).lines
        cells.append((column, left, owner, lines))
    deep = max(len(lines) for *_, lines in cells)
    height = deep * kind.leading + 2 * PAD

    def paint(pen: Pen, top: float, _height: float, *, again: bool) -> None:
        for place, (column, left, owner, lines) in enumerate(cells):
            if not again:
                owner.attach()
            base = top + PAD + (deep - len(lines)) * kind.leading
            for number, line in enumerate(lines):
                x = pen.left + left + grid.inset + _shift(column.align, grid.room(place), line.width)
                _head_line(pen, line, (x, base + number * kind.leading), kind, again=again)
        with pen.mark(Artifact("layout")):
            y = top + height
            pen.rule((pen.left + grid.pad, y), (pen.left + grid.whole - grid.pad, y), 0.7, SECOND)

    first = Slice(height, partial(paint, again=False), stick=Stick.FIRM)
    later = Slice(height, partial(paint, again=True), wide=grid.block.width == "full")
    return [first], later if deep <= grid.long_row else None


def _head_line(pen: Pen, line: SetLine, at: tuple[float, float], kind: Type, *, again: bool) -> None:
    if not again:
        pen.line(line, at[0], at[1], kind.leading)
        return
    with pen.mark(Artifact("layout")):
        for piece in line.pieces:
            base = at[1] + kind.leading / 2 + kind.size * RISE
            pen.words(piece.text, piece.run.kind, at[0] + piece.x, base)


def _hold_cards(rows: list[list[Slice]], block: Table, small: float) -> None:
    """What stood in one row and is stacked now stays on one page: a `small` card always, a higher one where it can."""
    starts = [number for number, cells in enumerate(block.rows) if len(cells) == 1 or not number]
    for start, end in pairwise([*starts, len(rows)]):
        card = rows[start:end]
        held = Stick.GROUP if sum(piece.height for row in card for piece in row) <= small else Stick.SOFT
        for row in card[:-1]:
            row[-1].stick = max(row[-1].stick, held)


def _rows(context: PrintContext, grid: _Grid, tag: Tag, again: Slice | None) -> list[list[Slice]]:
    rows = _placed_rows(context, grid, tag)
    heights = _heights(grid, rows)
    groups: list[list[Slice]] = []
    held = 0
    for number, row in enumerate(rows):
        group = _row(grid, row, heights[number:], again, last=number == len(rows) - 1)
        if held:
            groups[-1][-1].stick = Stick.SOFT
        held = max([held, *(item.cell.rows for item in row)]) - 1
        if len(row) == 1 and len(grid.widths) > 1:
            # A row of one cell leads the rows below it, as a heading does.
            group[-1].stick = Stick.FIRM
        groups.append(group)
    # A row's bond to the next is that of its last slice, since a long row has many.
    last_slices = [group[-1] for group in groups]
    stick_edges(stick_edges(last_slices, Stick.SOFT, _EDGE), Stick.FIRM)
    return groups


def _placed_rows(context: PrintContext, grid: _Grid, tag: Tag) -> list[list[_Placed]]:
    """Every cell set; an empty one where a row has none and nothing hangs down from above."""
    rows: list[list[_Placed]] = []
    hanging = [0] * len(grid.widths)
    for cells in cells_in_place(grid.block):
        row = Tag("TR", tag)
        placed: list[_Placed] = []
        for at in range(len(hanging)):
            if hanging[at]:
                continue
            cell = cells.get(at, Cell())
            item = _cell(context, grid, cell, at, row, first=at == min(cells, default=None))
            if cell.rows > 1 and len(item.lines) > grid.long_row:
                # Too long to stand beside other rows: it stays in its own, and those below get empty cells.
                item.cell, item.tag.row_span = cell.model_copy(update={"rows": 1}), 1
            placed.append(item)
            hanging[at : at + cell.columns] = [item.cell.rows] * cell.columns
        hanging = [max(0, rest - 1) for rest in hanging]
        rows.append(placed)
    _line_up_numbers(rows)
    return rows


def _line_up_numbers(rows: list[list[_Placed]]) -> None:
    for column in {item.column for row in rows for item in row}:
        items = [item for row in rows for item in row if item.column == column]
        for item, hang in zip(items, hangs([item.rest for item in items]), strict=True):
            item.hang = hang


def _cell(context: PrintContext, grid: _Grid, cell: Cell, at: int, row: Tag, *, first: bool) -> _Placed:
    is_head = cell.head or (first and grid.block.style == "facts")
    tag = Tag(
        "TH" if is_head else "TD",
        row,
        scope="Row" if is_head else "",
        column_span=cell.columns,
        row_span=cell.rows,
    )
    item = _Placed(cell, at, tag, grid.body.leading)
    text = cell.text or (plain(cell.grade.value) if cell.grade else ())
    kind = grid.look.of(_kind(grid.block, is_head=is_head))
    room = grid.room(at, cell.columns) - (grid.sign + _SIGN_GAP if cell.grade else 0.0)
    item.lines = context.lines(text, kind, tag, room).lines
    if grid.block.columns[at].align == "number" and cell.columns == 1:
        item.rest = after_whole_part(item.lines)
    return item


def _kind(block: Table, *, is_head: bool) -> Type:
    if not is_head:
        return TABLE
    return TABLE.but(ink=SECOND) if block.style == "facts" else TABLE.but(face="Semibold")


def _heights(grid: _Grid, rows: list[list[_Placed]]) -> list[float]:
    """Row heights: each row holds its own cells; the last row of a spanning cell takes what that still lacks."""
    least = _BOX_HEIGHT if grid.block.style == "boxes" else 0.0
    heights = [
        max(
            [
                least,
                grid.body.leading + 2 * grid.air,
                *(item.height + 2 * grid.air for item in row if item.cell.rows == 1),
            ]
        )
        for row in rows
    ]
    for number, row in enumerate(rows):
        for item in row:
            last = min(number + item.cell.rows, len(rows)) - 1
            lack = item.height + 2 * grid.air - sum(heights[number : last + 1])
            heights[last] += max(0.0, lack)
    return heights


def _row(
    grid: _Grid, row: list[_Placed], heights: list[float], again: Slice | None, *, last: bool
) -> list[Slice]:
    """A row as one slice, or a very long one as a slice per line: still one TR."""
    deep = max((len(item.lines) for item in row), default=1)
    if deep <= grid.long_row:
        return [Slice(heights[0], _painter(grid, row, heights, None, last=last), again=again)]
    slices = []
    for number in range(deep):
        height = grid.body.leading + (grid.air if number == 0 else 0.0)
        slices.append(Slice(height, _painter(grid, row, heights, number, last=False), again=again))
    slices.append(Slice(grid.air, _painter(grid, row, [grid.air], deep, last=last), again=again))
    return stick_edges(slices, Stick.FIRM)


def _painter(
    grid: _Grid, row: list[_Placed], heights: list[float], only: int | None, *, last: bool
) -> Callable[[Pen, float, float], None]:
    """What paints a row; `only` picks one line of each cell of a long row."""

    def paint(pen: Pen, top: float, _height: float) -> None:
        for item in row:
            item.tag.attach()
            _paint_cell(pen, grid, item, top, only)
        if only is None or only == max(len(item.lines) for item in row):
            _row_rules(pen, grid, row, (top, heights), last=last)

    return paint


def _paint_cell(pen: Pen, grid: _Grid, item: _Placed, top: float, only: int | None) -> None:
    x = pen.left + grid.lefts[item.column] + grid.inset
    room, leading = grid.room(item.column, item.cell.columns), item.leading
    if item.cell.grade and not only:
        with pen.mark(Artifact("layout")):
            paint_sign(pen, (x, top + grid.air + (leading - grid.sign) / 2), grid.sign, item.cell.grade)
    if item.cell.grade:
        x, room = x + grid.sign + _SIGN_GAP, room - grid.sign - _SIGN_GAP
    align = grid.block.columns[item.column].align
    top += grid.air if not only else 0.0
    for number, line in enumerate(item.lines):
        if only is not None and number != only:
            continue
        shift = _shift(align, room, line.width) - item.hang
        pen.line(line, x + max(0.0, shift), top + (number * leading if only is None else 0), leading)


def _shift(align: str, room: float, wide: float) -> float:
    return room - wide if align in {"right", "number"} else (room - wide) / 2 if align == "centre" else 0.0


def _row_rules(
    pen: Pen, grid: _Grid, row: list[_Placed], extent: tuple[float, list[float]], *, last: bool
) -> None:
    """A hairline under each cell that ends here, boxes all round where there is handwriting to come."""
    if grid.block.style == "working":
        return
    top, heights = extent
    with pen.mark(Artifact("layout")):
        for item in row:
            left = pen.left + grid.lefts[item.column]
            right = left + grid.extent(item.column, item.cell.columns)
            high = sum(heights[: item.cell.rows])
            if grid.block.style == "boxes":
                pen.rectangle((left, top), (right - left, high), stroke=SECOND, weight=0.35)
            else:
                ends = last or item.cell.rows >= len(heights)
                pen.rule((left, top + high), (right, top + high), 0.35, SECOND if ends else RULE)
