"""Words of the trade that occur in the report, one line each: for a buyer who sails and has never rigged a boat.

Comes in: the other sections' blocks. Goes out: a table. What a word means stands in the catalogue under `[glossary]`, as
"word: meaning"; a word may have several forms, parted by strokes.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from typing import Any

from reporter.model.base import Noun
from reporter.model.drawing import Drawing
from reporter.model.report import Block, Span
from reporter.outline.blocks import cell, head, heading, table
from reporter.outline.context import Context
from reporter.outline.first_page import FEW

_TOLD = frozenset({"text", "name", "place", "sentence", "caption", "label"})
"""Fields of blocks that are read as text."""


def write(context: Context, blocks: Sequence[Block]) -> list[Block]:
    """Only words that the other sections use; nothing where they use none, or where a report of a few parts is told in short."""
    if context.brief and len(context.assessments.components) <= FEW:
        return []
    words = context.words
    text = " ".join(_texts(list(blocks))).lower()
    rows = []
    for ident in (each for each in words.ids if each.partition(".")[0] == "glossary"):
        told, _, means = words(ident).partition(": ")
        forms = [words.terms(form) for form in told.split("|")]
        if any(_used(form.lower(), text) for form in forms):
            rows.append((head(forms[0]), cell(means)))
    if not rows:
        return []
    rows.sort(key=lambda row: row[0].text[0].text.lower())
    return [heading(context, "glossary"), table(words, "glossary_head", rows, word=1, means=4)]


def _used(form: str, text: str) -> bool:
    # Looking for letters is far quicker than looking for a pattern, and most words do not occur.
    return form in text and re.search(rf"\b{re.escape(form)}(s|es)?\b", text) is not None


def _texts(value: Any) -> Iterator[str]:
    """Every text that a reader sees in the blocks."""
    if isinstance(value, Span):
        yield value.text
    elif isinstance(value, list | tuple):
        for each in value:
            yield from _texts(each)
    elif isinstance(value, Noun) and not isinstance(value, Drawing):
        for name, each in value:
            if isinstance(each, str) and name in _TOLD:
                yield each
            elif not isinstance(each, str):
                yield from _texts(each)
