"""The fonts, what they hold, and text cleaned so that they can print it.

Comes in: any text of the report. Goes out: text that the embedded fonts can set, with its width in points.
Must not lay anything out. A character that no font holds would become a ToUnicode value of 0, which both
PDF/A-3 (ISO 19005-3, 6.2.11.7.2) and PDF/UA-1 (ISO 14289-1, 7.21.7) forbid: so it is replaced, visibly.
"""

from __future__ import annotations

import re
import unicodedata
from functools import cache, lru_cache
from pathlib import Path
from typing import Any

import font_source_sans_pro
from reportlab import rl_config
from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont

from reporter.model.pages import FieldFont
from reporter.typeset.styles import FORM, Face, Type

_FILES: dict[Face, str] = {
    "Regular": "SourceSansPro",
    "Semibold": "SourceSansProSemibold",
    "Bold": "SourceSansProBold",
}
_CONTROLS = re.compile(
    r"[\x00-\x08\x0b-\x1f\x7f-\x9f\ud800-\udfff\ufdd0-\ufdef\ufffe\uffff\ufeff\u200b-\u200f"
    r"\u202a-\u202e\u2060-\u2069\ufe00-\ufe0f\u00ad\u180e]"
)
_ALIKE = {
    "\t": " ",
    "\u2028": "\n",
    "\u2029": "\n",
    "\u2009": "\u202f",
    "\u200a": "\u202f",
    "\u2006": "\u202f",
    "\u2010": "-",
    "\u2011": "-",
    "\u25cf": "\u2022",
    "\u2300": "\u00d8",
    "\u2205": "\u00d8",
}
"""Characters that the fonts lack and that another glyph shows as well."""


def face_name(face: Face) -> str:
    """The name under which ReportLab knows a face; registers all faces the first time."""
    _register()
    return f"SourceSansPro-{face}"


def text_width(text: str, kind: Type) -> float:
    """Width of `text` in points as set in `kind`; no kerning, as ReportLab sets none."""
    wide = _ems(text, kind.face) * kind.size / 1000
    return max(2 * kind.reach, wide + kind.reach) if kind.disc else wide


@lru_cache(maxsize=16384)  # a report says the same words again and again
def _ems(text: str, face: Face) -> float:
    """Width in thousandths of the size."""
    widths = _widths(face)
    return sum(widths.get(ord(character), 0.0) for character in text)


def strip_controls(text: str) -> str:
    """`text` without control characters, lone surrogates, direction marks and other invisible characters.

    Line feeds stay. For strings that no font prints: bookmarks, alternative text, document properties.
    """
    return unicodedata.normalize("NFC", _CONTROLS.sub("", text.replace("\r\n", "\n").replace("\r", "\n")))


class Cleaner:
    """Makes text printable and remembers which characters had to be replaced, in order of first use."""

    def __init__(self) -> None:
        self._lacking: dict[str, None] = {}
        self._known = _known()

    @property
    def substituted(self) -> tuple[str, ...]:
        """The characters that were replaced so far."""
        return tuple(self._lacking)

    def clean(self, text: str) -> str:
        """`text` as the fonts can print it; what they lack stands as its code in square brackets."""
        text = strip_controls(text)
        if self._known.issuperset(text):
            return text
        for lacking, alike in _ALIKE.items():
            if lacking not in self._known:
                text = text.replace(lacking, alike)
        return self._without_lacking(text)

    def _without_lacking(self, text: str) -> str:
        parts: list[str] = []
        codes: list[str] = []
        for character in text:
            if character in self._known:
                parts += _bracketed(codes)
                parts.append(character)
            else:
                self._lacking[character] = None
                codes.append(f"U+{ord(character):04X}")
        return "".join(parts + _bracketed(codes))


def _bracketed(codes: list[str]) -> list[str]:
    """The codes gathered so far as one bracket; empties the list."""
    bracket = [f"[{' '.join(codes)}]"] if codes else []
    codes.clear()
    return bracket


@cache
def _register() -> None:
    """Load the faces once, and shut every door of ReportLab that text or a file name could open."""
    rl_config.useA85 = 0
    rl_config.invariant = 1
    rl_config.trustedHosts = None
    rl_config.trustedSchemes = ["data"]
    for face, name in _FILES.items():
        path = font_source_sans_pro.font_files_ttf[name]
        pdfmetrics.registerFont(TTFont(f"SourceSansPro-{face}", path))
    rl_config.canvas_basefontname = "SourceSansPro-Regular"


@cache
def field_font() -> FieldFont:
    """The upright face, whole, for what is filled in later: nobody knows yet which letters that takes."""
    font: Any = pdfmetrics.getFont(face_name("Regular"))
    face = font.face
    letters = [bytes([code]).decode("cp1252", "replace") for code in range(32, 256)]
    return FieldFont(
        name="SourceSansPro-Regular",
        file=Path(font_source_sans_pro.font_files_ttf[_FILES["Regular"]]).read_bytes(),
        widths=tuple(float(face.charWidths.get(ord(letter), 0)) for letter in letters),
        box=tuple(face.bbox),
        ascent=face.ascent,
        descent=face.descent,
        capitals=face.capHeight,
        stem=face.stemV,
        size=FORM.size,
    )


@cache
def _widths(face: Face) -> dict[int, float]:
    font: Any = pdfmetrics.getFont(face_name(face))
    return dict(font.face.charWidths)


@cache
def _known() -> frozenset[str]:
    """The characters that every face holds, and the line feed, which is a line break and never painted."""
    faces: list[Any] = [pdfmetrics.getFont(face_name(face)) for face in _FILES]
    shared = set.intersection(*(set(font.face.charToGlyph) for font in faces))
    return frozenset(map(chr, shared)) - {"\u00ad"} | {"\n"}
