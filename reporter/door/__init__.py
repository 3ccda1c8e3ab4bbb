"""The one door to photo files: everything that opens a photo stands here, and runs in worker processes.

    read_photos    header, EXIF and hash of each file → PhotoFile (for collecting)
    decode_check   decodes every pixel and tells what fails (for `check --photos`)
    named          what the door says of photos, as problems with their names
    run            any function of ours over many photos, in the workers (for developing)
    close          ends the workers
    group_by_gaps  photos in order of time, parted at pauses
    read_captions  what was written into each file as its caption (for `new`)

The parent process never decodes anything, and nothing is written.
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from reporter.door.captions import read_captions as read_captions
    from reporter.door.reading import decode_check as decode_check
    from reporter.door.reading import group_by_gaps as group_by_gaps
    from reporter.door.reading import named as named
    from reporter.door.reading import read_photos as read_photos
    from reporter.door.refusal import Refusal as Refusal
    from reporter.door.workers import close as close
    from reporter.door.workers import run as run

_STANDS_IN = {
    "Refusal": "refusal",
    "close": "workers",
    "decode_check": "reading",
    "group_by_gaps": "reading",
    "named": "reading",
    "read_captions": "captions",
    "read_photos": "reading",
    "run": "workers",
}


def __getattr__(name: str) -> object:
    """Fetches a public name when it is first asked for: a worker then starts without the model (0.2 s each)."""
    if name not in _STANDS_IN:
        message = f"module {__name__!r} has no attribute {name!r}"
        raise AttributeError(message)
    return getattr(import_module(f"{__name__}.{_STANDS_IN[name]}"), name)
