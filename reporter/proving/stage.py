"""The order of the proof: seals first, then who they are of, the data, the folder; and the verdict of all together."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from pathlib import Path

from reporter.door.workers import close, run
from reporter.errors import UsageError
from reporter.model.sealed import (
    Corroboration,
    Proof,
    ProofOutcome,
    Remark,
    SealInspection,
    grouped,
    remark,
)
from reporter.proving.folder import folder_evidence
from reporter.proving.regrading import CarriedData, carried
from reporter.seal import inspect, require


def prove(
    file: Path,
    job: Path | None = None,
    *,
    known: Collection[str] = (),
    expected: int | None = None,
    template: Path | None = None,
) -> Proof:
    """Hold `file` against its seals and its own data, and against the job folder where one is given.

    `known` are the fingerprints that the reader keeps, `expected` the number of signatures that should be there,
    `template` the file of a template of one's own, where the report was made with one. UsageError: no such file, or the
    extra is not installed. JobError and the like where the reader's own folder cannot be used.
    """
    require()
    if not file.is_file():
        raise UsageError(f"There is no file {file}.")
    found, data = _read(file, template)
    if isinstance(found, Remark):
        return Proof(outcome=ProofOutcome.UNREADABLE, remarks=(found,))
    kept = tuple(each.fingerprint for each in found.signatures if each.fingerprint in known)
    evidence = [_signers(found, kept), _seals(found), _count(found, expected), data.evidence]
    if job is not None:
        evidence.append(folder_evidence(file, job, found, data, template))
    return Proof(
        outcome=_verdict(found, evidence),
        remarks=tuple(each for one in evidence for each in one.remarks),
        inspection=found,
        known=kept,
        data=data.number,
    )


def _read(file: Path, template: Path | None) -> tuple[SealInspection | Remark, CarriedData]:
    """Both readings of the stranger's file, each in a worker; one that the worker did not survive is too much to read."""
    try:
        found = run(looked_at, [(str(file),)])[0]
        data = run(carried, [(str(file), str(template or ""))])[0]
    finally:
        close()
    too_much = remark("verify.too_much")
    if not isinstance(data, CarriedData):
        data = CarriedData(evidence=Corroboration(remarks=(too_much,), limits=True))
    return (found if isinstance(found, SealInspection | Remark) else too_much), data


def looked_at(path: str) -> SealInspection | Remark:
    """The seals on the file at `path`; readers of damaged files raise nearly everything."""
    try:
        return inspect(path)
    except MemoryError:
        raise
    except Exception as fault:  # noqa: BLE001
        return remark("verify.unreadable", why=type(fault).__name__)


def _verdict(found: SealInspection, evidence: list[Corroboration]) -> ProofOutcome:
    if not all(each.agrees for each in evidence):
        return ProofOutcome.CHANGED
    if not found.signatures:
        return ProofOutcome.UNSEALED
    return ProofOutcome.LIMITED if any(each.limits for each in evidence) else ProofOutcome.VERIFIED


def _seals(found: SealInspection) -> Corroboration:
    """What the signatures themselves show."""
    if found.faults:
        return Corroboration(remarks=found.faults, agrees=False)
    if not found.signatures:
        return Corroboration(remarks=(remark("verify.unsealed"),))
    whole = remark("verify.report", bytes=found.report_bytes, number=found.report_sha256)
    empty = [remark("verify.empty", fields=", ".join(found.empty))] if found.empty else []
    revisions = [
        remark("verify.revision_ink" if each.ink else "verify.revision", number=number, field=each.field)
        for number, each in enumerate(found.signatures, 1)
    ]
    return Corroboration(remarks=(remark("verify.covered"), whole, *revisions, *empty))


def _signers(found: SealInspection, kept: Collection[str]) -> Corroboration:
    """Who signed: a name is worth what the fingerprint beside it is worth to the reader, and nothing in a changed file."""
    if found.faults:
        return Corroboration()
    return Corroboration(
        remarks=tuple(_signer_told(found, kept)),
        limits=any(each.fingerprint not in kept for each in found.signatures),
    )


def _signer_told(found: SealInspection, kept: Collection[str]) -> Iterator[Remark]:
    for place, each in enumerate(found.signatures):
        ident = "verify.signed" if place else "verify.sealed"
        yield remark(ident, name=each.name, field=each.field, when=each.signed.replace("T", " "))
        told = "verify.known" if each.fingerprint in kept else "verify.unknown"
        yield remark(told, name=each.name, fingerprint=grouped(each.fingerprint))


def _count(found: SealInspection, expected: int | None) -> Corroboration:
    """A file cut back to an earlier revision is whole in itself: only the number that the reader expects shows it."""
    there = len(found.signatures)
    if expected is None or there == expected:
        return Corroboration()
    return Corroboration(remarks=(remark("verify.count", expected=expected, found=there),), agrees=False)
