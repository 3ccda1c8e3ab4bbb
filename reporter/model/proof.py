"""What came out of holding a received file against its seals, its own data and a folder."""

from __future__ import annotations

from enum import StrEnum

from reporter.model.base import Noun
from reporter.model.sealed import Remark, SealInspection


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
