"""The demo's page in a browser: nothing is asked of the network, nothing hangs over the edge, marks stand where they should.

Chromium and Playwright are found or the tests are skipped with the reason, unless GUDGEON_BROWSER=required.
"""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from tests.browsing import chromium
from tests.web.conftest import Demo

pytestmark = pytest.mark.slow

AXE = Path(__file__).parents[1] / "vendored" / "axe-core" / "axe.min.js"
WIDTHS = (320, 360, 1280)
SCHEMES = ("light", "dark")
OVERHANG = """() => [document.documentElement.scrollWidth - innerWidth, [...document.querySelectorAll('main *')]
  .filter(e => !e.closest('.scroll, svg, thead') && e.getBoundingClientRect().right > innerWidth + 0.5)
  .map(e => e.outerHTML.slice(0, 80))]"""
NARROW = """() => [...document.querySelectorAll('td > *, td, th')].filter(e => e.textContent.trim().length > 40)
  .filter(e => !e.closest('.scroll, thead') && e.getBoundingClientRect().width < 100)
  .map(e => [Math.round(e.getBoundingClientRect().width), e.textContent.slice(0, 40)])"""
PLACES = """() => [...document.querySelectorAll('figure.photo')].map(figure => {
  const photo = figure.querySelector('img').getBoundingClientRect();
  const core = [...figure.querySelectorAll('.marks > .core')];
  return core.map(e => {
    const box = e.getBoundingClientRect();
    const at = (x, y) => [(x - photo.left) / photo.width, (y - photo.top) / photo.width];
    return [e.tagName, at(box.left, box.top), at(box.right, box.bottom)];
  });
})"""


@pytest.fixture(scope="module")
def browser() -> Iterator[Any]:
    """One browser for all tests of the module."""
    with chromium() as opened:
        yield opened


@pytest.fixture
def show(browser: Any, demo: Demo) -> Iterator[Any]:
    """Opens the demo at a width and in a scheme; fails on any request but its own file, and on any complaint."""
    asked: list[str] = []
    complaints: list[str] = []
    opened = []

    def run(width: int, scheme: str) -> Any:
        context = browser.new_context(viewport={"width": width, "height": 800}, color_scheme=scheme)
        page = context.new_page()
        page.on("request", lambda request: asked.append(request.url))
        page.on("console", lambda message: complaints.append(message.text))
        page.goto(demo.file.as_uri())
        opened.append(context)
        return page

    yield run
    for context in opened:
        context.close()
    assert demo.file.as_uri() in asked, "requests are seen"
    assert {url for url in asked if not url.startswith("data:")} == {demo.file.as_uri()}
    assert complaints == []


@pytest.mark.parametrize("scheme", SCHEMES)
@pytest.mark.parametrize("width", WIDTHS)
def test_nothing_hangs_over_the_edge(show: Any, width: int, scheme: str) -> None:
    over, what = show(width, scheme).evaluate(OVERHANG)
    assert over <= 0
    assert what == []


@pytest.mark.parametrize("width", [360, 1280])
def test_no_sentence_is_squeezed_into_a_column_of_a_word(show: Any, width: int) -> None:
    """Narrower than 100 px, a sentence stands one word to a line."""
    assert show(width, "light").evaluate(NARROW) == []


@pytest.mark.parametrize("scheme", SCHEMES)
@pytest.mark.parametrize("width", [360, 1280])
def test_the_accessibility_checker_finds_nothing(show: Any, width: int, scheme: str) -> None:
    """WCAG 2.2 A and AA and good practice, by axe-core."""
    page = show(width, scheme)
    page.evaluate(AXE.read_text("utf-8"))
    verdict = page.evaluate("axe.run(document, {resultTypes: ['violations']})")
    told = [
        (rule["id"], rule["help"], len(rule["nodes"]), rule["nodes"][0]["html"][:160])
        for rule in verdict["violations"]
    ]
    assert len(verdict["passes"]) > 20
    assert told == []


@pytest.mark.parametrize("width", WIDTHS)
def test_marks_stand_where_the_fractions_say(show: Any, demo: Demo, width: int) -> None:
    """Within half a percent of the picture's width, as the browser shows them."""
    figures = show(width, "light").evaluate(PLACES)
    seen = 0
    for shown, photo in zip(figures, demo.report.photos, strict=True):
        ratio = demo.pictures[photo.file].height / demo.pictures[photo.file].width
        rounds = [mark for mark in photo.marks if mark.kind in {"ring", "inset"}]
        for mark, (_, start, end) in zip(
            rounds, (each for each in shown if each[0] == "ellipse"), strict=True
        ):
            middle = [(start[0] + end[0]) / 2, (start[1] + end[1]) / 2]
            assert middle == pytest.approx([mark.at[0], mark.at[1] * ratio], abs=0.005)
            assert (end[0] - start[0]) / 2 == pytest.approx(mark.radius, abs=0.005)
            assert (end[1] - start[1]) / 2 == pytest.approx(mark.radius, abs=0.005)
            seen += 1
    assert seen > 20


def test_the_page_follows_the_readers_choice_of_light_and_dark(show: Any) -> None:
    grounds = [
        show(360, scheme).evaluate("getComputedStyle(document.body).backgroundColor") for scheme in SCHEMES
    ]
    assert grounds == ["rgb(255, 255, 255)", "rgb(17, 24, 28)"]


def test_paper_is_light_whatever_the_reader_chose(show: Any) -> None:
    page = show(1280, "dark")
    page.emulate_media(media="print", color_scheme="dark")
    assert page.evaluate("getComputedStyle(document.body).backgroundColor") == "rgb(255, 255, 255)"


def test_paper_has_the_reports_size_and_numbered_pages(show: Any, tmp_path: Path) -> None:
    from pypdfium2 import PdfDocument

    show(1280, "light").pdf(path=tmp_path / "printed.pdf", prefer_css_page_size=True)
    document = PdfDocument(tmp_path / "printed.pdf")
    assert [round(each) for each in document[0].get_size()] == [595, 842]
    assert f"page 2 of {len(document)}" in document[1].get_textpage().get_text_bounded()
    document.close()
