"""The disc on the boat's picture: a part to which much is to be done has more numbers than it holds."""

from __future__ import annotations

import pytest

from reporter.model.drawing import Numeral
from reporter.outline.overview import _in_a_disc
from reporter.outline.plainly import runs


@pytest.mark.parametrize(
    "numbers", [range(1, 60, 2), range(2, 400, 3), [1], [1, 2, 3, 9], range(1000, 1040, 2)]
)
def test_a_disc_holds_the_first_numbers_whole(numbers: list[int]) -> None:
    told = _in_a_disc(runs(list(numbers)))
    Numeral(at=(0, 0), text=told)
    first = told.removesuffix(", …")
    assert first
    assert f"{runs(list(numbers))}, ".startswith(f"{first}, ")
    assert told.endswith("…") is (first != runs(list(numbers)))
