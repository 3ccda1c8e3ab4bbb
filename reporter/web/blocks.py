"""Each kind of block to HTML.

Comes in: a block and its place in the report. Goes out: markup. The kinds are a closed set, and the type checker sees
that each has its arm.
"""

from __future__ import annotations

from typing import assert_never

from reporter.model.report import (
    Block,
    Contents,
    FieldItem,
    Fields,
    FillIn,
    GradeLine,
    Heading,
    Item,
    Paragraph,
    Said,
    Signatures,
    Span,
    TickBox,
    words_of,
)
from reporter.typeset.manuscript import ListedHeading
from reporter.web.bars import measure_bar
from reporter.web.markup import Markup, tag
from reporter.web.photos import figure, photo, photo_pair, spread
from reporter.web.signs import grade_sign
from reporter.web.tables import table
from reporter.web.web_context import WebContext


def block_of(context: WebContext, block: Block, index: int) -> Markup:  # noqa: C901, PLR0911, PLR0912 (one arm for each kind)
    """One block; a heading names what follows it."""
    match block.kind:
        case "heading":
            return _heading(context, block, index)
        case "grade_line":
            return _grade_line(context, block, index)
        case "contents":
            return _contents(context, block, index)
        case "paragraph":
            return _paragraph(context, block, index)
        case "list":
            return _list(context, block.items, ordered=block.ordered, start=block.start)
        case "table":
            return table(context, block)
        case "figure":
            return figure(context, block)
        case "photo":
            return photo(context, block)
        case "photo_pair":
            return photo_pair(context, block)
        case "spread":
            return spread(context, block)
        case "measure_bar":
            return measure_bar(block)
        case "signatures":
            return _signatures(block)
        case "fields":
            return _fields(block)
        case _:
            assert_never(block)


def _heading(context: WebContext, block: Heading, index: int) -> Markup:
    context.heading = context.anchor_of(index)
    look = "new-page" if block.new_page else ""
    return tag(f"h{context.levels.of(index)}", block.text.strip() or "–", id=context.heading, class_=look)


def _grade_line(context: WebContext, block: GradeLine, index: int) -> Markup:
    context.heading = context.anchor_of(index)
    named = tag("span", grade_sign(block.grade), tag("span", block.word, class_="word"), class_="graded")
    inside = [tag(f"h{context.levels.of(index)}", named, " ", block.name, id=context.heading)]
    if block.place:
        inside.append(
            tag("p", context.text((Span(text=block.place, href=block.place_href),)), class_="place")
        )
    if block.sentence:
        inside.append(tag("p", block.sentence, class_="finding"))
    return tag("div", *inside, class_="part")


def _paragraph(context: WebContext, block: Paragraph, index: int) -> Markup:
    told = tag("p", context.text(block.text), class_=block.style, id=context.anchor_of(index))
    if not any(span.text.strip() for span in block.aside):
        return told
    return tag("div", told, tag("p", context.text(block.aside), class_="aside"), class_="noted")


def _list(
    context: WebContext, items: tuple[Item, ...], *, ordered: bool, start: int = 1, depth: int = 0
) -> Markup:
    """Sub-items of a numbered list have letters, as on paper."""
    kids = (
        tag(
            "li",
            context.text(item.text),
            _list(context, item.items, ordered=ordered, depth=depth + 1) if item.items else "",
        )
        for item in items
    )
    look = "letters" if ordered and depth == 1 else ""
    return tag("ol" if ordered else "ul", *kids, start="" if start == 1 else start, class_=look)


def _contents(context: WebContext, block: Contents, index: int) -> Markup:
    """Sections, and under each what it lists."""
    groups: list[list[ListedHeading]] = []
    for entry in context.headings:
        if not groups or entry.level <= groups[-1][0].level:
            groups.append([])
        groups[-1].append(entry)
    items = (
        tag("li", _to(first), tag("ul", *(tag("li", _to(entry)) for entry in rest)) if rest else "")
        for first, *rest in groups
    )
    context.heading = context.anchor_of(index)
    title = tag(f"h{context.levels.of(index)}", block.title, id=context.heading)
    return tag("nav", title, tag("ul", *items), class_="contents", aria_labelledby=context.heading)


def _to(entry: ListedHeading) -> Markup:
    return tag("a", entry.text, href=f"#{entry.anchor}")


def _signatures(block: Signatures) -> Markup:
    people = (
        tag("dl", *(tag("div", tag("dt", blank.label), tag("dd", blank.value)) for blank in blanks))
        for blanks in block.blocks
    )
    return tag("div", *people, class_="signatures")


def _fields(block: Fields) -> Markup:
    """A form's part as it would be read out: a page for a browser is not filled in."""
    told = (_field(item) for item in block.items)
    return tag("div", tag("h3", block.title) if block.title else "", tag("p", *told), class_="fields")


def _field(item: FieldItem) -> str:
    if isinstance(item, Said):
        return words_of(item.text) + " "
    if isinstance(item, TickBox):
        return f"{'☒' if item.on else '☐'} {item.text} "
    return f"{item.value or '____'} " if isinstance(item, FillIn) else ""
