"""The measure bar: labels never collide, values never leave the bar."""

from __future__ import annotations

import math
from itertools import combinations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from reporter.typeset.bars import place_on, rows_of
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
    whole = place_on(BAR, BAR.high)
    assert place_on(BAR, value) == pytest.approx(part * whole)


def test_falling_bar_runs_the_other_way() -> None:
    falling = BAR.model_copy(update={"low": 10.0, "high": 4.0})
    assert place_on(falling, 10.0) == 0
    assert place_on(falling, 4.0) == place_on(BAR, 260)


def test_bar_is_one_figure_with_all_its_labels(lay_out: LayOut) -> None:
    pages, found = lay_out(BAR)
    (figure,) = elements(pages.tree, "Figure")
    assert figure.alt == BAR.alt
    for words in ("258.6 mm", "limit 259.1 [3]", "maker 258.9 [4]", "2021"):
        assert words in text(figure, found)


@pytest.mark.parametrize(
    "changes", [{"expanded": math.inf}, {"value": math.inf}, {"low": 1.0, "high": 1.0}, {"bands": ()}]
)
def test_odd_bars_still_lay_out(changes: dict[str, object], lay_out: LayOut) -> None:
    pages, _ = lay_out(BAR.model_copy(update=changes))
    assert pages.count == 1
