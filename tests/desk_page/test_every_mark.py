"""Every kind of mark, by mouse, by finger and by keys alone, on photos that stand, lie, and lie as their EXIF says; each taken back.

Each way sets every kind once, and over the three ways every kind is set on each of the photos.
"""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
import yaml
from PIL import Image
from playwright.sync_api import expect

from tests.desk_page.hands import SORTS, Hands
from tests.desk_page.slices import raw, sheet
from tests.desk_page.test_marks import FINE, numbers

pytestmark = pytest.mark.slow

PHOTOS = {"standing.jpg": ((900, 1200), 1), "lying.jpg": ((1200, 900), 1), "turned.jpg": ((1200, 900), 6)}
"""Each photo's size as it is stored, and the orientation that its EXIF tells (6: a quarter turn)."""
POINTS = {
    "arrow": ("tail", "head"), "line": ("start", "end"), "box": ("corner", "opposite"), "blur": ("corner", "opposite"),
    "ring": ("at",), "inset": ("at",), "label": ("at",),
}  # fmt: skip
FIRST, SECOND = (0.3, 0.4), (0.4, 0.55)
MIDDLE = (0.5, 0.5)


@pytest.fixture
def three(tmp_path: Path) -> Path:
    """A job with one part and the three photos."""
    folder = tmp_path / "three"
    (folder / "photos").mkdir(parents=True)
    for name, (size, orientation) in PHOTOS.items():
        exif = Image.Exif()
        exif[0x0112] = orientation
        Image.new("RGB", size, (128, 128, 128)).save(folder / "photos" / name, exif=exif)
    part = {"id": "wheel", "kind": "wheel", "examined": "seen", "photos": list(PHOTOS)}
    (folder / "job.yaml").write_text(yaml.safe_dump(sheet(), allow_unicode=True), "utf-8")
    (folder / "findings.yaml").write_text(
        yaml.safe_dump({"format": 1, "components": [part]}, sort_keys=False), "utf-8"
    )
    return folder


def marks(folder: Path, name: str) -> list[dict[str, Any]]:
    """The marks of a photo as findings.yaml holds them."""
    uses = raw(folder / "findings.yaml")["components"][0]["photos"]
    use = next(each for each in uses if name == (each if isinstance(each, str) else each["file"]))
    return [] if isinstance(use, str) else list(use.get("marks", []))


def by_mouse(hands: Hands, _: str) -> list[tuple[float, float]]:
    """A stroke of the mouse; gives the places that it names."""
    box, mouse = hands.box(), hands.page.mouse
    ways = [(box["x"] + x * box["width"], box["y"] + y * box["height"]) for x, y in (FIRST, SECOND)]
    mouse.move(*ways[0])
    mouse.down()
    mouse.move(*[sum(pair) / 2 for pair in zip(*ways, strict=True)])
    mouse.move(*ways[1])
    mouse.up()
    return [FIRST, SECOND]


def by_finger(hands: Hands, _: str) -> list[tuple[float, float]]:
    """A stroke of a finger."""
    hands.stroke(FIRST, SECOND)
    return [FIRST, SECOND]


def by_keys(hands: Hands, kind: str) -> list[tuple[float, float]]:
    """Enter sets a place at the cross, arrows move it: by a hundredth of the width, by five with Shift."""
    stage, box = hands.page.locator(".stage"), hands.box()
    stage.focus()
    stage.press("Escape")  # the cross would go on from where the last mark ended
    stage.press("Enter")
    if kind == "label":
        return [MIDDLE, MIDDLE]
    for key in ("Shift+ArrowRight", "Shift+ArrowRight", "Shift+ArrowDown"):
        stage.press(key)
    stage.press("Enter")
    return [MIDDLE, (0.6, 0.5 + 0.05 * box["width"] / box["height"])]


@pytest.mark.parametrize(("turn", "way"), list(enumerate([by_mouse, by_finger, by_keys])))
def test_every_mark_is_set_where_it_was_meant_and_taken_back(
    start: Any, windows: Any, three: Path, turn: int, way: Any
) -> None:
    hands = windows.first(start(three), width=1000, height=1100, touch=way is by_finger)
    page = hands.page
    for nth, (name, (size, orientation)) in enumerate(PHOTOS.items(), turn):
        width, height = size if orientation == 1 else size[::-1]
        hands.at_photo(name, "wheel")
        shown = hands.box()
        assert shown["height"] / shown["width"] == pytest.approx(height / width, abs=0.01)
        for kind, keys in list(POINTS.items())[nth % len(PHOTOS) :: len(PHOTOS)]:
            page.locator(".tool", has_text=SORTS[kind]).press("Enter")
            places = way(hands, kind)
            if kind == "label":
                page.locator("#label-words").fill("worn")
                page.locator("#label-words").press("Enter")
            expect(page.locator(".mark")).to_have_count(1)
            hands.all_saved()
            (mark,) = marks(three, name)
            last = places[-1:] if kind == "label" else places
            for key, place in zip(keys, last, strict=False):
                assert numbers(mark[key]) == pytest.approx(place, abs=FINE), (name, kind)
            if kind == "ring":
                across, down = (one - other for one, other in zip(places[1], places[0], strict=True))
                far = (across**2 + (down * height / width) ** 2) ** 0.5
                assert float(mark["radius"]) == pytest.approx(far, abs=FINE)
            page.get_by_role("button", name="Undo").click()
            expect(page.locator(".mark")).to_have_count(0)
            hands.all_saved()
            assert marks(three, name) == []
    assert windows.complaints == []
