"""The field sheet as a file: a tagged form that two other libraries fill in, and that says what it belongs to."""

from __future__ import annotations

import json
import subprocess
from pathlib import Path

import pikepdf
import pypdf
import pypdfium2
import pytest

from reporter import pipeline
from reporter.archive import extract, read_form
from reporter.archive.verifying import find_faults
from reporter.asking import asked, asking_version
from reporter.asking.naming import field_name, steps_of
from reporter.errors import UsageError, VerificationError
from reporter.wording import catalogue
from tests.effort import WHOLE
from tests.sheet.making import REGISTRY, ROOT, fill_with_pdfium, fill_with_pikepdf, fill_with_pypdf, sheet_of
from tests.validator.verapdf import require, validate

pytestmark = pytest.mark.slow

DEMO = ROOT / "demo_job"
PAPERS = {"A4": (595.3, 841.9), "Letter": (612.0, 792.0), "A5": (419.5, 595.3)}


@pytest.fixture(scope="module")
def sheets(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Path]:
    """The demo's sheet on each paper (on Letter in German), in full, and empty."""
    folder = tmp_path_factory.mktemp("sheets")
    lang = {"Letter": "de"}
    made = {
        paper: sheet_of(DEMO, folder / f"{paper}.pdf", page=paper, lang=lang.get(paper, ""))
        for paper in PAPERS
    }
    made["all"] = sheet_of(DEMO, folder / "all.pdf", everything=True)
    made["empty"] = sheet_of(DEMO, folder / "empty.pdf", empty=True)
    return made


@pytest.fixture(scope="module")
def of_every_sort(
    sheets: dict[str, Path], small_job: Path, tmp_path_factory: pytest.TempPathFactory
) -> dict[str, Path]:
    """The demo's sheet, and those of a small job on every paper, in full and empty; of the demo all of them in a hunt."""
    folder = tmp_path_factory.mktemp("small_sheets")
    return {name: sheets[name] for name in (sheets if WHOLE else ["A4"])} | {
        "small A5": sheet_of(small_job, folder / "A5.pdf", page="A5"),
        "small Letter": sheet_of(small_job, folder / "Letter.pdf", page="Letter", lang="de"),
        "small all": sheet_of(small_job, folder / "all.pdf", everything=True),
        "small empty": sheet_of(small_job, folder / "empty.pdf", empty=True),
    }


def test_every_sheet_is_in_order_by_the_programs_own_check(of_every_sort: dict[str, Path]) -> None:
    found = {name: find_faults(path, is_form=True) for name, path in of_every_sort.items()}
    assert {name: faults for name, faults in found.items() if faults} == {}


def test_every_sheet_is_a_tagged_form_by_the_reference_validator(of_every_sort: dict[str, Path]) -> None:
    """ISO 14289-1."""
    found = validate(of_every_sort.values(), "ua1")
    assert len(found) == len(of_every_sort)
    assert {path.name: wrong for path, wrong in found.items() if wrong} == {}


def test_the_validator_notices_a_field_without_a_label(
    of_every_sort: dict[str, Path], tmp_path: Path
) -> None:
    """A control: a field that a screen reader cannot name, and one outside the tree (ISO 14289-1, 7.18.1 and 7.18.4)."""
    broken = tmp_path / "broken.pdf"
    with pikepdf.open(of_every_sort["small A5"]) as pdf:
        for field in pdf.Root.AcroForm.Fields:
            del field.TU
            field.Contents = pikepdf.String("")
        pdf.save(broken)
    assert validate([broken], "ua1")[broken.resolve()] != []


def test_it_does_not_claim_to_be_an_archive(sheets: dict[str, Path]) -> None:
    with pikepdf.open(sheets["A4"]) as pdf:
        said = pdf.open_metadata()
        assert said.get("pdfuaid:part") == "1"
        assert said.get("pdfaid:part") is None


