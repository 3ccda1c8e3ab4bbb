"""Large print and the page for a phone: nothing is cut, nothing is lost, nothing is too small."""

from __future__ import annotations

from pathlib import Path
from tempfile import TemporaryDirectory

import pypdfium2
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from reporter.model.drawing import Drawing, Words
from reporter.model.report import (
    Block,
    Cell,
    Column,
    Figure,
    GradeLine,
    Heading,
    Paragraph,
    PhotoPair,
    Table,
    plain,
)
from reporter.model.terms import Grade
from reporter.typeset import typeset
from reporter.typeset.look import look_of
from reporter.typeset.stacking import stacked
from reporter.typeset.styles import BODY, LEAST_SIZE, MM, TABLE, TABLE_HEAD
from tests.typeset.conftest import LayOut
from tests.typeset.reading import elements, marks, read, text
from tests.typeset.samples import BLOCKS, SENTENCE, photo, pictures, report, table
from tests.typeset.test_random_reports import _BLOCK

SHAPES = [("A4", "normal"), ("Letter", "large"), ("phone", "normal"), ("phone", "large"), ("A4", "large")]


def _outside(file: Path, left: float, right: float) -> list[str]:
    """Characters that reach beyond the block, but for the tab on the paper's edge."""
    document = pypdfium2.PdfDocument(file)
    found = []
    for page in document:
        words = page.get_textpage()
        for number in range(words.count_chars()):
            box = words.get_charbox(number)
            character = words.get_text_range(number, 1)
            is_tab = box[0] > right + 5 * MM
            if character.strip() and not is_tab and (box[0] < left - 1 or box[2] > right + 1):
                found.append(character)
    document.close()
    return found


def _laid(blocks: list[Block], page: str, size: str, folder: Path) -> tuple[str, list[str], set[float]]:
    pages = typeset(report(*blocks, page=page, text=size), pictures(folder), folder / f"{page}-{size}.pdf")
    found = read(pages.file)
    assert not found.faults
    look = look_of(page, size)  # type: ignore[arg-type]
    return text(pages.tree, found), _outside(pages.file, look.left, look.left + look.block), found.sizes


def _told(block: Block) -> list[str]:
    """The words of paragraphs and cells, without spaces: words may be broken over lines."""
    texts = [block.text] if isinstance(block, Paragraph) else []
    if isinstance(block, Table):
        texts = [cell.text for row in block.rows for cell in row]
    return ["".join(span.text for span in each) for each in texts]


@settings(max_examples=25, deadline=None)
@given(st.lists(_BLOCK, max_size=6), st.sampled_from(SHAPES))
def test_random_reports_of_every_shape(blocks: list[Block], shape: tuple[str, str]) -> None:
    with TemporaryDirectory() as name:
        told, outside, sizes = _laid(blocks, *shape, Path(name))
    assert outside == []
    assert min(sizes) >= LEAST_SIZE
    squeezed = "".join(told.split())
    for block in blocks:
        for words in _told(block):
            if words.isascii() and words.isprintable():
                assert "".join(words.split()) in squeezed


@pytest.mark.parametrize("shape", SHAPES)
def test_every_block_of_every_shape(shape: tuple[str, str], tmp_path: Path) -> None:
    _, outside, sizes = _laid([block for block, _ in BLOCKS.values()], *shape, tmp_path)
    assert outside == []
    assert min(sizes) >= LEAST_SIZE
    look = look_of(*shape)  # type: ignore[arg-type]
    assert look.of(BODY).size >= (13 if shape[1] == "large" else 9)
    assert min(look.of(TABLE).size, look.of(TABLE_HEAD).size) >= 8.5


def test_a_place_too_long_for_the_side_column_stands_below_its_name(lay_out: LayOut) -> None:
    place = " ".join(f"place{number}" for number in range(200))
    line = GradeLine(grade=Grade.CLEAR, word="clear", name="Chain", place=place)
    pages, found = lay_out(line, page="Letter", text="large")
    assert place in " ".join(text(pages.tree, found).split())


@pytest.mark.parametrize("page", ["A4", "Letter"])
def test_the_text_column_is_140_to_150_mm_and_the_margins_are_kept(page: str) -> None:
    look = look_of(page, "normal")  # type: ignore[arg-type]
    assert 140 * MM <= look.column <= 150 * MM
    assert look.side >= 25 * MM
    assert look.left >= 17.9 * MM


def test_a_phone_page_is_narrow_and_shows_photos_at_full_width(lay_out: LayOut) -> None:
    pages, _ = lay_out(photo("chain"), PhotoPair(left=photo("chain"), right=photo("wire")), page="phone")
    document = pypdfium2.PdfDocument(pages.file)
    assert document[0].get_size() == pytest.approx((90 * MM, 190 * MM), abs=0.1)
    document.close()
    wide = look_of("phone", "normal").block
    boxes = [figure.bbox for figure in elements(pages.tree, "Figure") if figure.bbox]
    assert [box[2] - box[0] for box in boxes[:2]] == pytest.approx([wide, wide], abs=0.1)


