"""Documents at the edges: other scripts, three hundred parts, random reports through the reference validator."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest
from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st
from pypdfium2 import PdfDocument

from reporter import pipeline
from reporter.archive import archive, verify
from reporter.door import close
from reporter.errors import LayoutError
from reporter.model.report import Block
from reporter.registry import find, load
from reporter.typeset import typeset
from tests.documents.conftest import ROOT, quiet
from tests.typeset.samples import pictures, report
from tests.typeset.test_random_reports import _BLOCK
from tests.validator.verapdf import validate

pytestmark = pytest.mark.slow

NAMES = "Καλλιόπη Ντέμη, Людмила Ёлкина, Şükrü Işıkçığlı, Łucja Źdźbło"
PART = """
  - id: chain_{number}
    kind: chain
    name: Chain {number} with a name that is rather long for a part, as names of parts sometimes are
    group: side {number}
    examined: {{extent: seen, how: [hand, eye], included: [all]}}
    observed: {{corrosion: surface, stiff_links: none, cracks: none, joint: locked, lubrication: dry}}
    found: Seen link by link; a long enough remark to run over a line of the column in which it is set.
"""


def changed(tmp_path: Path, **edits: tuple[str, str]) -> Path:
    """A copy of the demo with one replacement per named file."""
    folder = tmp_path / "job"
    shutil.copytree(ROOT / "demo_job", folder)
    for name, (old, new) in edits.items():
        file = folder / name.replace("__", ".")
        text = file.read_text("utf-8")
        assert old in text
        file.write_text(text.replace(old, new), "utf-8")
    return folder


def write(folder: Path, tmp_path: Path) -> Path:
    """The folder's report."""
    file = tmp_path / "out.pdf"
    pipeline.report(folder, file, load(find()), tell=quiet)
    close()
    return file


def text_of(file: Path) -> str:
    """The text of a PDF by an independent reader."""
    document = PdfDocument(file)
    text = "\n".join(page.get_textpage().get_text_bounded() for page in document)
    document.close()
    return text


def test_names_in_greek_cyrillic_turkish_and_polish_simply_work(tmp_path: Path) -> None:
    file = write(changed(tmp_path, job__yaml=("Mateus Lindqvar", NAMES)), tmp_path)
    text = text_of(file)
    assert all(name in text.replace("\r\n", " ") for name in NAMES.split(", "))
    assert {flavour: validate([file], flavour)[file.resolve()] for flavour in ("3a", "ua1")} == {
        "3a": [],
        "ua1": [],
    }


def test_what_the_font_lacks_is_visibly_substituted(tmp_path: Path) -> None:
    file = write(changed(tmp_path, job__yaml=("Mateus Lindqvar", "山田 Mateus 😀")), tmp_path)
    assert "[U+1F600]" in text_of(file)
    assert validate([file], "ua1")[file.resolve()] == []


def test_three_hundred_parts(tmp_path: Path) -> None:
    folder = changed(tmp_path)
    with (folder / "findings.yaml").open("a", encoding="utf-8") as findings:
        findings.writelines(PART.format(number=number) for number in range(300))
    file = write(folder, tmp_path)
    assert verify(file) == []
    assert {flavour: validate([file], flavour)[file.resolve()] for flavour in ("3a", "ua1")} == {
        "3a": [],
        "ua1": [],
    }
    text = text_of(file)
    assert all(f"Chain {number} with" in text for number in (0, 150, 299))


def test_random_reports_conform(tmp_path: Path) -> None:
    """Whatever blocks come, the reference validator is content with what is written of them."""
    files: list[Path] = []

    @settings(
        max_examples=40, deadline=None, database=None, derandomize=True, phases=[Phase.generate],
        suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large],
    )  # fmt: skip
    @given(st.lists(_BLOCK, min_size=1, max_size=8))
    def make(blocks: list[Block]) -> None:
        document = report(*blocks)
        folder = tmp_path / f"{len(files)}"
        folder.mkdir()
        try:
            pages = typeset(document, pictures(folder), folder / "pages.pdf")
        except LayoutError:
            return
        archive(document, pages, folder / "out.pdf")
        files.append(folder / "out.pdf")

    make()
    assert len(files) >= 20
    for flavour in ("3a", "ua1"):
        failed = {path: rules for path, rules in validate(files, flavour).items() if rules}
        assert failed == {}
