"""What shows whether a file is as it was: the number of its data, its seals, and the verdict on a received one.

Of the seals: who, when by whose clock, what each revision added, what is not in order.
"""

from __future__ import annotations

from collections.abc import Mapping
from enum import StrEnum
from hashlib import sha256

from reporter.model.base import Noun

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


class ProofOutcome(StrEnum):
    """The verdict on a received file; each has an exit code of its own."""

    VERIFIED = "verified"
    LIMITED = "limited"
    CHANGED = "changed"
    UNSEALED = "unsealed"
    UNREADABLE = "unreadable"


class Corroboration(Noun):
    """One kind of evidence: what was found of it, and whether it agrees; `limits` where it could not be compared."""

    remarks: tuple[Remark, ...] = ()
    agrees: bool = True
    limits: bool = False


class Proof(Noun):
    """The verdict with everything that it rests on; `known` are the fingerprints of signers that the reader keeps."""

    outcome: ProofOutcome
    remarks: tuple[Remark, ...]
    inspection: SealInspection | None = None
    known: tuple[str, ...] = ()
    data: str = ""
    """The number of the attached data; empty where there are none."""
