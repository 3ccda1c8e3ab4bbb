"""Marks drawn by a finger on the page, beside the same marks on paper: both as pixels, measured in one way."""

from __future__ import annotations

import io
import time
from pathlib import Path
from typing import Any

import pytest
import yaml
from PIL import Image
from playwright.sync_api import expect
from pydantic import TypeAdapter

from reporter.model.photo import Mark
from tests.desk_page.slices import raw, sheet
from tests.living import until
from tests.typeset.test_marks_on_paper import GREY, HEIGHT, WIDTH, dark, rendered

pytestmark = pytest.mark.slow

FINE = 0.005
"""Half a percent of the photo's width."""
MARKS: tuple[dict[str, Any], ...] = (
    {"kind": "ring", "at": ["0.300", "0.400"], "radius": "0.060"},
    {"kind": "box", "corner": ["0.200", "0.300"], "opposite": ["0.600", "0.700"]},
    {"kind": "arrow", "tail": ["0.700", "0.800"], "head": ["0.400", "0.350"]},
    {"kind": "line", "start": ["0.250", "0.600"], "end": ["0.750", "0.400"]},
)


@pytest.fixture
def grey(tmp_path: Path) -> Path:
    """A job with one part and one plain photo."""
    folder = tmp_path / "grey"
    (folder / "photos").mkdir(parents=True)
    Image.new("RGB", (WIDTH, HEIGHT), GREY).save(folder / "photos/grey.jpg", quality=95)
    (folder / "job.yaml").write_text(yaml.safe_dump(sheet(), allow_unicode=True), "utf-8")
    (folder / "findings.yaml").write_text(
        "format: 1\ncomponents:\n  - id: wheel\n    kind: wheel\n    photos:\n      - grey.jpg\n", "utf-8"
    )
    (folder / "measurements.csv").write_text(
        "component,quantity,at,state,side,value,unit,uncertainty,instrument,note\n", "utf-8"
    )
    return folder


def stored(folder: Path) -> list[dict[str, Any]]:
    """The marks as findings.yaml holds them."""
    use = raw(folder / "findings.yaml")["components"][0]["photos"][0]
    return [] if isinstance(use, str) else list(use.get("marks", []))


@pytest.mark.parametrize("mark", MARKS, ids=lambda mark: mark["kind"])
@pytest.mark.parametrize("zoom", [0, 1])
def test_a_mark_on_the_page_is_the_mark_on_paper(
    start: Any, windows: Any, grey: Path, tmp_path: Path, mark: dict[str, Any], zoom: int
) -> None:
    hands = windows.first(start(grey))
    hands.at_photo("grey.jpg", "wheel")
    page = hands.page
    hands.look_nearer(zoom)
    hands.mark(mark)
    chosen = page.locator(".mark").first
    number = chosen.get_by_label("Number", exact=True)
    if number.input_value():
        hands.write(number, "")
    hands.tap(chosen.locator(".row"))
    hands.look_nearer(-zoom)
    hands.all_saved()
    expect(page.locator(".overlay .core").first).to_be_attached()
    (written,) = stored(grey)
    shown = Image.open(io.BytesIO(page.locator(".stage").screenshot())).convert("RGB")
    on_page = dark(shown, (0, 0, shown.width, shown.height))
    paper = tmp_path / "paper"
    paper.mkdir()
    on_paper = dark(*rendered(TypeAdapter[Mark](Mark).validate_python(numbers(written)), paper))
    ratio = HEIGHT / WIDTH
    for one, other, wide in zip(on_page, on_paper, (1, ratio, 1, ratio), strict=True):
        assert one * wide == pytest.approx(other * wide, abs=FINE)
    for key, value in mark.items():
        if key != "kind":
            assert numbers(written[key]) == pytest.approx(numbers(value), abs=FINE)


def numbers(raw: Any) -> Any:
    """Texts of numbers as numbers, whatever they stand in."""
    if isinstance(raw, dict):
        return {key: value if key == "kind" else numbers(value) for key, value in raw.items()}
    return [numbers(each) for each in raw] if isinstance(raw, list) else float(raw)


def test_a_mark_is_drawn_as_on_paper_though_news_of_it_come_before_the_answer(
    start: Any, windows: Any, grey: Path
) -> None:
    """The answer to an edit is held back until the page has heard of the job as the edit left it."""
    hands = windows.first(start(grey))
    hands.at_photo("grey.jpg", "wheel")

    def late(route: Any) -> None:
        answer = route.fetch()
        time.sleep(1.5)
        route.fulfill(response=answer)

    hands.page.route("**/api/edit", late)
    hands.mark({"kind": "ring", "at": ["0.300", "0.400"], "radius": "0.060"})
    hands.all_saved()
    expect(hands.page.locator(".overlay .core").first).to_be_attached()


