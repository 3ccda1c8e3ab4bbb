"""Every kind of block as HTML: its elements are there, its words are escaped, links lead where they may."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest

from reporter.errors import LayoutError
from reporter.model.report import Block, Cell, Column, Heading, Item, List, Paragraph, Span, Table, plain
from reporter.model.terms import Grade
from reporter.web import web
from tests.typeset.samples import BLOCKS, picture, pictures, report
from tests.web.reading import found, name, parsed, told

Made = Callable[..., str]

ELEMENTS = {
    "heading": ("h2",),
    "paragraph": ("p", "a", "span"),
    "list": ("ul", "li"),
    "table": ("table", "caption", "th", "td"),
    "figure": ("figure", "svg", "polyline", "ellipse", "path", "text", "use", "figcaption"),
    "photo": ("figure", "img", "svg", "ellipse", "rect", "line", "image", "circle", "figcaption"),
    "photo_pair": ("figure", "img", "figcaption"),
    "grade_line": ("h2", "use", "p"),
    "measure_bar": ("svg", "rect", "circle", "line", "text"),
    "contents": ("nav", "h2", "ul"),
    "signatures": ("dl", "dt", "dd"),
    "spread": ("div", "figure", "figcaption", "img", "p"),
}


@pytest.fixture
def page(tmp_path: Path) -> Made:
    """The page of some blocks after a title."""
    shown = pictures(tmp_path)

    def made(*blocks: Block, **changes: object) -> str:
        return web(report(*blocks, **changes), shown)

    return made


@pytest.mark.parametrize("kind", BLOCKS)
def test_every_kind_of_block_leaves_its_elements(page: Made, kind: str) -> None:
    main = found(parsed(page(BLOCKS[kind][0])), "main")[0]
    names = {name(each) for each in main.iter()}
    assert set(ELEMENTS[kind]) <= names


def test_every_kind_stands_in_the_list_of_samples() -> None:
    assert set(ELEMENTS) == set(BLOCKS)


def test_somebodys_words_never_become_markup(page: Made) -> None:
    nasty = '<img src=x onerror=alert(1)> & "q" </style><script>x</script>\u202e\x00'
    made = page(
        Heading(level=2, text=nasty),
        Paragraph(text=plain(nasty), aside=plain(nasty)),
        List(items=(Item(text=plain(nasty)),)),
        Table(
            columns=(Column(title=nasty),) * 3, rows=((Cell(text=plain(nasty)),) * 3,), caption=plain(nasty)
        ),
        title=nasty,
        author=nasty,
        draft=nasty,
        running_head=nasty,
        running_foot=nasty,
        page_word=nasty,
    )
    tree = parsed(made)
    assert found(tree, "script") == found(tree, "img") == []
    assert len(found(tree, "style")) == 1
    assert "\u202e" not in made
    assert "\x00" not in made
    shown = nasty.replace("\u202e", "").replace("\x00", "")
    assert told(tree).count(shown) == 15, (
        "title, head, draft, heading, paragraph and aside, item, caption, six cells, foot"
    )
    assert found(tree, "td")[0].get("data-head") == shown


@pytest.mark.parametrize(
    "href", ["javascript:alert(1)", "file:///etc/passwd", "data:text/html,x", "https://exämple.org/"]
)
def test_an_address_that_may_not_be_linked_is_only_printed(page: Made, href: str) -> None:
    tree = parsed(page(Paragraph(text=(Span(text="there", href=href),))))
    assert [each.get("href") for each in found(tree, "a")] == ["#g-report"]
    assert "there" in told(tree)


def test_a_link_leads_to_its_block(page: Made) -> None:
    words = (Span(text="to it", href="#Überblick"), Span(text="out", href="https://example.org/"))
    tree = parsed(page(Paragraph(text=words)))
    links = {told(each).strip(): each for each in found(tree, "a")}
    ids = {each.get("id"): name(each) for each in tree.iter() if each.get("id")}
    assert ids[links["to it"].get("href").removeprefix("#")] == "h1"
    assert links["out"].get("rel") == "noopener noreferrer"


def test_a_place_is_named_as_its_part_where_an_id_can_hold_it(page: Made) -> None:
    """HTML Living Standard, 3.2.6: an id has no space in it; names of our own begin with g-."""
    anchors = ("chain", "two words", "g-report")
    blocks = [Heading(level=2, text=each, anchor=each) for each in anchors]
    link = Paragraph(text=tuple(Span(text=each, href=f"#{each}") for each in anchors))
    tree = parsed(page(*blocks, link))
    ids = [each.get("id") for each in found(tree, "h2")]
    assert ids == ["chain", "g-2", "g-3"]
    assert [each.get("href") for each in found(found(tree, "main")[0], "a")] == [f"#{ident}" for ident in ids]


def test_a_photo_that_cannot_be_shown_says_why_and_points_nothing_out(tmp_path: Path) -> None:
    shown = {"chain": replace(picture(tmp_path, "chain", insets=1), problem="The file is cut short.")}
    tree = parsed(web(report(BLOCKS["photo"][0]), shown))
    assert found(tree, "img")[0].get("alt") == "The file is cut short."
    assert found(tree, "svg", "marks") == []


def test_a_link_to_nowhere_is_refused(page: Made) -> None:
    with pytest.raises(LayoutError):
        page(Paragraph(text=(Span(text="x", href="#nowhere"),)))


def test_two_blocks_of_one_name_are_refused(page: Made) -> None:
    with pytest.raises(LayoutError):
        page(Heading(level=2, text="one", anchor="same"), Heading(level=2, text="two", anchor="same"))


def test_no_heading_skips_a_level(page: Made) -> None:
    """WCAG 2.2, technique G141."""
    tree = parsed(page(Heading(level=3, text="deep"), Heading(level=3, text="deep again")))
    assert [name(each) for each in tree.iter() if name(each) in {"h1", "h2", "h3"}] == ["h1", "h2", "h3"]


def test_a_grade_is_told_by_its_word_where_a_cell_has_no_text(page: Made) -> None:
    rows = ((Cell(grade=Grade.UNSEEN), Cell(text=plain("as found"), grade=Grade.STOP)),)
    cells = found(parsed(page(Table(columns=(Column(title="a"), Column(title="b")), rows=rows))), "td")
    assert [told(each).strip() for each in cells] == ["not seen", "as found"]
    assert [use.get("href") for each in cells for use in found(each, "use")] == ["#g-unseen", "#g-stop"]


def test_heads_have_a_scope_and_spans_are_kept_inside_the_table(page: Made) -> None:
    columns = (Column(title="a"), Column(title="b"), Column(title="c", align="number"))
    hang = Cell(text=plain("down"), rows=5, head=True)
    rows = ((hang, Cell(text=plain("wide"), columns=7)), (Cell(text=plain("x")), Cell(text=plain("7"))))
    tree = parsed(page(Table(columns=columns, rows=rows)))
    assert [each.get("scope") for each in found(tree, "th")] == ["col", "col", "col", "row"]
    body = found(found(tree, "tbody")[0], "th") + found(found(tree, "tbody")[0], "td")
    assert [(each.get("rowspan"), each.get("colspan"), each.get("class")) for each in body] == [
        ("2", None, None),
        (None, "2", None),
        (None, None, None),
        (None, None, "number"),
    ]


def test_a_row_right_across_leads_cards_and_a_hanging_cell_forbids_them(page: Made) -> None:
    columns = (Column(title="No."), Column(title="What"), Column(title="Why"))
    line = (Cell(text=plain("before she is used"), grade=Grade.STOP, columns=3),)
    row = tuple(Cell(text=plain(word)) for word in ("1", "wire", "broken"))
    tree = parsed(page(Table(columns=columns, rows=(line, row), style="facts")))
    (made,) = found(tree, "table")
    assert "stacks" in (made.get("class") or "").split()
    (across,) = found(made, "th", "across") + found(made, "td", "across")
    assert across.get("data-head") is None
    assert [cell.get("data-head") for cell in found(made, "td") if cell is not across] == ["What", "Why"]
    hanging = (Cell(text=plain("2"), rows=2), *row[1:])
    (kept,) = found(parsed(page(Table(columns=columns, rows=(line, hanging, row[1:])))), "table")
    assert "stacks" not in (kept.get("class") or "").split()


def test_a_row_too_long_for_its_table_is_refused(page: Made) -> None:
    with pytest.raises(LayoutError):
        page(Table(columns=(Column(title="a"),), rows=((Cell(), Cell()),)))


def test_a_digest_may_break_but_copies_whole(page: Made) -> None:
    digest = "0123456789abcdef" * 4
    paragraph = found(parsed(page(Paragraph(text=plain(digest)))), "p", "body")[0]
    assert "".join(paragraph.itertext()) == digest
    assert len(found(paragraph, "wbr")) == 3


def test_the_page_asks_nobody_for_anything(page: Made) -> None:
    """Content Security Policy Level 3, 6.7: the one style sheet is allowed by its hash, all else but data is not."""
    import base64
    import hashlib

    tree = parsed(page(BLOCKS["photo"][0]))
    policy = next(each.get("content") for each in found(tree, "meta") if each.get("http-equiv"))
    digest = base64.b64encode(hashlib.sha256(found(tree, "style")[0].text.encode()).digest()).decode()
    assert policy.split("; ")[:3] == ["default-src 'none'", "img-src data:", f"style-src 'sha256-{digest}'"]
    assert all(not each.get("style") for each in tree.iter())
    sources = [each.get("src") or "" for each in found(tree, "img")]
    assert sources
    assert all(each.startswith("data:image/jpeg;base64,") for each in sources)


def test_the_same_report_gives_the_same_text(page: Made) -> None:
    blocks = [block for block, _ in BLOCKS.values()]
    assert page(*blocks) == page(*blocks)
