"""A person's key and self-made certificate in one file, and the fingerprint by which others know it again.

The certificate says a name because its maker wrote it there: nobody else vouches for it. What identifies a person is the
fingerprint, handed over by another way than the report.
"""

from __future__ import annotations

import os
from dataclasses import dataclass
from datetime import datetime, timedelta
from pathlib import Path

from cryptography import x509
from cryptography.hazmat.primitives import hashes
from cryptography.hazmat.primitives.asymmetric import rsa
from cryptography.hazmat.primitives.serialization import PrivateFormat, pkcs12
from cryptography.x509.oid import NameOID

from reporter.errors import CannotWriteError, UsageError
from reporter.machine import leavings
from reporter.machine.interrupts import held
from reporter.machine.shortage import why

BITS = 3072
"""128 bits of strength (NIST SP 800-57 part 1, table 2), and a kind of key that old PDF readers know."""
YEARS = 10
SHORTEST = 12
"""Characters of a password: the file travels on sticks and in backups, and can be tried at leisure."""
ROUNDS = 600_000
"""Of PBKDF2 with SHA-256: common practice, against the 20,000 that the library would take."""
LONGEST_NAME = 64
"""Characters of a common name (RFC 5280, appendix A.1, ub-common-name)."""
_OWNER_ONLY = 0o600


@dataclass(frozen=True)
class Key:
    """A private key with its certificate; `fingerprint` is the SHA-256 of the certificate's bytes, in hexadecimal."""

    name: str
    private: rsa.RSAPrivateKey
    certificate: x509.Certificate
    fingerprint: str


def make(file: Path, name: str, password: str, now: datetime) -> Key:
    """Do what `make_key` promises; nothing is ever overwritten, since an old key may still be needed."""
    if not 1 <= len(name) <= LONGEST_NAME:
        raise UsageError(
            f"A name has 1 to {LONGEST_NAME} characters.", "Write it as it stands in the report."
        )
    if len(password) < SHORTEST:
        raise UsageError(
            f"The password has fewer than {SHORTEST} characters.",
            "Take four words that do not belong together.",
        )
    if file.exists():
        raise CannotWriteError(f"{file} exists already.", "A key is never overwritten: choose another name.")
    private = rsa.generate_private_key(public_exponent=65537, key_size=BITS)
    key = _keyed(private, _certificate(private, name, now))
    _write(file, _packed(key, password))
    return key


def read(file: Path, password: str) -> Key:
    """Do what `open_key` promises."""
    if not file.is_file():
        raise UsageError(f"There is no file {file}.", "Make a key with: gudgeon key new FILE")
    try:
        private, certificate, _ = pkcs12.load_key_and_certificates(
            file.read_bytes(), password.encode("utf-8")
        )
    except ValueError as error:
        raise UsageError(f"{file} cannot be opened: another password, or no key file.") from error
    if not isinstance(private, rsa.RSAPrivateKey) or certificate is None:
        raise UsageError(f"{file} does not hold an RSA key with its certificate.")
    return _keyed(private, certificate)


def fingerprint(der: bytes) -> str:
    """The SHA-256 of a certificate's bytes, as `openssl x509 -fingerprint -sha256` tells it, without colons."""
    digest = hashes.Hash(hashes.SHA256())
    digest.update(der)
    return digest.finalize().hex()


def _keyed(private: rsa.RSAPrivateKey, certificate: x509.Certificate) -> Key:
    names = certificate.subject.get_attributes_for_oid(NameOID.COMMON_NAME)
    name = str(names[0].value) if names else certificate.subject.rfc4514_string()
    return Key(name, private, certificate, certificate.fingerprint(hashes.SHA256()).hex())


def _certificate(private: rsa.RSAPrivateKey, name: str, now: datetime) -> x509.Certificate:
    """Signed with its own key, for signatures and nothing else (RFC 5280, 4.2.1.3 and 4.2.1.9)."""
    holder = x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, name)])
    usage = x509.KeyUsage(
        digital_signature=True,
        content_commitment=True,
        key_encipherment=False,
        data_encipherment=False,
        key_agreement=False,
        key_cert_sign=False,
        crl_sign=False,
        encipher_only=False,
        decipher_only=False,
    )
    return (
        x509.CertificateBuilder()
        .subject_name(holder)
        .issuer_name(holder)
        .public_key(private.public_key())
        .serial_number(x509.random_serial_number())
        .not_valid_before(now)
        .not_valid_after(now + timedelta(days=YEARS * 365))
        .add_extension(x509.BasicConstraints(ca=False, path_length=None), critical=True)
        .add_extension(usage, critical=True)
        .sign(private, hashes.SHA256())
    )


def _packed(key: Key, password: str) -> bytes:
    """PKCS#12 (RFC 7292) with AES-256 and a hash that is slow to try passwords against (RFC 8018)."""
    lock = (
        PrivateFormat.PKCS12.encryption_builder()
        .kdf_rounds(ROUNDS)
        .key_cert_algorithm(pkcs12.PBES.PBESv2SHA256AndAES256CBC)
        .hmac_hash(hashes.SHA256())
        .build(password.encode("utf-8"))
    )
    return pkcs12.serialize_key_and_certificates(
        key.name.encode("utf-8"), key.private, key.certificate, None, lock
    )


def _write(file: Path, content: bytes) -> None:
    """Created closed to everybody else, not closed afterwards; half a key is none, and goes again."""
    handle = None
    try:
        handle = os.open(file, os.O_WRONLY | os.O_CREAT | os.O_EXCL, _OWNER_ONLY)
        with held(), os.fdopen(handle, "wb") as out:
            out.write(content)
            leavings.written.append(file)
    except OSError as error:
        if handle is not None:
            file.unlink(missing_ok=True)
        what, do = why(error)
        raise CannotWriteError(f"{file} cannot be written: {what}.", do) from error
