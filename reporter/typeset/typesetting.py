"""The press: blocks to slices, slices to pages, pages to a file.

Comes in: the report, its developed pictures, the target path. Goes out: the written file and its `Pages` value. The
file has marked content but no document-level tagging: the archive stage adds that from the tree.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from pathlib import Path
from typing import Any

from reporter.errors import CannotWriteError, LayoutError
from reporter.model.measure_bar import MeasureBar
from reporter.model.pages import Pages, Picture
from reporter.model.report import (
    Block,
    Contents,
    Fields,
    Figure,
    GradeLine,
    Heading,
    List,
    Paragraph,
    Photo,
    PhotoPair,
    Report,
    Signatures,
    Spread,
    Table,
)
from reporter.typeset.bars import measure_bar
from reporter.typeset.canvas import TaggedCanvas
from reporter.typeset.contents import contents
from reporter.typeset.fields import fields
from reporter.typeset.furniture import Tab, furnish
from reporter.typeset.glyphs import field_font, strip_controls
from reporter.typeset.holding import hold_together
from reporter.typeset.pagination import PageRoom, PlacedSlice, TooTallError, paginate
from reporter.typeset.pen import Pen
from reporter.typeset.pictures import figure, photo, photo_pair
from reporter.typeset.print_context import PrintContext
from reporter.typeset.prose import grade_line, heading, listing, paragraph
from reporter.typeset.signatures import signatures
from reporter.typeset.slices import Slice, Stick
from reporter.typeset.spreads import spread
from reporter.typeset.styles import MM
from reporter.typeset.tables import table

SHOWN = 60
"""Characters of the longest text that are told of what no page can hold."""
_INTRODUCTION = 4
"""A paragraph of at most so many lines introduces what follows it."""


def typeset(report: Report, pictures: Mapping[str, Picture], target: Path) -> Pages:
    """Lay the report out and write it to `target`.

    Raises LayoutError when something cannot fit a page or a link leads nowhere, CannotWriteError when the file cannot be written.
    """
    context = PrintContext(report, pictures)
    pages = _dealt(context)
    count = len(pages)
    try:
        _write(context, pages, target)
    except OSError as error:
        message = f"Temporary files cannot be written to {target.parent}: {error.strerror}."
        raise CannotWriteError(message, "Check the folder and the room on the disk.") from error
    return Pages(
        target,
        context.root.freeze(),
        count,
        tuple(context.fields),
        tuple(context.form),
        field_font() if context.form else None,
        context.cleaner.substituted,
    )


def _dealt(context: PrintContext) -> list[list[PlacedSlice]]:
    """Everything composed and dealt to pages, at least one; where each anchor stands is known then."""
    look = context.look
    slices = compose(context)
    try:
        pages = paginate(slices, PageRoom(look.first_top, look.top, look.size[1] - look.bottom)) or [[]]
    except TooTallError as error:
        raise _named_where(error, context.report, slices[error.at].block) from None
    for number, placed in enumerate(pages):
        context.page_of.update({item.slice.anchor: number for item in placed if item.slice.anchor})
    return pages


def compose(context: PrintContext) -> list[Slice]:
    """The galley: every block's slices one after another."""
    parts: list[list[Slice]] = []
    waiting: list[tuple[int, Contents, int]] = []
    for index, block in enumerate(context.report.blocks):
        if isinstance(block, Contents):
            waiting.append((index, block, context.levels.of(index)))
            parts.append([])
        else:
            parts.append(_block(context, block, index))
    # The contents come last, when every heading has named itself, but stand where they were asked for.
    for index, block, level in waiting:
        parts[index] = contents(context, block, level, f"contents-{index}")
    _hold(context.report.blocks, parts)
    hold_together(context.report.blocks, parts, context.look.room)
    slices: list[Slice] = []
    for index, part in enumerate(parts):
        for piece in part:
            piece.block = index
        _join(slices, part)
    return slices


