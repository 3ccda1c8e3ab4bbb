"""The report as a value: what is said, in which order; no millimetres, no fonts, no markup.

A closed set of blocks carries the whole document, since each must be laid out, tagged and tested.
"""

from __future__ import annotations

import datetime as dt
import re
import zlib
from collections.abc import Iterator
from functools import lru_cache
from typing import Annotated, Literal

from pydantic import Field

from reporter.model.base import Noun
from reporter.model.drawing import Drawing
from reporter.model.measure_bar import MeasureBar
from reporter.model.photo import Mark
from reporter.model.terms import Grade


class Span(Noun):
    """A run of text; `below` and `above` are the subscripts and exponents of a formula, `disc` the number of an action. `href` is http(s), mailto or "#anchor"; `lang` only where it differs from the report's."""

    text: str
    style: Literal["plain", "strong", "quiet", "accent", "below", "above", "disc"] = "plain"
    href: str = ""
    lang: str = ""


Text = tuple[Span, ...]
PageShape = Literal["A4", "Letter", "A5", "phone"]
"""Paper sizes, and a narrow page of one column to be read on a phone."""
TextSize = Literal["normal", "large"]
"""Size of what is read: body text of 9.5 points, or 13."""
KEPT = 2048
"""Texts that are one value wherever they stand: of those of 300 parts four in five are said again."""
_SCRIPT = re.compile(r"([_^])(?:\(([^()]*)\)|(\w[\w.]*))")


@lru_cache(maxsize=KEPT)
def plain(text: str) -> Text:
    """One plain span."""
    return (Span(text=text),)


def words_of(text: Text) -> str:
    """The words of a text, whatever their look."""
    return "".join(span.text for span in text)


def maths(text: str, *, bold: bool = False) -> Text:
    """A formula or symbol: what follows `_` is set below the line, what follows `^` above it."""
    spans: list[Span] = []
    end = 0
    for found in _SCRIPT.finditer(text):
        spans.append(Span(text=text[end : found.start()], style="strong" if bold else "plain"))
        spans.append(Span(text=found[2] or found[3], style="below" if found[1] == "_" else "above"))
        end = found.end()
    return (*spans, Span(text=text[end:], style="strong" if bold else "plain"))


@lru_cache(maxsize=KEPT)
def strong(text: str) -> Text:
    """One strong span."""
    return (Span(text=text, style="strong"),)


class Heading(Noun):
    """A heading of level 1 to 3 (the title on the first page is level 1); listed in contents when `listed`."""

    kind: Literal["heading"] = "heading"
    level: Literal[1, 2, 3]
    text: str
    anchor: str = ""
    listed: bool = True
    new_page: bool = False
    tab: str = ""
    """A short name for the edge of the section's pages; the heading's own text where empty."""


class Paragraph(Noun):
    """A paragraph; `aside` is set in the side column beside it (a source, a note).

    `formula` is the set line of a working, centred in a wash.
    """

    kind: Literal["paragraph"] = "paragraph"
    text: Text
    style: Literal["body", "lead", "small", "note", "formula", "answer"] = "body"
    aside: Text = ()
    anchor: str = ""
    keep: bool = False
    """Keeps with the block that follows."""
    together: bool = False
    """On one page with the block that follows, where all that is held so fits a page; other blocks have it too."""


class Item(Noun):
    """One item of a list, with sub-items."""

    text: Text
    items: tuple[Item, ...] = ()


class List(Noun):
    """A bulleted or numbered list; `start` is the first number."""

    kind: Literal["list"] = "list"
    items: tuple[Item, ...]
    ordered: bool = False
    start: int = 1
    together: bool = False


class Cell(Noun):
    """A table cell: text, or a grade sign with its word, or both. Spans count columns and rows."""

    text: Text = ()
    grade: Grade | None = None
    columns: int = 1
    rows: int = 1
    head: bool = False
    """A row head (scope: row)."""


class Column(Noun):
    """A table column: heading, share of the width, alignment (`number` aligns right with tabular digits)."""

    title: str
    share: float = 1.0
    align: Literal["left", "right", "number", "centre"] = "left"


class Table(Noun):
    """A table with one heading row, repeated on every page it runs over.

    `working` sets it as symbols and numbers in a wash without rules; `boxes` leaves room for handwriting; `compact`
    sets rows close together. Where its columns do not fit the page, each row is stacked: title beside value. With `fit`
    the shares are where a search begins for the widths that make the table least tall.
    """

    kind: Literal["table"] = "table"
    columns: tuple[Column, ...]
    rows: tuple[tuple[Cell, ...], ...]
    style: Literal["ruled", "working", "facts", "boxes", "compact"] = "ruled"
    caption: Text = ()
    width: Literal["column", "full"] = "full"
    fit: bool = False
    together: bool = False


class Figure(Noun):
    """A drawing with its caption; the drawing's `alt` is the figure's alternative text.

    `small` is a mark of 30 mm at the left edge, the same on every page and in both sizes of text.
    `most` is the share of a page's height that it may take.
    """

    kind: Literal["figure"] = "figure"
    drawing: Drawing
    caption: Text = ()
    width: Literal["small", "column", "full"] = "full"
    most: Annotated[float, Field(gt=0.2, le=0.8)] = 0.8
    together: bool = False


class Photo(Noun):
    """A photo with marks drawn over it. `sha256` names the developed copy; `size` its place on the page.

    `plate` is the number the text refers to ("photo 3"). `folder` is the earlier folder that the file lies in, as
    written in job.yaml; `file` begins with it.
    """

    kind: Literal["photo"] = "photo"
    file: str
    sha256: str
    width_px: int
    height_px: int
    plate: int
    caption: Text
    alt: str
    marks: tuple[Mark, ...] = ()
    size: Literal["full", "column", "half"] = "column"
    folder: str = ""
    together: bool = False


