"""The whole page: head, bar at the top, the report, what is not in it.

Comes in: the report and its pictures. Goes out: one HTML document. Its policy forbids every request and every script,
and allows the one style sheet that stands in it, by its hash (Content Security Policy Level 3, 6.7).
"""

from __future__ import annotations

import re
from base64 import b64encode
from collections.abc import Mapping
from functools import cache
from hashlib import sha256
from importlib.metadata import version

from reporter.model.pages import Picture
from reporter.model.report import Cell, Column, Contents, Report, Table, plain
from reporter.web.blocks import block_of
from reporter.web.markup import Markup, joined, style_sheet, tag
from reporter.web.signs import store
from reporter.web.tables import table
from reporter.web.web_context import WebContext

_RUNNING = "font:7.5pt sans-serif;color:#566670"
_PARTS = "".join(f".w{part}{{width:{part}%}}" for part in range(1, 101))
"""Widths of table columns, since no element has a style of its own."""


def web(report: Report, pictures: Mapping[str, Picture]) -> str:
    """The document; LayoutError when a link leads nowhere."""
    context = WebContext(report, pictures)
    blocks = joined((block_of(context, block, index) for index, block in enumerate(report.blocks)), "\n")
    body = [
        tag("a", context.words("web.skip"), href="#g-report", class_="skip"),
        store(),
        _bar(context),
        tag("main", blocks, id="g-report", tabindex=-1),
        _foot(context),
    ]
    whole = tag("html", _head(report), "\n", tag("body", joined(body, "\n")), lang=report.lang)
    return f"<!DOCTYPE html>\n{whole}\n"


def _head(report: Report) -> Markup:
    look = f"{_look()}{_PARTS}{_paper(report)}"
    hashed = b64encode(sha256(look.encode("utf-8")).digest()).decode("ascii")
    policy = (
        f"default-src 'none'; img-src data:; style-src 'sha256-{hashed}'; base-uri 'none'; form-action 'none'"
    )
    told = {"author": report.author, "description": report.subject, "keywords": ", ".join(report.keywords)}
    return tag(
        "head",
        tag("meta", charset="utf-8"),
        tag("meta", http_equiv="Content-Security-Policy", content=policy),
        tag("meta", name="generator", content=f"gudgeon {version('gudgeon')}"),
        tag("meta", name="viewport", content="width=device-width, initial-scale=1"),
        tag("meta", name="color-scheme", content="light dark"),
        tag("meta", name="referrer", content="no-referrer"),
        *(tag("meta", name=name, content=content) for name, content in told.items() if content),
        tag("title", report.title),
        # Without an icon of its own a page on a server would make the browser ask for one.
        tag("link", rel="icon", href="data:,"),
        tag("style", Markup(look)),
    )


@cache
def _look() -> str:
    return style_sheet("figures.css") + style_sheet("page.css")


def _paper(report: Report) -> str:
    """Head, foot and page numbers on paper (CSS Paged Media Level 3, 5); the first page has no head."""
    pages = (
        f'"{_quoted(part)}"' if number % 2 == 0 else f"counter({part})"
        for number, part in enumerate(re.split(r"\{(pages?)\}", report.page_word))
    )
    boxes = {
        "top-left": f'"{_quoted(report.running_head)}"',
        "top-right": f'"{_quoted(report.draft)}"',
        "bottom-left": f'"{_quoted(report.running_foot)}"',
        "bottom-right": " ".join(pages),
    }
    told = "".join(f"@{box}{{content:{content};{_RUNNING}}}" for box, content in boxes.items())
    first = "@page:first{@top-left{content:none}@top-right{content:none}}"
    return f"@page{{size:{report.page};margin:20mm;{told}}}{first}\n"


def _quoted(words: str) -> str:
    """Words inside a string of a style sheet: each letter that could end it goes by its number (CSS Syntax Level 3, 4.3.7)."""
    return re.sub(r"[^\w .,:;·–-]", lambda found: f"\\{ord(found[0]):06x}", words)


def _bar(context: WebContext) -> Markup:
    """What stands at the top of every page on paper: the running head, the draft's word, and here the way back."""
    report = context.report
    inside = [tag("p", report.running_head)]
    if report.draft.strip():
        inside.append(tag("p", report.draft.strip(), class_="draft"))
    for index, block in enumerate(report.blocks):
        if isinstance(block, Contents):
            inside.append(tag("a", block.title, href=f"#{context.anchor_of(index)}"))
            break
    return tag("header", *inside)


def _foot(context: WebContext) -> Markup:
    """The running foot, and the data that only the PDF of the same report carries, by their digests."""
    report, words = context.report, context.words
    running = tag("p", report.running_foot)
    if not report.attachments:
        return tag("footer", running)
    rows = tuple(
        (
            Cell(text=plain(each.name), head=True),
            Cell(text=plain(each.description)),
            Cell(text=plain(sha256(each.content).hexdigest())),
        )
        for each in report.attachments
    )
    titles = (words("web.file"), words("web.holds"), words("web.digest"))
    columns = tuple(Column(title=title, share=share) for title, share in zip(titles, (2, 2, 5), strict=True))
    data = Table(columns=columns, rows=rows, caption=plain(words("web.attached")))
    return tag("footer", running, table(context, data))
