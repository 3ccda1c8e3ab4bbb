"""The tagging canvas, and elements that run over pages."""

from __future__ import annotations

from pathlib import Path

import pytest

from reporter.errors import LayoutError
from reporter.model.report import Item, List, Paragraph, Span, plain
from reporter.typeset.canvas import TaggedCanvas
from reporter.typeset.tags import Artifact, Tag
from tests.typeset.conftest import LayOut
from tests.typeset.reading import elements, links, marks, text
from tests.typeset.samples import SENTENCE, table

ROOT = Tag("Document", attached=True)


@pytest.fixture
def canvas(tmp_path: Path) -> TaggedCanvas:
    return TaggedCanvas(tmp_path / "canvas.pdf", (200, 200))


def test_painting_outside_a_mark_is_an_error(canvas: TaggedCanvas) -> None:
    canvas.drawString(10, 10, "lost")
    with pytest.raises(LayoutError, match="outside"):
        canvas.showPage()


def test_painting_between_marks_is_an_error(canvas: TaggedCanvas) -> None:
    with canvas.mark(Artifact("layout")):
        canvas.line(0, 0, 10, 10)
    canvas.line(0, 0, 10, 10)
    with pytest.raises(LayoutError, match="outside"), canvas.mark(Tag("P", ROOT)):
        canvas.drawString(10, 10, "x")


def test_marks_do_not_nest(canvas: TaggedCanvas) -> None:
    with (
        pytest.raises(LayoutError, match="inside another"),
        canvas.mark(Tag("P", ROOT)),
        canvas.mark(Tag("P", ROOT)),
    ):
        pass


def test_nothing_painted_gives_no_mark_and_no_element(canvas: TaggedCanvas) -> None:
    parent = Tag("Document", attached=True)
    silent, loud = Tag("P", parent), Tag("P", parent)
    with canvas.mark(silent):
        canvas.setFillColorRGB(1, 0, 0)
    with canvas.mark(loud):
        canvas.drawString(10, 10, "x")
    assert parent.kids == [loud]
    assert [mark.mcid for mark in marks(parent.freeze())] == [0]


def test_marks_begin_anew_on_each_page(canvas: TaggedCanvas) -> None:
    tag = Tag("P", Tag("Document", attached=True))
    for _ in range(2):
        with canvas.mark(tag):
            canvas.drawString(10, 10, "x")
        canvas.showPage()
    assert [(mark.page, mark.mcid) for mark in marks(tag.freeze())] == [(0, 0), (1, 0)]


def test_table_over_pages_is_one_element_with_one_head(lay_out: LayOut) -> None:
    pages, found = lay_out(table(160))
    (whole,) = elements(pages.tree, "Table")
    assert len({mark.page for mark in marks(whole)}) >= 3
    assert len(list(elements(whole, "TR"))) == 161
    assert [text(head, found) for head in elements(whole, "TH")] == ["Part", "Reading", "Verdict"]
    repeated = " ".join(found.artifacts).count("Verdict")
    assert repeated == len({mark.page for mark in marks(whole)}) - 1


def test_row_taller_than_a_page_stays_one_row(lay_out: LayOut) -> None:
    from reporter.model.report import Cell

    long = table(4)
    row = (Cell(text=plain(SENTENCE * 160)), Cell(text=plain("beside")), Cell())
    pages, found = lay_out(long.model_copy(update={"rows": (*long.rows[:2], row, *long.rows[2:])}))
    lines = list(elements(pages.tree, "TR"))
    assert len(lines) == 6
    assert len({mark.page for mark in marks(lines[3])}) >= 2
    assert text(next(elements(lines[3], "TD")), found).split() == (SENTENCE * 160).split()
    assert [len(list(elements(line))) for line in lines] == [4] * 6


def test_list_over_a_page_break_keeps_its_elements(lay_out: LayOut) -> None:
    items = tuple(Item(text=plain(SENTENCE * 6), items=(Item(text=plain("inner")),)) for _ in range(30))
    pages, found = lay_out(List(items=items, ordered=True, start=3))
    outer = next(elements(pages.tree, "L"))
    assert outer.numbering == "Decimal"
    assert len(outer.kids) == 30
    assert pages.count > 2
    labels = [text(next(elements(item, "Lbl")), found).strip() for item in outer.kids]  # type: ignore[arg-type]
    assert labels == [f"{number}." for number in range(3, 33)]
    inner = list(elements(pages.tree, "L"))[1:]
    assert len(inner) == 30
    assert {sub.numbering for sub in inner} == {"LowerAlpha"}


def test_link_over_lines_and_pages_is_one_element(lay_out: LayOut) -> None:
    words = SENTENCE * 80
    pages, found = lay_out(Paragraph(text=(Span(text=words, href="https://example.org/"),)))
    (link,) = elements(pages.tree, "Link")
    assert text(link, found).split() == words.split()
    assert pages.count > 1
    assert len(links(link)) == sum(found.annotations) > 50
    assert all(each.contents for each in links(link))
    assert len({(each.page, each.annotation) for each in links(link)}) == len(links(link))


def test_paragraph_over_a_page_break_is_one_element(lay_out: LayOut) -> None:
    pages, found = lay_out(Paragraph(text=plain(SENTENCE * 80), aside=plain("a note")))
    first, note = elements(pages.tree, "P")
    assert {mark.page for mark in marks(first)} == {0, 1}
    assert text(note, found) == "a note"