def test_what_is_blurred_is_covered_where_it_was_put(start: Any, windows: Any, grey: Path) -> None:
    hands = windows.first(start(grey))
    hands.at_photo("grey.jpg", "wheel")
    hands.mark({"kind": "blur", "corner": ["0.100", "0.200"], "opposite": ["0.400", "0.500"]})
    hands.all_saved()
    box, veil = hands.box(), hands.page.locator(".veil").bounding_box()
    assert veil
    found = [
        (veil["x"] - box["x"]) / box["width"],
        (veil["y"] - box["y"]) / box["height"],
        veil["width"] / box["width"],
        veil["height"] / box["height"],
    ]
    assert found == pytest.approx([0.1, 0.2, 0.3, 0.3], abs=FINE)


def test_two_fingers_look_nearer_and_mark_nothing(start: Any, windows: Any, grey: Path) -> None:
    """What the first finger began is dropped when the second comes."""
    hands = windows.first(start(grey))
    hands.at_photo("grey.jpg", "wheel")
    page = hands.page
    hands.tap(page.get_by_role("button", name="Ring"))
    before = hands.box()
    spots = [{"x": before["x"] + part * before["width"], "y": before["y"] + 200} for part in (0.4, 0.6)]
    hands.fingers("touchStart", spots[0])
    hands.fingers("touchMove", {"x": spots[0]["x"] + 20, "y": spots[0]["y"]})
    for step in range(6):
        away = [
            {"x": spots[0]["x"] - 15 * step, "y": spots[0]["y"]},
            {"x": spots[1]["x"] + 15 * step, "y": spots[1]["y"]},
        ]
        hands.fingers("touchStart" if step == 0 else "touchMove", *away)
    hands.fingers("touchEnd", away[0])
    hands.fingers("touchEnd")
    assert hands.box()["width"] > 1.5 * before["width"]
    expect(page.locator(".mark")).to_have_count(0)
    assert stored(grey) == []


def test_a_mark_is_set_and_moved_without_a_stroke(start: Any, windows: Any, grey: Path) -> None:
    """By two taps (WCAG 2.2, 2.5.7), by keys alone, and taken back one by one."""
    hands = windows.first(start(grey))
    hands.at_photo("grey.jpg", "wheel")
    page = hands.page
    hands.tap(page.get_by_role("button", name="Arrow"))
    for spot in ((0.2, 0.2), (0.5, 0.6)):
        hands.stroke(spot, spot)
    expect(page.locator(".mark")).to_have_count(1)
    page.get_by_role("button", name="Box").press("Enter")
    stage = page.locator(".stage")
    stage.focus()
    stage.press("Enter")
    for key in ("Shift+ArrowRight",) * 2 + ("Shift+ArrowDown",) * 2:
        stage.press(key)
    stage.press("Enter")
    expect(page.locator(".mark")).to_have_count(2)
    page.get_by_role("button", name="Move", exact=True).press("Enter")
    stage.focus()
    for _ in range(4):
        stage.press("ArrowLeft")
    assert until(lambda: numbers(stored(grey)[-1])["corner"][0] == pytest.approx(0.48, abs=FINE))
    hands.all_saved()
    arrow, box = map(numbers, stored(grey))
    assert [*arrow["tail"], *arrow["head"]] == pytest.approx([0.2, 0.2, 0.5, 0.6], abs=FINE)
    assert [*box["corner"], *box["opposite"]] == pytest.approx([0.48, 0.5, 0.58, 0.633], abs=FINE)
    for left in (2, 1, 0):
        hands.tap(page.get_by_role("button", name="Undo"))
        expect(page.locator(".mark")).to_have_count(left)
        hands.all_saved()


def test_a_tool_can_be_taken_right_after_a_stroke_and_used_again(
    start: Any, windows: Any, grey: Path
) -> None:
    """A browser takes a tap soon after a stroke for the end of a fling, unless the page ends its gestures."""
    hands = windows.first(start(grey))
    hands.at_photo("grey.jpg", "wheel")
    page = hands.page
    hands.mark({"kind": "arrow", "tail": ["0.200", "0.200"], "head": ["0.400", "0.300"]})
    line = page.get_by_role("button", name="Length", exact=True)
    hands.tap(line)
    expect(line).to_have_attribute("aria-pressed", "true")
    for spot in ((0.2, 0.6), (0.5, 0.6), (0.3, 0.8), (0.6, 0.9)):
        hands.stroke(spot, spot)
    expect(page.locator(".mark")).to_have_count(3)
    hands.all_saved()
    first, second = (numbers(each) for each in stored(grey)[1:])
    assert [*first["start"], *first["end"]] == pytest.approx([0.2, 0.6, 0.5, 0.6], abs=FINE)
    assert [*second["start"], *second["end"]] == pytest.approx([0.3, 0.8, 0.6, 0.9], abs=FINE)