@pytest.mark.parametrize("paper", sorted(PAPERS))
def test_it_has_the_paper_that_was_asked_for_and_nothing_beside_it(
    sheets: dict[str, Path], paper: str
) -> None:
    wide, high = PAPERS[paper]
    for page in pypdf.PdfReader(sheets[paper]).pages:
        assert (float(page.mediabox.width), float(page.mediabox.height)) == pytest.approx(
            (wide, high), abs=0.2
        )
        for note in page.get("/Annots", []):
            left, low, right, top = (float(edge) for edge in note.get_object()["/Rect"])
            assert 14 < left < right < wide - 14, "printers leave 5 mm white"
            assert 14 < low < top < high - 14


def test_the_demo_fits_fifteen_pages(sheets: dict[str, Path]) -> None:
    """Each question begins a line, where a hand finds it: that costs half as much paper again as a running text."""
    assert len(pypdf.PdfReader(sheets["A4"]).pages) <= 15


def test_the_same_folder_gives_the_same_bytes(sheets: dict[str, Path], tmp_path: Path) -> None:
    again = sheet_of(DEMO, tmp_path / "again.pdf", page="A5")
    assert again.read_bytes() == sheets["A5"].read_bytes()


def test_every_question_of_every_part_has_its_field(sheets: dict[str, Path]) -> None:
    """On a full sheet everything the kinds declare; no name twice; each name tells its part and question."""
    names = [each.name for each in read_form(sheets["all"]).fields]
    assert len(names) == len(set(names))
    told = {steps_of(name)[:3] for name in names}
    meaning = read_form(sheets["all"]).meaning
    for part in meaning["parts"]:
        plugin = REGISTRY.plugin(part["kind"])
        wanted = {(part["id"], "observed", each.id) for each in plugin.observations}
        wanted |= {(part["id"], "readings", each.id) for each in plugin.readings}
        wanted |= {(part["id"], "details", each.id) for each in plugin.details}
        wanted |= {(part["id"], "examined", each) for each in ("extent", "how", "because")}
        assert wanted <= told, part["id"]


def test_the_usual_sheet_asks_what_is_usual_and_applies(sheets: dict[str, Path]) -> None:
    job = pipeline.collect(DEMO, REGISTRY)
    told = {steps_of(each.name)[:3] for each in read_form(sheets["A4"]).fields}
    for part in job.components:
        form = asked(REGISTRY.plugin(part.kind), catalogue(), part, job)
        for block in form.blocks:
            for question in block.questions:
                if question.key[0] in {"observed", "readings"}:
                    there = (part.id, *question.key) in told
                    assert there is (question.asked and question.usual), (part.id, question.id)


def test_a_reading_has_a_cell_for_each_place_side_and_repeat(sheets: dict[str, Path]) -> None:
    names = {each.name for each in read_form(sheets["empty"]).fields}
    for place in ("on the sprocket amidships", "port run", "starboard run"):
        assert {
            field_name("chain", "readings", "span", f"@{place}", "-", repeat) for repeat in (1, 2, 3)
        } <= names
    assert {"chain/readings/links_left/-/port/1", "chain/readings/links_left/-/starboard/1"} <= names


def test_limits_and_last_time_stand_beside_the_cell(sheets: dict[str, Path]) -> None:
    text = subprocess.run(
        [require("pdftotext"), "-layout", str(sheets["A4"]), "-"], capture_output=True, text=True, check=True
    ).stdout
    told = " ".join(text.split())
    assert "under 1 link: first" in told
    assert "(last: 4 links; 3 links)" in told
    assert "Caution: Lash the wheel or chock the rudder" in told


def test_of_a_caution_only_its_word_is_bold(sheets: dict[str, Path]) -> None:
    """So that what is asked for leads the eye, and not a paragraph."""
    document = pypdfium2.PdfDocument(sheets["A4"])
    page = document[0].get_textpage()
    found = page.get_text_range()
    at = found.index("Caution: Lash the wheel")
    weights = [
        pypdfium2.raw.FPDFText_GetFontWeight(page, at + step)
        for step in (0, len("Caution: "), len("Caution: Lash"))
    ]
    document.close()
    assert weights[0] > weights[1] == weights[2]


