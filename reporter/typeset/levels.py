"""Heading levels without jumps (PDF/UA-1, ISO 14289-1, 7.4.2), and the level of each bookmark.

Comes in: the report's blocks. Goes out: a level from 1 to 3 for each heading, grade line and table of contents.
"""

from __future__ import annotations

from collections.abc import Sequence

from reporter.model.report import Block, Contents, GradeLine, Heading

LOWEST = 3
"""The deepest level of heading."""


class Levels:
    """The levels of a report's headings; the first heading is of level 1, and none skips a level downwards."""

    def __init__(self, blocks: Sequence[Block]) -> None:
        self._levels: dict[int, int] = {}
        last = 0
        for index, block in enumerate(blocks):
            wished = _wished(block)
            if wished:
                last = min(wished, last + 1)
                self._levels[index] = last
        first = blocks[0] if blocks else None
        self._title = isinstance(first, Heading) and first.level == 1

    def of(self, index: int) -> int:
        """The level of the block at `index`."""
        return self._levels[index]

    def is_title(self, index: int) -> bool:
        """True for the heading that opens the document."""
        return index == 0 and self._title


def _wished(block: Block) -> int:
    if isinstance(block, Heading | GradeLine):
        return block.level
    return 2 if isinstance(block, Contents) else 0


class BookmarkLevels:
    """Levels of bookmarks counted from 0: a lone title stands beside the sections, not above them."""

    def __init__(self) -> None:
        self._last = -1

    def level(self, heading_level: int) -> int:
        """The level of the next bookmark; never more than one deeper than the last."""
        self._last = min(max(0, heading_level - 2), self._last + 1)
        return self._last
