"""What the property tests try follows from test and seed alone, and a share is spread over the whole."""

from __future__ import annotations

import importlib.util
import sys
from pathlib import Path

import pytest
from hypothesis import given, seed, settings
from hypothesis import strategies as st

from tests import effort


def tried() -> list[int]:
    """The examples of a property with a seed of its own."""
    found: list[int] = []

    @seed(1)
    @settings(max_examples=200)
    @given(st.integers())
    def keep(number: int) -> None:
        found.append(number)

    keep()
    return found


def test_a_module_that_is_imported_changes_no_example(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """So a failure is repeated by the test alone, and a change elsewhere brings no examples that nobody has tried."""
    before = tried()
    (tmp_path / "numbers.py").write_text(f"ODD = {list(range(7000, 7900))}", "utf-8")
    spec = importlib.util.spec_from_file_location("odd_numbers", tmp_path / "numbers.py")
    assert spec
    assert spec.loader
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    monkeypatch.setitem(sys.modules, "odd_numbers", module)
    assert tried() == before


def test_nothing_of_an_earlier_run_is_tried_again() -> None:
    assert settings().database is None


def test_a_share_is_spread_and_a_hunt_takes_all(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(effort, "WHOLE", False)
    assert effort.share(range(10), 4) == [0, 2, 5, 7]
    assert effort.tries(400, 80) == 80
    monkeypatch.setattr(effort, "WHOLE", True)
    assert effort.share(range(10), 4) == list(range(10))
    assert effort.tries(400, 80) == 400
