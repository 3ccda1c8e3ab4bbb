"""A form's part as it would be read out: a page for a browser is not filled in.

Comes in: a `Fields` block. Goes out: markup.
"""

from __future__ import annotations

from reporter.model.report import Box, FieldItem, Fields, FillIn, Said
from reporter.web.markup import Markup, tag


def fields(block: Fields) -> Markup:
    """The part's title, and its words with what is ticked and written."""
    told = (_field(item) for item in block.items)
    return tag("div", tag("h3", block.title) if block.title else "", tag("p", *told), class_="fields")


def _field(item: FieldItem) -> str:
    if isinstance(item, Said):
        return "".join(span.text for span in item.text) + " "
    if isinstance(item, Box):
        return f"{'☒' if item.on else '☐'} {item.text} "
    return f"{item.value or '____'} " if isinstance(item, FillIn) else ""
