"""What typesetting hands to archiving: a laid-out PDF file with marked content, and its structure tree.

Plain slotted dataclasses, since a long report has tens of thousands of them.
"""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import Literal


@dataclass(frozen=True, slots=True)
class Marked:
    """A marked-content sequence: page index from 0, and its MCID on that page."""

    page: int
    mcid: int


@dataclass(frozen=True, slots=True)
class Linked:
    """An annotation: page index from 0, index in that page's /Annots, and what it leads to in words."""

    page: int
    annotation: int
    contents: str


@dataclass(frozen=True, slots=True)
class Element:
    """A structure element (ISO 32000-1, 14.7 and 14.8); children in reading order.

    `bbox` is in page points, for figures. `scope` is Row, Column or Both for TH. `numbering` is the ListNumbering of L.
    """

    role: str
    kids: tuple[Element | Marked | Linked, ...] = ()
    alt: str = ""
    lang: str = ""
    title: str = ""
    scope: str = ""
    column_span: int = 1
    row_span: int = 1
    numbering: str = ""
    bbox: tuple[float, float, float, float] | None = None


@dataclass(frozen=True, slots=True)
class SignatureField:
    """Room for a digital signature: page index, rectangle in points, field name, and its label."""

    page: int
    rect: tuple[float, float, float, float]
    name: str
    label: str


@dataclass(frozen=True, slots=True)
class FormField:
    """A field to be filled in: page index, its place in that page's /Annots, its size in points, name and label.

    `sort` "choice" has `options` as (value, words). `value` is what stands there already; "on" ticks a box.
    """

    page: int
    annotation: int
    size: tuple[float, float]
    name: str
    label: str
    sort: Literal["tick", "text", "choice"]
    value: str = ""
    options: tuple[tuple[str, str], ...] = ()
    several_lines: bool = False


@dataclass(frozen=True, slots=True)
class FieldFont:
    """The font that fields are filled in with, whole: a TrueType file and its measures in thousandths of the size.

    `widths` are those of the codes from 32 to 255 in Windows code page 1252.
    """

    name: str
    file: bytes
    widths: tuple[float, ...]
    box: tuple[float, float, float, float]
    ascent: float
    descent: float
    capitals: float
    stem: float
    size: float


@dataclass(frozen=True, slots=True)
class Pages:
    """A laid-out document: `file` on disk, its structure tree (role Document), its signature fields.

    A document with a `form` has the `font` to fill it in with. `substituted` lists the characters that the font lacks, in order of first use; they were replaced visibly.
    """

    file: Path
    tree: Element
    count: int
    fields: tuple[SignatureField, ...] = ()
    form: tuple[FormField, ...] = ()
    font: FieldFont | None = None
    substituted: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Picture:
    """A developed copy on disk: upright, sRGB JPEG without metadata; `insets` are its magnified pieces in mark order.

    `problem` is empty, or says why the photo cannot be shown; the file is then a grey plate saying so.
    """

    file: Path
    width: int
    height: int
    insets: tuple[Path, ...] = ()
    problem: str = ""
