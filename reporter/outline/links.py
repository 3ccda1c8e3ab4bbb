"""Links that lead nowhere in this report become plain text: a template may leave out what another section points to.

Comes in: all blocks. Goes out: the same blocks.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from reporter.model.base import Noun
from reporter.model.report import Block, Span

LINKS = {"href", "place_href"}
"""Fields of nouns other than spans that hold "#anchor"."""


def resolved(blocks: Sequence[Block]) -> tuple[Block, ...]:
    """The blocks, without links to anchors that none of them has."""
    anchors = {anchor for block in blocks if (anchor := getattr(block, "anchor", ""))}
    return tuple(_resolved(block, anchors) for block in blocks)


def _resolved(value: Any, anchors: set[str]) -> Any:
    if isinstance(value, Span):
        lost = value.href.startswith("#") and value.href[1:] not in anchors
        return value.model_copy(update={"href": ""}) if lost else value
    if isinstance(value, tuple):
        told = tuple(_resolved(each, anchors) for each in value)
        return told if any(new is not old for new, old in zip(told, value, strict=True)) else value
    if isinstance(value, Noun):
        changes = {name: new for name, old in value if (new := _resolved(old, anchors)) is not old}
        changes |= {name: "" for name, old in value if name in LINKS and old and old[1:] not in anchors}
        return value.model_copy(update=changes) if changes else value
    return value
