"""What DEVELOPERS.md says of the checks' footing is counted, and no test of a figure is left out of the count."""

from __future__ import annotations

import pytest

from tests.keyed.count import KINDS, PLACES, ROOT, collected, counted
from tests.keyed.holding import keyed

pytestmark = pytest.mark.slow


def test_every_test_of_a_figure_is_sorted() -> None:
    """Both ways: each collected test stands in `standing.csv` once, and each line there is a test."""
    lines = [line["test"] for line in keyed("standing")]
    assert sorted(lines) == sorted(collected())
    assert {line["against"] for line in keyed("standing")} <= KINDS.keys()


def test_developers_promises_no_more_checks_than_there_are() -> None:
    """Each number of the table is at most what is counted; tests added since do no harm."""
    text = (ROOT / "DEVELOPERS.md").read_text("utf-8")
    found = counted()
    for kind, words in KINDS.items():
        (line,) = [each for each in text.splitlines() if each.startswith(f"| {words} |")]
        told = [0 if cell.strip() == "–" else int(cell) for cell in line.split("|")[2:-1]]
        assert len(told) == len(PLACES)
        # Memory and the hand are no footing to boast of: those may only be told whole.
        for number, place in zip(told, PLACES, strict=True):
            counted_now = found[kind, place]
            assert number >= counted_now if kind == "memory" else number <= counted_now, (kind, place)
