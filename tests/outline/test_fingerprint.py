"""The number of the data: what another program reckons of the files, and what another reader sees in the code."""

from __future__ import annotations

import subprocess
from io import BytesIO
from pathlib import Path

import pypdfium2
import pytest
import zxingcpp
from PIL import Image

from reporter.model.report import Attachment, Figure, Report
from reporter.model.sealed import data_hash, grouped
from reporter.outline import outline
from reporter.outline.carried import code
from reporter.pipeline import grade
from tests.outline.small import ROOT, job_of, registry


def report(folder: str = "demo_job/outgoing", **sheet: object) -> Report:
    job = job_of(ROOT / folder)
    job = job.model_copy(update={"sheet": job.sheet.model_copy(update=sheet)})
    chosen = registry().template(job.sheet.purpose)
    return outline(job, grade(job, registry(), chosen), chosen, registry())


def files(data: tuple[Attachment, ...]) -> dict[str, bytes]:
    return {each.name: each.content for each in data}


def test_coreutils_reckon_the_same_number(tmp_path: Path) -> None:
    """FIPS 180-4 by GNU coreutils: the number needs no program of ours."""
    data = files(report().attachments)
    for name, content in data.items():
        (tmp_path / name).write_bytes(content)
    command = "sha256sum * | LC_ALL=C sort -k 2 | sha256sum"
    told = subprocess.run(command, shell=True, cwd=tmp_path, capture_output=True, text=True, check=True)  # noqa: S602
    assert told.stdout.split()[0] == data_hash(data)


@pytest.mark.parametrize("name", ["job.yaml", "measurements.csv"])
def test_a_changed_byte_or_name_gives_another_number(name: str) -> None:
    data = files(report().attachments)
    changed = {**data, name: data[name] + b" "}
    renamed = {("x" + key if key == name else key): content for key, content in data.items()}
    assert len({data_hash(data), data_hash(changed), data_hash(renamed)}) == 3


def test_the_page_shows_the_number_last_in_groups_and_as_a_code() -> None:
    made = report()
    number = data_hash(files(made.attachments))
    text, picture = made.blocks[-2:]
    assert text.kind == "paragraph"
    assert text.text[0].text == grouped(number)
    assert [len(group) for group in grouped(number).split()] == [4] * 16
    assert isinstance(picture, Figure)
    assert grouped(number) in picture.drawing.alt


def test_without_data_there_is_no_number() -> None:
    chosen = registry().template("handover").model_copy(update={"discloses": ()})
    job = job_of(ROOT / "demo_job/outgoing")
    made = outline(job, grade(job, registry(), chosen), chosen, registry())
    assert not any(getattr(block, "anchor", "") == "fingerprint" for block in made.blocks)


@pytest.mark.slow
def test_another_reader_reads_the_code_off_the_printed_page(tmp_path: Path) -> None:
    """ISO/IEC 18004 by ZXing, off the page as PDFium paints it."""
    from reporter import pipeline
    from reporter.door import close

    target = tmp_path / "out.pdf"
    pipeline.report(ROOT / "demo_job/outgoing", target, registry(), tell=lambda _step: None)
    close()
    with pypdfium2.PdfDocument(target) as pdf:
        page = pdf[len(pdf) - 1].render(scale=2).to_pil()
    assert [each.text.lower() for each in zxingcpp.read_barcodes(page)] == [
        data_hash(files(report().attachments))
    ]


def test_a_turned_module_is_another_code() -> None:
    """The drawing is the code: without its first bar the finder pattern is broken and nothing is read."""
    whole = code("ABC123" * 10, "")
    assert [each.text for each in _read(whole.shapes, whole.width)] == ["ABC123" * 10]
    assert _read(tuple(bar for bar in whole.shapes if bar.points[0][1] > 12), whole.width) == []  # type: ignore[union-attr]


def _read(shapes: tuple[object, ...], side: float) -> list[zxingcpp.Barcode]:
    picture = Image.new("L", (int(side), int(side)), 255)
    for bar in shapes:
        (left, top), (right, _), *_ = bar.points  # type: ignore[attr-defined]
        picture.paste(0, (int(left), int(top), int(right), int(top) + 1))
    out = BytesIO()
    picture.resize((int(side) * 6, int(side) * 6), Image.Resampling.NEAREST).save(out, "PNG")
    return list(zxingcpp.read_barcodes(Image.open(out)))
