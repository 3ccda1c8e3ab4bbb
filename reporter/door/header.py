"""What one file says before any pixel is decoded. Runs in a worker, so it must not import the model.

Comes in: a path and the job folder. Goes out: a `Header`, also for a file that cannot be shown.
"""

from __future__ import annotations

import hashlib
from dataclasses import dataclass, replace
from pathlib import Path

from reporter.door import formats, metadata, pixels
from reporter.door.refusal import Refusal, damaged
from reporter.machine.shortage import is_machines

_NO_TAGS = metadata.Tags()


@dataclass(frozen=True, slots=True)
class Header:
    """Identity, upright size in pixels, EXIF fields; `problem` says why the file cannot be shown."""

    sha256: str = ""
    size_bytes: int = 0
    format: str = ""
    width: int = 0
    height: int = 0
    tags: metadata.Tags = _NO_TAGS
    turned: str = ""
    problem: str = ""


def read_header(path: str, root: str) -> Header:
    """Reads one file. Raises `Refusal` only when there is nothing to read; a file that is no photo has its hash.

    What the computer lacks is raised as it came.
    """
    file = Path(path)
    data = formats.take(file, Path(root))
    identity = Header(hashlib.sha256(data).hexdigest(), len(data))
    try:
        opened = pixels.open_photo(data, file)
    except Refusal as refusal:
        return replace(identity, tags=_tags_of_refused(data), problem=str(refusal))
    except Exception as fault:
        # Readers of damaged files raise nearly everything.
        if is_machines(fault):
            raise
        return replace(identity, tags=metadata.read_tags(data, None), problem=str(damaged(fault)))
    width, height = opened.size
    kind = opened.image.format or ""
    return replace(identity, format=kind, width=width, height=height, tags=opened.tags, turned=opened.turned)


def decode(path: str, root: str) -> None:
    """Decodes every pixel and lets it go. Raises `Refusal`, or whatever the format's reader raises."""
    file = Path(path)
    pixels.upright(pixels.open_photo(formats.take(file, Path(root)), file), None)


def _tags_of_refused(data: bytes) -> metadata.Tags:
    """A photo too large to render, or a raw file, still tells its time."""
    try:
        return metadata.read_tags(data, formats.open_image(data))
    except Refusal:
        return metadata.read_tags(data, None)
