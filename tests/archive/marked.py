"""A small laid-out document with hand-written marks, as typesetting hands it over, and the report it is of.

Two pages with every construction that archiving treats: headings, a paragraph over a page break, a link, a
list, a table with both kinds of heads, a figure, a note, a signature field, and artifacts around them.
"""

from __future__ import annotations

import datetime as dt
import zlib
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import font_source_sans_pro
from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont
from reportlab.pdfgen.canvas import Canvas

from reporter.model.pages import Element, Linked, Marked, Pages, SignatureField
from reporter.model.report import Attachment, Report, plain
from reporter.model.report import Paragraph as ParagraphBlock

FONT = "SourceSansPro"
REPORT = Report(
    title="Steering gear & rig <condition> “été”",
    subject="A made-up report",
    author="A. Surveyor",
    keywords=("steering", "rig"),
    number="2027-014",
    dated=dt.date(2027, 5, 12),
    running_head="",
    running_foot="",
    blocks=(ParagraphBlock(text=plain("See the pages.")),),
    attachments=(
        Attachment(
            name="job.yaml",
            media_type="application/yaml",
            description="Job data",
            packed=zlib.compress(b"format: 1\n"),
            relationship="Source",
        ),
        Attachment(
            name="measurements.csv",
            media_type="text/csv",
            description="Readings as printed",
            packed=zlib.compress(b"component,quantity,value\nchain,pitch,12.7\n"),
        ),
    ),
)


class Sheet:
    """A canvas on which everything is painted inside a mark that the caller opens."""

    def __init__(self, file: Path) -> None:
        """Begin a document on A4."""
        pdfmetrics.registerFont(TTFont(FONT, font_source_sans_pro.font_files_ttf[FONT]))
        self.canvas = Canvas(str(file), pagesize=(595, 842), initialFontName=FONT)
        self.page = 0
        self.next_mcid = 0
        self.annotations = 0

    @contextmanager
    def mark(self, role: str) -> Iterator[Marked]:
        """Open a mark for the given role, the next on this page."""
        marked = Marked(self.page, self.next_mcid)
        self.next_mcid += 1
        self._write(f"/{role} <</MCID {marked.mcid}>> BDC")
        yield marked
        self._write("EMC")

    def text(self, role: str, x: float, y: float, words: str) -> Marked:
        """Paint a line of text in a mark of its own."""
        with self.mark(role) as marked:
            self.canvas.drawString(x, y, words)
        return marked

    def chrome(self, words: str) -> None:
        """Paint a running head: an artifact."""
        self._write("/Artifact <</Type/Pagination/Subtype/Header>> BDC")
        self.canvas.drawString(50, 810, words)
        self._write("EMC")

    def _write(self, operators: str) -> None:
        self.canvas._code.append(operators)

    def link(self, x: float, y: float, words: str, url: str) -> Element:
        """Paint a link and put its annotation over it."""
        marked = self.text("Link", x, y, words)
        self.canvas.linkURL(url, (x, y - 3, x + 90, y + 12))
        self.annotations += 1
        return Element("Link", kids=(marked, Linked(self.page, self.annotations - 1, f"{words} ({url})")))

    def turn(self) -> None:
        """Begin the next page."""
        self.canvas.showPage()
        self.page, self.next_mcid, self.annotations = self.page + 1, 0, 0


def _list(sheet: Sheet) -> Element:
    items = []
    for number, words in enumerate(("Chain", "Wire"), 1):
        label = Element("Lbl", kids=(sheet.text("Lbl", 50, 700 - 20 * number, f"{number}."),))
        body = Element("LBody", kids=(sheet.text("LBody", 70, 700 - 20 * number, words),))
        items.append(Element("LI", kids=(label, body)))
    return Element("L", kids=tuple(items), numbering="Decimal")


def _table(sheet: Sheet) -> Element:
    head = tuple(
        Element("TH", scope="Column", column_span=span, kids=(sheet.text("TH", x, 600, words),))
        for x, words, span in ((50, "Part", 1), (150, "Reading and limit", 2))
    )
    row = (
        Element("TH", scope="Row", kids=(sheet.text("TH", 50, 580, "Chain"),)),
        Element("TD", kids=(sheet.text("TD", 150, 580, "12.7 mm"),)),
        Element("TD"),
    )
    return Element("Table", kids=(Element("TR", kids=head), Element("TR", kids=row)))


def _figure(sheet: Sheet) -> Element:
    with sheet.mark("Figure") as marked:
        sheet.canvas.setFillColorRGB(0.2, 0.4, 0.6)
        sheet.canvas.rect(50, 500, 200, 100, fill=1, stroke=1)
        sheet.canvas.setFillColorRGB(0, 0, 0)
    caption = Element("Caption", kids=(sheet.text("Caption", 50, 480, "Photo 1: the quadrant"),))
    return Element("Figure", alt="The quadrant", bbox=(50, 500, 250, 600), kids=(marked, caption))


def lay_out(file: Path) -> Pages:
    """Write the two pages to `file` and return them with their tree."""
    sheet = Sheet(file)
    sheet.chrome("Condition report")
    title = Element("H1", kids=(sheet.text("H1", 50, 780, "Steering gear and rig"),))
    opening = sheet.text("P", 50, 750, "Read about the method at")
    paragraph = Element("P", kids=(opening, sheet.link(180, 750, "the method page", "https://example.org/m")))
    heading = Element("H2", title="Chain", kids=(sheet.text("H2", 50, 720, "Chain"),))
    body = [title, paragraph, heading, _list(sheet), _table(sheet)]
    first = sheet.text("P", 50, 540, "This paragraph begins here")
    sheet.turn()
    sheet.chrome("Condition report")
    body.append(Element("P", kids=(first, sheet.text("P", 50, 780, "and ends overleaf."))))
    body.append(Element("Note", lang="fr", kids=(sheet.text("Note", 50, 740, "Note : à revoir."),)))
    body.append(_figure(sheet))
    body.append(Element("P", kids=(sheet.text("P", 50, 420, "Signature of the surveyor"),)))
    sheet.canvas.save()
    return Pages(
        file=file,
        tree=Element("Document", kids=tuple(body)),
        count=2,
        fields=(SignatureField(1, (50, 360, 250, 410), "surveyor", "Signature of the surveyor"),),
    )
