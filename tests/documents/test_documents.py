"""Every document that the program writes: conformance, true structure, nothing private, the same bytes."""

from __future__ import annotations

import re
import subprocess
import sys
from collections import Counter
from pathlib import Path

import pikepdf
import pytest
from pypdfium2 import PdfDocument

from reporter.archive import verify
from tests.documents.conftest import ROOT, Written
from tests.validator.verapdf import require, validate

pytestmark = pytest.mark.slow


@pytest.mark.parametrize("flavour", ["3a", "ua1"])
def test_every_document_conforms(documents: list[Written], flavour: str) -> None:
    """PDF/A-3a (ISO 19005-3) and PDF/UA-1 (ISO 14289-1) by the reference validator: zero failed checks."""
    verdicts = validate([each.file for each in documents], flavour)
    assert {path.name: failed for path, failed in verdicts.items() if failed} == {}


def test_every_document_is_in_order_by_our_own_check(documents: list[Written]) -> None:
    assert {each.name: verify(each.file) for each in documents if verify(each.file)} == {}


def test_the_files_are_whole(documents: list[Written]) -> None:
    qpdf = require("qpdf")
    for each in documents:
        done = subprocess.run([qpdf, "--check", each.file], capture_output=True, text=True, check=False)
        assert done.returncode == 0, done.stdout


def words(text: str) -> Counter[str]:
    """The words of a text, counted; order and line ends aside."""
    return Counter(re.findall(r"\w+", text))


def tagged(file: Path) -> Counter[str]:
    """Words of the structure tree, by an independent reader; attributes and roles stripped."""
    done = subprocess.run(
        [require("pdfinfo"), "-struct-text", file], capture_output=True, text=True, check=True
    )
    quoted = re.findall(r'"(.*)"', done.stdout)
    return words(" ".join(quoted))


def visible(file: Path) -> Counter[str]:
    """Words on the pages between running head and foot, by another independent reader."""
    document = PdfDocument(file)
    found: Counter[str] = Counter()
    for page in document:
        width, height = page.get_size()
        found += words(page.get_textpage().get_text_bounded(0, 52, width, height - 52))
    document.close()
    return found


def test_what_is_seen_is_what_is_read_aloud(documents: list[Written]) -> None:
    """A paragraph without an element would be an artifact, and every validator would be content."""
    for each in documents:
        seen, read = visible(each.file), tagged(each.file)
        lost = {word: count for word, count in (seen - read).items() if len(word) > 3}
        assert sum(lost.values()) <= 0.004 * sum(seen.values()), (each.name, sorted(lost)[:20])


def test_nothing_private_is_in_any_stream(documents: list[Written]) -> None:
    """Private notes, positions, serials and comments stay in the job folder, whatever the template discloses."""
    secrets = [b"touchy", b"notes to yourself", b"GPSLatitude", b"SerialNumber", b"Exif\x00\x00"]
    for each in documents:
        with pikepdf.open(each.file) as pdf:
            for thing in pdf.objects:
                if isinstance(thing, pikepdf.Stream):
                    data = (
                        thing.read_raw_bytes()
                        if "/DCTDecode" in str(thing.get("/Filter"))
                        else thing.read_bytes()
                    )
                    assert [secret for secret in secrets if secret in data] == [], each.name


def test_the_same_bytes_under_another_hash_seed(tmp_path: Path) -> None:
    files = []
    for seed in ("0", "4711"):
        file = tmp_path / f"{seed}.pdf"
        command = [
            str(Path(sys.executable).with_name("gudgeon")),
            "report",
            str(ROOT / "demo_job"),
            "-o",
            str(file),
        ]
        environment = {
            "PYTHONHASHSEED": seed,
            "PATH": "/usr/bin:/bin",
            "TZ": "Asia/Tokyo" if seed == "0" else "UTC",
        }
        subprocess.run(command, check=True, env=environment, capture_output=True)
        files.append(file.read_bytes())
    assert files[0] == files[1]


def test_the_attached_data_makes_a_folder_again(documents: list[Written], tmp_path: Path) -> None:
    """`extract` gives what `check` accepts; the grades are the same, photos being absent."""
    gudgeon = Path(sys.executable).with_name("gudgeon")
    for each in documents:
        if each.name == "work":
            continue
        folder = tmp_path / each.file.stem
        subprocess.run([gudgeon, "extract", each.file, "-o", folder], check=True, capture_output=True)
        done = subprocess.run([gudgeon, "check", folder], capture_output=True, text=True, check=False)
        assert done.returncode == 0, (each.name, done.stderr)
