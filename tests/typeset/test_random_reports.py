"""Random reports: whatever blocks come, pages are well formed and nothing is lost."""

from __future__ import annotations

from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Literal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from reporter.model.report import Block, Cell, Column, GradeLine, Heading, Item, List, Paragraph, Span, Table
from reporter.model.terms import Grade
from reporter.typeset import typeset
from tests.effort import tries
from tests.typeset.reading import marks, read, text
from tests.typeset.samples import BLOCKS, pictures, report
from tests.typeset.test_marks import ANY_MARK

_TEXT = st.text(st.characters(min_codepoint=32, max_codepoint=0x2FF), max_size=40) | st.sampled_from(
    ["word " * 90, "longwordwithoutanyspace" * 12, "line\nline\n\nline", "", " ", "山😀"]
)
_SPANS = st.lists(
    st.builds(
        Span,
        text=_TEXT,
        style=st.sampled_from(["plain", "strong", "quiet", "accent"]),
        lang=st.sampled_from(["", "fr"]),
        href=st.sampled_from(["", "", "https://example.org/", "#Überblick"]),
    ),
    max_size=4,
).map(tuple)
_GRADE = st.none() | st.sampled_from(list(Grade))
_CELL = st.builds(Cell, text=_SPANS, grade=_GRADE, columns=st.integers(1, 3), head=st.booleans())
_TALL = st.builds(Cell, text=_SPANS, grade=_GRADE, rows=st.integers(1, 2), head=st.booleans())


# Titles of columns are words of our own catalogue, so they are short.
_TITLE = st.text(st.characters(min_codepoint=32, max_codepoint=0x2FF), max_size=20)
_ALIGN: st.SearchStrategy[Literal["left", "right", "number", "centre"]] = st.sampled_from(
    ["left", "right", "number", "centre"]
)
_STYLE: st.SearchStrategy[Literal["ruled", "working", "facts", "boxes"]] = st.sampled_from(
    ["ruled", "working", "facts", "boxes"]
)


@st.composite
def _tables(draw: st.DrawFn) -> Table:
    count = draw(st.integers(1, 4))
    columns = tuple(
        Column(title=draw(_TITLE), align=draw(_ALIGN), share=draw(st.floats(0.1, 4))) for _ in range(count)
    )
    lines = tuple((draw(_CELL if count == 1 else _CELL | _TALL),) for _ in range(draw(st.integers(0, 12))))
    return Table(
        columns=columns,
        rows=lines,
        style=draw(_STYLE),
        caption=draw(_SPANS),
        width=draw(st.sampled_from(["column", "full"])),
    )


_ITEM = st.builds(Item, text=_SPANS, items=st.lists(st.builds(Item, text=_SPANS), max_size=2).map(tuple))
_PARAGRAPH = st.builds(
    Paragraph,
    text=_SPANS,
    aside=_SPANS,
    keep=st.booleans(),
    style=st.sampled_from(["body", "lead", "small", "note", "formula", "answer"]),
)
_BLOCK: st.SearchStrategy[Block] = st.one_of(
    st.builds(Heading, level=st.sampled_from([1, 2, 3]), text=_TEXT, new_page=st.booleans()),
    _PARAGRAPH,
    st.builds(List, items=st.lists(_ITEM, max_size=4).map(tuple), ordered=st.booleans()),
    _tables(),
    st.builds(
        GradeLine, grade=st.sampled_from(list(Grade)), word=_TEXT, name=_TEXT, place=_TEXT, sentence=_TEXT
    ),
    st.sampled_from([block for block, _ in BLOCKS.values() if block.kind not in {"heading", "grade_line"}]),
)


def _check(blocks: list[Block]) -> None:
    with TemporaryDirectory() as name:
        folder = Path(name)
        pages = typeset(report(*blocks), pictures(folder), folder / "pages.pdf")
        found = read(pages.file)
        owned = [(mark.page, mark.mcid) for mark in marks(pages.tree)]
        assert not found.faults
        assert len(owned) == len(set(owned))
        assert set(owned) == set(found.marked)
        assert "\ufffd" not in text(pages.tree, found)


@settings(max_examples=25, deadline=None)
@given(st.lists(_BLOCK, max_size=8))
def test_random_reports(blocks: list[Block]) -> None:
    _check(blocks)


@pytest.mark.slow
@settings(max_examples=tries(400, 120), deadline=None)
@given(st.lists(_BLOCK, max_size=30))
def test_many_random_reports(blocks: list[Block]) -> None:
    _check(blocks)


@settings(max_examples=10, deadline=None)
@given(st.lists(ANY_MARK, max_size=6))
def test_random_marks_on_a_photo(marks_: list[object]) -> None:
    from reporter.model.photo import Inset
    from tests.typeset.samples import photo, picture

    with TemporaryDirectory() as name:
        folder = Path(name)
        insets = len({mark for mark in marks_ if isinstance(mark, Inset)})
        shown = {"chain": picture(folder, "chain", insets=insets)}
        whole = report(photo("chain", marks=marks_))  # type: ignore[arg-type]
        pages = typeset(whole, shown, folder / "pages.pdf")
        assert not read(pages.file).faults
