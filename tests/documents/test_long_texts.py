"""Every text of a folder at its longest: what `check` takes is laid out, and what is longer is told with its place."""

from __future__ import annotations

import copy
from collections.abc import Callable, Iterator
from itertools import product
from pathlib import Path
from typing import Any

import pytest
import yaml
from PIL import Image
from pydantic import BaseModel

from reporter import pipeline, visiting
from reporter.collect.ledger import Ledger
from reporter.collect.measurements import LONGER
from reporter.collect.shape import shape_of
from reporter.collect.translate import validate
from reporter.collect.yaml_file import Loc, YamlFile, read_yaml
from reporter.door import close
from reporter.errors import JobError, LayoutError
from reporter.model.findings import FindingsSheet
from reporter.model.report import Blank, Heading, Signatures
from reporter.model.sheet import JobSheet
from reporter.typeset import typeset
from tests.documents.conftest import quiet
from tests.effort import share
from tests.outline.small import registry
from tests.typeset.samples import report

HERE = Path(__file__).parent / "every_text"
SHEETS: dict[str, type[BaseModel]] = {"job.yaml": JobSheet, "findings.yaml": FindingsSheet}
NAMES_SOMETHING = {
    "file", "photo", "hull_number_photo", "resolution", "correction", "time_zone", "choice", "included", "documents",
    "photos", "component", "settles", "proved", "id", "was", "value",
}  # fmt: skip
"""Texts that are the name of something else, or a quantity: nobody can write them long."""
LONGEST_MADE = 5000
LOOKS = [("one word", "phone"), ("words", "phone"), ("words", "A4"), ("one word", "A4")]
"""Half of them show each shape and each page."""
SHAPES: dict[str, Callable[[int], str]] = {
    "one word": lambda size: "W" * size,
    "words": lambda size: ("word " * size)[: size - 1] + "s",
}


def texts(node: Any, loc: Loc = ()) -> Iterator[Loc]:
    """The place of every single entry."""
    if isinstance(node, str):
        yield loc
    for step, each in (
        node.items() if isinstance(node, dict) else enumerate(node) if isinstance(node, list) else ()
    ):
        yield from texts(each, (*loc, step))


def put(data: Any, loc: Loc, text: str) -> None:
    """Another text at a place."""
    for step in loc[:-1]:
        data = data[step]
    data[loc[-1]] = text


def read(name: str, data: Any = None) -> YamlFile:
    """The sheet of that name, or of such data."""
    text = (HERE / name).read_text("utf-8") if data is None else yaml.safe_dump(data, sort_keys=False)
    sheet = read_yaml(text, name, Ledger())
    assert sheet
    return sheet


def limited(name: str) -> Iterator[tuple[Loc, int]]:
    """Every text of a sheet with the most characters that it may have."""
    sheet = read(name)
    for loc in texts(sheet.data):
        if most := shape_of(SHEETS[name]).at(loc, sheet).get("maxLength"):
            yield loc, most


def test_every_text_of_the_format_has_a_limit() -> None:
    """But what has a pattern, a date's form or a few choices, which limit it as well."""
    without = []
    for model in SHEETS.values():
        schema = model.model_json_schema()
        for group, node in [("", schema), *schema["$defs"].items()]:
            for key, field in node.get("properties", {}).items():
                each = field.get("items", field)
                if each.get("type") == "string" and not each.keys() & {
                    "maxLength",
                    "enum",
                    "pattern",
                    "format",
                    "const",
                }:
                    without.append(f"{group}.{key}")
    assert without == []


@pytest.mark.parametrize("name", SHEETS)
def test_a_text_that_is_too_long_is_told_with_its_place(name: str) -> None:
    assert len(list(limited(name))) >= 30
    for (loc, most), shape in product(limited(name), SHAPES.values()):
        for size, count in ((most, 0), (most + 1, 1)):
            sheet = read(name)
            put(sheet.data, loc, shape(size))
            ledger = Ledger()
            validate(sheet, SHEETS[name], ledger)
            told = [each for each in ledger.problems if "is the most." in each.what]
            assert len(told) == count, loc
            assert all(
                (each.file, each.line, each.key) == (name, sheet.line(loc), sheet.key(loc)) for each in told
            )


def longest(folder: Path, shape: Callable[[int], str], **settings: str) -> Path:
    """A job folder with every text at its longest."""
    (folder / "photos").mkdir(parents=True)
    (folder / "documents").mkdir()
    Image.new("RGB", (160, 120), (90, 90, 120)).save(folder / "photos/a.jpg")
    (folder / "documents/d.pdf").write_text("x")
    for name in SHEETS:
        data = copy.deepcopy(read(name).data)
        for loc, most in limited(name):
            if not NAMES_SOMETHING & set(loc[-2:]) or loc[-1] in {"what", "by", "note"}:
                put(data, loc, shape(min(most, LONGEST_MADE)))
        data |= settings if name == "job.yaml" else {}
        (folder / name).write_text(yaml.safe_dump(data, sort_keys=False), "utf-8")
    rows = (HERE / "measurements.csv").read_text("utf-8")
    rows = rows.replace("top", shape(LONGER["at"])).replace("a note", shape(LONGER["note"]))
    (folder / "measurements.csv").write_text(rows, "utf-8")
    return folder


def test_a_cell_that_is_too_long_is_told(tmp_path: Path) -> None:
    folder = longest(tmp_path / "job", SHAPES["words"])
    file = folder / "measurements.csv"
    file.write_text(file.read_text("utf-8").replace("words,found", "words,found".rjust(90, "x")), "utf-8")
    with pytest.raises(JobError) as refused:
        pipeline.collect(folder, registry())
    close()
    assert [(each.line, each.key) for each in refused.value.problems] == [(2, "at")]
    assert "80 is the most" in refused.value.problems[0].what


@pytest.mark.slow
@pytest.mark.parametrize(("shape", "page"), share(LOOKS, 2))
def test_what_check_takes_is_laid_out(shape: str, page: str, tmp_path: Path) -> None:
    """In every kind of report and on the yard's sheet, with large letters, on paper and as a page for a screen."""
    for number, purpose in enumerate(sorted(registry().templates)):
        made = longest(tmp_path / f"job{number}", SHAPES[shape], purpose=purpose, page=page, text="large")
        for ending in ("pdf", "html"):
            pipeline.report(made, tmp_path / f"out.{ending}", registry(), tell=quiet)
    pipeline.work(made, tmp_path / "work.pdf", registry(), tell=quiet)
    visiting.sheet(made, tmp_path / "sheet.pdf", registry(), tell=quiet)
    close()


def test_what_fits_no_page_is_told_by_its_heading_and_first_words(tmp_path: Path) -> None:
    """Only a text that did not come through collecting gets there."""
    blank = Blank(label="Signature", value="Worn link by link " * 2000)
    made = report(Heading(level=1, text="Steering", anchor="s"), Signatures(blocks=((blank,),)))
    with pytest.raises(LayoutError) as refused:
        typeset(made, {}, tmp_path / "out.pdf")
    assert "Under “Steering” a piece is taller than a page" in str(refused.value)
    assert "“Worn link by link Worn" in str(refused.value)
