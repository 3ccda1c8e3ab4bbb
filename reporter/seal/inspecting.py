"""A stranger's file read: each signature reckoned again, and each revision held to what a signature may add.

Comes in: a path. Goes out: an `Inspection`; whatever is not in order stands in it as a fault. Runs in a worker with limits of
time and memory: a file made to exhaust its reader is then one that cannot be read.
"""

from __future__ import annotations

import logging
from collections.abc import Iterator
from hashlib import sha256
from io import BytesIO
from pathlib import Path
from typing import Any

from pyhanko.pdf_utils.reader import PdfFileReader
from pyhanko.sign.fields import enumerate_sig_fields
from pyhanko.sign.validation import EmbeddedPdfSignature, validate_pdf_signature
from pyhanko.sign.validation.status import SignatureCoverageLevel
from pyhanko_certvalidator import ValidationContext

from reporter.model.sealed import Remark, SealInspection, Signature, remark, shown
from reporter.seal.contents import content_faults
from reporter.seal.keys import fingerprint
from reporter.seal.revisions import Revision, ends_of, entry, revision_faults, whole_faults


def inspection(path: str) -> SealInspection:
    """Do what `inspect` promises. Raises nearly anything on a file that is no PDF, or a broken one."""
    logging.disable(logging.CRITICAL)  # the library tells its log about every file that is not in order
    document = Path(path).read_bytes()
    reader = PdfFileReader(BytesIO(document), strict=True)
    found = sorted(reader.embedded_signatures, key=lambda each: int(each.signed_revision))
    fields = [(name, value is not None) for name, value, _ in enumerate_sig_fields(reader)]
    revisions = [Revision(document, reader, number) for number in range(1, reader.xrefs.total_revisions)]
    ends = revisions[0].start if revisions else len(document)
    return SealInspection(
        signatures=tuple(_told(each) for each in found),
        faults=tuple(_faults(document, found, revisions, [name for name, _ in fields])),
        empty=tuple(name for name, is_signed in fields if not is_signed),
        revisions=len(revisions) + 1,
        report_bytes=ends,
        report_sha256=sha256(document[:ends]).hexdigest(),
        file_sha256=sha256(document).hexdigest(),
    )


def _faults(
    document: bytes, found: list[EmbeddedPdfSignature], revisions: list[Revision], fields: list[str]
) -> Iterator[Remark]:
    """The whole first, then revision by revision, then each signature."""
    yield from whole_faults(document, revisions, fields)
    by_revision: dict[int, list[EmbeddedPdfSignature]] = {}
    for each in found:
        by_revision.setdefault(int(each.signed_revision), []).append(each)
    for revision, end in zip(revisions, ends_of(document, revisions), strict=True):
        signed = by_revision.get(revision.number, [])
        if len(signed) != 1:
            yield remark("verify.revision_unsigned", number=revision.number)
            continue
        yield from revision_faults(revision, str(signed[0].fq_name))
        yield from content_faults(document, signed[0], revision.start, end)
    for each in by_revision.get(0, []):
        yield remark("verify.signed_in_report", field=each.fq_name)
    for place, each in enumerate(found):
        yield from _reckoned(each, is_last=place == len(found) - 1)


def _reckoned(signature: EmbeddedPdfSignature, *, is_last: bool) -> Iterator[Remark]:
    """The library's verdict, with the certificate itself as what is trusted: whose it is, is for the reader to know.

    Its difference analysis is asked as well, although the rules for revisions are narrower.
    """
    context = ValidationContext(
        trust_roots=[signature.signer_cert], allow_fetching=False, moment=signature.self_reported_timestamp
    )
    status = validate_pdf_signature(signature, context)
    if not (status.intact and status.valid):
        yield remark("verify.broken", field=signature.fq_name)
    elif not status.bottom_line:
        yield remark("verify.not_allowed", field=signature.fq_name)
    if is_last and status.coverage != SignatureCoverageLevel.ENTIRE_FILE:
        yield remark("verify.not_covered")


def _told(signature: EmbeddedPdfSignature) -> Signature:
    certificate: Any = signature.signer_cert
    claimed = signature.self_reported_timestamp
    reach = [int(each) for each in signature.byte_range]
    return Signature(
        field=shown(str(signature.fq_name)),
        name=shown(str(certificate.subject.native.get("common_name", certificate.subject.human_friendly))),
        fingerprint=fingerprint(certificate.dump()),
        signed=claimed.isoformat() if claimed else "",
        valid_from=certificate.not_valid_before.isoformat(),
        valid_until=certificate.not_valid_after.isoformat(),
        ends=reach[2] + reach[3],
        ink=_has_ink(signature.sig_field),
    )


def _has_ink(field: Any) -> bool:
    drawn = entry(entry(field, "/AP"), "/N")
    return bool(getattr(drawn, "data", b"").strip())
