"""One signature more at the end of a finished report; everything before it stays byte for byte.

Comes in: the file's bytes, a key, a field, ink. Goes out: the bytes with one revision appended that holds the field, its
appearance, the signature and the cross-reference stream; in the first one also the catalogue, which names the
certification (ISO 32000-1, 12.8.2.2). Must not touch title, dates or metadata: the report's own stay true.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, datetime
from io import BytesIO
from typing import TYPE_CHECKING, Any

from asn1crypto import keys as asn1_keys
from asn1crypto import x509 as asn1_x509
from cryptography.hazmat.primitives.serialization import Encoding, NoEncryption, PrivateFormat
from pyhanko.pdf_utils.incremental_writer import IncrementalPdfFileWriter
from pyhanko.pdf_utils.layout import BoxConstraints
from pyhanko.pdf_utils.misc import PdfError
from pyhanko.pdf_utils.reader import PdfFileReader
from pyhanko.sign import PdfSignatureMetadata, PdfSigner, SimpleSigner
from pyhanko.sign.fields import MDPPerm, SigSeedSubFilter, enumerate_sig_fields
from pyhanko.sign.general import SigningError
from pyhanko.stamp.base import BaseStamp, BaseStampStyle
from pyhanko_certvalidator.registry import SimpleCertificateStore

from reporter.errors import UsageError
from reporter.seal.ink import strokes

if TYPE_CHECKING:
    from reporter.seal.keys import Key

DIGEST = "sha256"


def signed(document: bytes, key: Key, field: str, ink: str) -> bytes:
    """Do what `add_signature` promises."""
    fields = _fields(document)
    certifies = not field
    if not key.certificate.not_valid_before_utc <= datetime.now(UTC) <= key.certificate.not_valid_after_utc:
        raise UsageError(
            "This key's time has run out, or has not begun.", "Make another: gudgeon key new FILE"
        )
    field = field or next(iter(fields))
    _refuse(fields, field, certifies=certifies)
    described = PdfSignatureMetadata(
        field_name=field,
        md_algorithm=DIGEST,
        subfilter=SigSeedSubFilter.PADES,
        certify=certifies,
        docmdp_permissions=MDPPerm.FILL_FORMS,
    )
    signer = PdfSigner(described, _signer(key), stamp_style=_Style(strokes=ink))
    out = BytesIO()
    try:
        signer.sign_pdf(_QuietWriter(BytesIO(document)), existing_fields_only=True, output=out)
    except (SigningError, PdfError) as error:
        raise UsageError(f"This file cannot be signed: {error}.", "Write the report anew.") from error
    return out.getvalue()


def _refuse(fields: dict[str, bool], field: str, *, certifies: bool) -> None:
    """A report is sealed once, and first; then each other field is signed once."""
    sealed = [name for name, is_signed in fields.items() if is_signed]
    empty = ", ".join(name for name, is_signed in fields.items() if not is_signed)
    if certifies and sealed:
        raise UsageError(
            "This report is sealed already.", "Others sign it with: gudgeon sign SEALED --field NAME"
        )
    if not certifies and not sealed:
        raise UsageError("This report is not sealed yet.", "Its author seals it first: gudgeon seal REPORT")
    if field not in fields:
        raise UsageError(f"There is no field {field!r}.", f"Still empty: {empty or 'none'}.")
    if fields[field]:
        raise UsageError(f"The field {field!r} is signed already.", f"Still empty: {empty or 'none'}.")


def _fields(document: bytes) -> dict[str, bool]:
    """The names of the signature fields in their order, and whether each is signed."""
    try:
        reader = PdfFileReader(BytesIO(document), strict=True)
        found = {name: value is not None for name, value, _ in enumerate_sig_fields(reader)}
    except (PdfError, ValueError, KeyError, TypeError, AttributeError, IndexError) as error:
        raise UsageError("This file cannot be read as a report.", "Write the report anew.") from error
    if not found:
        raise UsageError(
            "This file has no room for a signature.",
            "A template whose sections name 'signatures' makes it, for those whom 'people' lists.",
        )
    return found


def _signer(key: Key) -> SimpleSigner:
    certificate = asn1_x509.Certificate.load(key.certificate.public_bytes(Encoding.DER))
    private = key.private.private_bytes(Encoding.DER, PrivateFormat.PKCS8, NoEncryption())
    return SimpleSigner(certificate, asn1_keys.PrivateKeyInfo.load(private), SimpleCertificateStore())  # type: ignore[no-untyped-call]


class _QuietWriter(IncrementalPdfFileWriter):
    """Leaves document information and XMP alone; the library would write its own name and the time into both."""

    def _update_meta(self) -> None:
        """Nothing: what the file says of itself is the report's."""


@dataclass(frozen=True)
class _Style(BaseStampStyle):
    """An appearance of strokes alone: name and rule are on the page already, and text would need a font."""

    strokes: str = ""

    def create_stamp(self, writer: Any, box: BoxConstraints, _text_params: dict[str, Any]) -> _Strokes:
        """The appearance for a field of this size."""
        return _Strokes(writer, self, box)


class _Strokes(BaseStamp):
    def __init__(self, writer: Any, style: _Style, box: BoxConstraints) -> None:
        super().__init__(writer, style, box)
        self._svg = style.strokes

    def render(self) -> bytes:
        """The content stream."""
        return strokes(self._svg, float(self.box.width), float(self.box.height)) if self._svg else b""
