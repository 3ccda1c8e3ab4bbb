"""A serious finding in one view: photos and words side by side, never parted by a page break, all of it there."""

from __future__ import annotations

from pathlib import Path
from tempfile import TemporaryDirectory

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from reporter.model.report import Paragraph, Spread, plain
from reporter.typeset import typeset
from reporter.typeset.print_context import PrintContext
from reporter.typeset.slices import Stick
from reporter.typeset.spreads import spread
from tests.typeset.conftest import LayOut
from tests.typeset.reading import elements, marks, read, text
from tests.typeset.samples import SENTENCE, photo, pictures, report

MM = 72 / 25.4


def told(count: int) -> tuple[Paragraph, ...]:
    """So many paragraphs of three sentences, numbered."""
    return tuple(Paragraph(text=plain(f"Number {number}. {SENTENCE * 3}")) for number in range(count))


def test_words_stand_beside_the_photo_and_on_its_page(lay_out: LayOut) -> None:
    block = Spread(photos=(photo("chain"),), texts=told(2))
    pages, found = lay_out(*[Paragraph(text=plain(SENTENCE))] * 60, block)
    (figure,) = elements(pages.tree, "Figure")
    said = [each for each in elements(pages.tree, "P") if text(each, found).startswith("Number")]
    assert len(said) == 2
    assert {mark.page for each in (figure, *said) for mark in marks(each)} == {marks(figure)[0].page}


def test_nothing_of_it_is_free_to_be_parted(tmp_path: Path) -> None:
    context = PrintContext(report(), pictures(tmp_path))
    for count in (1, 4, 12):
        made = spread(context, Spread(photos=(photo("chain"), photo("wire")), texts=told(count)))
        assert all(piece.stick >= Stick.GROUP for piece in made[:-1])


def test_words_that_find_no_room_beside_the_photo_run_on_below(tmp_path: Path) -> None:
    """Half the block is 85 mm, a photo of 4 to 3 in it 63.75 mm high; words may reach a quarter further down."""
    context = PrintContext(report(), pictures(tmp_path))
    few = spread(context, Spread(photos=(photo("chain", "one"),), texts=told(1)))
    assert len(few) == 1
    assert few[0].height == pytest.approx(63.75 * MM + 1.6 * MM + 11.5)
    many = spread(context, Spread(photos=(photo("chain", "one"),), texts=told(9)))
    assert len(many) > 1
    assert many[0].height <= 1.25 * few[0].height


def test_two_photos_stand_one_below_the_other_and_fit_a_page(tmp_path: Path) -> None:
    context = PrintContext(report(page="Letter", text="large"), pictures(tmp_path))
    (whole,) = spread(context, Spread(photos=(photo("wire"), photo("wire"))))
    assert whole.height < context.look.room
    (one,) = spread(context, Spread(photos=(photo("wire"),)))
    assert whole.height > 1.5 * one.height


def test_words_are_not_cut_when_photos_shrink(tmp_path: Path) -> None:
    """Photos give way by a third; words that reach further down than they do, not at all."""
    context = PrintContext(report(), pictures(tmp_path))
    (short,) = spread(context, Spread(photos=(photo("chain", "one"),), texts=told(1)))
    assert short.height - short.least == pytest.approx(0.32 * 63.75 * MM)
    lines = tuple(Paragraph(text=plain("One line.")) for _ in range(11))
    (deep,) = spread(context, Spread(photos=(photo("chain", "one"),), texts=lines))
    assert deep.height > short.height
    assert deep.least == deep.height


def test_on_a_phone_it_stands_one_below_the_other(lay_out: LayOut) -> None:
    pages, found = lay_out(Spread(photos=(photo("chain"),), texts=told(2)), page="phone")
    assert len(list(elements(pages.tree, "Figure"))) == 1
    assert "Number 1" in text(pages.tree, found)


@settings(max_examples=15, deadline=None)
@given(st.integers(0, 14), st.sampled_from([("chain",), ("wire",), ("chain", "wire")]))
def test_every_word_is_there(count: int, names: tuple[str, ...]) -> None:
    with TemporaryDirectory() as place:
        folder = Path(place)
        block = Spread(photos=tuple(photo(name) for name in names), texts=told(count))
        pages = typeset(report(block), pictures(folder), folder / "pages.pdf")
        told_there = text(pages.tree, read(pages.file))
        assert [f"Number {number}." in told_there for number in range(count)] == [True] * count
