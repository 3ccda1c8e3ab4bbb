"""Documents at the edges: other scripts, three hundred parts, random reports through the reference validator."""

from __future__ import annotations

import itertools
import shutil
from pathlib import Path

import pytest
from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st
from PIL import Image
from pypdfium2 import PdfDocument

from reporter import pipeline
from reporter.archive import archive, verify
from reporter.door import close
from reporter.errors import LayoutError
from reporter.model.report import Block
from reporter.registry import find, load
from reporter.typeset import typeset
from tests.documents.conftest import ROOT, quiet
from tests.effort import tries
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


def test_hundreds_of_parts(tmp_path: Path) -> None:
    folder, parts = changed(tmp_path), tries(300, 100)
    with (folder / "findings.yaml").open("a", encoding="utf-8") as findings:
        findings.writelines(PART.format(number=number) for number in range(parts))
    file = write(folder, tmp_path)
    assert verify(file) == []
    assert {flavour: validate([file], flavour)[file.resolve()] for flavour in ("3a", "ua1")} == {
        "3a": [],
        "ua1": [],
    }
    text = text_of(file)
    assert all(f"Chain {number} with" in text for number in (0, parts // 2, parts - 1))


def test_forty_photos_and_a_long_finding_on_one_part(tmp_path: Path) -> None:
    """Forty photos of one part and 3,000 words of finding are laid out whole."""
    folder = changed(tmp_path)
    photos = folder / "photos"
    for number in range(40):
        Image.new("RGB", (640, 480), (40 + number * 5, 90, 120)).save(photos / f"made_{number:02d}.jpg")
    uses = "".join(
        f"      - {{file: made_{number:02d}.jpg, caption: Picture {number}}}\n" for number in range(40)
    )
    part = PART.format(number=0).replace("    found: ", f"    photos:\n{uses}    found: {'word ' * 3000}")
    with (folder / "findings.yaml").open("a", encoding="utf-8") as findings:
        findings.write(part)
    file = write(folder, tmp_path)
    assert verify(file) == []
    text = " ".join(text_of(file).split())
    assert all(f"Picture {number}." in text for number in range(40))
    assert text.count("word word word") >= 900


def test_no_photo_at_all(tmp_path: Path) -> None:
    folder = tmp_path / "job"
    folder.mkdir()
    sheet = (ROOT / "demo_job" / "job.yaml").read_text("utf-8")
    # The last two entries of the demo's sheet name papers and an earlier folder, which a bare job does not have.
    (folder / "job.yaml").write_text(sheet.partition("\ndocuments:")[0] + "\n", "utf-8")
    (folder / "measurements.csv").write_text("component,quantity,value,unit\n", "utf-8")
    (folder / "findings.yaml").write_text("format: 1\ncomponents:" + PART.format(number=0), "utf-8")
    file = write(folder, tmp_path)
    assert verify(file) == []
    assert "No photos were used." in " ".join(text_of(file).split())


def test_the_summary_of_sixty_parts_fits_two_pages(tmp_path: Path) -> None:
    """The decision, the boat, the systems at a glance: then come the gaps."""
    folder = changed(tmp_path)
    with (folder / "findings.yaml").open("a", encoding="utf-8") as findings:
        findings.writelines(
            PART.format(number=number).replace(
                " with a name that is rather long for a part, as names of parts sometimes are", ""
            )
            for number in range(10)
        )
    document = PdfDocument(write(folder, tmp_path))
    texts = [page.get_textpage().get_text_bounded() for page in document]
    document.close()
    at_a_glance = next(number for number, text in enumerate(texts) if "Weakest link" in text)
    gaps = next(number for number, text in enumerate(texts) if "What would settle it" in text)
    assert (at_a_glance, gaps - at_a_glance) <= (3, 2)


def test_one_worker_and_two_give_the_same_bytes(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    from reporter.door import workers

    files = []
    for count in (1, 2):
        monkeypatch.setattr(workers, "MOST_WORKERS", count)
        target = tmp_path / f"{count}.pdf"
        pipeline.report(ROOT / "demo_job", target, load(find()), tell=quiet)
        close()
        files.append(target.read_bytes())
    assert files[0] == files[1]


def test_random_reports_conform(tmp_path: Path) -> None:
    """Whatever blocks come, the reference validator is content with what is written of them."""
    files: list[Path] = []
    number = itertools.count(1)

    @settings(
        max_examples=tries(40, 16), deadline=None, database=None, derandomize=True, phases=[Phase.generate],
        suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large],
    )  # fmt: skip
    @given(st.lists(_BLOCK, min_size=1, max_size=8))
    def make(blocks: list[Block]) -> None:
        document = report(*blocks)
        folder = tmp_path / f"{next(number)}"
        folder.mkdir()
        try:
            pages = typeset(document, pictures(folder), folder / "pages.pdf")
        except LayoutError:
            return
        archive(document, pages, folder / "out.pdf")
        files.append(folder / "out.pdf")

    make()
    assert len(files) >= tries(20, 8)
    for flavour in ("3a", "ua1"):
        failed = {path: rules for path, rules in validate(files, flavour).items() if rules}
        assert failed == {}
