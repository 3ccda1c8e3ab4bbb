"""The measure bar: labels never collide, values never leave the bar."""

from __future__ import annotations

import math
from itertools import combinations, pairwise
from pathlib import Path

import pypdfium2
import pytest
from hypothesis import given
from hypothesis import strategies as st

from reporter.model.measure_bar import Band, EarlierDot, MeasureBar
from reporter.model.terms import Grade
from reporter.typeset.bars import _Bar
from reporter.typeset.glyphs import text_width
from reporter.typeset.look import look_of
from reporter.typeset.places import Stretch, take_row
from reporter.typeset.print_context import PrintContext
from reporter.typeset.styles import MM, NOTE
from tests.typeset import samples
from tests.typeset.conftest import LayOut
from tests.typeset.reading import elements, text
from tests.typeset.samples import BAR


@given(st.lists(st.tuples(st.floats(0, 480), st.floats(1, 200), st.integers(1, 3)), max_size=12))
def test_stretches_on_rows_never_collide(parts: list[tuple[float, float, int]]) -> None:
    rows: list[list[Stretch]] = []
    taken = [(take_row(rows, (at, at + wide), 5.0, deep), at, at + wide, deep) for at, wide, deep in parts]
    for one, other in combinations(taken, 2):
        is_apart = one[0] + one[3] <= other[0] or other[0] + other[3] <= one[0]
        assert is_apart or one[2] + 5.0 <= other[1] or other[2] + 5.0 <= one[1]
    assert not taken or min(row for row, *_ in taken) == 0, "the first stands next to the bar"


def test_a_label_at_either_end_is_moved_in_from_the_edge() -> None:
    """Six millimetres from the bar's end to the edge hold no label of twenty letters."""
    wide = "a label of twenty letters"
    block = BAR.model_copy(
        update={"low_label": wide, "high_label": wide, "bands": (), "ticks": (), "earlier": ()}
    )
    context = PrintContext(samples.report(block), {})
    low, high = _Bar(context, block)._below
    assert low.left == 0
    assert high.left == pytest.approx(context.look.block - text_width(wide, NOTE))
    assert low.row == high.row


@pytest.mark.parametrize(
    ("value", "part"),
    [(254, 0), (257, 0.5), (260, 1), (999, 1), (-5, 0), (math.inf, 1), (-math.inf, 0), (math.nan, 0)],
)
def test_place_on_the_bar(value: float, part: float) -> None:
    assert BAR.share(value) == pytest.approx(part)


def test_falling_bar_runs_the_other_way() -> None:
    falling = BAR.model_copy(update={"low": 10.0, "high": 4.0})
    assert falling.share(10.0) == 0
    assert falling.share(4.0) == BAR.share(260) == 1


def test_bar_is_one_figure_with_all_its_labels(lay_out: LayOut) -> None:
    pages, found = lay_out(BAR)
    (figure,) = elements(pages.tree, "Figure")
    assert figure.alt == BAR.alt
    for words in (
        "258.6 mm",
        "limit 259.1 [3]",
        "maker 258.9 [4]",
        "2021",
        "stop",
        "unworn 254 mm",
        "260 mm",
    ):
        assert words in text(figure, found)


@pytest.mark.parametrize(
    "changes", [{"expanded": math.inf}, {"value": math.inf}, {"low": 1.0, "high": 1.0}, {"bands": ()}]
)
def test_odd_bars_still_lay_out(changes: dict[str, object], lay_out: LayOut) -> None:
    pages, _ = lay_out(BAR.model_copy(update=changes))
    assert pages.count == 1


def _black(page: Path, bar: MeasureBar) -> list[float]:
    """The share of black in each band, at the edges left out, where a printer knows black and white only."""
    scale, high = 6.0, 4.8 * MM
    document = pypdfium2.PdfDocument(page)
    image = (
        document[0].render(scale=scale).to_pil().convert("L").point(lambda value: 255 if value > 127 else 0)
    )
    document.close()
    look = look_of("A4", "normal")
    left, track = look.left + 6 * MM, look.block - 12 * MM
    shares = []
    for band in bar.bands:
        start, end = (left + bar.share(at) * track for at in (band.start, band.end))
        # The bar is all that stands on the upper half of the page, so its height need not be known.
        strip = image.crop((int((start + 4) * scale), 60, int((end - 4) * scale), image.height // 2))
        shares.append(strip.histogram()[0] / (strip.width * high * scale))
    return shares


def test_bands_are_told_apart_in_black_and_white_alone(lay_out: LayOut) -> None:
    """Each grade prints more black than the one before it, by a margin that an eye sees; nothing else tells them."""
    grades = [Grade.CLEAR, Grade.WATCH, Grade.PLAN, Grade.FIRST, Grade.STOP]
    bands = tuple(Band(start=at, end=at + 1, grade=grade) for at, grade in enumerate(grades))
    bar = MeasureBar(low=0, high=5, value=-9, expanded=0, label="", bands=bands, ticks=(), alt="bar")
    pages, _ = lay_out(blocks=(bar,))
    shares = _black(pages.file, bar)
    assert all(later - earlier > 0.03 for earlier, later in pairwise(shares)), shares
    assert shares[-1] - shares[0] > 0.8


def test_past_readings_are_joined_by_a_line(lay_out: LayOut) -> None:
    clear = (Band(start=0, end=10, grade=Grade.CLEAR),)
    bar = MeasureBar(low=0, high=10, value=8, expanded=0, label="", bands=clear, ticks=(), alt="bar")
    alone, _ = lay_out(blocks=(bar,))
    before = _black(alone.file, bar)[0]
    joined, _ = lay_out(blocks=(bar.model_copy(update={"earlier": (EarlierDot(value=2, label=""),)}),))
    assert _black(joined.file, bar)[0] - before > 0.6 * 0.5 / (4.8 * MM)
