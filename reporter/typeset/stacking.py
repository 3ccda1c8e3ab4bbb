"""Tables for a narrow page: what stood side by side is stacked, title beside value.

Comes in: a table. Goes out: a table of two columns that says the same, row by row. Must not lay out.
"""

from __future__ import annotations

from reporter.model.report import Cell, Column, Span, Table, plain
from reporter.typeset.columns import longest_words
from reporter.typeset.print_context import PrintContext
from reporter.typeset.spans import TooManyCellsError
from reporter.typeset.styles import TABLE

_LEAST_EMS = 8.0
"""Columns narrower than this on the average cannot be read across."""


def needs_stacking(context: PrintContext, block: Table, whole: float) -> bool:
    """True when words would have to be broken, or columns are too narrow to be read.

    Two columns that are close to fitting stay as they are; so does a sum, whose columns are short.
    """
    if len(block.columns) <= 2:  # noqa: PLR2004 (title and value: nothing to be won)
        return False
    if (
        context.look.scale > 1.0
        and block.style != "working"
        and whole / len(block.columns) < _LEAST_EMS * context.look.of(TABLE).size
    ):
        return True
    return context.look.is_narrow and sum(longest_words(context, block)) > whole


def stacked(block: Table) -> Table:
    """Each row under its first cell: a line for every further cell, led by its column's title."""
    rows: list[tuple[Cell, ...]] = []
    hanging: dict[int, tuple[Cell, int]] = {}
    for cells in block.rows:
        waiting = list(cells)
        at, led = 0, False
        while at < len(block.columns):
            # A cell that runs right across leads the rows below it: it is no value of the first column.
            title = "" if len(cells) == 1 < len(block.columns) else block.columns[at].title
            held = hanging.get(at)
            if held and held[1]:
                cell = held[0]
                hanging[at] = (cell, held[1] - 1)
            else:
                cell = waiting.pop(0) if waiting else Cell()
                hanging[at] = (cell, cell.rows - 1)
            # Columns that begin again with the first title hold the next thing of the same kind.
            led = led and not (at and title.strip() and title == block.columns[0].title)
            if _says(cell) or block.style == "boxes":
                rows.append(_line(cell, title, leads=not led))
                led = True
            at += max(1, cell.columns)
        if waiting:
            raise TooManyCellsError
    columns = (Column(title="", share=1), Column(title="", share=1.6))
    return block.model_copy(update={"columns": columns, "rows": tuple(rows)})


def _line(cell: Cell, title: str, *, leads: bool) -> tuple[Cell, ...]:
    """The line of one cell: the first of a row runs right across, its title before it."""
    if not leads and title.strip():
        value = cell.model_copy(update={"columns": 1, "rows": 1, "head": False})
        return (Cell(text=plain(title), head=True), value)
    text = cell.text or (plain(cell.grade.value) if cell.grade else ())
    told = (Span(text=f"{title}  ", style="quiet"),) if title.strip() else ()
    return (cell.model_copy(update={"text": told + text, "columns": 2, "rows": 1, "head": leads}),)


def _says(cell: Cell) -> bool:
    return cell.grade is not None or any(span.text.strip() for span in cell.text)
