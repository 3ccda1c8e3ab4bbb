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
from reporter.typeset.bars import place_on, rows_of
from reporter.typeset.look import look_of
from reporter.typeset.styles import MM
from tests.typeset.conftest import LayOut
from tests.typeset.reading import elements, text
from tests.typeset.samples import BAR

WHOLE = 480.0


@given(st.lists(st.tuples(st.floats(0, WHOLE), st.floats(1, 200)), max_size=12))
def test_labels_never_collide_and_stay_on_the_page(parts: list[tuple[float, float]]) -> None:
    lines = rows_of([("x", at) for at, _ in parts], WHOLE, [wide for _, wide in parts])
    placed = [(line.row, line.left, line.left + wide) for line, (_, wide) in zip(lines, parts, strict=True)]
    assert all(left >= 0 and right <= WHOLE + 1e-9 for _, left, right in placed)
    for one, other in combinations(placed, 2):
        assert one[0] != other[0] or one[2] < other[1] or other[2] < one[1]


@pytest.mark.parametrize(
    ("value", "part"),
    [(254, 0), (257, 0.5), (260, 1), (999, 1), (-5, 0), (math.inf, 1), (-math.inf, 0), (math.nan, 0)],
)
def test_place_on_the_bar(value: float, part: float) -> None:
    whole = place_on(BAR, BAR.high, WHOLE)
    assert place_on(BAR, value, WHOLE) == pytest.approx(part * whole)


def test_falling_bar_runs_the_other_way() -> None:
    falling = BAR.model_copy(update={"low": 10.0, "high": 4.0})
    assert place_on(falling, 10.0, WHOLE) == 0
    assert place_on(falling, 4.0, WHOLE) == place_on(BAR, 260, WHOLE)


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
        start, end = (left + place_on(bar, at, track) for at in (band.start, band.end))
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
