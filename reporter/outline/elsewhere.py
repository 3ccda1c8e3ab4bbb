"""Where the rest stands: the files carried inside the PDF and what each holds, for a report that does not print it all.

Comes in: the context. Goes out: blocks.
"""

from __future__ import annotations

from reporter.model.report import Block
from reporter.outline.attached import carries, disclosed
from reporter.outline.blocks import cell, head, heading, note, table
from reporter.outline.context import Context


def write(context: Context) -> list[Block]:
    """One line per attached file; that nothing is attached is said as well."""
    words = context.words
    names = disclosed(context.job, context.template) if carries(context.job) else ()
    blocks: list[Block] = [heading(context, "elsewhere"), note(words("elsewhere.method"))]
    if not names:
        return [*blocks, note(words("elsewhere.nothing"))]
    rows = ((head(words(f"elsewhere.name_{name}")), cell(words(f"elsewhere.{name}"))) for name in names)
    return [*blocks, note(words("elsewhere.note")), table(words, "elsewhere", rows, file=1, holds=3)]
