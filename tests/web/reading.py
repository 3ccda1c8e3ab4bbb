"""Reads a page back with html5lib, strictly: what the HTML Living Standard calls a parse error is one here."""

from __future__ import annotations

import re
import unicodedata
from typing import Any

import html5lib

INLINE = {"span", "strong", "a", "sub", "sup", "wbr"}


def parsed(page: str) -> Any:
    """The tree of a page without namespaces; raises on the first parse error."""
    parser = html5lib.HTMLParser(html5lib.getTreeBuilder("etree"), strict=True, namespaceHTMLElements=False)
    return parser.parse(page)


def name(element: Any) -> str:
    """An element's name without its namespace."""
    return str(element.tag).rpartition("}")[2]


def found(tree: Any, wanted: str, look: str = "") -> list[Any]:
    """Elements of a name that have a class."""
    return [
        each
        for each in tree.iter()
        if name(each) == wanted and (not look or look in (each.get("class") or "").split())
    ]


def told(element: Any) -> str:
    """The text of an element, with a space wherever a box ends."""
    inside = (element.text or "") + "".join(told(kid) + (kid.tail or "") for kid in element)
    return inside if name(element) in INLINE else f" {inside} "


def plain(text: str) -> str:
    """Text with one kind of space and one form of each letter."""
    return " ".join(re.sub(r"[\u00ad\u200b]", "", unicodedata.normalize("NFKC", text)).split())
