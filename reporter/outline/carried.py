"""What a report says of the data inside it: what each file holds, and one number for all, for the eye or a phone's camera.

Comes in: the attached files. Goes out: blocks. The number proves something only to who holds it from another hand.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from reporter.model.drawing import Drawing, Path
from reporter.model.report import Attachment, Block, Figure, Heading, Paragraph, plain
from reporter.model.sealed import data_hash, grouped
from reporter.outline.attached import carries, disclosed
from reporter.outline.blocks import cell, head, heading, note, table
from reporter.outline.context import Context

QUIET = 4
"""Light modules that a symbol needs on every side (ISO/IEC 18004, 6.3.8, from memory)."""


def fingerprint(context: Context, data: Sequence[Attachment], *, is_carried: bool) -> list[Block]:
    """The number of `data`, in words and as a QR code; nothing where there are none.

    `is_carried` is false where this version leaves the data out. Their number then is of what would have been carried, cut as the
    rest was: with that of the uncut data, a name that is missing from them could be tried until the number fits.
    """
    if not data:
        return []
    words, number = context.words, data_hash({each.name: each.content for each in data})
    return [
        Heading(level=3, text=words("head.fingerprint"), anchor="fingerprint", listed=False),
        Paragraph(
            text=plain(words("fingerprint.proves" if is_carried else "fingerprint.behind")),
            keep=True,
            together=True,
        ),
        Paragraph(text=plain(grouped(number)), keep=True, together=True),
        Figure(drawing=code(number.upper(), words("fingerprint.alt", number=grouped(number))), width="small"),
    ]


def code(text: str, alt: str) -> Drawing:
    """`text` as a QR code (ISO/IEC 18004): in every row one dark bar for each run of dark modules."""
    import segno

    rows = [tuple(row) for row in segno.make(text, error="m", micro=False).matrix_iter(border=QUIET)]
    bars = [
        _bar(start, end, row)
        for row, modules in enumerate(rows)
        for start, end in _runs([bool(module) for module in modules])
    ]
    return Drawing(width=float(len(rows[0])), height=float(len(rows)), shapes=tuple(bars), alt=alt)


def _runs(modules: list[bool]) -> list[tuple[int, int]]:
    """Where each stretch of dark modules begins and ends."""
    pairs = enumerate(pairwise([False, *modules, False]))
    edges = [place for place, (left, right) in pairs if left != right]
    return list(zip(edges[::2], edges[1::2], strict=True))


def _bar(start: int, end: int, row: int) -> Path:
    corners = ((start, row), (end, row), (end, row + 1), (start, row + 1))
    return Path(
        points=tuple((float(x), float(y)) for x, y in corners), closed=True, stroke="none", fill="ink"
    )


def elsewhere(context: Context) -> list[Block]:
    """One line per attached file, for a report that does not print it all; that nothing is attached is said as well."""
    words = context.words
    names = disclosed(context.job, context.template) if carries(context.job) else ()
    blocks: list[Block] = [heading(context, "elsewhere"), note(words("elsewhere.method"))]
    if not names:
        return [*blocks, note(words("elsewhere.nothing"))]
    rows = ((head(words(f"elsewhere.name_{name}")), cell(words(f"elsewhere.{name}"))) for name in names)
    return [*blocks, note(words("elsewhere.note")), table(words, "elsewhere", rows, file=1, holds=3)]
