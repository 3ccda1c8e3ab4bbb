"""Small reports and pictures that the tests of this folder lay out."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence
from pathlib import Path

from PIL import Image

from reporter.model.drawing import Arc, Drawing, Ellipse, Numeral, Sign, Words
from reporter.model.drawing import Path as Stretch
from reporter.model.measure_bar import Band, EarlierDot, MeasureBar, Tick
from reporter.model.pages import Picture
from reporter.model.photo import Arrow, Box, Inset, LabelMark, Mark, Ring, Ruler
from reporter.model.report import (
    Blank,
    Block,
    Cell,
    Column,
    Contents,
    Figure,
    GradeLine,
    Heading,
    Item,
    List,
    Paragraph,
    Photo,
    PhotoPair,
    Report,
    Signatures,
    Span,
    Spread,
    Table,
    plain,
)
from reporter.model.terms import Grade

TITLE = Heading(level=1, text="Steering gear and rig", anchor="Überblick")
SENTENCE = "The chain was measured over twenty pitches under light tension with a steel rule. "
MARKS: tuple[Mark, ...] = (
    Ring(at=(0.3, 0.3), radius=0.06, callout=1),
    Box(corner=(0.6, 0.6), opposite=(0.8, 0.8), callout=2),
    Arrow(tail=(0.1, 0.9), head=(0.3, 0.7), callout=3),
    Ruler(start=(0.1, 0.5), end=(0.5, 0.5), length="254 mm"),
    LabelMark(at=(0.7, 0.2), text="dry link"),
    Inset(at=(0.5, 0.8), radius=0.05),
)


def report(*blocks: Block, **changes: object) -> Report:
    """A report of the given blocks; the title is put before them."""
    settings: dict[str, object] = {
        "title": "Condition report",
        "subject": "Steering gear and rig",
        "author": "A. Surveyor",
        "number": "2027-014",
        "dated": dt.date(2027, 5, 12),
        "running_head": "Running head",
        "running_foot": "Running foot",
        "blocks": (TITLE, *blocks),
    }
    return Report.model_validate(settings | changes)


def picture(folder: Path, name: str, size: tuple[int, int] = (120, 90), insets: int = 0) -> Picture:
    """A small picture on disk, different for each name, with so many inset pieces."""
    files = []
    for number in range(insets + 1):
        file = folder / f"{name}-{number}.jpg"
        tone = sum(name.encode()) * (number + 3) % 256
        Image.linear_gradient("L").resize(size if not number else (40, 40)).point(
            lambda value, tone=tone: (value + tone) % 256
        ).convert("RGB").save(file)
        files.append(file)
    return Picture(files[0], *size, tuple(files[1:]))


def photo(
    name: str, caption: str = "The chain as found", marks: Sequence[Mark] = (), size: str = "column"
) -> Photo:
    """A photo block for the picture of that name."""
    return Photo.model_validate(
        {
            "file": name,
            "sha256": "0" * 64,
            "width_px": 120,
            "height_px": 90,
            "plate": 3,
            "caption": plain(caption),
            "alt": f"Photo of {name}",
            "marks": tuple(marks),
            "size": size,
        }
    )


def rows(count: int, columns: int = 3) -> tuple[tuple[Cell, ...], ...]:
    """Table rows of numbered words."""
    return tuple(
        tuple(Cell(text=plain(f"row {row} cell {at}")) for at in range(columns)) for row in range(count)
    )


def table(count: int, **changes: object) -> Table:
    """A table of `count` rows and three columns."""
    columns = tuple(Column(title=title) for title in ("Part", "Reading", "Verdict"))
    return Table.model_validate({"columns": columns, "rows": rows(count)} | changes)


DRAWING = Drawing(
    width=100,
    height=40,
    alt="Wheel and quadrant",
    shapes=(
        Stretch(points=((10, 20), (90, 20)), dashed=True),
        Ellipse(centre=(10, 20), radii=(8, 8), fill="wash"),
        Arc(centre=(90, 20), radius=8, start=-90, sweep=180),
        Words(at=(50, 18), text="Wire", anchor="middle", plate=True),
        Sign(at=(50, 30), grade=Grade.UNSEEN, side=6),
        Numeral(at=(70, 30), text="7"),
    ),
)

BAR = MeasureBar(
    low=254.0,
    low_label="unworn 254 mm",
    high_label="260 mm",
    high=260.0,
    value=258.6,
    expanded=0.7,
    label="258.6 mm",
    bands=(
        Band(start=254, end=257, grade=Grade.CLEAR),
        Band(start=257, end=260, grade=Grade.STOP, word="stop"),
    ),
    ticks=(Tick(at=259.1, label="limit 259.1 [3]"), Tick(at=258.9, label="maker 258.9 [4]")),
    earlier=(EarlierDot(value=255.0, label="2021"),),
    alt="258.6 of at most 259.1 mm",
)

BLOCKS: dict[str, tuple[Block, tuple[str, ...]]] = {
    "heading": (Heading(level=2, text="Components", anchor="components"), ("H2",)),
    "paragraph": (
        Paragraph(
            text=(
                Span(text="Seen on board, "),
                Span(text="sur le pont", lang="fr"),
                Span(text=", see "),
                Span(text="the title", href="#Überblick"),
                Span(text=" or "),
                Span(text="a page", href="https://example.org/"),
                Span(text=" action "),
                Span(text="12", style="disc"),
            ),
            aside=plain("a source"),
        ),
        ("P", "Span", "Link"),
    ),
    "list": (
        List(items=(Item(text=plain("one"), items=(Item(text=plain("inner")),)), Item(text=plain("two")))),
        ("L", "LI", "Lbl", "LBody"),
    ),
    "table": (table(3, caption=plain("Readings")), ("Table", "Caption", "TR", "TH", "TD")),
    "figure": (Figure(drawing=DRAWING, caption=plain("Seen from above")), ("Figure", "Caption")),
    "photo": (photo("chain", marks=MARKS), ("Figure", "Caption")),
    "photo_pair": (PhotoPair(left=photo("chain"), right=photo("wire")), ("Figure", "Caption")),
    "spread": (
        Spread(photos=(photo("chain", marks=MARKS),), texts=(Paragraph(text=plain("What was found.")),)),
        ("Figure", "Caption", "P"),
    ),
    "grade_line": (
        GradeLine(grade=Grade.FIRST, word="First", name="Steering chain", place="Pedestal", sentence="Worn."),
        ("H2", "P"),
    ),
    "measure_bar": (BAR, ("Figure",)),
    "contents": (Contents(title="Contents"), ("H2", "TOC", "TOCI", "Reference", "Link")),
    "signatures": (
        Signatures(
            blocks=(
                (Blank(label="Signature"), Blank(label="Name", value="A. Surveyor")),
                (Blank(label="Owner"),),
            )
        ),
        ("P",),
    ),
}
"""One block of every kind, and the roles that it must leave in the tree."""


def pictures(folder: Path) -> dict[str, Picture]:
    """The pictures that the sample blocks show."""
    return {"chain": picture(folder, "chain", insets=1), "wire": picture(folder, "wire", (90, 120))}
