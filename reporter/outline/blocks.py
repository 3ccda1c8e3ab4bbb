"""Short ways to write blocks: facts tables, cells, lists, headings."""

from __future__ import annotations

from collections.abc import Iterable
from functools import lru_cache
from typing import Literal

from reporter.model.report import KEPT, Cell, Column, Heading, Paragraph, Span, Table, Text, plain, strong
from reporter.model.terms import Grade
from reporter.outline.context import Context
from reporter.wording import Catalogue


def heading(context: Context, ident: str, *, level: Literal[2, 3] = 2, new_page: bool = False) -> Heading:
    """A section heading, its anchor being the id."""
    return Heading(level=level, text=context.words(f"head.{ident}"), anchor=ident, new_page=new_page)


def facts(rows: Iterable[tuple[str, str]], titles: tuple[str, str] = ("", "")) -> Table:
    """A table of label and value; rows without a value are left out."""
    return Table(
        columns=(Column(title=titles[0], share=1), Column(title=titles[1], share=2.6)),
        rows=tuple((head(label), Cell(text=plain(value.strip()))) for label, value in rows if value),
        style="facts",
    )


Row = tuple[Cell, ...]


def table(words: Catalogue, section: str, rows: Iterable[Row], right: str = "", /, **shares: float) -> Table:
    """A table whose columns are named as that section of the catalogue names them, each with its share of the width.

    `right` is the column of numbers that end in one line.
    """
    columns = tuple(
        Column(title=words(f"{section}.{name}"), share=share, align="right" if name == right else "left")
        for name, share in shares.items()
    )
    return Table(columns=columns, rows=tuple(rows))


def boxes(table: Table) -> Table:
    """The table with room for handwriting."""
    return table.model_copy(update={"style": "boxes"})


def across(cell: Cell, columns: int) -> Row:
    """A row of one cell that leads those below it."""
    return (cell.model_copy(update={"columns": columns, "head": True}),)


def subhead(text: str) -> Heading:
    """A heading inside a section, which no table of contents lists."""
    return Heading(level=3, text=text, listed=False)


@lru_cache(maxsize=KEPT)
def head(text: str, href: str = "") -> Cell:
    """A row head; with `href` it leads somewhere."""
    return Cell(text=(Span(text=text, href=href),), head=True)


@lru_cache(maxsize=KEPT)
def cell(text: str, *, bold: bool = False) -> Cell:
    """A cell of plain text."""
    return Cell(text=strong(text) if bold else plain(text))


def spanned(*spans: Span) -> Cell:
    """A cell of what of these says something."""
    return Cell(text=tuple(span for span in spans if span.text))


def links_to(names: Iterable[tuple[str, str]], between: str = "; ") -> Text:
    """Names one after another, each with the address that it leads to, if any."""
    spans = [span for name, href in names for span in (Span(text=name, href=href), Span(text=between))]
    return tuple(spans[:-1])


def graded(grade: Grade, word: str) -> Cell:
    """A cell with a grade sign and its word."""
    return Cell(text=plain(word), grade=grade)


def note(text: str) -> Paragraph:
    """A small paragraph."""
    return Paragraph(text=plain(text), style="small")


def body(text: str) -> list[Paragraph]:
    """The paragraphs of a person's own text: a blank line begins a new one."""
    return [Paragraph(text=plain(" ".join(part.split()))) for part in text.split("\n\n") if part.strip()]


def labelled(label: str, text: str) -> list[Paragraph]:
    """A person's text, its first paragraph led by a strong label."""
    paragraphs = body(text)
    if not paragraphs:
        return []
    first = paragraphs[0]
    lead = (Span(text=f"{label}: ", style="strong"), *first.text)
    return [first.model_copy(update={"text": lead}), *paragraphs[1:]]


def sentence(text: str) -> str:
    """A person's words as a sentence: on one line, with a full stop where there is no other end."""
    text = " ".join(text.split())
    return text if text.endswith((".", "!", "?")) else f"{text}."
