"""How long the report of a purchase may be: the decision on one page, the report proper, the annex; told by pages alone."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from pypdfium2 import PdfDocument

from tests.documents.conftest import ROOT, Written
from tests.documents.test_extremes import changed, write

pytestmark = pytest.mark.slow

MOST_PAGES, MOST_PROPER, MOST_WORDS = 30, 18, 11_500
ANNEX = "What to do later"
"""The heading that opens the annex; before it stands what a buyer has to read."""
SHACKLE = """
  - id: shackle_{number}
    kind: shackle
    name: Shackle number {number}
    place: between chain and anchor
    examined: {{extent: seen, how: [hand, eye], included: [all]}}
    observed: {{pin: tie}}
"""


def texts(file: Path) -> list[str]:
    """The text of each page."""
    document = PdfDocument(file)
    found = [" ".join(page.get_textpage().get_text_bounded().split()) for page in document]
    document.close()
    return found


def one(documents: list[Written], name: str) -> list[str]:
    return texts(next(each.file for each in documents if each.name == name))


def test_the_report_of_a_purchase_is_short(documents: list[Written]) -> None:
    pages = one(documents, "pre_purchase A4")
    proper = [number for number, text in enumerate(pages, start=1) if re.search(ANNEX + r"(?! \.)", text)]
    assert len(pages) <= MOST_PAGES
    assert proper[-1] <= MOST_PROPER + 1
    assert sum(len(text.split()) for text in pages) <= MOST_WORDS


@pytest.mark.parametrize("page", ["A4", "Letter"])
def test_everything_urgent_stands_on_the_first_page(documents: list[Written], page: str) -> None:
    pages = one(documents, f"pre_purchase {page}")
    for name in ("Starboard steering wire", "Lower terminal", "Stanchions", "Lifelines", "Engine controls",
                 "Quadrant and rudder stops", "Chainplates, starboard", "Halyards", "Anchor shackle"):  # fmt: skip
        assert name in pages[0], name
    assert "Where aboard it is" in pages[1]


def test_one_part_with_one_photo_takes_three_to_five_pages(small_job: Path, tmp_path: Path) -> None:
    assert 3 <= len(texts(write(small_job, tmp_path))) <= 5


LONG = """
  - id: second_{kind}
    kind: {kind}
    name: {name}
    place: {place}
    examined: {{extent: seen, how: [hand, eye], included: [all]}}
    observed: {{{observed}}}
"""
LONGER = (
    ("anchor", "Second anchor with its folding stock", "lashed to the pushpit, port side", "secured: loose"),
    (
        "shackle",
        "Shackle between the second warp and its chain",
        "locker under the helmsman's seat",
        "pin: backing",
    ),
)


@pytest.mark.parametrize("page", ["A4", "Letter"])
def test_twelve_long_things_fit_the_first_page(tmp_path: Path, page: str) -> None:
    folder = changed(tmp_path)
    with (folder / "findings.yaml").open("a", encoding="utf-8") as findings:
        for kind, name, place, observed in LONGER:
            findings.write(LONG.format(kind=kind, name=name, place=place, observed=observed))
    with (folder / "job.yaml").open("a", encoding="utf-8") as sheet:
        sheet.write(f"\npage: {page}\n")
    first, second, *_ = texts(write(folder, tmp_path))
    for _, name, place, _ in LONGER:
        assert name in first
        assert place in first
    assert "What happens if it is left" in first
    assert "What happens if it is left" not in second


def test_twelve_urgent_things_fit_and_a_thirteenth_hides_none(tmp_path: Path) -> None:
    folder = changed(tmp_path)
    with (folder / "findings.yaml").open("a", encoding="utf-8") as findings:
        findings.writelines(SHACKLE.format(number=number) for number in (1, 2))
    first, second, *_ = texts(write(folder, tmp_path))
    assert "Shackle number 2" in first
    assert "Shackle number" not in second.partition("Where aboard it is")[0]
    with (folder / "findings.yaml").open("a", encoding="utf-8") as findings:
        findings.writelines(SHACKLE.format(number=number) for number in range(3, 9))
    first, second, *_ = texts(write(folder, tmp_path))
    assert all(f"Shackle number {number}" in first + second for number in range(1, 9))


def test_the_demo_is_what_these_figures_were_set_for() -> None:
    assert len(re.findall(r"(?m)^  - id: ", (ROOT / "demo_job" / "findings.yaml").read_text("utf-8"))) == 52
