"""What the file says about itself: XMP, Info, language, viewer preferences, colours; all from the Report.

There is no clock here: every date is the report's own, so that the same report gives the same bytes.
"""

from __future__ import annotations

import re
from importlib import metadata, resources
from pathlib import Path
from string import Template
from typing import NamedTuple
from xml.sax.saxutils import escape

import pikepdf
from pikepdf import Array, Dictionary, Name, String

from reporter.archive.unreadable import LOCKED, UNREADABLE, locked
from reporter.archive.wording import storable
from reporter.errors import UsageError, VerificationError
from reporter.model.report import Report
from reporter.model.template import VERSION

_PROFILE = "sRGB2014.icc"
_ARCHIVAL = re.compile(r" *<(pdfaid:\w+|pdfaExtension:schemas)>.*?</\1>\n", re.DOTALL)
"""What only a file for the archive says of itself."""


class Origin(NamedTuple):
    """What a file says of its making: program with version, language, and the readers it was cut for, if for some."""

    maker: str
    lang: str
    audience: str


def pdf_date(report: Report) -> str:
    """Return the report's date as a PDF date string (ISO 32000-1, 7.9.4), midnight UTC."""
    return f"D:{report.dated:%Y%m%d}000000Z"


def identify(pdf: pikepdf.Pdf, report: Report, *, is_form: bool = False) -> None:
    """Write everything a reader is told before the first page. A form to be filled in does not claim to be an archive.

    PDF/A identification and extension schema: ISO 19005-3, 6.6.2.3 and 6.6.4; PDF/UA identification:
    ISO 14289-1, clause 5; title shown instead of the file name, and language: ISO 14289-1, 7.1 and 7.2.
    """
    root = pdf.Root
    root.Lang = String(report.lang)
    root.MarkInfo = Dictionary(Marked=True)
    root.ViewerPreferences = Dictionary(DisplayDocTitle=True)
    root.Metadata = _packet(pdf, report, is_form=is_form)
    root.OutputIntents = Array([_output_intent(pdf)])
    pdf.trailer.Info = pdf.make_indirect(_info(report))
    # Half of an identifier kept from the laid-out file would carry the clock into this one.
    if "/ID" in pdf.trailer:
        del pdf.trailer.ID


def read_origin(path: Path) -> Origin:
    """Do what `origin` promises."""
    if not path.is_file():
        raise UsageError(f"There is no file {path}.")
    try:
        with pikepdf.open(path) as pdf:
            info, lang = pdf.trailer.get("/Info", Dictionary()), str(pdf.Root.get("/Lang", ""))
            keywords = str(info.get("/Keywords", "")).split(", ")
            marked = [each.removeprefix(VERSION) for each in keywords if each.startswith(VERSION)]
            return Origin(str(info.get("/Creator", "")), lang, next(iter(marked), ""))
    except LOCKED as error:
        raise locked(path) from error
    except UNREADABLE as error:
        raise VerificationError(f"{path} cannot be read.", "Ask for the file again.") from error


def tool() -> str:
    """This program with its version, as it names itself in a file."""
    return f"gudgeon {metadata.version('gudgeon')}"


def _info(report: Report) -> Dictionary:
    words = {
        "/Title": report.title,
        "/Author": report.author,
        "/Subject": report.subject,
        "/Keywords": ", ".join(report.keywords),
        "/Creator": tool(),
        "/Producer": tool(),
    }
    dates = {"/CreationDate": pdf_date(report), "/ModDate": pdf_date(report)}
    return Dictionary({key: String(storable(text)) for key, text in (words | dates).items()})


def _packet(pdf: pikepdf.Pdf, report: Report, *, is_form: bool) -> pikepdf.Object:
    template = Template(resources.files("reporter.archive").joinpath("packet.xml").read_text("utf-8"))
    words = {
        "title": report.title,
        "author": report.author,
        "subject": report.subject,
        "keywords": ", ".join(report.keywords),
        "number": report.number,
        "lang": report.lang,
        "creator": tool(),
        "producer": tool(),
        "dated": f"{report.dated.isoformat()}T00:00:00Z",
    }
    packet = template.substitute({key: escape(storable(text)) for key, text in words.items()}, mark="\ufeff")
    if is_form:
        packet = _ARCHIVAL.sub("", packet)
    stream = pdf.make_stream(packet.encode())
    stream.Type = Name.Metadata
    stream.Subtype = Name.XML
    return stream


def _output_intent(pdf: pikepdf.Pdf) -> Dictionary:
    """Every colour in the file is device RGB or grey and means sRGB (ISO 19005-3, 6.2.3)."""
    profile = pdf.make_stream(resources.files("reporter.archive").joinpath(_PROFILE).read_bytes())
    profile.N = 3
    profile.Alternate = Name.DeviceRGB
    return Dictionary(
        Type=Name.OutputIntent,
        S=Name.GTS_PDFA1,
        OutputConditionIdentifier=String("sRGB"),
        RegistryName=String("http://www.color.org"),
        Info=String("sRGB IEC61966-2.1"),
        DestOutputProfile=profile,
    )
