"""Answers that somebody wrote by hand in other words: shown as chosen, and left as they are written."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Locator, expect

pytestmark = pytest.mark.slow

OTHER = (
    ("stiff_links: none", "stiff_links: No stiff links"),
    ("lubrication: dry", "lubrication: {choice: The chain is dry, note: all of it}"),
    ("material: {value: carbon, basis: seen}", "material: {value: Carbon steel, basis: seen}"),
    ("included: [all_links, sprocket, joints]", "included: [All links, sprocket, joints]"),
)
"""How the demo's chain is written, and the same in other words."""


@pytest.fixture
def written(demo: Path) -> Path:
    """The demo with its chain in other words."""
    file = demo / "findings.yaml"
    before, mark, chain = file.read_text("utf-8").partition("  - id: chain\n")
    for plain, other in OTHER:
        assert plain in chain
        chain = chain.replace(plain, other, 1)
    file.write_text(before + mark + chain, "utf-8")
    return demo


def pressed(hands: Any, question: str) -> Locator:
    """The answers that are shown as chosen."""
    found: Locator = hands.page.locator(f"[data-question='{question}'] .choice[aria-pressed='true']")
    return found


def test_they_are_shown_as_chosen(start: Any, windows: Any, written: Path) -> None:
    bytes_before = (written / "findings.yaml").read_bytes()
    hands = windows.first(start(written))
    hands.go("part", "chain")
    expect(pressed(hands, "observed.stiff_links")).to_have_text(re.compile("^every link bends freely"))
    expect(pressed(hands, "observed.lubrication")).to_have_text(re.compile("^the chain is dry"))
    expect(pressed(hands, "details.material")).to_have_count(1)
    expect(pressed(hands, "examined.included")).to_have_count(3)
    assert (written / "findings.yaml").read_bytes() == bytes_before


def test_a_change_beside_them_leaves_their_words(start: Any, windows: Any, written: Path) -> None:
    hands = windows.first(start(written))
    hands.go("part", "chain")
    for question in ("observed.stiff_links", "details.material"):
        expect(pressed(hands, question)).to_have_count(1)
    items = hands.page.locator("[data-question='examined.included'] .choice")
    hands.tap(items.filter(has_text=re.compile("sprocket", re.IGNORECASE)).first)
    hands.all_saved()
    expect(pressed(hands, "examined.included")).to_have_count(2)
    text = (written / "findings.yaml").read_text("utf-8")
    assert "included: [All links, joints]" in text
    assert "choice: The chain is dry" in text
    hands.tap(pressed(hands, "observed.stiff_links"))
    hands.all_saved()
    expect(pressed(hands, "observed.stiff_links")).to_have_count(0)
    assert "No stiff links" not in (written / "findings.yaml").read_text("utf-8")
