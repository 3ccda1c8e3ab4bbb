"""What can be told of the seals on a file: who, when by whose clock, what each revision added, what is not in order."""

from __future__ import annotations

from reporter.model.base import Noun

LONGEST = 300
"""Characters of a stranger's text that are shown."""


class Remark(Noun):
    """A sentence of the catalogue, and what is put into it."""

    id: str
    words: dict[str, str] = {}


def remark(ident: str, **words: object) -> Remark:
    """A remark with its words as text on one line: a stranger's name must not steer the terminal it is shown on."""
    return Remark(id=ident, words={name: shown(str(value)) for name, value in words.items()})


def shown(text: str) -> str:
    """What can be shown of a text from a stranger's file: printable characters, not too many of them."""
    return "".join(char if char.isprintable() else " " for char in text)[:LONGEST]


class Signature(Noun):
    """One signature. Times are ISO 8601; `signed` is by the signer's own clock, and proves nothing.

    `name` is what the certificate says, which its owner wrote; `fingerprint` is the certificate's SHA-256 in hexadecimal.
    `ends` is where its revision ends, in bytes from the beginning of the file.
    """

    field: str
    name: str
    fingerprint: str
    signed: str
    valid_from: str
    valid_until: str
    ends: int
    ink: bool = False


class SealInspection(Noun):
    """A whole file: its signatures in their order, the fields still empty, and everything that is not in order.

    `report_bytes` is the length of the report as it was before the first signature, `report_sha256` its SHA-256; of a file
    without one they are of the whole. `revisions` counts them all.
    """

    signatures: tuple[Signature, ...] = ()
    faults: tuple[Remark, ...] = ()
    empty: tuple[str, ...] = ()
    revisions: int = 1
    report_bytes: int = 0
    report_sha256: str = ""
    file_sha256: str = ""
