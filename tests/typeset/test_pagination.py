"""Page breaks: what must stay together does, and nothing is lost."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from reporter.errors import LayoutError
from reporter.model.pages import Element
from reporter.model.report import Heading, Paragraph, plain
from reporter.typeset.pagination import PageRoom, paginate
from reporter.typeset.slices import Aside, Slice, Stick, no_paint, stick_edges
from tests.typeset.conftest import LayOut
from tests.typeset.reading import elements, marks, text
from tests.typeset.samples import BLOCKS, SENTENCE, photo, table

ROOM = PageRoom(first=50, top=20, bottom=320)


def _slice(height: float, **settings: object) -> Slice:
    return Slice(height, no_paint, **settings)  # type: ignore[arg-type]


ANY_SLICE = st.builds(
    Slice,
    height=st.floats(1, 120),
    paint=st.just(no_paint),
    above=st.floats(0, 30),
    below=st.floats(0, 20),
    stick=st.sampled_from([Stick.FREE, Stick.FREE, Stick.FREE, Stick.SOFT, Stick.FIRM]),
    wide=st.booleans(),
    snap=st.booleans(),
    new_page=st.sampled_from([False, False, False, False, True]),
    aside=st.none() | st.builds(Aside, height=st.floats(1, 80), paint=st.just(no_paint)),
)


@given(st.lists(ANY_SLICE, max_size=60))
def test_every_slice_once_in_order_inside_the_page_without_overlap(slices: list[Slice]) -> None:
    pages = paginate(slices, ROOM)
    assert [item.slice for page in pages for item in page] == slices
    for number, page in enumerate(pages):
        assert page
        assert page[0].top >= ROOM.start(number) - 1e-6
        side = 0.0
        for before, item in pairwise(page):
            assert item.top >= before.top + before.height - 1e-6
        for item in page:
            assert item.end <= ROOM.bottom + 0.011
            if item.slice.wide:
                assert item.top >= side - 1e-6
            if item.slice.aside:
                assert item.aside_top >= side - 1e-6
                side = item.aside_top + item.slice.aside.height


@given(st.lists(st.tuples(st.floats(5, 40), st.booleans()), min_size=1, max_size=60))
def test_no_heading_is_last_on_a_page(parts: list[tuple[float, bool]]) -> None:
    slices = []
    for height, has_heading in parts:
        if has_heading:
            slices.append(_slice(20, stick=Stick.FIRM))
        slices.append(_slice(height))
    for page in paginate(slices, ROOM):
        assert page[-1].slice.stick is not Stick.FIRM


def test_first_and_last_rows_of_a_table_are_not_stranded() -> None:
    for before in range(0, 300, 7):
        rows = stick_edges([_slice(20) for _ in range(9)], Stick.SOFT, 3)
        pages = paginate([_slice(max(before, 1)), *rows], PageRoom(20, 20, 320))
        counts = [sum(item.slice in rows for item in page) for page in pages]
        assert all(count == 0 or count >= 3 for count in counts)


def test_chain_longer_than_a_page_is_parted_where_it_holds_least() -> None:
    slices = [_slice(50, stick=Stick.FIRM if number != 3 else Stick.SOFT) for number in range(10)]
    pages = paginate(slices, PageRoom(20, 20, 320))
    assert len(pages[0]) == 4


def test_slice_taller_than_a_page_is_an_error() -> None:
    with pytest.raises(LayoutError, match="taller"):
        paginate([_slice(10), _slice(301)], ROOM)


def test_photo_shrinks_to_end_a_page_but_not_below_its_least() -> None:
    pages = paginate([_slice(150), _slice(160, least=100)], PageRoom(20, 20, 320))
    assert len(pages) == 1
    assert pages[0][1].height == pytest.approx(150, abs=0.02)
    assert len(paginate([_slice(250), _slice(160, least=100)], PageRoom(20, 20, 320))) == 2


def test_wished_page_break_needs_a_reasonably_full_page() -> None:
    assert len(paginate([_slice(40), _slice(40, new_page=True)], ROOM)) == 1
    assert len(paginate([_slice(140), _slice(40, new_page=True)], ROOM)) == 2


def test_nearly_empty_last_page_is_avoided_where_tighter_spaces_do_it() -> None:
    slices = [_slice(20, above=12) for _ in range(10)]
    assert len(paginate(slices, PageRoom(20, 20, 320))) == 1


def test_table_head_is_repeated_on_every_page() -> None:
    head, again = _slice(15, stick=Stick.FIRM), _slice(15)
    rows = [_slice(20, again=again) for _ in range(40)]
    pages = paginate([head, *rows], PageRoom(20, 20, 320))
    assert pages[0][0].slice is head
    assert all(page[0].slice is again for page in pages[1:])


def test_heading_stays_with_a_long_table_photo_and_paragraph(lay_out: LayOut) -> None:
    filler = Paragraph(text=plain(SENTENCE * 9))
    for count in (5, 6, 7, 8):
        for follower in (table(60), photo("chain", size="full"), Paragraph(text=plain(SENTENCE * 20))):
            pages, _ = lay_out(*[filler] * count, Heading(level=2, text="Kept"), follower)
            everything = list(elements(pages.tree))
            at = next(number for number, element in enumerate(everything) if element.role == "H2")
            assert marks(everything[at])[0].page == marks(everything[at + 1])[0].page


def test_introduction_and_signatures_stay_with_what_they_belong_to(lay_out: LayOut) -> None:
    signatures = BLOCKS["signatures"][0]
    for count in range(5, 10):
        filler = [Paragraph(text=plain(SENTENCE * 9))] * count
        heading = Heading(level=2, text="Kept")
        introduction = Paragraph(text=plain("What follows is introduced."))
        for follower, role in ((table(9), "Table"), (signatures, "P")):
            pages, _ = lay_out(*filler, heading, introduction, follower)
            parts = [element for element in pages.tree.kids if isinstance(element, Element)]
            at = next(number for number, element in enumerate(parts) if element.role == "H2")
            assert parts[at + 2].role == role
            assert {marks(parts[number])[0].page for number in (at, at + 1, at + 2)} == {
                marks(parts[at])[0].page
            }


def test_title_lines_are_of_nearly_one_length(lay_out: LayOut) -> None:
    long = Heading(level=1, text="Steering gear and rig: condition report for a purchase")
    pages, found = lay_out(blocks=(long,))
    assert text(next(elements(pages.tree, "H1")), found).split() == long.text.split()


def test_the_last_line_of_a_section_does_not_open_the_page_on_which_the_next_begins() -> None:
    """Without the price of a tail it would, to fill a page that is followed by something tall."""
    tail, following = _slice(12, above=8), _slice(210, above=20, section="next")
    pages = paginate([_slice(262), tail, following, _slice(110)], PageRoom(20, 20, 320))
    assert [len(page) for page in pages] == [2, 1, 1]
