"""The folder in which this program keeps what it may do without, readable by this user alone.

Comes in: nothing. Goes out: its path; it need not be there yet.
"""

from __future__ import annotations

import os
from pathlib import Path

VARIABLE = "GUDGEON_CACHE"
"""Names another folder in place of what the system calls the user's cache folder."""


def own_folder() -> Path:
    """The user's cache folder for this program."""
    from platformdirs import user_cache_path

    named = os.environ.get(VARIABLE)
    return Path(named) if named else user_cache_path("gudgeon", appauthor=False)
