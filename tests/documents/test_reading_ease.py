"""How easily the first three pages of each document are read: 60 and more on the open scale is plain English.

What a person wrote into the job stands as it was written and is not measured, nor is what is no sentence.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

import pytest

from tests.documents.conftest import Written
from tests.documents.questions import page_texts, squeezed
from tests.outline.test_report import words_of
from tests.outline.test_short import reading_ease

pytestmark = pytest.mark.slow
PAGES, PLAIN, HARD, LONG = 3, 60, 35, 8
"""A document's first pages; what they reach on the whole; what no sentence of so many words falls below."""


def sentences(written: Written) -> Iterator[str]:
    """The program's own sentences on the first pages."""
    opening = "".join(page_texts(written.file)[:PAGES])
    own = squeezed("".join(file.read_text("utf-8") for file in written.folder.rglob("*.yaml")))
    for block in written.document.blocks:
        for text in words_of(block):
            if "." in text and squeezed(text) in opening and squeezed(text) not in own:
                yield from (each for each in re.split(r"(?<=[.!?])\s", text) if "·" not in each)


def test_the_first_pages_of_every_document_are_plain_english(documents: list[Written]) -> None:
    reached = {each.name: round(reading_ease(list(sentences(each)))) for each in documents}
    assert {name: ease for name, ease in reached.items() if ease < PLAIN} == {}
    assert len(reached) == len(documents)


def test_no_sentence_of_theirs_is_hard(documents: list[Written]) -> None:
    told = {text for each in documents for text in sentences(each) if len(text.split()) >= LONG}
    assert len(told) > 50
    assert {text: round(reading_ease([text])) for text in told if reading_ease([text]) < HARD} == {}