def test_what_the_folder_says_is_filled_in_and_an_empty_sheet_is_empty(sheets: dict[str, Path]) -> None:
    told = {each.name: each.value for each in read_form(sheets["A4"]).fields}
    assert told["chain/readings/span/@top of the sprocket/-/2"] == "257.0"
    assert told["chain/observed/corrosion/1/surface"] == "on"
    assert told["chain/observed/corrosion/1/none"] == ""
    assert told["chain/observed/corrosion/1/at"] == "top of the sprocket"
    assert told["engine-controls/examined/extent/part_seen"] == "on"
    assert all(each.value == "" for each in read_form(sheets["empty"]).fields)


def test_it_says_which_job_and_which_kinds_it_belongs_to(sheets: dict[str, Path], tmp_path: Path) -> None:
    (file,) = extract(sheets["A4"], tmp_path / "out")
    meaning = json.loads(file.read_text("utf-8"))
    assert (meaning["report"], meaning["vessel"]) == ("RT-2026-014", "Marram")
    assert meaning["kinds"]["chain"] == asking_version(REGISTRY.plugin("chain"))
    assert meaning["parts"][0] | {} == {
        "id": "wheel", "kind": "wheel", "name": "Wheel and shaft", "place": "cockpit, after end", "group": "", "side": "", "listed": True,
    }  # fmt: skip


def test_a_kind_that_asks_otherwise_has_another_version() -> None:
    plugin = REGISTRY.plugin("chain")
    assert asking_version(plugin.model_copy(update={"title": "Chain"})) == asking_version(plugin)
    assert asking_version(plugin.model_copy(update={"readings": plugin.readings[1:]})) != asking_version(
        plugin
    )


VALUES = {
    "chain/readings/span/@port run/-/1": "254.5 ± 0.5",
    "chain/observed/corrosion/1/pitted": "on",
    "chain/observed/corrosion/1/at": "lower side, Größe ½",
    "chain/details/pitch": "12.7",
    "chain/details/pitch/basis": "measured",
    "chain/found": "two lines\nof a note (with brackets) \\ and so on",
    "chain/examined/how/hand": "on",
}


@pytest.mark.parametrize("fill", [fill_with_pikepdf, fill_with_pypdf, fill_with_pdfium])
def test_another_library_fills_it_in_and_it_comes_back_equal(
    sheets: dict[str, Path], tmp_path: Path, fill: object
) -> None:
    filled = fill(sheets["empty"], tmp_path / "filled.pdf", VALUES)  # type: ignore[operator]
    changed = {each.name: each.value for each in read_form(filled).fields if each.changed}
    assert changed == VALUES


def test_a_field_says_its_page_and_its_label(sheets: dict[str, Path]) -> None:
    fields = {each.name: each for each in read_form(sheets["A4"]).fields}
    assert fields["wheel/examined/extent/seen"].page == 1
    assert fields["chain/readings/span/@top of the sprocket/-/1"].label == (
        "3 Steering chain and sprocket: Length over the pitches, top of the sprocket, 1, mm"
    )
    assert max(each.page for each in fields.values()) == len(pypdf.PdfReader(sheets["A4"]).pages)


def test_what_is_no_sheet_is_refused(sheets: dict[str, Path], tmp_path: Path) -> None:
    with pytest.raises(UsageError):
        read_form(tmp_path / "none.pdf")
    (tmp_path / "text.pdf").write_text("no PDF")
    with pytest.raises(VerificationError):
        read_form(tmp_path / "text.pdf")
    with pikepdf.open(sheets["A5"]) as pdf:
        for page in pdf.pages:
            del page.obj.Annots
        pdf.save(tmp_path / "flat.pdf")
    with pytest.raises(VerificationError, match="holds no fields"):
        read_form(tmp_path / "flat.pdf")
    with pikepdf.new() as pdf:
        pdf.add_blank_page()
        pdf.save(tmp_path / "blank.pdf")
    with pytest.raises(VerificationError, match="does not say which job"):
        read_form(tmp_path / "blank.pdf")
