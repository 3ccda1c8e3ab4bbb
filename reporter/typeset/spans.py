"""Where the cells of a table stand whose neighbours span rows or columns, for every medium.

Comes in: a table as its rows were given. Goes out: for each row its cells by their columns. Must not set or paint.
"""

from __future__ import annotations

from reporter.errors import LayoutError
from reporter.model.report import Cell, Table


class TooManyCellsError(LayoutError):
    """Raised for a row of more cells than its table has columns."""

    def __init__(self) -> None:
        super().__init__("A table row has more cells than the table has columns.", "Report this fault.")


def cells_in_place(block: Table) -> list[dict[int, Cell]]:
    """For each row its cells by the column that each begins at, past the cells that hang down from rows above.

    Spans are cut to the free columns beside a cell and to the rows that are left. Raises LayoutError for a row of too many.
    """
    rows: list[dict[int, Cell]] = []
    hanging = [0] * len(block.columns)
    for number, cells in enumerate(block.rows):
        row: dict[int, Cell] = {}
        waiting = list(cells)
        for at in range(len(hanging)):
            if waiting and not hanging[at]:
                row[at] = cell = _fitted(waiting.pop(0), hanging[at:], len(block.rows) - number)
                hanging[at : at + cell.columns] = [cell.rows] * cell.columns
        if waiting:
            raise TooManyCellsError
        hanging = [max(0, rest - 1) for rest in hanging]
        rows.append(row)
    return rows


def _fitted(cell: Cell, hanging: list[int], rows_left: int) -> Cell:
    free = next((number for number, rest in enumerate(hanging) if rest), len(hanging))
    columns, rows = max(1, min(cell.columns, free)), max(1, min(cell.rows, rows_left))
    if (columns, rows) == (cell.columns, cell.rows):
        return cell
    return cell.model_copy(update={"columns": columns, "rows": rows})