def test_tables_are_stacked_where_columns_do_not_fit(lay_out: LayOut) -> None:
    pages, found = lay_out(table(2), page="phone", text="large")
    rows = list(elements(pages.tree, "TR"))
    lines = [
        [" ".join(text(cell, found).split()) for cell in elements(row) if cell.role != "TR"] for row in rows
    ]
    assert lines[:3] == [
        ["Part row 0 cell 0"],
        ["Reading", "row 0 cell 1"],
        ["Verdict", "row 0 cell 2"],
    ]
    heads = list(elements(pages.tree, "TH"))
    assert {cell.scope for cell in heads} == {"Row"}
    flat, _ = lay_out(table(2))
    assert len(list(elements(flat.tree, "TR"))) == 3


def test_stacking_keeps_boxes_spans_and_repeated_titles() -> None:
    columns = tuple(Column(title=title) for title in ("Part", "Done", "Part", "Done"))
    tall = Cell(text=plain("wire"), rows=2)
    grid = Table(
        columns=columns, rows=((tall, Cell(), Cell(grade=Grade.STOP)), (Cell(), Cell())), style="boxes"
    )
    rows = [["".join(span.text for span in cell.text) for cell in row] for row in stacked(grid).rows]
    assert rows[:4] == [["Part  wire"], ["Done", ""], ["Part  stop"], ["Done", ""]]
    assert rows[4] == ["Part  wire"]


def test_a_table_without_rows_is_nothing_to_stack(lay_out: LayOut) -> None:
    bare = table(2).model_copy(update={"rows": ()})
    pages, _ = lay_out(Paragraph(text=plain("Before.")), bare, page="phone", text="large")
    assert pages.count == 1
    assert not list(elements(pages.tree, "TR"))


def test_section_tabs_are_artifacts(lay_out: LayOut) -> None:
    section = Heading(level=2, text="Steering gear, part by part", tab="Steering")
    pages, found = lay_out(section, *[Paragraph(text=plain(SENTENCE * 20))] * 6)
    assert pages.count > 1
    assert sum("Steering" in words.split() for words in found.artifacts) == pages.count
    assert "Steering" not in text(next(elements(pages.tree, "P")), found)


def test_a_broad_drawing_is_set_on_its_side_on_a_phone(lay_out: LayOut) -> None:
    """Turned clockwise: what stood at the left stands above, and all of it stays in the figure's own frame."""
    shapes = (Words(at=(10, 20), text="bow"), Words(at=(90, 20), text="stern"))
    drawing = Drawing(width=120, height=40, alt="Plan", shapes=shapes)
    pages, _ = lay_out(Figure(drawing=drawing), page="phone")
    left, low, right, high = next(elements(pages.tree, "Figure")).bbox or (0, 0, 0, 0)
    assert high - low > right - left
    document = pypdfium2.PdfDocument(pages.file)
    words = document[0].get_textpage()
    found = words.get_text_range()
    bow, stern = (words.get_charbox(found.index(each)) for each in ("bow", "stern"))
    document.close()
    assert bow[1] > stern[3]
    assert all(left <= box[0] < box[2] <= right and low <= box[1] < box[3] <= high for box in (bow, stern))


def test_a_caption_longer_than_a_page_is_told_in_full(lay_out: LayOut) -> None:
    for block in (photo("chain", SENTENCE * 60), photo("chain", SENTENCE * 60, size="full")):
        pages, found = lay_out(block, page="phone", text="large")
        (caption,) = elements(pages.tree, "Caption")
        assert text(caption, found).split()[1:] == (SENTENCE * 60).split()


def test_a_tab_names_the_section_that_fills_most_of_its_page(lay_out: LayOut) -> None:
    """Not the one whose last line stands above it."""
    short = Paragraph(text=plain("Not fitted: a swivel."))
    long = [Paragraph(text=plain(SENTENCE * 12))] * 3
    first, second = (Heading(level=2, text=name, tab=name) for name in ("Brief", "Ample"))
    _, found = lay_out(first, short, second, *long)
    told = " ".join(found.artifacts).split()
    assert ("Ample" in told, "Brief" in told) == (True, False)


def test_what_stood_in_one_row_and_is_stacked_stays_on_one_page(lay_out: LayOut) -> None:
    """Without the bond between its lines a card is parted below some of these paragraphs."""
    for lines in range(1, 5):
        before = Paragraph(text=plain(SENTENCE * lines))
        pages, _ = lay_out(before, table(14), page="phone", text="large")
        rows = [{mark.page for mark in marks(row)} for row in elements(pages.tree, "TR")]
        cards = [rows[at] | rows[at + 1] | rows[at + 2] for at in range(0, len(rows), 3)]
        assert pages.count > 1
        assert [card for card in cards if len(card) > 1] == []


def test_a_tabs_words_stand_on_bare_paper(lay_out: LayOut) -> None:
    """A tint is printed in dots where there is no grey; at the paper's edge only the tab's rule and its words are painted."""
    pages, _ = lay_out(Heading(level=2, text="Steering gear"), Paragraph(text=plain(SENTENCE)))
    document = pypdfium2.PdfDocument(pages.file)
    edge = document[0].get_width() - 9 * MM
    filled = [
        each
        for each in document[0].get_objects(filter=[pypdfium2.raw.FPDF_PAGEOBJ_PATH])
        if each.get_bounds()[0] > edge and each.get_bounds()[2] - each.get_bounds()[0] > 2 * MM
    ]
    document.close()
    assert filled == []
