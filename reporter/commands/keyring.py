"""The fingerprints that a reader keeps: those given with a command, and those in a small folder of one's own.

A file holds one fingerprint a line; what follows it, and lines that begin otherwise, are one's own notes.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from pathlib import Path

from reporter.errors import UsageError

_FINGERPRINT = re.compile(r"\s*((?:[0-9A-Fa-f]{2}[\s:]?){32})(?![0-9A-Fa-f])")


def kept(given: Iterable[str], folder: Path) -> frozenset[str]:
    """Every fingerprint that the reader keeps, in small letters without spaces.

    `given` are fingerprints or names of files; the files of `folder` are read where it exists. UsageError where one given is
    neither.
    """
    found: set[str] = set()
    for each in given:
        told = list(_fingerprints(each)) or (_of_file(Path(each)) if Path(each).is_file() else [])
        if not told:
            raise UsageError(
                f"'{each}' is no fingerprint, and no file of them.",
                "A fingerprint has 64 characters, 0 to 9 and a to f.",
            )
        found.update(told)
    for file in sorted(folder.glob("*")) if folder.is_dir() else []:
        found.update(_of_file(file) if file.is_file() else [])
    return frozenset(found)


def _of_file(file: Path) -> list[str]:
    try:
        lines = file.read_text("utf-8").splitlines()
    except (OSError, UnicodeDecodeError):
        return []
    return [each for line in lines for each in _fingerprints(line)]


def _fingerprints(line: str) -> Iterator[str]:
    if match := _FINGERPRINT.match(line):
        yield re.sub(r"[\s:]", "", match[1]).lower()
