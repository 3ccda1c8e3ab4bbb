"""The finished report that README shows tells what a report of the demo tells today; made by tests/docs/demo_report.py."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from pypdfium2 import PdfDocument

from tests.docs.demo_report import KEPT

from .conftest import Written


def first_page(file: Path) -> str:
    """The words of the decision."""
    document = PdfDocument(file)
    text = document[0].get_textpage().get_text_bounded()
    document.close()
    return re.sub(r"\s+", " ", text)


@pytest.mark.slow
def test_the_report_that_is_shown_decides_as_today(documents: list[Written]) -> None:
    """Its photos are smaller, and pages behind may be older; its first page is today's. Renew: python -m tests.docs.demo_report."""
    today = next(each for each in documents if each.name == "pre_purchase A4")
    assert first_page(KEPT) == first_page(today.file)
    assert KEPT.stat().st_size < 2_000_000
