"""Checksums of the tables that this program wrote: nothing in a table can hold one, and whoever adds a line to it must not lose it.

Comes in: the path of a table. Goes out: whether it is still as it was written there, as far as this computer knows. Kept is a
checksum of the table under one of its path, no word of either; where it cannot be kept, the table counts as unchanged.
"""

from __future__ import annotations

import hashlib
from contextlib import suppress
from pathlib import Path

from reporter.machine.own_folder import own_folder


def note(table: Path) -> None:
    """Keep the checksum of a table that has just been written."""
    place = _place(table)
    with suppress(OSError):
        place.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
        place.write_text(_checksum(table.read_bytes()), "ascii")


def changed(table: Path) -> bool:
    """True where another table stands now than was written there."""
    try:
        return _place(table).read_text("ascii") != _checksum(table.read_bytes())
    except (OSError, ValueError):
        return False


def _place(table: Path) -> Path:
    return own_folder() / "tables" / _checksum(str(table.resolve()).encode("utf-8", "surrogateescape"))


def _checksum(content: bytes) -> str:
    return hashlib.sha256(content).hexdigest()
