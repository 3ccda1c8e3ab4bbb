"""A filled field sheet taken back into its folder: what is new is added, what differs is told, what nobody can read is named.

Comes in: the filled form, the folder's files, the installed kinds. Goes out: edits, and what to tell. It writes nothing
itself; which bytes an edit changes is the matter of `reporter.editing`.
"""

from __future__ import annotations

from reporter.taking.folder import FolderData, folder_data
from reporter.taking.taken import Notice, SheetTaken
from reporter.taking.taking import take

__all__ = ["FolderData", "Notice", "SheetTaken", "folder_data", "take"]
