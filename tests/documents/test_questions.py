"""Six people's questions, answered from the pages alone: the table in DEVELOPERS.md, held against the documents."""

from __future__ import annotations

from collections import Counter

import pytest

from reporter.model.report import Contents
from tests.documents.conftest import Written
from tests.documents.questions import page_texts, renewed, rows, squeezed, stands_on

slow = pytest.mark.slow
READERS = {"buyer", "surveyor", "next skipper", "owner", "underwriter", "yard"}
EACH, TURNS = 5, 2
"""How many questions each reader asks at least, and within how many turns of a page each is answered."""


@slow
def test_every_question_is_answered_on_its_page(documents: list[Written]) -> None:
    files = {each.name: page_texts(each.file) for each in documents}
    wrong = [
        f"{who}: {asks}: page {page} of {document}; it stands on {stands_on(files[document], answer)}"
        for who, asks, document, page, answer in rows()
        if page not in stands_on(files[document], answer)
    ]
    assert wrong == [], "\n".join([*wrong, "Renew: python -m tests.documents.questions --renew"])


@slow
def test_every_answer_is_two_turns_away(documents: list[Written]) -> None:
    """Leafing through the first pages, or by the table of contents that stands on one of them."""
    named = {each.name: each for each in documents}
    far = []
    for who, asks, document, page, _ in rows():
        contents = [each for each in named[document].document.blocks if isinstance(each, Contents)]
        opening = page_texts(named[document].file)[: TURNS + 1]
        by_contents = any(squeezed(each.title) in text for each in contents for text in opening)
        if page > TURNS + 1 and not by_contents and len(page_texts(named[document].file)) > MANY:
            far.append(f"{who}: {asks}: page {page} of {document}")
    assert far == []


MANY = 8
"""Up to so many pages, as a yard's sheet or a handover has, a reader finds a heading by leafing through."""


@slow
def test_the_underwriter_reads_six_pages(documents: list[Written]) -> None:
    """Age and proof of the rigging, every recommendation with its state, and what follows if it is left."""
    record = next(each for each in documents if each.name == "insurance A4")
    pages = page_texts(record.file)
    first = "".join(pages[:6])
    job = record.document
    assert squeezed("Standing rigging fitted 2014") in pages[0]
    assert squeezed("the yard that did it has closed, no invoice seen") in pages[0]
    assert job is not None
    table = first[first.index(squeezed("If it lets go")) :]
    assert squeezed("Earlier recommendations") in table
    for number in (*range(1, 12), *range(32, 41), 50):
        assert f"{number}" in table
    for state in ("put right before it is used again", "Done by the owner", "put right at the haul-out",
                  "declined: turned down by the owner", "Anchor and chain stay on the ground"):  # fmt: skip
        assert squeezed(state) in table, state
    for consequence in ("A wire parts, the wheel spins loose one way", "the mast goes over the other side"):
        assert squeezed(consequence) in pages[0]


def test_six_people_ask_five_questions_each() -> None:
    asked = Counter(who for who, *_ in rows())
    assert set(asked) == READERS
    assert min(asked.values()) >= EACH
    assert len({(who, asks) for who, asks, *_ in rows()}) == sum(asked.values())


def test_pages_are_renewed_and_lost_answers_told() -> None:
    table = (
        "| buyer | What first? | `report` | 3 | “Renew it.” |\n| yard | With what? | `work` | 1 | “wire” |\n"
    )
    pages = {"report": ["nothing", "", "", "Renewit.", "Renewit."], "work": ["rope"]}
    after, lost = renewed(table, pages)
    assert after.splitlines()[0] == "| buyer | What first? | `report` | 4 | “Renew it.” |"
    assert after.splitlines()[1] == table.splitlines()[1]
    assert lost == ["yard: With what?: “wire” stands nowhere in work"]
    assert renewed(after, pages)[0] == after
