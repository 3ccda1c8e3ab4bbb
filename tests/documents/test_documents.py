"""Every document that the program writes: conformance, true structure, nothing private, the same bytes."""

from __future__ import annotations

import subprocess
import sys
from collections import Counter
from pathlib import Path

import pikepdf
import pytest
from pypdfium2 import PdfDocument

from reporter.archive import verify
from reporter.model.report import Block, GradeLine, Heading, Paragraph, Table
from tests.documents.conftest import ROOT, Written
from tests.typeset.reading import read, text
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


def letters(told: str) -> Counter[str]:
    """The characters of a text that leave ink, counted."""
    return Counter("".join(told.split()))


def visible(file: Path) -> str:
    """The text on the pages, by an independent reader."""
    document = PdfDocument(file)
    found = "\n".join(page.get_textpage().get_text_bounded() for page in document)
    document.close()
    # That reader takes a hyphen at the end of a line for one that hyphenation put there.
    return found.replace("\x02", "-")


def chrome(written: Written) -> set[str]:
    """What may stand on a page without being read aloud: running head and foot, section tabs, and repeated heads of tables."""
    document, pages = written.document, written.pages.count
    running = [document.running_head, document.running_foot, document.draft]
    running += [document.page_word.format(page=page, pages=pages) for page in range(1, pages + 1)]
    titles = [
        column.title for block in document.blocks if isinstance(block, Table) for column in block.columns
    ]
    tabs = [block.tab or block.text for block in document.blocks if isinstance(block, Heading)]
    return {word for line in [*running, *titles, *tabs] for word in line.split()} | {".", "…"}


def test_what_is_seen_is_what_is_read_aloud(documents: list[Written]) -> None:
    """A paragraph without an element would be an artifact, and every validator would be content."""
    for each in documents:
        found = read(each.pages.file)
        aloud, silent = text(each.pages.tree, found), "\n".join(found.artifacts)
        assert letters(aloud) + letters(silent) == letters(visible(each.pages.file)), each.name
        words = {word for word in silent.replace(".", " ").split() if not word.isdigit()}
        allowed = {word.replace(".", "") for word in chrome(each)}
        assert words <= allowed, (each.name, sorted(words - allowed)[:20])


def test_another_reader_finds_everything_in_order(documents: list[Written]) -> None:
    """Every heading, grade line and paragraph of the report, in its order, in the text that pdfium reads."""
    for each in documents:
        told = "".join(visible(each.file).split())
        place = 0
        for block in each.document.blocks:
            for wanted in opening(block):
                found = told.find(wanted, max(place - 4000, 0))
                assert found >= 0, (each.name, wanted)
                place = max(place, found)


def opening(block: Block) -> list[str]:
    """The first characters of a block, without spaces."""
    if isinstance(block, Heading):
        return ["".join(block.text.split())[:24]]
    if isinstance(block, GradeLine):
        return ["".join(block.name.split())[:24]]
    if isinstance(block, Paragraph) and block.style == "body":
        return ["".join("".join(span.text for span in block.text).split())[:24]]
    return []


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
