"""The demo as a page: every block is there, no word of the PDF is lost, and the page is whole HTML."""

from __future__ import annotations

from collections import Counter
from pathlib import Path

import pytest

from reporter import pipeline
from reporter.errors import CannotWriteError
from reporter.model.report import Block, GradeLine, Heading, Report
from reporter.registry import find, load
from reporter.typeset import typeset
from tests.typeset.reading import marks, read
from tests.web.conftest import ROOT, Demo
from tests.web.reading import found, name, parsed, plain, told


def test_every_block_of_the_demo_is_there(demo: Demo) -> None:
    tree = parsed(demo.page)
    main = found(tree, "main")[0]
    wanted: Counter[str] = Counter(block.kind for block in demo.report.blocks)
    triples = sum(block.third is not None for block in demo.report.blocks if block.kind == "photo_pair")
    beside = [block for block in demo.report.blocks if block.kind == "spread"]
    wanted["photo"] += sum(len(block.photos) for block in beside)
    wanted["paragraph"] += sum(len(block.texts) for block in beside)
    there = {
        "grade_line": len(found(main, "div", "part")),
        "table": len(found(main, "table")),
        "figure": len(found(main, "figure", "drawn")),
        "photo": len(found(main, "figure", "photo")) - 2 * len(found(main, "div", "pair")) - triples,
        "photo_pair": len(found(main, "div", "pair")),
        "spread": len(found(main, "div", "spread")),
        "measure_bar": len(found(main, "svg", "bar")),
        "contents": len(found(main, "nav")),
        "signatures": len(found(main, "div", "signatures")),
    }
    assert there == {kind: wanted[kind] for kind in there}
    heads = [each for each in main.iter() if name(each) in {"h1", "h2", "h3"}]
    assert len(heads) == wanted["heading"] + wanted["grade_line"] + wanted["contents"]
    styles = {"body", "lead", "small", "note", "formula", "answer"}
    assert sum(each.get("class") in styles for each in found(main, "p")) == wanted["paragraph"]


def letters(text: str) -> Counter[str]:
    """The letters of a text, in one form of each, counted."""
    return Counter(plain(text).replace(" ", ""))


def listed(report: Report) -> list[Block]:
    """What the contents list."""
    return [block for block in report.blocks if isinstance(block, Heading) and block.listed]


def test_no_word_of_the_pdf_is_lost(demo: Demo, tmp_path: Path) -> None:
    """The structure text of the PDF (what is read aloud) against the page's own text, letter for letter."""
    pages = typeset(demo.report, demo.pictures, tmp_path / "pages.pdf")
    read_back = read(pages.file)
    aloud = letters(" ".join(read_back.marked[mark.page, mark.mcid] for mark in marks(pages.tree)))
    shown = letters(told(found(parsed(demo.page), "main")[0]))
    assert aloud.total() > 30_000
    # A page has no page numbers in its contents, and the browser draws the bullets.
    assert {letter for letter in aloud - shown if not letter.isdigit()} <= {"•"}
    assert sum(times for letter, times in (aloud - shown).items() if letter.isdigit()) <= 2 * len(
        listed(demo.report)
    )
    # Paper leaves out a band's word where the band is too narrow for it.
    bands = [band.word for block in demo.report.blocks if block.kind == "measure_bar" for band in block.bands]
    assert shown - aloud <= letters(" ".join(bands))


def test_every_mark_of_every_photo_is_drawn(demo: Demo) -> None:
    figures = found(parsed(demo.page), "figure", "photo")
    for figure, photo in zip(figures, demo.report.photos, strict=True):
        kinds = Counter(mark.kind for mark in photo.marks)
        core = [each for each in figure.iter() if each.get("class") == "core"]
        assert sum("rx" in each.attrib for each in core) == kinds["ring"] + kinds["inset"]
        assert sum("marker-end" in each.attrib for each in core) == kinds["arrow"] + kinds["line"]
        assert sum(name(each) == "rect" for each in core) == kinds["box"]
        assert len(found(figure, "image")) == kinds["inset"]
        numbers = sorted(str(mark.callout) for mark in photo.marks if mark.callout is not None)
        discs = sorted(told(each).strip() for each in found(figure, "text", "on-disc"))
        assert [disc for disc in discs if disc.isdigit()] == numbers
        words = "".join(told(figure).split())
        assert [
            mark.text
            for mark in photo.marks
            if mark.kind == "label" and "".join(mark.text.split()) not in words
        ] == []
        assert found(figure, "img")[0].get("alt")


def test_every_link_within_leads_somewhere_and_every_name_is_given_once(demo: Demo) -> None:
    tree = parsed(demo.page)
    ids = [each.get("id") for each in tree.iter() if each.get("id")]
    assert [ident for ident, times in Counter(ids).items() if times > 1] == []
    inward = {each.get("href")[1:] for each in tree.iter() if (each.get("href") or "").startswith("#")}
    named = {each.get("aria-labelledby") for each in tree.iter() if each.get("aria-labelledby")}
    assert len(inward) > 50
    assert (inward | named) - set(ids) == set()
    parts = {block.anchor for block in demo.report.blocks if isinstance(block, GradeLine)}
    assert parts <= set(ids), "a part's name is its address"


def test_every_table_has_a_name_and_every_head_a_scope(demo: Demo) -> None:
    tree = parsed(demo.page)
    assert all(each.get("aria-labelledby") or found(each, "caption") for each in found(tree, "table"))
    assert {each.get("scope") for each in found(tree, "th")} == {"row", "col"}


def test_the_data_that_the_pdf_carries_are_told_by_digest(demo: Demo) -> None:
    from hashlib import sha256

    foot = told(found(parsed(demo.page), "footer")[0])
    assert demo.report.attachments
    assert all(sha256(each.content).hexdigest() in foot for each in demo.report.attachments)


def test_the_ending_of_the_target_chooses_the_page(tmp_path: Path) -> None:
    registry, folder = load(find()), ROOT / "demo_job" / "outgoing"
    pipeline.report(folder, tmp_path / "x.HTML", registry, tell=lambda _step: None)
    pipeline.work(folder, tmp_path / "y.htm", registry, tell=lambda _step: None)
    pipeline.work(folder, tmp_path / "z.pdf", registry, tell=lambda _step: None)
    for file in ("x.HTML", "y.htm"):
        assert (tmp_path / file).read_text("utf-8").startswith("<!DOCTYPE html>")
    assert (tmp_path / "z.pdf").read_bytes().startswith(b"%PDF")


def test_a_page_that_cannot_be_written_leaves_nothing(tmp_path: Path) -> None:
    with pytest.raises(CannotWriteError):
        pipeline.report(
            ROOT / "demo_job" / "outgoing", tmp_path / "no" / "x.html", load(find()), tell=lambda _step: None
        )
    assert list(tmp_path.iterdir()) == []
