"""What no page can hold, told by name.

In: the error, the report and the block. Out: an error that says under which heading it stands and how its longest text begins.
"""

from __future__ import annotations

from collections.abc import Iterator

from reporter.errors import LayoutError
from reporter.model.report import Heading, Report
from reporter.typeset.pagination import TooTallError
from reporter.typeset.styles import MM

SHOWN = 60
"""Characters of the longest text that are told."""


def named(error: TooTallError, report: Report, block: int) -> LayoutError:
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
