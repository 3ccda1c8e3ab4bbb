"""Widths of table columns, and numbers lined up at their decimal point.

Comes in: a table, set lines. Goes out: widths in points. Must not paint.
"""

from __future__ import annotations

import itertools
import math
import re
from collections.abc import Callable, Sequence

from reporter.model.report import Table, words_of
from reporter.typeset.glyphs import text_width
from reporter.typeset.print_context import PrintContext
from reporter.typeset.setting import SetLine
from reporter.typeset.styles import CELL_GAP, NARROW_GAP, PAD, TABLE, TABLE_HEAD, Type

_WHOLE_PART = re.compile(r"[^\d]{0,3}\d[\d\u202f\u00a0]*")
_LARGEST_CLAIM = 0.45
"""No column may claim more than this part of the table for its longest word; longer words are broken."""
_STEPS, _RAGGED = (0.06, 0.03, 0.01), 1.05
"""How much room a search for widths moves at a time; how much longer a text is when it is broken into lines."""


def column_widths(context: PrintContext, block: Table, whole: float) -> tuple[float, ...]:
    """Shares of `whole`, corrected so that each column holds its longest word where the others can spare the room."""
    shares = [max(column.share, 0.01) for column in block.columns]
    widths = [whole * share / sum(shares) for share in shares]
    needs = [min(need, whole * _LARGEST_CLAIM) for need in longest_words(context, block)]
    spare = [max(0.0, wide - need) for wide, need in zip(widths, needs, strict=True)]
    lack = [max(0.0, need - wide) for wide, need in zip(widths, needs, strict=True)]
    if sum(lack) and sum(spare):
        # Columns with room to spare give as large a part of it as is lacking, and the others get as large a part of what
        # they lack as there is: what is given and what is taken come to the same, so the whole width stays.
        given = min(1.0, sum(lack) / sum(spare))
        taken = min(1.0, sum(spare) / sum(lack))
        widths = [
            wide - free * given + short * taken for wide, free, short in zip(widths, spare, lack, strict=True)
        ]
    return least_tall(widths, needs, _lengths(context, block)) if block.fit else tuple(widths)


def least_tall(
    widths: Sequence[float], needs: Sequence[float], lengths: Sequence[Sequence[float]]
) -> tuple[float, ...]:
    """The widths that give the fewest lines: room is moved from column to column while that spares some.

    `needs` are the least widths, `lengths` what each cell's text would take in one line, row by row. The search begins
    where it is asked to, and where rows would be least tall if a line could be parted.
    """
    # Lines come in whole numbers, so that most small moves change nothing and a search stops early; it is begun a second
    # time from where the parted lines, which change with every move, are fewest.
    smooth = _descended(tuple(widths), needs, lambda each: (0, _lines(each, lengths)[1]))
    found = [
        _descended(start, needs, lambda each: _lines(each, lengths)) for start in (tuple(widths), smooth)
    ]
    return min(found, key=lambda each: _lines(each, lengths))


def _descended(
    start: tuple[float, ...], needs: Sequence[float], cost: Callable[[tuple[float, ...]], tuple[float, float]]
) -> tuple[float, ...]:
    """Widths from which no room moved between two columns lowers the cost."""
    best, lowest = start, cost(start)
    for step in (sum(start) * share for share in _STEPS):
        while True:
            moved = [
                tuple(wide + step * ((place == to) - (place == source)) for place, wide in enumerate(best))
                for source, to in itertools.permutations(range(len(best)), 2)
                if best[source] - step >= needs[source]
            ]
            counted = min(((cost(each), each) for each in moved), default=(lowest, best))
            if counted[0] >= lowest:
                break
            lowest, best = counted
    return best


def _lines(widths: Sequence[float], lengths: Sequence[Sequence[float]]) -> tuple[int, float]:
    """How many lines the rows take, each as many as its longest cell; and the same if a line could be parted."""
    full = [
        max(
            (
                length * _RAGGED / max(wide - NARROW_GAP, 1.0)
                for length, wide in zip(row, widths, strict=True)
            ),
            default=0.0,
        )
        for row in lengths
    ]
    return (sum(max(1, math.ceil(share)) for share in full), sum(full))


def _lengths(context: PrintContext, block: Table) -> list[list[float]]:
    """What each title and cell would take in one line; rows whose cells span columns are left out."""
    kind, head = context.look.of(TABLE), context.look.of(TABLE_HEAD)
    titles = [text_width(context.clean(column.title), head) for column in block.columns]
    return [titles] + [
        [text_width(context.clean(words_of(cell.text)).replace("\n", " "), kind) for cell in row]
        for row in block.rows
        if len(row) == len(block.columns)
    ]


def longest_words(context: PrintContext, block: Table) -> list[float]:
    """The longest word of each column, with the padding; cells that span columns are left out."""
    body, head = context.look.of(TABLE), context.look.of(TABLE_HEAD)
    needs = [_longest(context.clean(column.title), head) for column in block.columns]
    for row in block.rows:
        if len(row) != len(needs):
            continue
        for number, cell in enumerate(row):
            text = words_of(cell.text)
            if cell.columns == 1 and text:
                sign = 4.5 * PAD * context.look.scale if cell.grade else 0.0
                needs[number] = max(needs[number], sign + _longest(context.clean(text), body))
    return [
        need + (2 * PAD if block.style == "boxes" else NARROW_GAP if block.fit else CELL_GAP) + 0.1
        for need in needs
    ]


def _longest(text: str, kind: Type) -> float:
    bold = kind.but(face="Semibold")
    return max(
        (max(text_width(word, kind), text_width(word, bold)) for word in re.split(r"[ \n]", text)),
        default=0.0,
    )


def after_whole_part(lines: list[SetLine]) -> float | None:
    """Width of what follows a number's whole part (decimals, unit); None when the cell is no one-line number."""
    if len(lines) != 1 or not lines[0].pieces:
        return None
    first = lines[0].pieces[0]
    match = _WHOLE_PART.match(first.text)
    return lines[0].width - text_width(match.group(), first.run.kind) if match else None


def hangs(rests: Sequence[float | None]) -> list[float]:
    """How far left of the right edge each number of a column ends, so that the decimal points stand in line."""
    longest = max((rest for rest in rests if rest is not None), default=0.0)
    return [longest - rest if rest is not None else 0.0 for rest in rests]
