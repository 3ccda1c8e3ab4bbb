"""Every kind of block lays out, is tagged, and loses no text."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from itertools import pairwise
from pathlib import Path
from typing import get_args

import pypdfium2
import pytest

from reporter.errors import LayoutError
from reporter.model.report import (
    Blank,
    Block,
    Cell,
    Column,
    Contents,
    Figure,
    GradeLine,
    Heading,
    Paragraph,
    PhotoPair,
    Signatures,
    Span,
    Table,
    plain,
)
from reporter.model.terms import Grade
from reporter.typeset import typeset
from reporter.typeset.glyphs import text_width
from reporter.typeset.styles import BODY
from tests.typeset.conftest import LayOut
from tests.typeset.reading import elements, links, text
from tests.typeset.samples import BLOCKS, DRAWING, SENTENCE, photo, picture, pictures, report


def test_every_kind_of_block_has_a_sample() -> None:
    kinds = {member.model_fields["kind"].default for member in get_args(get_args(Block)[0])}
    # Fields to write in stand on the field sheet alone, and are tried with it.
    assert kinds - {"fields"} == set(BLOCKS)


@pytest.mark.parametrize("kind", BLOCKS)
def test_block_is_laid_out_and_tagged(kind: str, lay_out: LayOut) -> None:
    block, roles = BLOCKS[kind]
    pages, _ = lay_out(block, Heading(level=2, text="After"))
    found = {element.role for element in elements(pages.tree)}
    assert set(roles) <= found


def _characters(words: str) -> Counter[str]:
    return Counter(words.replace("\ufffe", "-")) - Counter(dict.fromkeys(" \n\r\u00a0", 10**6))


def test_tree_and_declared_artifacts_hold_all_visible_text(lay_out: LayOut) -> None:
    """Visible text is read by an independent reader (pdfium), tagged text from the streams."""
    pages, found = lay_out(*(block for block, _ in BLOCKS.values()), draft="DRAFT")
    document = pypdfium2.PdfDocument(pages.file)
    visible = "".join(page.get_textpage().get_text_range() for page in document)
    document.close()
    assert _characters(visible) == _characters(text(pages.tree, found) + "".join(found.artifacts))
    chrome = " ".join(" ".join(found.artifacts).replace(".", "").split())
    for words in ("Running head", "Running foot", "DRAFT", f"page 1 of {pages.count}"):
        assert words in chrome
    assert "Running" not in text(pages.tree, found)


def test_tree_text_is_the_blocks_text(lay_out: LayOut) -> None:
    pages, found = lay_out(Paragraph(text=plain(SENTENCE * 30)), BLOCKS["table"][0])
    paragraph = next(elements(pages.tree, "P"))
    assert text(paragraph, found).split() == (SENTENCE * 30).split()
    cells = [text(cell, found).strip() for cell in elements(pages.tree, "TD")]
    assert cells == [f"row {row} cell {at}" for row in range(3) for at in range(3)]


def test_span_language_and_link_targets(lay_out: LayOut) -> None:
    pages, found = lay_out(BLOCKS["paragraph"][0])
    (foreign,) = elements(pages.tree, "Span")
    assert (foreign.lang, text(foreign, found)) == ("fr", "sur le pont")
    inner, outer = links(pages.tree)
    assert inner.contents == "the title"
    assert outer.contents == "a page (https://example.org/)"


@pytest.mark.parametrize(
    "href", ["javascript:alert(1)", "file:///etc/passwd", "data:text/html,x", "//host/x", "http://a b"]
)
def test_dangerous_addresses_are_printed_but_not_linked(href: str, lay_out: LayOut) -> None:
    pages, found = lay_out(Paragraph(text=(Span(text="look here", href=href),)))
    assert not links(pages.tree)
    assert "look here" in text(pages.tree, found)


def test_words_without_ink_are_no_link(lay_out: LayOut) -> None:
    """Nobody sees it, and nothing could be read aloud of it."""
    spans = (Span(text="a"), Span(text=" ", href="#there"), Span(text="b", href="#there"))
    pages, found = lay_out(Heading(level=2, text="There", anchor="there"), Paragraph(text=spans))
    assert [link.contents for link in links(pages.tree)] == ["b"]
    assert "a b" in text(pages.tree, found)


def test_markup_in_text_is_only_text(lay_out: LayOut) -> None:
    hostile = '<img src="/etc/passwd"/> <b>x & <font color="red">'
    pages, found = lay_out(Paragraph(text=plain(hostile)), Heading(level=2, text=hostile))
    assert text(next(elements(pages.tree, "P")), found) == hostile


def test_link_to_nowhere_and_double_anchor_are_errors(lay_out: LayOut) -> None:
    with pytest.raises(LayoutError, match="#nowhere"):
        lay_out(Paragraph(text=(Span(text="x", href="#nowhere"),)))
    with pytest.raises(LayoutError, match="Two blocks"):
        lay_out(Heading(level=2, text="a", anchor="same"), Heading(level=2, text="b", anchor="same"))


def test_photo_that_was_not_developed_is_an_error(lay_out: LayOut) -> None:
    with pytest.raises(LayoutError, match=r"missing\.jpg"):
        lay_out(photo("missing.jpg"))


def test_heading_levels_never_jump(lay_out: LayOut) -> None:
    """ISO 14289-1 (PDF/UA-1), 7.4.2: no level is skipped going down."""
    pages, _ = lay_out(
        Heading(level=3, text="deep at once"),
        Heading(level=2, text="two"),
        GradeLine(grade=Grade.STOP, word="Stop", name="Wire", level=3),
    )
    assert [element.role for element in elements(pages.tree) if element.role[0] == "H"] == [
        "H1",
        "H2",
        "H2",
        "H3",
    ]


def test_bookmarks_carry_the_grade_as_a_word(lay_out: LayOut) -> None:
    pages, _ = lay_out(Heading(level=2, text="Components"), BLOCKS["grade_line"][0])
    document = pypdfium2.PdfDocument(pages.file)
    titles = [mark.get_title() for mark in document.get_toc()]
    document.close()
    assert titles == ["Steering gear and rig", "Components", "Steering chain · First"]


def test_contents_name_the_right_pages(lay_out: LayOut) -> None:
    long = Paragraph(text=plain(SENTENCE * 60))
    blocks = [Contents(title="Contents")]
    for number in range(6):
        blocks += [Heading(level=2, text=f"Section {number}", anchor=f"s{number}"), long]  # type: ignore[list-item]
    pages, found = lay_out(*blocks)
    entries = [text(entry, found).split() for entry in elements(pages.tree, "TOCI")]
    where = {
        text(heading, found): heading.kids[0].page + 1  # type: ignore[union-attr]
        for heading in elements(pages.tree, "H2")
    }
    assert entries == [["Section", str(number), str(where[f"Section {number}"])] for number in range(6)]
    assert pages.count > 1


def test_figures_have_their_box_on_the_page_and_their_words(lay_out: LayOut) -> None:
    pages, _ = lay_out(Figure(drawing=DRAWING), photo("chain", size="full"), photo("wire", size="half"))
    figures = list(elements(pages.tree, "Figure"))
    assert [figure.alt for figure in figures] == ["Wheel and quadrant", "Photo of chain", "Photo of wire"]
    for figure in figures:
        left, low, right, high = figure.bbox or (0, 0, 0, 0)
        assert 0 < left < right < 595.28
        assert 0 < low < high < 841.9


def test_signature_fields_are_named_apart_and_stand_on_their_page(lay_out: LayOut) -> None:
    block = BLOCKS["signatures"][0]
    assert isinstance(block, Signatures)
    pages, _ = lay_out(block, block)
    assert [field.name for field in pages.fields] == [f"signature_{number}" for number in (1, 2, 3, 4)]
    assert {field.label for field in pages.fields} == {"Signature", "Owner"}
    assert all(field.rect[0] < field.rect[2] and field.rect[1] < field.rect[3] for field in pages.fields)


def test_spans_scope_and_empty_cells(lay_out: LayOut) -> None:
    columns = tuple(Column(title=title) for title in "ABC")
    grid = Table(
        columns=columns,
        rows=(
            (Cell(text=plain("tall"), rows=2, head=True), Cell(text=plain("wide"), columns=2)),
            (Cell(), Cell(text=plain("x"), grade=Grade.WATCH)),
            (Cell(text=plain("short")),),
        ),
    )
    pages, _ = lay_out(grid)
    lines = [
        [
            (cell.role, cell.scope, cell.column_span, cell.row_span)
            for cell in elements(row)
            if cell.role != "TR"
        ]
        for row in elements(pages.tree, "TR")
    ]
    assert lines[0] == [("TH", "Column", 1, 1)] * 3
    assert lines[1] == [("TH", "Row", 1, 2), ("TD", "", 2, 1)]
    assert lines[2] == [("TD", "", 1, 1)] * 2
    assert lines[3] == [("TD", "", 1, 1)] * 3


def test_two_uses_of_one_photo_show_their_own_insets(tmp_path: Path) -> None:
    from reporter.model.photo import Inset
    from reporter.typeset.print_context import PrintContext

    first, second = Inset(at=(0.2, 0.2)), Inset(at=(0.8, 0.8))
    shown = {"chain": picture(tmp_path, "chain", insets=2)}
    whole = report(photo("chain", marks=[first]), photo("chain", marks=[second, first]))
    context = PrintContext(whole, shown)
    made = shown["chain"].insets
    assert context.insets("chain", [second, first]) == [made[1], made[0]]
    typeset(whole, shown, tmp_path / "pages.pdf")


def test_letter_and_a_report_without_blocks(tmp_path: Path) -> None:
    pages = typeset(report(page="Letter", blocks=()), {}, tmp_path / "empty.pdf")
    assert pages.count == 1
    document = pypdfium2.PdfDocument(pages.file)
    assert document[0].get_size() == (612.0, 792.0)
    document.close()


def test_only_our_own_fonts_are_in_the_file(tmp_path: Path) -> None:
    import pikepdf

    pages = typeset(
        report(*(block for block, _ in BLOCKS.values())), pictures(tmp_path), tmp_path / "fonts.pdf"
    )
    with pikepdf.open(pages.file) as pdf:
        fonts = {str(font.BaseFont) for page in pdf.pages for font in page.obj.Resources.Font.values()}
    assert fonts
    assert all(name.startswith("/AAAAAA+SourceSansPro") for name in fonts)


def test_a_plate_of_three_stands_in_one_row_with_its_captions(lay_out: LayOut) -> None:
    plate = PhotoPair(left=photo("chain"), right=photo("wire"), third=photo("chain", "The third"))
    pages, found = lay_out(plate)
    figures = list(elements(pages.tree, "Figure"))
    boxes = [figure.bbox for figure in figures if figure.bbox]
    assert len(boxes) == 3
    assert all(one[2] <= other[0] for one, other in pairwise(boxes))
    assert len({round(box[3], 1) for box in boxes}) == 1
    assert all(len(list(elements(figure, "Caption"))) == 1 for figure in figures)
    assert "The third" in text(figures[2], found)


def test_the_number_of_an_action_is_one_disc_in_text_and_on_drawings(lay_out: LayOut) -> None:
    said = Paragraph(text=(*plain("Action "), Span(text="7", style="disc"), *plain(" first")))
    pages, found = lay_out(said, Figure(drawing=DRAWING))
    assert text(next(elements(pages.tree, "P")), found).split() == ["Action", "7", "first"]
    assert "7" in text(next(elements(pages.tree, "Figure")), found).split()
    assert text_width("7", BODY.numbered()) == 2 * BODY.numbered().reach
    assert text_width("77", BODY.numbered()) > text_width("77", replace(BODY.numbered(), disc=False))


def test_a_sign_with_text_spans_a_compact_row(lay_out: LayOut) -> None:
    columns = tuple(Column(title="") for _ in range(3))
    told = Cell(grade=Grade.WATCH, text=plain("six places are as they should be"), columns=3)
    rows = ((told,), (Cell(text=plain("a")), Cell(text=plain("b")), Cell(text=plain("c"))))
    pages, found = lay_out(Table(columns=columns, rows=rows, style="compact"))
    first = next(elements(pages.tree, "TD"))
    assert first.column_span == 3
    assert text(first, found).strip() == "six places are as they should be"


def test_lines_to_sign_on_stand_at_one_height_beside_each_other(lay_out: LayOut) -> None:
    """Though one of two people has a longer name: the rules and their labels are level."""
    long = (
        "Somebody with a name and a capacity that takes more than one line of this narrow column, and another"
    )
    people = tuple(
        (Blank(label="Signature"), Blank(label="Author", value=name), Blank(label=f"Date {number}"))
        for number, name in enumerate((long, "Short"))
    )
    pages, _ = lay_out(Signatures(blocks=people, fields=("author", "received")))
    document = pypdfium2.PdfDocument(pages.file)
    words = document[0].get_textpage()
    found = words.get_text_range()
    first, second = (words.get_charbox(found.index(f"Date {number}")) for number in (0, 1))
    document.close()
    assert first[1] == pytest.approx(second[1], abs=0.01)
    assert first[0] < second[0]
