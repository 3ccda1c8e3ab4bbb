"""How long each document may be: a reader with little time reads a short one, and nothing of a long one.

The ceilings stand on the demo. Sections that all templates share (the first page, “At a glance”, “What was not seen”) take
some of the room.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from reporter.model.report import Heading
from tests.documents.conftest import Written
from tests.documents.test_extremes import changed, write
from tests.documents.test_lengths import texts

pytestmark = pytest.mark.slow
CEILINGS = {"work": 8, "outgoing": 14, "insurance A4": 14, "handover A4": 14}


@pytest.mark.parametrize("name", CEILINGS)
def test_no_document_is_longer_than_its_reader_has_time_for(name: str, documents: list[Written]) -> None:
    written = next(each for each in documents if each.name == name)
    assert written.pages.count <= CEILINGS[name]


def test_the_record_for_an_underwriter_is_no_longer_in_german(tmp_path: Path) -> None:
    """German takes more room; its words are chosen so that it needs no page more."""
    folder = changed(tmp_path, job__yaml=("purpose: pre_purchase", "lang: de\npurpose: insurance"))
    assert len(texts(write(folder, tmp_path))) <= CEILINGS["insurance A4"]


@pytest.mark.parametrize(
    ("name", "first"),
    [
        ("outgoing", ["What changed since the earlier record", "Incidents and repairs", "What is open"]),
        ("insurance A4", ["Recommendations: open, done, declined", "What it looks like"]),
    ],
)
def test_the_readers_own_questions_come_first(name: str, first: list[str], documents: list[Written]) -> None:
    """After the first page, where aboard it is, and what the report is about stands what that reader asks."""
    document = next(each for each in documents if each.name == name).document
    told = [block.text for block in document.blocks if isinstance(block, Heading) and block.listed]
    asked = [text for text in told if text not in {"Where aboard it is", "About this report"}]
    assert asked[: len(first)] == first
