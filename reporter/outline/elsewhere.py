"""Where the rest stands: the files carried inside the PDF and what each holds, for a report that does not print it all.

Comes in: the context. Goes out: blocks.
"""

from __future__ import annotations

from reporter.model.report import Block, Column, Table
from reporter.outline.attached import carries, disclosed
from reporter.outline.blocks import cell, head, heading, note
from reporter.outline.context import Context


def write(context: Context) -> list[Block]:
    """One line per attached file; that nothing is attached is said as well."""
    words = context.words
    names = disclosed(context.job, context.template) if carries(context.job) else ()
    blocks: list[Block] = [heading(context, "elsewhere"), note(words("elsewhere.method"))]
    if not names:
        return [*blocks, note(words("elsewhere.nothing"))]
    columns = (
        Column(title=words("elsewhere.file"), share=1),
        Column(title=words("elsewhere.holds"), share=3),
    )
    rows = tuple((head(words(f"elsewhere.name_{name}")), cell(words(f"elsewhere.{name}"))) for name in names)
    return [*blocks, note(words("elsewhere.note")), Table(columns=columns, rows=rows)]
