"""Somebody who has not read anything: what is still to be told leads there, the next question is one tap away, all by keys too."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import expect

from tests.desk_page.hands import Hands
from tests.desk_page.slices import DEMO, raw
from tests.desk_page.test_views import tab_to

pytestmark = pytest.mark.slow


def begun(start: Any, windows: Any, home: Path, **look: Any) -> Hands:
    """A window in which a job was begun by its name."""
    home.mkdir()
    hands: Hands = windows.first(start(home), **look)
    hands.page.get_by_label("A name for it").fill("curlew")
    hands.page.get_by_role("button", name="Begin", exact=True).press("Enter")
    hands.page.locator(".top").wait_for()
    return hands


def test_what_is_still_to_be_told_leads_there(start: Any, windows: Any, tmp_path: Path) -> None:
    hands = begun(start, windows, tmp_path / "jobs", width=390, height=844)
    page = hands.page
    hands.go("out")
    for name, field, text in (
        ("Boat and visit: Name", "vessel_name", "Curlew"),
        ("Boat and visit: People", "people-0-name", "Jo Sand"),
        ("Boat and visit: Place", "inspection_place", "berth 4"),
    ):
        line = page.get_by_role("link", name=name)
        hands.tap(line)
        expect(page.locator(f"#q-sheet-{field}")).to_be_focused()
        expect(page.locator(f"#q-sheet-{field}")).to_be_in_viewport()
        page.keyboard.type(text)
        hands.go("out")
        expect(page.locator("main h1")).to_have_text("Report")
        expect(line).to_have_count(0)  # the others have moved up by then
    hands.all_saved()
    expect(page.locator(".faults")).to_have_count(0)
    assert raw(tmp_path / "jobs/curlew/job.yaml")["people"][0]["name"] == "Jo Sand"


def test_an_entry_without_its_name_is_not_all_that_is_needed(
    start: Any, windows: Any, tmp_path: Path
) -> None:
    hands = begun(start, windows, tmp_path / "jobs", width=390, height=844)
    page = hands.page
    hands.go("sheet")
    block = page.locator(".block", has=page.locator("[data-question='people']"))
    expect(block.locator(".to-do")).to_have_text("1 needed")
    expect(page.get_by_role("button", name="Next needed (3)")).to_be_visible()
    hands.write(page.locator("#q-sheet-people-0-name"), "Jo Sand")
    expect(block.locator(".to-do")).to_have_text("all that is needed")
    expect(page.get_by_role("button", name="Next needed (2)")).to_be_visible()


def answer_what_is_needed(hands: Hands) -> None:
    """One needed question of a part after another, the first of its answers, by keys."""
    page, keys = hands.page, hands.page.keyboard
    following = page.get_by_role("button", name="Next needed")
    expect(following).to_be_visible()
    answered = 0
    while following.count():
        tab_to(page, following)
        keys.press("Enter")
        chosen = page.locator("*:focus")
        expect(chosen).to_be_in_viewport()
        keys.press("Space")
        expect(chosen).to_have_attribute("aria-pressed", "true")
        hands.all_saved()
        answered += 1
    assert answered > 2


def test_a_job_is_made_from_its_photos_by_keys_alone(start: Any, windows: Any, tmp_path: Path) -> None:
    """Photos in, given, the part's needed questions one after another, the sheet, the report: Tab, Space, Enter, letters."""
    hands = begun(start, windows, tmp_path / "jobs", width=1280, height=800, touch=False)
    page = hands.page
    keys = page.keyboard
    page.on("filechooser", lambda _: None)  # the browser is told early: a key may be quicker than being told
    tab_to(page, page.get_by_role("link", name="Bring the photos"))
    keys.press("Enter")
    expect(page.locator("main h1")).to_be_focused()
    tab_to(page, page.locator("input[type=file]"))
    with page.expect_file_chooser() as choosing:
        keys.press("Enter")
    choosing.value.set_files([str(DEMO / "photos" / name) for name in ("wheel_hub.jpg", "brake.jpg")])
    expect(page.locator(".came")).to_be_visible(timeout=60_000)
    tab_to(page, page.locator(".tick-box input").first)
    keys.press("Space")
    tab_to(page, page.locator(".side .target", has_text="Wheel brake"))
    keys.press("Enter")
    tab_to(page, page.locator(".at-hand a", has_text="To the part"))
    keys.press("Enter")
    expect(page.locator("main h1")).to_contain_text("Wheel brake")
    hands.all_saved()
    answer_what_is_needed(hands)
    for field, text in (("vessel_name", "Curlew"), ("people-0-name", "Jo"), ("inspection_place", "berth")):
        page.locator(".top nav a", has_text="Boat").focus()
        keys.press("Enter")
        tab_to(page, page.locator(f"#q-sheet-{field}"))
        keys.type(text)
    keys.press("Tab")
    hands.all_saved()
    page.locator(".top nav a", has_text="Report").focus()
    keys.press("Enter")
    expect(page.locator("main h1")).to_be_focused()
    tab_to(page, page.get_by_role("button", name="Report (PDF)"))
    keys.press("Enter")
    save = page.locator(".made a")
    expect(save).to_be_visible(timeout=120_000)
    tab_to(page, save)
    with page.expect_download() as coming:
        keys.press("Enter")
    assert re.fullmatch("curlew.*\\.pdf", coming.value.suggested_filename)
    assert windows.complaints == []
