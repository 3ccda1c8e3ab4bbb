"""One number for all the data that a report carries: the same wherever the same data are, sealed or not."""

from __future__ import annotations

from collections.abc import Mapping
from hashlib import sha256

GROUP = 4
"""Characters in a group of a printed number: what a person compares at one look."""


def data_hash(files: Mapping[str, bytes]) -> str:
    """The SHA-256 (FIPS 180-4) over one line for each attached file, sorted: its own SHA-256, two spaces, its name.

    This is what `sha256sum * | sort -k 2 | sha256sum` prints for the folder that `gudgeon extract` writes, in lower-case
    hexadecimal. It is of the data, not of the PDF: so it can stand on a page of it, and sealing leaves it as it is.
    """
    lines = [f"{sha256(content).hexdigest()}  {name}\n" for name, content in sorted(files.items())]
    return sha256("".join(lines).encode("utf-8")).hexdigest()


def grouped(number: str) -> str:
    """The number in groups of four, to be read aloud or compared by eye."""
    return " ".join(number[at : at + GROUP] for at in range(0, len(number), GROUP))