class PhotoPair(Noun):
    """Two photos side by side: the context and the close-up, or before and after; with `third`, a plate of three.

    A plate may show several parts in one row; each photo keeps its own number, caption and marks.
    """

    kind: Literal["photo_pair"] = "photo_pair"
    left: Photo
    right: Photo
    third: Photo | None = None
    together: bool = False

    @property
    def photos(self) -> tuple[Photo, ...]:
        """The photos from left to right."""
        return (self.left, self.right, self.third) if self.third else (self.left, self.right)


class Spread(Noun):
    """Photos with what is said of them beside: what was found, what it means, what to do; on one page where they fit it."""

    kind: Literal["spread"] = "spread"
    photos: Annotated[tuple[Photo, ...], Field(min_length=1, max_length=2)]
    texts: tuple[Paragraph, ...] = ()
    together: bool = False


class GradeLine(Noun):
    """A component's opening line: sign, grade word, name, place, and the finding in one sentence."""

    kind: Literal["grade_line"] = "grade_line"
    grade: Grade
    word: str
    name: str
    place: str = ""
    sentence: str = ""
    anchor: str = ""
    level: Literal[2, 3] = 3
    place_href: str = ""
    """"#anchor" of the picture that shows the place."""


class Contents(Noun):
    """The table of contents, made by typesetting from the listed headings."""

    kind: Literal["contents"] = "contents"
    title: str
    new_page: bool = False


class Blank(Noun):
    """A line to be filled in by hand or on screen: label and, when known, what stands there."""

    label: str
    value: str = ""


class Signatures(Noun):
    """Lines for signatures, dates and places; printed as rules, and as one signature field each.

    `fields` names each block's field, by which whoever signs on screen finds it; without, they are numbered.
    """

    kind: Literal["signatures"] = "signatures"
    blocks: tuple[tuple[Blank, ...], ...]
    fields: tuple[str, ...] = ()


class Said(Noun):
    """Words of a form between its boxes; `begins` a new line."""

    kind: Literal["said"] = "said"
    text: Text
    begins: bool = False


class TickBox(Noun):
    """A box to tick, its words behind it. `field` is its name in the file, `label` what it is called without the page."""

    kind: Literal["box"] = "box"
    field: str
    label: str
    text: str
    on: bool = False


class FillIn(Noun):
    """Room to write in: a word or a number; of `lines` lines; one of `options` (value, words) where there are any."""

    kind: Literal["fill_in"] = "fill_in"
    field: str
    label: str
    value: str = ""
    size: Literal["tiny", "short", "medium", "long", "rest"] = "short"
    lines: int = 1
    options: tuple[tuple[str, str], ...] = ()


class Space(Noun):
    """Room to draw in by hand, with a word in its corner; nothing on a screen."""

    kind: Literal["space"] = "space"
    word: str
    lines: int = 2


FieldItem = Annotated[Said | TickBox | FillIn | Space, Field(discriminator="kind")]


class Fields(Noun):
    """Part of a form: a title, then words, boxes to tick and room to write in, one after the other, as they fit the lines."""

    kind: Literal["fields"] = "fields"
    title: str = ""
    items: tuple[FieldItem, ...]
    anchor: str = ""
    level: Literal[3] = 3


Block = Annotated[
    Heading
    | Paragraph
    | List
    | Table
    | Figure
    | Photo
    | PhotoPair
    | Spread
    | GradeLine
    | MeasureBar
    | Contents
    | Signatures
    | Fields,
    Field(discriminator="kind"),
]


_PIECE = 1 << 16
"""Bytes of an attached file that are unpacked at a time."""


class Attachment(Noun):
    """A file carried inside the PDF: what the report prints, as data.

    It waits `packed` (zlib, RFC 1950): those of 300 parts are twenty times as long when unpacked.
    """

    name: str
    media_type: str
    description: str
    packed: bytes
    relationship: Literal["Source", "Data", "Supplement"] = "Data"

    @property
    def content(self) -> bytes:
        """What the file holds."""
        return zlib.decompress(self.packed)

    def pieces(self) -> Iterator[bytes]:
        """The same, piece by piece: those of a long report would else stand in memory whole."""
        unpacking, packed = zlib.decompressobj(), self.packed
        while piece := unpacking.decompress(packed, _PIECE):
            yield piece
            packed = unpacking.unconsumed_tail


class Report(Noun):
    """A whole document: identity, running head and foot, blocks, attached data."""

    lang: str = "en"
    title: str
    subject: str
    author: str
    keywords: tuple[str, ...] = ()
    number: str
    dated: dt.date
    """The date put into the file: day of issue, or of the inspection for a draft."""
    page: PageShape = "A4"
    text: TextSize = "normal"
    dense: bool = False
    """Set small to the paper's edges: a form to be carried about, not a text to be read."""
    running_head: str
    running_foot: str
    draft: str = ""
    """The word printed on every page until the report is issued."""
    page_word: str = "page {page} of {pages}"
    blocks: tuple[Block, ...]
    attachments: tuple[Attachment, ...] = ()

    @property
    def photos(self) -> tuple[Photo, ...]:
        """Every photo in the order it stands."""
        found: list[Photo] = []
        for block in self.blocks:
            if isinstance(block, Photo):
                found.append(block)
            elif isinstance(block, PhotoPair | Spread):
                found += block.photos
        return tuple(found)
