"""The bytes between a signature's two covered ranges: the only ones in the file that no signature protects.

They must be written as this program writes them, to the last character: capital hexadecimal, the exact length of the DER
encoding (ITU-T X.690), then zeros; one signer, one certificate, SHA-256, nothing unsigned (RFC 5652, RFC 5754).
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Any

from asn1crypto import cms
from asn1crypto.parser import parse
from pyhanko.sign.validation import EmbeddedPdfSignature

from reporter.model.sealed import Remark, remark

_HEX = re.compile(rb"<([0-9A-F]+)>")
SHA256 = bytes.fromhex("300d06096086480165030402010500")
"""AlgorithmIdentifier of SHA-256 with its NULL parameter (RFC 5754, 2): its two copies are covered by no signature."""
_MECHANISMS = {
    bytes.fromhex("300d06092a864886f70d01010b0500"),  # sha256WithRSAEncryption (RFC 4055, 5)
    bytes.fromhex("300d06092a864886f70d0101010500"),  # rsaEncryption (RFC 3370, 3.2)
    bytes.fromhex("300a06082a8648ce3d040302"),  # ecdsa-with-SHA256 (RFC 5758, 3.2)
}
_RANGES = 4


def content_faults(
    document: bytes, signature: EmbeddedPdfSignature, start: int, end: int
) -> Iterator[Remark]:
    """Does the signature cover all up to the end of its revision but its contents, and are these canonical.

    `start` and `end` are where its revision begins and ends.
    """
    reach = [int(each) for each in signature.byte_range]
    if len(reach) != _RANGES or reach[0] != 0 or reach[2] + reach[3] != end or reach[1] < start:
        yield remark("verify.contents", field=signature.fq_name)
        return
    gap = _HEX.fullmatch(document[reach[1] : reach[2]])
    if gap is None or not document[start : reach[1]].endswith(b"/Contents ") or not _is_canonical(gap[1]):
        yield remark("verify.contents", field=signature.fq_name)


def _is_canonical(digits: bytes) -> bool:
    whole = bytes.fromhex(digits.decode("ascii"))
    _, _, _, header, content, trailer = parse(whole, strict=False)
    der = header + content + trailer
    message = cms.ContentInfo.load(der, strict=True)
    return (
        not whole[len(der) :].strip(b"\0")
        and message.dump(force=True) == der
        and message["content_type"].native == "signed_data"
        and _is_ours(message["content"])
    )


def _is_ours(signed: Any) -> bool:
    """One signer, one certificate, the digest named as we name it, nothing that stands outside the signature."""
    if len(signed["signer_infos"]) != 1 or len(signed["certificates"]) != 1:
        return False
    signer, certificate = signed["signer_infos"][0], signed["certificates"][0].chosen
    sid = signer["sid"].chosen
    return (
        signed["version"].native == "v1"
        and [each.dump() for each in signed["digest_algorithms"]] == [SHA256]
        and signed["encap_content_info"]["content_type"].native == "data"
        and not signed["encap_content_info"]["content"].native
        and not signed["crls"].native
        and signer["version"].native == "v1"
        and signer["digest_algorithm"].dump() == SHA256
        and signer["signature_algorithm"].dump() in _MECHANISMS
        and not signer["unsigned_attrs"].native
        and sid.native["serial_number"] == certificate.serial_number
        and sid["issuer"].dump() == certificate.issuer.dump()
    )
