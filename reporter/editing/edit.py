"""One edit: where, what stood there when it was looked at, what is to stand there.

Values are plain data as the files hold them: texts, lists and mappings of texts. None is absent; so are an empty text,
an empty list and an empty mapping, since the reader of the files refuses those.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from typing import Any

from reporter.errors import ExitCode, GudgeonError
from reporter.model.unseen_characters import CONTROL

Plain = Any
"""None, a text, or lists and mappings of these."""
Step = str | int | dict[str, Any]
Address = tuple[Step, ...]

MOST_DEEP = 16


class EditError(GudgeonError):
    """Raised when an edit cannot be carried out; nothing has changed then."""

    exit_code = ExitCode.JOB_INVALID


@dataclass(frozen=True)
class Edit:
    """One change of one value: `address` is keys, places counted from 0, and entries by what they are called.

    `{"id": "chain"}` and `{"photo": "a.jpg"}` find an entry of a list; in a table `{"row": [part, reading, at, n]}` is
    the n-th row of these (from 0) and `{"rows": [part, reading, at]}` all of them.
    """

    file: str
    address: Address
    seen: Plain = None
    wanted: Plain = None

    @classmethod
    def of(cls, raw: Any) -> Edit:
        """The edit that JSON tells; EditError when it is none."""
        if not isinstance(raw, dict) or not isinstance(raw.get("file"), str):
            raise EditError("This is no edit.", "Give file, address, seen and wanted.")
        address = raw.get("address")
        if not isinstance(address, list | tuple) or not address or len(address) > MOST_DEEP:
            raise EditError("An edit needs an address.", "Give its keys as a list.")
        if not all(_is_step(step) for step in address):
            raise EditError("This address cannot be understood.", "Use keys, numbers and {id: …}.")
        return cls(raw["file"], tuple(address), plain(raw.get("seen")), plain(raw.get("wanted")))


def _is_step(step: Any) -> bool:
    if isinstance(step, dict):
        return len(step) == 1 and next(iter(step)) in {"id", "photo", "row", "rows"}
    return isinstance(step, str | int) and not isinstance(step, bool) and step != ""


@dataclass(frozen=True)
class Conflict:
    """An edit that meets another value than the one seen."""

    file: str
    address: Address
    seen: Plain
    now: Plain
    wanted: Plain


class ConflictError(EditError):
    """Raised when a value is neither the one seen nor the one wanted; nothing has changed then."""

    def __init__(self, conflicts: list[Conflict]) -> None:
        self.conflicts = conflicts
        super().__init__("Somebody else has changed this meanwhile.", "Look at what stands there now.")


def plain(value: Any, deep: int = 0) -> Plain:
    """`value` as a file holds it: numbers and truth as text, what is empty as None; EditError for what no file holds."""
    if deep > MOST_DEEP:
        raise EditError("This value is nested too deeply.", "Give texts, lists and mappings.")
    if isinstance(value, list | tuple):
        return [each for each in (plain(item, deep + 1) for item in value) if each is not None] or None
    if isinstance(value, dict):
        inner = {_storable(str(key)): plain(item, deep + 1) for key, item in value.items()}
        return {key: each for key, each in inner.items() if each is not None} or None
    if value is None or value == "":
        return None
    return _storable(_text(value))


def _text(value: Any) -> str:
    if isinstance(value, str):
        return value.replace("\r\n", "\n").replace("\r", "\n")
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, int | float):
        return format(Decimal(str(value)), "f")
    raise EditError(f"A value cannot be a {type(value).__name__}.", "Give texts, lists and mappings.")


def _storable(text: str) -> str:
    if found := CONTROL.search(text):
        msg = f"There is a control character in this text (U+{ord(found[0]):04X})."
        raise EditError(msg, "Delete it and type the text again.")
    return text
