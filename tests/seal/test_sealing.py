"""Sealing and signing: what stands before stays, each field is signed once and in order, and poppler reads it."""

from __future__ import annotations

import datetime as dt
import shutil
import subprocess
from pathlib import Path

import pytest

from reporter.archive import verify
from reporter.errors import UsageError
from reporter.seal import add_signature, inspect, make_key, open_key
from tests.seal.made import AUTHOR, INK, NAMES, PASSWORD, RECEIVER, WITNESS, Made, report, written

needs_poppler = pytest.mark.skipif(shutil.which("pdfsig") is None, reason="poppler's pdfsig is not installed")


def test_everything_before_a_signature_stays_byte_for_byte(signed: Made) -> None:
    assert signed.sealed.startswith(signed.plain)
    assert signed.received.startswith(signed.sealed)
    assert signed.witnessed.startswith(signed.received)


def test_the_report_can_be_taken_out_again(signed: Made, tmp_path: Path) -> None:
    (tmp_path / "file.pdf").write_bytes(signed.witnessed)
    told = inspect(str(tmp_path / "file.pdf"))
    assert signed.witnessed[: told.report_bytes] == signed.plain
    assert [(each.field, each.name, each.ink) for each in told.signatures] == [
        ("author", AUTHOR, True),
        ("received", RECEIVER, True),
        ("witness", WITNESS, False),
    ]


@pytest.mark.parametrize("name", ["plain", "sealed", "received", "witnessed"])
def test_it_stays_in_order_by_the_programs_own_check(name: str, signed: Made, tmp_path: Path) -> None:
    """Title, dates and producer in Info and XMP still agree: the library alone would change both."""
    (tmp_path / "file.pdf").write_bytes(getattr(signed, name))
    assert verify(tmp_path / "file.pdf") == []


@needs_poppler
def test_poppler_says_that_the_signatures_are_valid(signed: Made, tmp_path: Path) -> None:
    """Pdfsig knows nothing of this program and checks with NSS, not with OpenSSL."""
    (tmp_path / "file.pdf").write_bytes(signed.witnessed)
    done = subprocess.run(["pdfsig", tmp_path / "file.pdf"], capture_output=True, text=True, check=False)
    assert done.stdout.count("Signature Validation: Signature is Valid.") == 3
    assert done.stdout.count("- Total document signed") == 1
    assert [line.split(": ")[1] for line in done.stdout.splitlines() if "Common Name" in line] == [
        AUTHOR,
        RECEIVER,
        WITNESS,
    ]


@needs_poppler
def test_poppler_sees_a_changed_page(signed: Made, tmp_path: Path) -> None:
    """The control: not every file is valid to it."""
    (tmp_path / "file.pdf").write_bytes(signed.sealed.replace(b"/Lang (en)", b"/Lang (de)"))
    done = subprocess.run(["pdfsig", tmp_path / "file.pdf"], capture_output=True, text=True, check=False)
    assert "Signature is Valid" not in done.stdout


@pytest.mark.parametrize(
    ("begun", "field", "told"),
    [
        ("plain", "received", "not sealed yet"),
        ("sealed", "", "sealed already"),
        ("sealed", "author", "signed already"),
        ("received", "received", "signed already"),
        ("sealed", "nobody", "no field 'nobody'"),
    ],
)
def test_what_cannot_be_signed_is_refused(begun: str, field: str, told: str, signed: Made) -> None:
    with pytest.raises(UsageError, match=told):
        add_signature(getattr(signed, begun), signed.keys[AUTHOR], field)


def test_a_report_without_fields_is_refused(signed: Made, tmp_path: Path) -> None:
    whole = report()
    without = whole.model_copy(update={"blocks": whole.blocks[:-1]})
    with pytest.raises(UsageError, match="no room for a signature"):
        add_signature(written(without, tmp_path), signed.keys[AUTHOR])


@pytest.mark.parametrize("content", [b"", b"no pdf", b"%PDF-1.7\n%%EOF\n"])
def test_what_is_no_report_is_refused(content: bytes, signed: Made) -> None:
    with pytest.raises(UsageError):
        add_signature(content, signed.keys[AUTHOR])


def test_a_key_whose_time_has_run_out_signs_nothing(signed: Made, tmp_path: Path) -> None:
    file = tmp_path / "old.p12"
    make_key(file, AUTHOR, PASSWORD, dt.datetime.now(dt.UTC) - dt.timedelta(days=11 * 365))
    with pytest.raises(UsageError, match="run out"):
        add_signature(signed.plain, open_key(file, PASSWORD))


def test_the_fields_are_there_and_empty_before_the_seal(signed: Made, tmp_path: Path) -> None:
    (tmp_path / "file.pdf").write_bytes(signed.plain)
    told = inspect(str(tmp_path / "file.pdf"))
    assert (told.empty, told.signatures, told.revisions) == (NAMES, (), 1)
    assert told.report_bytes == len(signed.plain)


def test_sealing_twice_gives_two_files_and_one_report(signed: Made) -> None:
    """A signature is made anew each time; the report in front of it never changes."""
    again = add_signature(signed.plain, signed.keys[AUTHOR], ink=INK)
    assert again[: len(signed.plain)] == signed.sealed[: len(signed.plain)]
