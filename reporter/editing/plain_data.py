"""Plain data of a file by address: what stands there, and the same edit done on plain data.

The data stand in for the file's text: an edit of the text is right when it reads as this edit of the data does.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Any, Literal

from reporter.editing.edit import Address, Edit, EditError, Plain, Step

Path = tuple[str | int, ...]
"""A way through mappings and lists as they are now."""
NAMED_BY = {"id": "id", "photo": "file"}
"""The key by which an entry of a list is found."""


@dataclass(frozen=True)
class Op:
    """One primitive change: a value set in place of another, one put in where there was none, or one taken out."""

    do: Literal["set", "insert", "remove"]
    path: Path
    value: Plain = None


def short_for(path: Sequence[Step], data: Plain) -> Plain:
    """A text that stands for a mapping, as `examined: seen` does, written out; anything else as it is."""
    if not isinstance(data, str):
        return data
    keys = list(path)
    within = keys[2:] if keys[:1] == ["components"] else keys
    if within == ["examined"]:
        return {"extent": data}
    if within[:1] == ["details"] and len(within) == 2:  # noqa: PLR2004
        return {"value": data}
    if within[:1] == ["observed"] and len(within) in {2, 3}:
        return {"choice": data}
    if within[:1] == ["photos"] and len(within) == 2:  # noqa: PLR2004
        return {"file": data}
    return data


def reach(data: Plain, address: Address) -> tuple[Path, Address]:
    """The part of `address` that is there, as a path, and the steps that are not."""
    path: Path = ()
    here = data
    for number, step in enumerate(address):
        whole = short_for(path, here)
        place = _place(whole, step)
        if place is None:
            return path, address[number:]
        here, path = whole[place], (*path, place)
        if here is None:
            return path[:-1], address[number:]
    return path, ()


def _place(node: Plain, step: Step) -> str | int | None:
    """The key or position that `step` means in `node`; None where there is none."""
    if isinstance(step, dict):
        return _named(node, step) if isinstance(node, list) else None
    if isinstance(step, str):
        return step if isinstance(node, dict) and step in node else None
    return step if isinstance(node, list) and 0 <= step < len(node) else None


def _named(entries: list[Any], step: dict[str, Any]) -> int | None:
    key, name = next(iter(step.items()))
    for index, each in enumerate(entries):
        if (each.get(NAMED_BY[key]) if isinstance(each, dict) else each) == name:
            return index
    return None


def at(data: Plain, path: Path) -> Plain:
    """What stands at `path`; a text that is short for a mapping is read as that mapping."""
    here = data
    for number, step in enumerate(path):
        here = short_for(path[:number], here)[step]
    return here


def value_at(data: Plain, address: Address) -> Plain:
    """What stands at `address`; None where there is nothing. Empty values count as nothing."""
    path, missing = reach(data, address)
    return None if missing else _filled(at(data, path))


def _filled(value: Plain) -> Plain:
    """Without what stands empty in the file."""
    if isinstance(value, dict):
        return {key: each for key, item in value.items() if (each := _filled(item)) is not None} or None
    if isinstance(value, list):
        return [each for each in map(_filled, value) if each is not None] or None
    return value


def applied(data: Plain, op: Op) -> Plain:
    """`data` after one primitive change; the original is left alone."""
    if not op.path:
        return op.value
    step, *rest = op.path
    node: Any = list(data) if isinstance(data, list) else dict(data)
    if rest:
        node[step] = applied(node[step], Op(op.do, tuple(rest), op.value))
    elif op.do == "remove":
        del node[step]
    elif op.do == "insert" and isinstance(node, list):
        node.insert(int(step), op.value)
    else:
        node[step] = op.value
    return node


def built(steps: Address, value: Plain) -> Plain:
    """`value` inside the mappings and lists that `steps` ask for."""
    for step in reversed(steps):
        if isinstance(step, str):
            value = {step: value}
            continue
        if isinstance(step, dict):
            value = _called(step, value)
        elif step != 0:
            raise EditError("An entry can only be added at the end of its list.", "Look at the list again.")
        value = [value]
    return value


def with_its_name(edit: Edit) -> Edit:
    """The edit with the name in a new entry by which the entry is asked for."""
    last = edit.address[-1]
    if isinstance(last, dict) and "row" not in last and "rows" not in last:
        return replace(edit, wanted=_called(last, edit.wanted))
    return edit


def _called(step: dict[str, Any], value: Plain) -> Plain:
    key, name = next(iter(step.items()))
    called = NAMED_BY[key]
    if not isinstance(value, dict):
        return value
    return value if value.get(called) == name else {called: name, **value}
