"""A key file: closed to others, opened by its password alone, and read by OpenSSL as what it should be."""

from __future__ import annotations

import datetime as dt
import os
import shutil
import subprocess
from pathlib import Path

import pytest
from cryptography.hazmat.primitives.serialization import Encoding

from reporter.errors import CannotWriteError, UsageError
from reporter.seal import make_key, open_key
from reporter.seal.keys import SHORTEST
from tests.seal.made import AUTHOR, PASSWORD, key_of

NOW = dt.datetime(2027, 5, 12, 10, 0, tzinfo=dt.UTC)
needs_openssl = pytest.mark.skipif(
    shutil.which("openssl") is None, reason="OpenSSL's command is not installed"
)


def openssl(*arguments: str | Path) -> str:
    done = subprocess.run(["openssl", *arguments], capture_output=True, text=True, check=True)
    return done.stdout + done.stderr


@pytest.fixture(scope="module")
def own(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """One key file for all that leave it as it is: a key takes a while to make."""
    folder = tmp_path_factory.mktemp("own")
    key_of(folder, AUTHOR)
    return folder / f"{AUTHOR}.p12"


def test_only_its_owner_may_read_it(own: Path) -> None:
    assert own.stat().st_mode & 0o777 == 0o600


def test_another_password_or_file_opens_nothing(own: Path, tmp_path: Path) -> None:
    assert open_key(own, PASSWORD)
    with pytest.raises(UsageError, match="another password"):
        open_key(own, PASSWORD + "x")
    (tmp_path / "text.p12").write_text("no key")
    with pytest.raises(UsageError, match="no key file"):
        open_key(tmp_path / "text.p12", PASSWORD)
    with pytest.raises(UsageError, match="no file"):
        open_key(tmp_path / "none.p12", PASSWORD)


def test_a_key_is_never_overwritten(own: Path) -> None:
    before = own.read_bytes()
    with pytest.raises(CannotWriteError, match="exists already"):
        make_key(own, AUTHOR, PASSWORD, NOW)
    assert own.read_bytes() == before


def test_a_full_disk_leaves_no_half_key(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The file is begun, and its bytes go nowhere."""
    real = os.fdopen

    def full(handle: int, mode: str) -> object:
        os.close(handle)
        return real(os.open("/dev/full", os.O_WRONLY), mode)

    monkeypatch.setattr(os, "fdopen", full)
    with pytest.raises(CannotWriteError, match="the disk is full"):
        key_of(tmp_path, AUTHOR)
    assert not list(tmp_path.iterdir())


@pytest.mark.parametrize(
    ("name", "password"), [("", PASSWORD), ("x" * 65, PASSWORD), (AUTHOR, "x" * (SHORTEST - 1))]
)
def test_a_name_or_password_that_will_not_do_leaves_no_file(name: str, password: str, tmp_path: Path) -> None:
    with pytest.raises(UsageError):
        make_key(tmp_path / "me.p12", name, password, NOW)
    assert not list(tmp_path.iterdir())


@needs_openssl
def test_openssl_tells_the_same_of_it(tmp_path: Path) -> None:
    """RSA of 3072 bits, for signatures alone, self-made, ten years; the fingerprint as told; the lock slow to try."""
    made = make_key(tmp_path / "me.p12", AUTHOR, PASSWORD, NOW)
    (tmp_path / "me.pem").write_bytes(made.certificate.public_bytes(Encoding.PEM))
    told = openssl("x509", "-in", tmp_path / "me.pem", "-noout", "-text", "-fingerprint", "-sha256")
    assert "Public-Key: (3072 bit)" in told
    assert "Digital Signature, Non Repudiation" in told
    assert "CA:FALSE" in told
    assert "Not After : May  9 10:00:00 2037 GMT" in told
    assert told.splitlines()[-1].partition("=")[2].replace(":", "").lower() == made.fingerprint
    lock = openssl("pkcs12", "-in", tmp_path / "me.p12", "-info", "-noout", "-passin", f"pass:{PASSWORD}")
    assert "PBES2, PBKDF2, AES-256-CBC, Iteration 600000" in lock
