"""A page under odd conditions: its folder moved away, no scripts, put away half typed, gone back from, words of any length and direction."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Dialog, expect

from tests.desk_page.slices import DEMO
from tests.desk_page.test_nothing_lost import CHAIN, answer, on_disk
from tests.desk_page.test_views import OVERHANG

pytestmark = pytest.mark.slow


def test_a_folder_that_was_moved_away_is_told_and_what_waits_is_kept(
    start: Any, windows: Any, demo: Path
) -> None:
    hands = windows.first(start(demo))
    hands.go(*CHAIN)
    button = answer(hands, "observed.lubrication", "oiled to the pins")
    expect(button).to_be_visible()
    away = demo.with_name("elsewhere")
    demo.rename(away)
    told = hands.page.get_by_role("alert")
    expect(told).to_contain_text("The job folder is not where it was. Put it back")
    hands.tap(button)
    expect(hands.page.locator("#saved")).to_have_text("Stopped: 1 not saved yet")
    assert not demo.exists()
    away.rename(demo)
    hands.all_saved()
    expect(told).to_have_count(0)
    assert on_disk(demo)["observed"]["lubrication"] == "oiled"


def test_a_browser_without_scripts_says_what_it_takes(browser: Any, shown: Any) -> None:
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto(shown.url.split("#")[0])
    expect(page.locator("main")).to_contain_text("needs a browser of 2023 or later")
    expect(page.locator("main")).to_be_visible(timeout=10_000)
    context.close()


def test_what_is_half_typed_is_kept_when_the_page_is_put_away(start: Any, windows: Any, demo: Path) -> None:
    """A telephone may end a page that is not seen; the field stays as it is where it does not."""
    hands = windows.first(start(demo))
    hands.go(*CHAIN)
    field = hands.page.locator("[data-question='place'] input")
    field.fill("half a")
    expect(hands.page.locator("#saved")).to_have_text("Not saved yet")
    hands.page.evaluate(
        """() => {
          Object.defineProperty(document, "hidden", { value: true, configurable: true });
          document.dispatchEvent(new Event("visibilitychange"));
        }"""
    )
    hands.all_saved()
    assert on_disk(demo)["place"] == "half a"
    expect(field).to_be_focused()


def test_a_dialog_ends_with_its_view(windows: Any, shown: Any) -> None:
    """Back and forward again: what was asked on the way is not asked any more."""
    hands = windows.first(shown)
    page = hands.page
    hands.go("part", "chain")
    hands.go("photos")
    hands.tap(page.locator(".tick-box").first)
    hands.tap(page.get_by_role("button", name="Give to a part"))
    expect(page.get_by_role("dialog")).to_be_visible()
    page.go_back()
    expect(page.locator("main h1")).to_contain_text("Steering chain")
    expect(page.get_by_role("dialog")).to_have_count(0)
    page.go_forward()
    expect(page.locator(".tile").first).to_be_visible()
    expect(page.get_by_role("dialog")).to_have_count(0)


@pytest.mark.parametrize("name", ["עגלת הגה 🛞 a", "x" * 200, "ﷺ" * 90], ids=["turned", "long", "broad"])
def test_words_of_any_length_and_direction_stay_inside(
    start: Any, windows: Any, demo: Path, name: str
) -> None:
    hands = windows.first(start(demo), width=360, height=740)
    hands.go(*CHAIN)
    hands.write(hands.page.locator("[data-question='name'] input"), name)
    hands.write(hands.page.locator("[data-question='found'] textarea"), f"{name} " * 40)
    hands.all_saved()
    assert on_disk(demo)["name"] == name
    for view in (CHAIN, ("walk",), ("photos",), ("photo", "chain_dry.jpg", "chain")):
        hands.go(*view)
        expect(hands.page.locator(".waiting")).to_have_count(0)
        expect(hands.page.get_by_text(name[:40]).first).to_be_attached()
        over, what = hands.page.evaluate(OVERHANG)
        assert (over <= 0, what) == (True, []), view


def test_leaving_while_photos_are_on_their_way_is_asked_about(
    start: Any, windows: Any, demo: Path, tmp_path: Path
) -> None:
    hands = windows.first(start(demo))
    hands.go("photos")
    new = tmp_path / "new.jpg"
    new.write_bytes((DEMO / "outgoing/photos/sheave_offline.jpg").read_bytes())
    hands.page.route("**/api/photos*", lambda _: None)
    hands.page.locator("input[type=file]").set_input_files(new)
    expect(hands.page.locator(".arriving .sending")).to_have_count(1)
    asked: list[str] = []

    def stay(dialog: Dialog) -> None:
        asked.append(dialog.type)
        dialog.dismiss()

    hands.page.on("dialog", stay)
    hands.page.close(run_before_unload=True)
    hands.page.wait_for_timeout(500)
    assert asked == ["beforeunload"]
    hands.page.unroute("**/api/photos*")
