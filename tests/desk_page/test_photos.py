"""Photos at the desk: what has arrived, what has not, what belongs to which part."""

from __future__ import annotations

import hashlib
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import expect

from tests.desk_page.slices import DEMO, raw

pytestmark = pytest.mark.slow


def uses(folder: Path, part: str) -> list[str]:
    """The files of the photos of a part, as findings.yaml has them now."""
    found = next(each for each in raw(folder / "findings.yaml")["components"] if each["id"] == part)
    return [each if isinstance(each, str) else each["file"] for each in found.get("photos", [])]


def test_a_photo_is_dragged_to_a_part(start: Any, windows: Any, demo: Path) -> None:
    hands = windows.first(start(demo), width=1280, height=1000, touch=False)
    hands.go("photos")
    page = hands.page
    page.get_by_role("button", name="Unused (1)").click()
    tile = page.locator(".tile")
    expect(tile).to_have_count(1)
    tile.drag_to(page.locator(".side .target", has_text="Wheel brake"))
    hands.all_saved()
    expect(page.get_by_text("Every photo belongs to a part.")).to_be_visible()
    assert uses(demo, "wheel-brake") == ["brake.jpg", "chain_oiled.jpg"]


def test_photos_are_given_by_their_boxes(start: Any, windows: Any, demo: Path) -> None:
    hands = windows.first(start(demo))
    hands.give(["chain_oiled.jpg", "brake.jpg"], "Engine controls")
    hands.all_saved()
    assert uses(demo, "engine-controls") == ["controls.jpg", "chain_oiled.jpg", "brake.jpg"]


def test_a_photo_arrives_as_it_is_or_is_told_not_to(
    start: Any, windows: Any, demo: Path, tmp_path: Path
) -> None:
    """Nothing is called arrived before the server says so; a second try sends it again; the same one is told."""
    hands = windows.first(start(demo))
    hands.go("photos")
    page = hands.page
    new = tmp_path / "new.jpg"
    new.write_bytes((DEMO / "outgoing/photos/sheave_offline.jpg").read_bytes())
    page.route("**/api/photos*", lambda route: route.abort())
    page.locator("input[type=file]").set_input_files(new)
    expect(page.locator(".arriving .failed")).to_contain_text("Did not arrive.")
    assert not (demo / "photos/new.jpg").exists()
    page.unroute("**/api/photos*")
    hands.tap(page.locator(".arriving").get_by_role("button", name="Try again"))
    expect(page.locator(".arriving .there")).to_contain_text("arrived")
    digest = hashlib.sha256((demo / "photos/new.jpg").read_bytes()).hexdigest()
    assert digest == hashlib.sha256(new.read_bytes()).hexdigest()
    page.locator("input[type=file]").set_input_files(new)
    expect(page.locator(".arriving .there").nth(1)).to_contain_text("was here already")


def test_a_photo_is_taken_away_and_the_marks_come_back_with_undo(
    start: Any, windows: Any, demo: Path
) -> None:
    hands = windows.first(start(demo))
    hands.at_photo("brake.jpg", "wheel-brake")
    hands.tap(hands.page.get_by_role("button", name="Take the photo away from this part"))
    hands.all_saved()
    assert uses(demo, "wheel-brake") == []
    hands.tap(hands.page.get_by_role("button", name="Undo"))
    expect(hands.page.locator(".tile-text", has_text="4 marks")).to_be_visible()
    assert uses(demo, "wheel-brake") == ["brake.jpg"]


def test_a_phone_comes_in_by_the_code_on_the_screen(
    start: Any, windows: Any, demo: Path, tmp_path: Path
) -> None:
    """The picture is read as a camera would; its code lets one device in, which sends a photo and is named."""
    import zxingcpp
    from PIL import Image

    hands = windows.first(start(demo, "127.0.0.2"), width=1280, height=1000, touch=False)
    hands.go("photos")
    hands.page.get_by_role("button", name="From a phone").click()
    picture = hands.page.get_by_role("dialog").locator("img.code")
    picture.screenshot(path=tmp_path / "code.png")
    (read,) = zxingcpp.read_barcodes(Image.open(tmp_path / "code.png"))
    assert read.text == hands.page.locator(".address").inner_text()
    phone = windows.phone(read.text)
    new = tmp_path / "from_deck.jpg"
    new.write_bytes((DEMO / "outgoing/photos/sheave_offline.jpg").read_bytes())
    phone.page.locator("input[type=file]").set_input_files(new)
    expect(phone.page.locator(".arriving .there")).to_contain_text("arrived")
    assert (demo / "photos/from_deck.jpg").read_bytes() == new.read_bytes()
    late = windows.phone(read.text)
    expect(late.page.locator(".alone")).to_be_visible()
    assert late.page.locator("input[type=file]").count() == 0
