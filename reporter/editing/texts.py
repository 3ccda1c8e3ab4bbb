"""Edits carried out in the text of a file, and checked: the outcome reads as the same edit of the plain data.

In: the text of one file (as decoded, byte order mark and line breaks as they are) and its edits. Out: the new text.
"""

from __future__ import annotations

from collections.abc import Iterable
from functools import lru_cache
from typing import Any

import yaml

from reporter.editing import records, writing
from reporter.editing.edit import Address, Conflict, ConflictError, Edit, EditError, Plain
from reporter.editing.plain_data import Op, applied, value_at, with_its_name
from reporter.editing.planning import plan
from reporter.editing.spans import Cut, Outline, cuts

BOM = "\ufeff"
TABLES = (".csv",)
BEGINNING = "format: 1\n"


def edited(text: str, edits: Iterable[Edit], *, table: bool = False) -> str:
    """`text` with all `edits` done. ConflictError when a value is neither seen nor wanted, EditError when it cannot be."""
    mark = BOM if text.startswith(BOM) else ""
    text = text.removeprefix(BOM)
    conflicts: list[Conflict] = []
    for edit in map(with_its_name, edits):
        now = _value(text, edit.address, table=table)
        if now == edit.wanted:
            continue
        if now != edit.seen:
            conflicts.append(Conflict(edit.file, edit.address, edit.seen, now, edit.wanted))
            continue
        text = records.edited(text, edit) if table else _in_yaml(text, edit)
    if conflicts:
        raise ConflictError(conflicts)
    return mark + text


def value_in(text: str, address: Address, *, table: bool = False) -> Plain:
    """What stands at `address` of a text; None where there is nothing."""
    return _value(text.removeprefix(BOM), address, table=table)


def _value(text: str, address: Address, *, table: bool) -> Plain:
    return records.value(text, address) if table else value_at(_data(text), address)


def is_table(file: str) -> bool:
    """Whether a file is a table of readings, and no YAML."""
    return file.endswith(TABLES)


@lru_cache(maxsize=8)
def _data(text: str) -> Plain:
    """The plain data of a YAML text; what stands empty is None. EditError when it cannot be read."""
    outline = Outline.of(text)
    return {} if outline.root is None else _read(outline.root)


def _read(node: Any) -> Plain:
    if isinstance(node, yaml.MappingNode):
        data = {key.value: _read(value) for key, value in node.value}
        if len(data) != len(node.value):
            raise EditError(
                "A key stands twice in the file.", "Keep one of the two; 'gudgeon check' tells which."
            )
        return data
    if isinstance(node, yaml.SequenceNode):
        return [_read(each) for each in node.value]
    empty = node.value == "" or (not node.style and node.value in writing.NULLS)
    return None if empty else node.value


def _in_yaml(text: str, edit: Edit) -> str:
    if not text.strip() or Outline.of(text).root is None:
        text = text + ("" if text.endswith("\n") or not text else "\n") + BEGINNING
    for op in plan(_data(text), edit.address, edit.wanted):
        text = _done(text, op)
    if edit.wanted is not None and value_at(_data(text), edit.address) != edit.wanted:
        raise EditError("This cannot be written into the file as it is.", "Edit the file by hand.")
    return text


def _done(text: str, op: Op) -> str:
    """`text` after one primitive change that reads back as meant; tried in the old manner, then in quotes."""
    expected = applied(_data(text), op)
    # Quotes are right everywhere and no person's manner, so they come last.
    for style in (None, "", '"'):
        try:
            tried = _cut(text, cuts(Outline.of(text), op, style))
            if _data(tried) == expected:
                return tried
        except (EditError, yaml.YAMLError):
            continue
    raise EditError("This cannot be changed in the file as it is written.", "Edit the file by hand.")


def _cut(text: str, pieces: list[Cut]) -> str:
    """The pieces put in from the end, so that the places before stay right."""
    for _, piece in sorted(enumerate(pieces), key=lambda each: (each[1].start, each[0]), reverse=True):
        text = text[: piece.start] + piece.text + text[piece.end :]
    return text
