"""A made-up report with every kind of block, and its pictures: what the stages before typesetting would hand over."""

from __future__ import annotations

import hashlib
from pathlib import Path

from PIL import Image

from reporter.model.drawing import Drawing, Numeral, Sign, Words
from reporter.model.drawing import Path as Line
from reporter.model.measure_bar import Band, EarlierDot, MeasureBar, Tick
from reporter.model.pages import Picture
from reporter.model.photo import Ring
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
    strong,
)
from reporter.model.terms import Grade
from tests.archive.marked import REPORT


def pictures(folder: Path) -> dict[str, Picture]:
    """Three small developed copies on disk, by the photo's file name."""
    made = {}
    for number, colour in enumerate(((120, 130, 140), (30, 90, 60), (200, 180, 40)), 1):
        file = folder / f"developed-{number}.jpg"
        Image.new("RGB", (320, 240), colour).save(file, "JPEG")
        made[f"photo_{number}.jpg"] = Picture(file, 320, 240)
    return made


def report(pictures: dict[str, Picture], chapters: int = 1) -> Report:
    """Every kind of block; the middle part is repeated `chapters` times."""
    blocks: list[Block] = [
        Heading(level=1, text="Condition of the steering gear", listed=False),
        Paragraph(text=plain("What was found, in short."), style="lead"),
        Contents(title="Contents"),
    ]
    for chapter in range(1, chapters + 1):
        blocks += _chapter(pictures, chapter)
    names = (Blank(label="Signature of the surveyor"), Blank(label="Name", value="A. Surveyor"))
    blocks += [
        Heading(level=2, text="Signature"),
        Signatures(blocks=(names, (Blank(label="Signature, owner"),))),
    ]
    return REPORT.model_copy(
        update={"blocks": tuple(blocks), "running_head": "Report 2027-014", "running_foot": "A. Surveyor"}
    )


def _chapter(pictures: dict[str, Picture], chapter: int) -> list[Block]:
    one, two, three = (_photo(pictures, number) for number in (1, 2, 3))
    link = Span(text="the method", href="#method", style="accent")
    site = Span(text="the standard's page", href="https://example.org/standard")
    foreign = Span(text="à revoir", lang="fr")
    return [
        Heading(level=2, text=f"Chain {chapter}", anchor="method" if chapter == 1 else ""),
        GradeLine(grade=Grade.PLAN, word="plan", name="Chain", place="pedestal", sentence="Worn by 2.1 %."),
        Paragraph(text=(*plain("See "), link, *plain(" and "), site, *plain(", "), foreign, *strong("."))),
        Paragraph(text=plain("u = 2.1 / 3.0 = 0.70"), style="formula", aside=plain("Source: made up")),
        List(
            items=(Item(text=plain("pins"), items=(Item(text=plain("rollers")),)), Item(text=plain("plates")))
        ),
        List(items=(Item(text=plain("clean")), Item(text=plain("oil"))), ordered=True),
        _table(),
        one,
        PhotoPair(left=two, right=three),
        Spread(photos=(one, two), texts=(Paragraph(text=plain("What was found, beside it.")),)),
        PhotoPair(left=one, right=two, third=three),
        Paragraph(text=(*plain("Action "), Span(text="3", style="disc"), *plain(" comes first."))),
        _figure(),
        MeasureBar(
            low=0,
            high=4,
            value=2.1,
            expanded=0.3,
            label="2.1 %",
            bands=(
                Band(start=0, end=1.5, grade=Grade.CLEAR),
                Band(start=1.5, end=4, grade=Grade.PLAN, word="plan"),
            ),
            ticks=(Tick(at=3, label="3 %"),),
            low_label="0 %",
            high_label="4 %",
            earlier=(EarlierDot(value=1.2, label="2025"),),
            alt="Wear 2.1 % of at most 3 %",
        ),
    ]


def _photo(pictures: dict[str, Picture], number: int) -> Photo:
    file = f"photo_{number}.jpg"
    return Photo(
        file=file,
        sha256=hashlib.sha256(pictures[file].file.read_bytes()).hexdigest(),
        width_px=320,
        height_px=240,
        plate=number,
        caption=plain(f"Photo {number}: the chain"),
        alt=f"The chain, view {number}",
        marks=(Ring(at=(0.5, 0.5), radius=0.1),),
    )


def _table() -> Table:
    rows: list[tuple[Cell, ...]] = [
        (
            Cell(text=plain("Part"), head=True),
            Cell(text=plain("2.1 %")),
            Cell(grade=Grade.PLAN, text=plain("plan")),
        )
    ]
    rows += [
        (Cell(text=plain(f"Link {n}"), head=True), Cell(text=plain("no reading"), columns=2))
        for n in range(60)
    ]
    titles = ("Part", "Reading", "Grade")
    return Table(
        columns=tuple(Column(title=title) for title in titles), rows=tuple(rows), caption=plain("Readings")
    )


def _figure() -> Figure:
    drawing = Drawing(
        width=100,
        height=40,
        shapes=(
            Line(points=((5, 5), (95, 5), (95, 35)), fill="wash", closed=True),
            Words(at=(10, 30), text="wheel"),
            Sign(at=(80, 20), grade=Grade.WATCH),
            Numeral(at=(60, 20), text="3"),
        ),
        alt="The wheel, to watch",
    )
    return Figure(drawing=drawing, caption=plain("The steering gear"))
