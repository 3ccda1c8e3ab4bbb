"""What the file says about itself: XMP and Info say the same, whatever the words are."""

from __future__ import annotations

import datetime as dt
from pathlib import Path
from xml.etree import ElementTree as ET

import pikepdf
import pytest

from reporter.archive import archive, verify
from tests.archive.marked import REPORT, lay_out

NASTY = [
    "<b>&amp;</b> ]]> <?xpacket",
    "tab\tline\nbreak",
    "bell\x07 form\x0c",
    "Ελληνικά Türkçe Łódź 帆船",
    "\"'",
    "",
]


@pytest.mark.parametrize("words", NASTY)
def test_any_words_make_sound_metadata(tmp_path: Path, words: str) -> None:
    report = REPORT.model_copy(
        update={
            "title": f"x{words}",
            "subject": words,
            "author": words,
            "keywords": (words, "rig"),
            "number": words,
        }
    )
    archive(report, lay_out(tmp_path / "laid.pdf"), tmp_path / "out.pdf")
    assert verify(tmp_path / "out.pdf") == []
    with pikepdf.open(tmp_path / "out.pdf") as pdf:
        packet = pdf.Root.Metadata.read_bytes().decode()
        title = str(pdf.docinfo.Title)
    tree = ET.fromstring(packet)  # noqa: S314 (our own packet)
    found = tree.find(".//{http://purl.org/dc/elements/1.1/}title//{*}li")
    assert found is not None
    kept = words.replace("\x07", " ").replace("\x0c", " ")
    assert found.text == title == " ".join(f"x{kept}".split())


def test_dates_are_the_reports_own(tmp_path: Path) -> None:
    report = REPORT.model_copy(update={"dated": dt.date(2031, 1, 9)})
    archive(report, lay_out(tmp_path / "laid.pdf"), tmp_path / "out.pdf")
    with pikepdf.open(tmp_path / "out.pdf") as pdf:
        assert str(pdf.docinfo.CreationDate) == str(pdf.docinfo.ModDate) == "D:20310109000000Z"
        with pdf.open_metadata() as said:
            assert said["xmp:CreateDate"] == said["xmp:ModifyDate"] == "2031-01-09T00:00:00Z"
        parameters = pdf.Root.AF[0].EF.F.Params
        assert str(parameters.CreationDate) == str(parameters.ModDate) == "D:20310109000000Z"


def test_colours_mean_srgb_by_the_profile_in_the_package(good: Path) -> None:
    with pikepdf.open(good) as pdf:
        (intent,) = pdf.Root.OutputIntents
        profile = intent.DestOutputProfile.read_bytes()
    # ICC.1 clause 7.2: size, device class, colour space and signature of a profile header.
    assert int.from_bytes(profile[:4], "big") == len(profile)
    assert (profile[12:16], profile[16:20], profile[36:40]) == (b"mntr", b"RGB ", b"acsp")
    assert intent.DestOutputProfile.N == 3


def test_readers_are_told_language_title_and_version(good: Path) -> None:
    with pikepdf.open(good) as pdf:
        assert str(pdf.Root.Lang) == "en"
        assert bool(pdf.Root.ViewerPreferences.DisplayDocTitle)
        assert pdf.pdf_version == "1.7"
        assert str(pdf.docinfo.Producer).startswith("gudgeon ")
        assert len(pdf.trailer.ID) == 2
