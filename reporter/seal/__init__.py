"""Sealing: a person's key, the signatures put on a finished report, and what can be told of those that stand on one.

pyHanko and cryptography are used here and nowhere else. They are an extra (`pip install "gudgeon[seal]"`): without it
everything else works, and what needs it says so. Nothing here asks a network for anything: no time stamp, no list of
certificates. A seal made with a self-made certificate is no qualified signature (Regulation (EU) 910/2014, articles 3(12)
and 25(2)); local law decides what it is worth.
"""

from __future__ import annotations

from importlib.util import find_spec
from typing import TYPE_CHECKING

from reporter.errors import UsageError

if TYPE_CHECKING:
    from datetime import datetime
    from pathlib import Path

    from reporter.model.sealed import SealInspection
    from reporter.seal.keys import Key

__all__ = ["add_signature", "inspect", "make_key", "open_key", "require"]


def require() -> None:
    """Say what to install when the extra is missing: a UsageError."""
    if find_spec("pyhanko") is None or find_spec("cryptography") is None:
        raise UsageError("Keys and seals need two more libraries.", 'Run: pip install "gudgeon[seal]"')


def make_key(file: Path, name: str, password: str, now: datetime) -> Key:
    """Make a key and a certificate in `name`, and write both to `file`, which only its owner may read.

    CannotWriteError where `file` exists or cannot be written; UsageError for a password too short to protect it.
    """
    require()
    from reporter.seal.keys import make

    return make(file, name, password, now)


def open_key(file: Path, password: str) -> Key:
    """Read a key file. UsageError: no such file, not a key file, or another password."""
    require()
    from reporter.seal.keys import read

    return read(file, password)


def add_signature(document: bytes, key: Key, field: str = "", ink: str = "") -> bytes:
    """The document with one signature more, its own bytes unchanged in front.

    Without `field` it is the certification in the first field; else the field of that name. `ink` is the text of an SVG
    file with strokes. UsageError where the document, the field or the ink will not do.
    """
    require()
    from reporter.seal.sealing import signed

    return signed(document, key, field, ink)


def inspect(path: str) -> SealInspection:
    """Tell everything that can be told of the seals on the file at `path`; made to be run in a worker."""
    require()
    from reporter.seal.inspecting import inspection

    return inspection(path)
