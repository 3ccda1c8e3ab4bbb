"""Edits of a job folder by hand of a program: only the bytes meant change, and nothing accepted is lost.

An `Edit` is an address, the value seen and the value wanted. `edited` carries edits out in a text: comments, order and
unknown keys stay. `JobFiles` does so on disk, under a lock and with a journal for undo and for what others take away.
It reads no meaning into a folder: what a value is worth, `collect` tells.
"""

from __future__ import annotations

from reporter.editing.accepting import JobFiles, Lost
from reporter.editing.edit import Conflict, ConflictError, Edit, EditError, plain
from reporter.editing.journal import Entry
from reporter.editing.records import row_at, rows_of
from reporter.editing.texts import edited, value_in

__all__ = [
    "Conflict",
    "ConflictError",
    "Edit",
    "EditError",
    "Entry",
    "JobFiles",
    "Lost",
    "edited",
    "plain",
    "row_at",
    "rows_of",
    "value_in",
]
