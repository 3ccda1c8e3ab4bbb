"""Our own check: it finds each fault in a spoilt copy, and no file, however broken, makes it fall over."""

from __future__ import annotations

import random
from pathlib import Path

import pikepdf
import pytest

from reporter.archive import verify
from reporter.errors import UsageError
from tests.archive.broken import BROKEN, Broken, elements


@pytest.mark.parametrize("broken", BROKEN, ids=lambda broken: broken.name)
def test_each_fault_is_found(good: Path, tmp_path: Path, broken: Broken) -> None:
    findings = verify(broken.spoil(good, tmp_path))
    assert any(broken.finding in finding for finding in findings), findings


def test_a_copy_without_a_fault_is_in_order(good: Path, tmp_path: Path) -> None:
    unchanged = Broken("unchanged", lambda _: None, "")
    assert verify(unchanged.spoil(good, tmp_path)) == []


def test_a_missing_file_is_told(tmp_path: Path) -> None:
    with pytest.raises(UsageError, match="There is no file"):
        verify(tmp_path / "none.pdf")


@pytest.mark.parametrize("content", [b"", b"not a PDF", b"%PDF-1.7\n%%EOF\n"])
def test_what_is_no_pdf_is_told(tmp_path: Path, content: bytes) -> None:
    (tmp_path / "no.pdf").write_bytes(content)
    (finding,) = verify(tmp_path / "no.pdf")
    assert "cannot be read as one of our reports" in finding


def test_a_tree_that_bites_its_tail_is_told(good: Path, tmp_path: Path) -> None:
    def bite(pdf: pikepdf.Pdf) -> None:
        document = next(elements(pdf, "Document"))
        next(elements(pdf, "Form")).K = document

    findings = verify(Broken("circle", bite, "").spoil(good, tmp_path))
    assert "an element stands twice in the tree, or has no object of its own" in findings


def test_a_deep_tree_does_not_exhaust_the_stack(good: Path, tmp_path: Path) -> None:
    def deepen(pdf: pikepdf.Pdf) -> None:
        inner = next(elements(pdf, "Form"))
        for _ in range(3000):
            child = pdf.make_indirect(
                pikepdf.Dictionary(Type=pikepdf.Name.StructElem, S=pikepdf.Name.Div, P=inner)
            )
            inner.K = pikepdf.Array([inner.K, child]) if str(inner.S) == "/Form" else child
            inner = child

    assert verify(Broken("deep", deepen, "").spoil(good, tmp_path)) == []


def test_damage_anywhere_is_told_or_harmless_and_never_raises(good: Path, tmp_path: Path) -> None:
    chance = random.Random(20270512)  # noqa: S311 (no secret: the same damage in every run)
    content = good.read_bytes()
    found = 0
    for _ in range(150):
        damaged = bytearray(content[: chance.randrange(len(content))] if chance.random() < 0.3 else content)
        for _ in range(chance.randrange(1, 40)):
            damaged[chance.randrange(len(damaged))] = chance.randrange(256)
        (tmp_path / "damaged.pdf").write_bytes(damaged)
        found += bool(verify(tmp_path / "damaged.pdf"))
    assert found > 75
