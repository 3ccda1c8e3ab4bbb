"""Markup that cannot be written by accident: text is escaped wherever it enters, and only there.

Comes in: names, attributes, text. Goes out: `Markup`, a string that is known to be HTML. Must not know blocks.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from html import escape
from importlib import resources

_UNFIT = re.compile(
    r"[\x00-\x08\x0b-\x1f\x7f-\x9f\ud800-\udfff\ufdd0-\ufdef\ufffe\uffff\ufeff"
    r"\u200b\u200e\u200f\u202a-\u202e\u2060-\u2069\u00ad\u180e]"
)
"""What HTML may not hold (13.2.3.5, preprocessing the input stream), and what turns or hides text unseen."""
_LONG = re.compile(r"(\S{14})(?=\S{14})")
_VOID = {"img", "meta", "link", "br", "col"}


class Markup(str):
    """A string that is HTML already."""

    __slots__ = ()


def text(words: str) -> Markup:
    """Somebody's words as HTML; markup stays as it is."""
    return words if isinstance(words, Markup) else Markup(escape(strip(words), quote=False))


def strip(words: str) -> str:
    """Words without what a page may not hold."""
    return _UNFIT.sub("", words)


def tag(name: str, /, *inside: str, **attributes: str | float) -> Markup:
    """An element. `class_` is class and `stroke_width` stroke-width; an empty string leaves an attribute out."""
    told = "".join(_attribute(key, value) for key, value in attributes.items() if value != "")
    if name in _VOID:
        return Markup(f"<{name}{told}>")
    return Markup(f"<{name}{told}>{''.join(map(text, inside))}</{name}>")


def joined(parts: Iterable[str], between: str = "") -> Markup:
    """Parts one after another."""
    return Markup(text(between).join(map(text, parts)))


def breakable(words: str) -> Markup:
    """Words of which one too long for a phone, such as a digest, may be broken where the line ends."""
    return joined(_LONG.sub("\\1\0", words).split("\0"), Markup("<wbr>"))


def share(fraction: float) -> str:
    """A fraction as a percentage that keeps a thousandth of a percent."""
    return f"{figure(fraction * 100, 3)}%"


def figure(value: float, decimals: int = 2) -> str:
    """A length as SVG writes it, without needless zeros."""
    told = f"{value:.{decimals}f}"
    return told.rstrip("0").rstrip(".") if "." in told else told


def _attribute(key: str, value: str | float) -> str:
    told = value if isinstance(value, str) else figure(value)
    return f' {key.rstrip("_").replace("_", "-")}="{escape(strip(told))}"'


def style_sheet(name: str) -> str:
    """A style sheet of this package."""
    return resources.files(__package__).joinpath(name).read_text("utf-8")
