"""Where the rest stands: the files carried inside the PDF and what each holds, for a report that does not print it all.

Comes in: the desk. Goes out: blocks.
"""

from __future__ import annotations

from reporter.model.report import Block, Column, Table
from reporter.outline.attached import disclosed
from reporter.outline.blocks import cell, head, heading, note
from reporter.outline.desk import Desk


def write(desk: Desk) -> list[Block]:
    """One line per attached file; that nothing is attached is said as well."""
    words = desk.words
    names = disclosed(desk.job, desk.template)
    blocks: list[Block] = [heading(desk, "elsewhere"), note(words("elsewhere.method"))]
    if not names:
        return [*blocks, note(words("elsewhere.nothing"))]
    columns = (
        Column(title=words("elsewhere.file"), share=1),
        Column(title=words("elsewhere.holds"), share=3),
    )
    rows = tuple((head(words(f"elsewhere.name_{name}")), cell(words(f"elsewhere.{name}"))) for name in names)
    return [*blocks, note(words("elsewhere.note")), Table(columns=columns, rows=rows)]
