"""Blocks that want to stand on one page: a finding, the photo that decides it, and what to do.

Comes in: the blocks with their slices. Goes out: the slices hold to one another, where the whole group fits a page.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from reporter.model.report import Block, GradeLine, Heading
from reporter.typeset.filling import placed_edges
from reporter.typeset.slices import Slice, Stick, stick_all


def hold_together(blocks: Sequence[Block], parts: Sequence[list[Slice]], room: float) -> None:
    """Raise the bonds within each group of blocks; a group taller than `room` (points) is left as it is."""
    for start, end in groups(blocks):
        slices = [piece for part in parts[start:end] for piece in part]
        if slices and max(edges[3] for edges in placed_edges(slices, (0, len(slices)), 0.0, 1.0)) <= room:
            stick_all(slices, Stick.GROUP)


def groups(blocks: Sequence[Block]) -> Iterator[tuple[int, int]]:
    """First and last but one number of each run of blocks held together, with the headings that lead into it."""
    at = 0
    while at < len(blocks):
        if not _holds(blocks[at]):
            at += 1
            continue
        start = end = at
        while end < len(blocks) - 1 and (_holds(blocks[end]) or _leads(blocks[end])):
            end += 1
        while start and _leads(blocks[start - 1]):
            start -= 1
        yield start, end + 1
        at = end + 1


def _holds(block: Block) -> bool:
    return bool(getattr(block, "together", False))


def _leads(block: Block) -> bool:
    return isinstance(block, Heading | GradeLine)
