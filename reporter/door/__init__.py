"""The one door to photo files: everything that opens a photo stands here, and runs in worker processes.

    read_photos    header, EXIF and hash of each file → PhotoFile (for collecting)
    decode_check   decodes every pixel and tells what fails (for `check --photos`)
    run            any function of ours over many photos, in the workers (for developing)
    close          ends the workers
    group_by_gaps  photos in order of time, parted at pauses
    new_job        the beginnings of a job folder from a heap of photos (for `new`)
    empty_job      the same without photos

The parent process never decodes anything. Only `new_job` and `empty_job` write, and only a folder that is not there yet.
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from reporter.door.grouping import group_by_gaps
    from reporter.door.reading import decode_check, read_photos
    from reporter.door.refusal import Refusal
    from reporter.door.starting import empty_job, new_job
    from reporter.door.workers import close, run

__all__ = ["Refusal", "close", "decode_check", "empty_job", "group_by_gaps", "new_job", "read_photos", "run"]

_STANDS_IN = {
    "Refusal": "refusal",
    "close": "workers",
    "decode_check": "reading",
    "empty_job": "starting",
    "group_by_gaps": "grouping",
    "new_job": "starting",
    "read_photos": "reading",
    "run": "workers",
}


def __getattr__(name: str) -> object:
    """Fetches a public name when it is first asked for: a worker then starts without the model (0.2 s each)."""
    if name not in _STANDS_IN:
        message = f"module {__name__!r} has no attribute {name!r}"
        raise AttributeError(message)
    return getattr(import_module(f"{__name__}.{_STANDS_IN[name]}"), name)