def _hold(blocks: Sequence[Block], parts: list[list[Slice]]) -> None:
    """Keep a few introducing lines under a heading with what they introduce, and signatures with what is signed.

    A page is rather left half empty: a heading and a sentence say nothing without it. A paragraph that follows another one
    introduces nothing, and a long one may part from its table without harm, since it can be read by itself.
    """
    for index in range(1, len(blocks)):
        before = parts[index - 1]
        introduces = (
            isinstance(blocks[index - 1], Paragraph)
            and len(before) <= _INTRODUCTION
            and isinstance(blocks[index - 2], Heading)
            and not isinstance(blocks[index], Paragraph | Heading | GradeLine)
        )
        if before and parts[index] and (introduces or isinstance(blocks[index], Signatures)):
            before[-1].stick = max(before[-1].stick, Stick.GROUP)


def _block(context: PrintContext, block: Block, index: int) -> list[Slice]:
    if isinstance(block, Heading):
        return heading(context, block, index, context.levels.of(index), title=context.levels.is_title(index))
    if isinstance(block, GradeLine):
        return grade_line(context, block, index, context.levels.of(index))
    if isinstance(block, Paragraph):
        return paragraph(context, block, index)
    return _KINDS[type(block)](context, block)


# Kinds that need nothing but themselves; a test holds that every kind of block is here or above.
_KINDS: dict[type[Block], Callable[[PrintContext, Any], list[Slice]]] = {
    List: listing,
    Table: table,
    Photo: photo,
    PhotoPair: photo_pair,
    Figure: figure,
    MeasureBar: measure_bar,
    Signatures: signatures,
    Fields: fields,
    Spread: spread,
}


def _join(slices: list[Slice], part: list[Slice]) -> None:
    """Append a block; a tinted ground runs on into the next one, and the two stay together."""
    if slices and part and slices[-1].wash and part[0].wash:
        part[0].above = slices[-1].below = 0.0
        slices[-1].stick = max(slices[-1].stick, Stick.SOFT)
    slices.extend(part)


def _write(context: PrintContext, pages: list[list[PlacedSlice]], target: Path) -> None:
    """Paint page after page; of what is painted nothing is kept, so `pages` are empty afterwards."""
    canvas = TaggedCanvas(target, context.look.size)
    _describe(canvas, context.report)
    pen = Pen(canvas, context.look)
    tabs = _tabs(pages)
    for number, placed in enumerate(pages):
        furnish(context, pen, number, len(pages), tabs[number])
        for item in placed:
            item.slice.paint(pen, item.top, item.height)
            if item.slice.aside:
                item.slice.aside.paint(pen, item.aside_top, item.slice.aside.height)
        placed.clear()
        canvas.showPage()
    canvas.save()


def _tabs(pages: Sequence[Sequence[PlacedSlice]]) -> list[Tab | None]:
    """For each page the section that fills most of it; none for what stands before the first."""
    names = [item.slice.section for placed in pages for item in placed if item.slice.section]
    tabs: list[Tab | None] = []
    number = -1
    for placed in pages:
        filled: dict[int, float] = {}
        for item in placed:
            number += bool(item.slice.section)
            filled[number] = filled.get(number, 0.0) + item.height
        most = max(filled, key=lambda each: filled[each], default=-1)
        tabs.append(Tab(names[most], most, len(names)) if most >= 0 else None)
    return tabs


def _describe(canvas: TaggedCanvas, report: Report) -> None:
    canvas.setTitle(strip_controls(report.title))
    canvas.setAuthor(strip_controls(report.author))
    canvas.setSubject(strip_controls(report.subject))
    canvas.setKeywords(strip_controls(", ".join(report.keywords)))
    canvas.setCreator("gudgeon")
    canvas.showOutline()


def _named_where(error: TooTallError, report: Report, block: int) -> LayoutError:
    """The error with the heading and the beginning of the longest text of the block at that place."""
    above = reversed(report.blocks[: block + 1])
    under = next((each.text for each in above if isinstance(each, Heading)), report.title)
    longest = max(_texts(report.blocks[block].model_dump()), key=len, default="")
    return LayoutError(
        f"Under “{under}” a piece is taller than a page ({error.height / MM:.0f} mm).\n"
        f"    Its longest text begins: “{longest[:SHOWN]} …”",
        error.advice,
    )


def _texts(node: object) -> Iterator[str]:
    """Every text in a block's data."""
    if isinstance(node, str):
        yield node
    below = node.values() if isinstance(node, dict) else node if isinstance(node, list | tuple) else ()
    for each in below:
        yield from _texts(each)
