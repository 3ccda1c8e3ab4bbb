"""The reference validator on a good file and on spoilt copies: the good one conforms, each other is caught.

Slow by Java alone. Held: ISO 19005-3 level A (PDF/A-3a) and ISO 14289-1 (PDF/UA-1), by veraPDF's profiles.
"""

from __future__ import annotations

import subprocess
from dataclasses import dataclass
from pathlib import Path

import pytest

from reporter.archive import archive
from tests.archive.broken import BROKEN, Broken
from tests.archive.marked import REPORT, lay_out
from tests.validator.verapdf import require, validate

pytestmark = pytest.mark.slow

FLAVOURS = ("3a", "ua1")
JUDGED = [broken for broken in BROKEN if broken.flavour]


@dataclass(frozen=True)
class Judged:
    """The good file, its spoilt copies, and what the validator said of each, by flavour."""

    good: Path
    spoilt: dict[Broken, Path]
    verdicts: dict[str, dict[Path, list[str]]]


@pytest.fixture(scope="module")
def judged(tmp_path_factory: pytest.TempPathFactory) -> Judged:
    """Judge everything with one start of Java per flavour."""
    folder = tmp_path_factory.mktemp("judged").resolve()
    good = folder / "good.pdf"
    archive(REPORT, lay_out(folder / "laid-out.pdf"), good)
    spoilt = {broken: broken.spoil(good, folder) for broken in JUDGED}
    verdicts = {flavour: validate([good, *spoilt.values()], flavour) for flavour in FLAVOURS}
    return Judged(good, spoilt, verdicts)


@pytest.mark.parametrize("flavour", FLAVOURS)
def test_the_good_file_conforms(judged: Judged, flavour: str) -> None:
    assert judged.verdicts[flavour][judged.good] == []


@pytest.mark.parametrize("broken", JUDGED, ids=lambda broken: broken.name)
def test_each_spoilt_copy_is_caught_by_its_clause(judged: Judged, broken: Broken) -> None:
    failed = judged.verdicts[broken.flavour][judged.spoilt[broken]]
    assert broken.clause in [rule.partition(":")[0] for rule in failed], failed


def test_there_are_controls_for_both_standards() -> None:
    assert {broken.flavour for broken in JUDGED} == set(FLAVOURS)
    assert len(JUDGED) >= 8


def test_a_structure_that_is_no_pdf_gets_no_clean_verdict(tmp_path: Path) -> None:
    path = (tmp_path / "no.pdf").resolve()
    path.write_bytes(b"%PDF-1.7\nnot one\n%%EOF\n")
    assert validate([path], "3a")[path] != []


def test_qpdf_finds_the_syntax_in_order(judged: Judged) -> None:
    done = subprocess.run(
        [require("qpdf"), "--check", str(judged.good)], capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, done.stdout + done.stderr


def test_another_reader_follows_the_reading_order(judged: Judged) -> None:
    done = subprocess.run(
        [require("pdfinfo"), "-struct-text", str(judged.good)], capture_output=True, text=True, check=True
    )
    assert done.stderr == ""
    lines = [line.strip() for line in done.stdout.splitlines()]
    assert [line.strip('"') for line in lines if line.startswith('"') and line != '""'] == [
        "Steering gear and rig",
        "Read about the method at",
        "the method page",
        "Chain",
        "1.",
        "Chain",
        "2.",
        "Wire",
        "Part",
        "Reading and limit",
        "Chain",
        "12.7 mm",
        "This paragraph begins here",
        "and ends overleaf.",
        "Note : à revoir.",
        "Photo 1: the quadrant",
        "Signature of the surveyor",
    ]
    assert "Condition report" not in done.stdout, "the running head is no content"
