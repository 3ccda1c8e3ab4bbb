"""A report through typesetting and archiving together: in order, the same every time, and its data comes out again."""

from __future__ import annotations

from pathlib import Path

import pikepdf
import pytest

from reporter.archive import archive, extract, verify
from reporter.typeset import typeset
from tests.archive.broken import elements
from tests.archive.whole import pictures, report


@pytest.fixture(scope="module")
def whole(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Write a report with every kind of block."""
    folder = tmp_path_factory.mktemp("whole")
    developed = pictures(folder)
    said = report(developed)
    archive(said, typeset(said, developed, folder / "laid-out.pdf"), folder / "whole.pdf")
    return folder / "whole.pdf"


def test_a_whole_report_is_in_order(whole: Path) -> None:
    assert verify(whole) == []


def test_it_is_the_same_every_time(whole: Path, tmp_path: Path) -> None:
    developed = pictures(tmp_path)
    said = report(developed)
    archive(said, typeset(said, developed, tmp_path / "laid-out.pdf"), tmp_path / "again.pdf")
    assert (tmp_path / "again.pdf").read_bytes() == whole.read_bytes()


def test_its_data_comes_out_again(whole: Path, tmp_path: Path) -> None:
    paths = extract(whole, tmp_path)
    assert [path.name for path in paths] == ["job.yaml", "measurements.csv"]


def test_every_figure_link_and_field_is_described(whole: Path) -> None:
    with pikepdf.open(whole) as pdf:
        alternatives = [str(figure.Alt) for figure in elements(pdf, "Figure")]
        links = [
            str(kid.Obj.Contents)
            for link in elements(pdf, "Link")
            for kid in link.K
            if not isinstance(kid, int)
        ]
        labels = [str(form.K.Obj.TU) for form in elements(pdf, "Form")]
        pages = len(pdf.pages)
        rows = len(list(elements(pdf, "TR")))
    for words in (
        "The chain, view 1",
        "The chain, view 3",
        "The wheel, to watch",
        "Wear 2.1 % of at most 3 %",
    ):
        assert any(words in alternative for alternative in alternatives), words
    assert any("example.org/standard" in words for words in links)
    assert labels == ["Signature of the surveyor", "Signature, owner"]
    assert rows == 62, "one heading row and 61 others, however many pages the table runs over"
    assert pages > 2
