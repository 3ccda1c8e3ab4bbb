"""Tables: ruled by the row on a desk, each row a small card on a phone, with the same words.

Comes in: a `Table`. Goes out: markup. A table whose cells span rows or columns keeps its shape and is moved sideways;
a row of one cell right across is no such thing, it leads the cards below it.
"""

from __future__ import annotations

from collections.abc import Sequence

from reporter.model.report import Cell, Table, words_of
from reporter.typeset.spans import cells_in_place
from reporter.web.markup import Markup, tag, text
from reporter.web.signs import grade_sign
from reporter.web.web_context import WebContext

_FITS = 2
"""A table of so many columns fits a phone as it is."""
_BRIEF = 3
"""Of so many columns, one of them a grade, none needs its heading beside it on a card."""
_WORD = 12
"""A grade told in so many letters stays on one line."""
_NAME = 6
"""A row's heading longer than this names the row by itself; a shorter one is a number, and keeps its column's heading."""


def table(context: WebContext, block: Table) -> Markup:
    """The table under its caption, or named by the heading that it stands under."""
    if not block.columns:
        return Markup()
    has_head = any(column.title.strip() for column in block.columns)
    parts = (cell for row in block.rows if not _leads(row, block) for cell in row)
    is_whole = any(cell.columns > 1 or cell.rows > 1 for cell in parts)
    stacks = len(block.columns) > _FITS and has_head and not is_whole
    rows = (
        tag("tr", *(_cell(context, block, cell, at, stacks=stacks) for at, cell in cells.items()))
        for cells in cells_in_place(block)
    )
    inside = [
        tag("caption", context.text(block.caption)) if block.caption else "",
        _shares(block),
        _head(block) if has_head else "",
        tag("tbody", *rows),
    ]
    named = context.heading if not block.caption else ""
    is_brief = len(block.columns) == _BRIEF and any(cell.grade for row in block.rows for cell in row)
    look = f"{block.style} {block.width}{' stacks' if stacks else ''}{' brief' if is_brief else ''}"
    made = tag("table", *inside, class_=look, aria_labelledby=named)
    if stacks:
        return made
    if not is_whole:
        return tag("div", made, class_="holds")
    return tag("div", made, class_="scroll", tabindex=0, role="group", aria_label=context.words("web.table"))


def _leads(row: Sequence[Cell], block: Table) -> bool:
    """True of a row of one cell that runs right across, such as the grade of the rows below it."""
    return len(row) == 1 and row[0].columns >= len(block.columns)


def _shares(block: Table) -> Markup:
    """How the columns share the width; the style sheet has a class for each whole part of a hundred."""
    shares = [max(column.share, 0.01) for column in block.columns]
    cols = (tag("col", class_=f"w{round(100 * part / sum(shares))}") for part in shares)
    return tag("colgroup", *cols)


def _head(block: Table) -> Markup:
    cells = (
        tag("th", column.title, scope="col", class_=_side(column.align))
        if column.title.strip()
        else tag("td")
        for column in block.columns
    )
    return tag("thead", tag("tr", *cells))


def _cell(context: WebContext, block: Table, cell: Cell, at: int, *, stacks: bool) -> Markup:
    column = block.columns[at]
    words = words_of(cell.text).strip()
    is_head = bool(words) and (cell.head or (block.style == "facts" and at == 0))
    look = [_side(column.align)]
    is_across = cell.columns >= len(block.columns)
    if stacks and is_across:
        look.append("across")
    elif stacks:
        look += ["names"] * (is_head and len(words) > _NAME)
        look.append("has-sign" if cell.grade else "" if words else "empty")
    return tag(
        "th" if is_head else "td",
        _told(context, cell, stacks=stacks),
        class_=" ".join(filter(None, look)),
        data_head=column.title if stacks and not is_across else "",
        scope="row" if is_head else "",
        colspan="" if cell.columns == 1 else cell.columns,
        rowspan="" if cell.rows == 1 else cell.rows,
    )


def _told(context: WebContext, cell: Cell, *, stacks: bool) -> Markup:
    """The words of a cell, with the sign before them where they tell a grade."""
    words = context.text(cell.text)
    if cell.grade:
        words = words or text(context.words(f"grade.{cell.grade.value}"))
        return tag(
            "span", grade_sign(cell.grade), words, class_="graded short" if len(words) <= _WORD else "graded"
        )
    # A card sets heading and words side by side, so the words must be one thing.
    return tag("div", words) if words and stacks else words


def _side(align: str) -> str:
    return "" if align == "left" else align
