"""How the pages of a document are filled, read from the galley itself: how empty, what ends them, where blocks stand."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from reporter.model.pages import Element, Picture
from reporter.model.report import Block, GradeLine, Heading, Paragraph, Report
from reporter.typeset.pagination import PageRoom, paginate
from reporter.typeset.print_context import PrintContext
from reporter.typeset.slices import Stick
from reporter.typeset.typesetting import compose
from tests.typeset.reading import marks

SHORT = 300
"""Letters of an introduction that takes four lines or fewer."""


@dataclass(frozen=True)
class Filled:
    """One page: its number from 1, the part that is empty below, whether a section ends with it, whether its last piece is torn off.

    `leading` when it ends with a heading's few lines of introduction, and what they introduce stands overleaf.
    """

    number: int
    empty: float
    ends_section: bool
    torn: bool
    leading: bool


def filled(document: Report, pictures: Mapping[str, Picture]) -> list[Filled]:
    """Every page of a document as it is laid out."""
    context = PrintContext(document, pictures)
    look = context.look
    room = PageRoom(look.first_top, look.top, look.size[1] - look.bottom)
    pages = paginate(compose(context), room)
    found = []
    for number, page in enumerate(pages):
        lowest = max(item.end for item in page)
        following = pages[number + 1][0].slice if number + 1 < len(pages) else None
        found.append(
            Filled(
                number=number + 1,
                empty=(room.bottom - lowest) / (room.bottom - room.top),
                ends_section=following is None or bool(following.section) or following.new_page,
                torn=following is not None and page[-1].slice.stick is Stick.FIRM,
                leading=following is not None
                and _leads(document.blocks, page[-1].slice.block, following.block),
            )
        )
    return found


def _leads(blocks: Sequence[Block], last: int, following: int) -> bool:
    """Whether the last block of a page is a short paragraph under a heading, before a table or the like."""
    said = blocks[last]
    return (
        isinstance(said, Paragraph)
        and len("".join(span.text for span in said.text)) < SHORT
        and isinstance(blocks[last - 1], Heading)
        and last != following
        and not isinstance(blocks[following], Paragraph | Heading | GradeLine)
    )


def pages_of(element: Element) -> set[int]:
    """The pages, from 0, on which an element stands."""
    return {mark.page for mark in marks(element)}
