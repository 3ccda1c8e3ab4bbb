"""Six people's questions, answered from the pages alone: the table in DEVELOPERS.md, held against the documents."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from pypdfium2 import PdfDocument

from tests.documents.conftest import ROOT, Written

pytestmark = pytest.mark.slow
ROW = re.compile(r"^\| (\w[\w ]*) \| (.+?) \| `([\w ]+)` \| (\d+) \| “(.+?)” \|$", re.MULTILINE)


def rows() -> list[tuple[str, str, str, int, str]]:
    """Who asks what, in which document it is answered, on which page, and how the answer begins."""
    text = (ROOT / "DEVELOPERS.md").read_text("utf-8")
    return [
        (who, asks, document, int(page), answer) for who, asks, document, page, answer in ROW.findall(text)
    ]


def page_texts(file: Path) -> list[str]:
    """The text of each page without spaces."""
    document = PdfDocument(file)
    texts = [
        "".join(page.get_textpage().get_text_bounded().replace("\x02", "-").split()) for page in document
    ]
    document.close()
    return texts


def test_every_question_is_answered_on_its_page(documents: list[Written]) -> None:
    files = {each.name: page_texts(each.file) for each in documents}
    wrong = []
    for who, asks, document, page, answer in rows():
        pages = files[document]
        wanted = "".join(answer.split())
        if wanted not in "".join(pages[page - 1 : page]):
            found = [number for number, text in enumerate(pages, start=1) if wanted in text]
            wrong.append(f"{who}: {asks}: page {page} of {document}; it stands on {found}")
    assert wrong == [], "\n".join(wrong)


def test_six_people_ask() -> None:
    assert {row[0] for row in rows()} == {"buyer", "surveyor", "next skipper", "owner", "underwriter", "yard"}
