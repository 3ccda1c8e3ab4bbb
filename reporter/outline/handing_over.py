"""What goes from hand to hand with the boat: the inventory; and the table to write the deviation into.

Comes in: the job and what was graded. Goes out: tables with room for handwriting.
"""

from __future__ import annotations

from reporter.model.report import Block, Column, Heading, Table
from reporter.outline.blocks import cell, head, heading, note
from reporter.outline.desk import Desk

HEADINGS = (("north", "000°"), ("east", "090°"), ("south", "180°"), ("west", "270°"))


def inventory(desk: Desk) -> list[Block]:
    """Spares, tools and keys, each with a box for both hands; a section only when the job lists any."""
    kept, words = desk.job.sheet.inventory, desk.words
    if not kept:
        return []
    columns = tuple(
        Column(title=words(f"inventory.{title}"), share=share)
        for title, share in (
            ("what", 2.2),
            ("count", 0.8),
            ("where", 1.6),
            ("note", 1.6),
            ("out", 0.9),
            ("back", 0.9),
        )
    )
    rows = tuple(
        (head(each.what), cell(each.count), cell(each.where), cell(each.note), cell(""), cell(""))
        for each in kept
    )
    return [heading(desk, "inventory"), Table(columns=columns, rows=rows, style="boxes")]


def deviation(desk: Desk) -> list[Block]:
    """Four headings to be filled in, when an action asks for the deviation and it was not taken yet."""
    asked = [action for action in desk.assessments.actions if action.id.endswith(".deviation")]
    if not any(action.edit is None or not (action.edit.done or action.edit.decline) for action in asked):
        return []
    words = desk.words
    columns = tuple(
        Column(title=words(f"deviation.{title}"), share=share)
        for title, share in (("heading", 1.4), ("magnetic", 1), ("compass", 1), ("deviation", 1), ("by", 1.6))
    )
    rows = tuple(
        (head(f"{words(f'deviation.{ident}')}, {angle}"), *(cell("") for _ in columns[1:]))
        for ident, angle in HEADINGS
    )
    return [
        Heading(level=2, text=words("deviation.title"), anchor="deviation"),
        note(words("deviation.note")),
        Table(columns=columns, rows=rows, style="boxes"),
    ]
