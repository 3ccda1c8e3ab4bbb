"""Pages that a reader is not ashamed of: none half empty, no heading last, a finding with its photo and its action in one view."""

from __future__ import annotations

import pytest
from pypdfium2 import PdfDocument

from reporter import pipeline
from reporter.model.report import Report, Spread
from reporter.outline import outline
from reporter.outline.work_list import work_list
from reporter.registry import find, load
from tests.documents.conftest import TEMPLATES, Written
from tests.documents.layouts import filled, pages_of
from tests.typeset.reading import elements

pytestmark = pytest.mark.slow
TOO_EMPTY = 1 / 3
LEAST = 9.0
"""Points: nothing that is read is smaller; words on photos and drawings, and what stands at the edges of a page, may be."""
ALL = [
    *(f"{template} {page}" for page in ("A4", "Letter") for template in ("pre_purchase", "handover", "insurance")),
    "work", "outgoing",
]  # fmt: skip


def one(documents: list[Written], name: str) -> Written:
    return next(each for each in documents if each.name == name)


@pytest.mark.parametrize("name", ALL)
def test_no_page_before_a_sections_last_is_more_than_a_third_empty(
    name: str, documents: list[Written]
) -> None:
    written = one(documents, name)
    pages = filled(written.document, written.pictures)
    assert [
        (page.number, round(page.empty, 2))
        for page in pages
        if not page.ends_section and page.empty > TOO_EMPTY
    ] == []


@pytest.mark.parametrize("name", ALL)
def test_no_heading_stands_last_on_a_page(name: str, documents: list[Written]) -> None:
    written = one(documents, name)
    assert [page.number for page in filled(written.document, written.pictures) if page.torn] == []


@pytest.mark.parametrize("name", ALL)
def test_no_document_ends_on_a_page_of_a_few_lines(name: str, documents: list[Written]) -> None:
    written = one(documents, name)
    assert filled(written.document, written.pictures)[-1].empty < 3 / 4


def german(written: Written) -> Report:
    """The same document in German; its pictures are the same."""
    registry = load(find())
    job = pipeline.collect(written.folder, registry, "de")
    name = written.name.split()[0]
    template = registry.template(name if name in TEMPLATES else job.sheet.purpose)
    make = work_list if name == "work" else outline
    return make(job, pipeline.grade(job, registry, template), template, registry.in_language("de"))


@pytest.mark.parametrize("name", ALL)
def test_a_heading_and_its_introduction_stand_over_what_they_introduce(
    name: str, documents: list[Written]
) -> None:
    written = one(documents, name)
    for document in (written.document, german(written)):
        pages = filled(document, written.pictures)
        assert [page.number for page in pages if page.torn or page.leading] == []


def test_a_serious_finding_its_deciding_photo_and_its_action_stand_on_one_page(
    documents: list[Written],
) -> None:
    for page in ("A4", "Letter"):
        written = one(documents, f"pre_purchase {page}")
        figures = {each.alt: each for each in elements(written.pages.tree, "Figure")}
        document = PdfDocument(written.file)
        texts = ["".join(each.get_textpage().get_text_bounded().split()) for each in document]
        document.close()
        spreads = [block for block in written.document.blocks if isinstance(block, Spread)]
        assert len(spreads) >= 7
        for block in spreads:
            (stands_on,) = {number for photo in block.photos for number in pages_of(figures[photo.alt])}
            for said in block.texts:
                words = "".join("".join(span.text for span in said.text).split())
                assert words[:40] in texts[stands_on], words[:80]


def test_what_is_read_is_set_in_nine_points_at_least() -> None:
    from reporter.typeset import styles

    read = {
        name: getattr(styles, name)
        for name in ("BODY", "LEAD", "SMALL", "NOTE", "TABLE", "TABLE_HEAD", "CAPTION", "FIELD", "FORMULA")
    }
    assert {name: kind.size for name, kind in read.items() if kind.size < LEAST} == {}
