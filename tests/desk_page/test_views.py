"""Every view for everybody: light and dark, narrow and broad, by keys alone, for who hears the page."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Locator, Page, expect

from tests.effort import share

pytestmark = pytest.mark.slow

AXE = Path(__file__).parents[1] / "vendored" / "axe-core" / "axe.min.js"
VIEWS = (
    ("walk",), ("photos",), ("part", "chain"), ("part", "sheave-idlers"), ("photo", "compass_lamp.jpg", "pedestal"),
    ("photo", "chain_oiled.jpg"), ("sheet",), ("out",),
)  # fmt: skip
LOOKS = [(360, "light"), (1280, "light"), (1280, "dark"), (360, "dark")]
"""Half of them show each width and each scheme."""
OVERHANG = """() => [document.documentElement.scrollWidth - innerWidth, [...document.querySelectorAll('main *')]
  .filter(e => !e.closest('.scroll, svg, .heard, .stage') && e.getBoundingClientRect().right > innerWidth + 0.5)
  .map(e => e.outerHTML.slice(0, 120))]"""
SMALL = """() => [...document.querySelectorAll('a, button, select, textarea, summary, input:not([type=file])')].filter(e => {
  const target = e.type === 'checkbox' ? e.closest('label') : e;
  const box = target.getBoundingClientRect();
  const inText = e.localName === 'a' && e.closest('p, li:not(:has(> a.row))') && !e.matches('.button, .row');
  return box.width > 0 && !inText && !e.matches('.skip') && (box.width < 44 || box.height < 44);
}).map(e => [e.outerHTML.slice(0, 120), e.getBoundingClientRect().width, e.getBoundingClientRect().height])"""


def at(windows: Any, shown: Any, view: tuple[str, ...], **look: Any) -> Any:
    """A window at a view, with everything there."""
    hands = windows.first(shown, **look)
    hands.go(*view)
    page: Page = hands.page
    expect(page.locator(".waiting")).to_have_count(0)
    page.wait_for_timeout(300)
    return hands


@pytest.mark.parametrize(("width", "scheme"), share(LOOKS, 2))
@pytest.mark.parametrize("view", VIEWS, ids="/".join)
def test_the_accessibility_checker_finds_nothing(
    windows: Any, shown: Any, view: tuple[str, ...], width: int, scheme: str
) -> None:
    """WCAG 2.2 A and AA and good practice, by axe-core."""
    page = at(windows, shown, view, width=width, scheme=scheme).page
    page.evaluate("() => document.querySelectorAll('details').forEach(each => { each.open = true })")
    page.evaluate(AXE.read_text("utf-8"))
    verdict = page.evaluate("axe.run(document, {resultTypes: ['violations']})")
    told = [(rule["id"], rule["help"], rule["nodes"][0]["html"][:160]) for rule in verdict["violations"]]
    assert len(verdict["passes"]) > 15
    assert told == []
    assert windows.complaints == []


@pytest.mark.parametrize("width", share([360, 2560, 820], 2))
@pytest.mark.parametrize("view", VIEWS, ids="/".join)
def test_nothing_hangs_over_the_edge_and_every_target_is_large(
    windows: Any, shown: Any, view: tuple[str, ...], width: int
) -> None:
    """44 CSS pixels (WCAG 2.2, 2.5.5); links in running text are exempt there."""
    page = at(windows, shown, view, width=width).page
    page.evaluate("() => document.querySelectorAll('details').forEach(each => { each.open = true })")
    over, what = page.evaluate(OVERHANG)
    assert (over <= 0, what) == (True, [])
    assert page.evaluate(SMALL) == []


def test_the_page_asks_nobody_but_its_own_server(windows: Any, shown: Any) -> None:
    """All views, a report made, its pages looked at: every request goes to the port that was opened."""
    hands = windows.first(shown)
    for view in VIEWS:
        hands.go(*view)
        hands.page.wait_for_timeout(300)
    saved = hands.make("Report (web page)")
    assert saved.suggested_filename.endswith(".html")
    own = f"http://127.0.0.1:{shown.port}/"
    assert len(windows.asked) > 30
    assert [url for url in windows.asked if not url.startswith((own, "data:image/"))] == []
    assert windows.complaints == []


def test_text_of_a_job_is_never_markup(start: Any, windows: Any, demo: Path) -> None:
    """A name that is a script is a name."""
    hands = windows.first(start(demo))
    hands.go("part", "wheel")
    nasty = "<img src=x onerror=\"document.title='taken'\"> & <b>bold</b>"
    for question in ("name", "found"):
        hands.write(hands.page.locator(f"[data-question='{question}']").locator("input, textarea"), nasty)
    hands.all_saved()
    expect(hands.page.locator("main h1")).to_contain_text("<b>bold</b>")
    hands.go("walk")
    expect(hands.page.locator(".row", has_text="<b>bold</b>")).to_be_visible()
    hands.page.wait_for_timeout(300)
    assert hands.page.locator("main b, main img[src=x]").count() == 0
    assert hands.page.title() != "taken"


def tab_to(page: Page, wanted: Locator, most: int = 260) -> None:
    """Presses Tab until the element has the focus."""
    for _ in range(most):
        page.keyboard.press("Tab")
        if wanted.evaluate("each => each === document.activeElement"):
            return
    pytest.fail(f"Tab does not reach {wanted}")


def test_a_part_is_begun_answered_and_measured_by_keys_alone(start: Any, windows: Any, demo: Path) -> None:
    """Where the focus is, is seen; it stays where it was when the page is drawn anew."""
    hands = windows.first(start(demo), width=1280, height=900, touch=False)
    page = hands.page
    page.locator(".row.more").first.wait_for()
    tab_to(page, page.locator("section:has(#system-steering) .row.more"))
    page.keyboard.press("Enter")
    dialog = page.get_by_role("dialog")
    tab_to(page, dialog.locator(".row", has_text=re.compile("^Steering chain and sprocket")))
    page.keyboard.press("Enter")
    expect(page.locator("main h1")).to_be_focused()
    expect(page.locator(".question").first).to_be_visible()
    seen = page.locator("[data-question='examined.extent'] .choice").first
    tab_to(page, seen)
    assert seen.evaluate("each => getComputedStyle(each).outlineStyle") != "none", "the focus is seen"
    page.keyboard.press("Space")
    expect(seen).to_have_attribute("aria-pressed", "true")
    hands.all_saved()
    page.wait_for_timeout(800)
    expect(seen).to_be_focused()
    cell = page.locator("[data-question='readings.span'] .cells input").first
    cell.scroll_into_view_if_needed()
    page.locator("main h1").focus()
    tab_to(page, cell)
    page.keyboard.type("5/8 in")
    page.keyboard.press("Tab")
    hands.all_saved()
    expect(cell).to_have_value("5/8 in")
    assert re.search(
        r"^chain-2,span,[^,]*,found,,5/8,in,", (demo / "measurements.csv").read_text("utf-8"), re.MULTILINE
    )


def test_typing_is_not_disturbed_by_news_from_elsewhere(start: Any, windows: Any, demo: Path) -> None:
    one = windows.first(start(demo))
    one.go("part", "chain")
    other = windows.another(one)
    other.go("part", "chain")
    field = one.page.locator("[data-question='place'] input")
    field.fill("half a")
    other.tap(
        other.page.locator("[data-question='observed.lubrication'] .choice", has_text="oiled to the pins")
    )
    other.all_saved()
    expect(
        one.page.locator("[data-question='observed.lubrication'] .choice", has_text="oiled to the pins")
    ).to_have_attribute("aria-pressed", "true")
    expect(field).to_be_focused()
    expect(field).to_have_value("half a")
    expect(one.page.locator("#saved")).to_have_text("Not saved yet")
    field.press_sequentially(" word")
    field.blur()
    one.all_saved()
    assert "half a word" in (demo / "findings.yaml").read_text("utf-8")


def test_what_is_saved_and_graded_is_said_to_who_hears_the_page(start: Any, windows: Any, demo: Path) -> None:
    hands = windows.first(start(demo))
    hands.go("part", "chain")
    line = hands.page.locator("#told")
    expect(line).to_have_attribute("aria-live", "polite")
    hands.tap(hands.page.locator("[data-question='observed.cracks'] .choice", has_text="a cracked plate"))
    expect(line).to_have_text(re.compile("Steering chain and sprocket: stop"))


def test_the_drawing_leads_to_the_part(windows: Any, shown: Any) -> None:
    hands = windows.first(shown, width=1280, height=900, touch=False)
    place = hands.page.locator(".drawn [data-part='chain']").first
    place.wait_for(state="attached")
    place.dispatch_event("click", {"bubbles": True})
    expect(hands.page.locator("main h1")).to_contain_text("Steering chain and sprocket")
