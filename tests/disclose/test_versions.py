"""Versions for others: what is left out is nowhere in the file, the grades are the same, and the page says that it was cut.

The list of what must be gone is written by hand from the demo's own files, not by the program that takes it out; a control holds
that each of them stands in the complete report.
"""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import pikepdf
import pypdfium2
import pytest

from reporter import pipeline
from reporter.archive import data_of
from reporter.disclose import leave_out, must_be_absent
from reporter.door import close
from reporter.errors import DisclosureError
from reporter.model.assessment import Assessments
from reporter.model.sealed import data_hash, grouped
from reporter.model.template import AUDIENCES, RULES, Rule, Template
from reporter.outline import outline
from reporter.registry import Registry, find, load

pytestmark = pytest.mark.slow
ROOT = Path(__file__).parents[2]
PHOTO = 'caption: "Brake band on its drum'
PEOPLE = ["Lindqvar", "Mateus", "Carvell"]
TOLD = ["renewed together in 2016", "no invoice seen", "the owner's memory, no invoice"]
AUTHOR = ["Rowan", "Teale", "Kiln Row", "professional indemnity"]
PLACES = ["Skerrow", "berth C14", "Ostrand"]
BOAT = ["Marram", "MRM04017C404"]
SHOWN = ["Brake band on its drum", "brake.jpg"]
GONE = {
    "buyer": [*PEOPLE, *TOLD, *SHOWN],
    "public": [*PEOPLE, *TOLD, *SHOWN, *AUTHOR, *PLACES, *BOAT],
}
NOT_PRINTED = {"no invoice seen", "the owner's memory, no invoice", "Ostrand", "brake.jpg"}
"""Of these the control asks for the complete file as well: its data carry them, if its pages do not."""


@dataclass(frozen=True)
class Version:
    """A finished file and what was graded for it."""

    file: Path
    graded: Assessments


@pytest.fixture(scope="module")
def registry() -> Registry:
    return load(find())


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demo, with one photo said to show people."""
    place = tmp_path_factory.mktemp("cut") / "job"
    shutil.copytree(ROOT / "demo_job", place)
    sheet = place / "findings.yaml"
    text = sheet.read_text("utf-8")
    assert text.count(PHOTO) == 1
    sheet.write_text(text.replace(PHOTO, f"holds: [people]\n        {PHOTO}"), "utf-8")
    return place


@pytest.fixture(scope="module")
def versions(folder: Path, registry: Registry) -> Iterator[dict[str, Version]]:
    made = {}
    for audience in ("", *AUDIENCES):
        target = folder.parent / f"{audience or 'complete'}.pdf"
        graded = pipeline.report(folder, target, registry, audience=audience, tell=lambda _step: None)
        made[audience] = Version(target, graded)
    yield made
    close()


def everything(file: Path) -> str:
    """All that can be read in the file: pages as another reader extracts them, every stream unpacked, every string, as text."""
    with pypdfium2.PdfDocument(file) as pdf:
        pages = [page.get_textpage().get_text_bounded() for page in pdf]
    found = [" ".join(" ".join(pages).split())]
    with pikepdf.open(file) as pdf:
        for each in pdf.objects:
            if isinstance(each, pikepdf.Stream):
                filters = str(each.get("/Filter", ""))
                raw = each.read_raw_bytes() if "DCT" in filters else each.read_bytes()
                found += [
                    raw.decode("utf-8", "replace"),
                    raw.decode("latin-1"),
                    raw.decode("utf-16-be", "replace"),
                ]
            found.append(" ".join(_strings(each)))
        found.append(" ".join(_strings(pdf.trailer.Info)))
    return "\n".join(found)


def _strings(value: object) -> Iterator[str]:
    if isinstance(value, pikepdf.String):
        yield str(value)
    elif isinstance(value, pikepdf.Dictionary | pikepdf.Stream):
        for entry in value.values():
            if not getattr(entry, "is_indirect", False):
                yield from _strings(entry)
    elif isinstance(value, pikepdf.Array):
        for entry in value:
            if not getattr(entry, "is_indirect", False):
                yield from _strings(entry)


@pytest.mark.parametrize("audience", AUDIENCES)
def test_what_is_left_out_is_nowhere_in_the_file(audience: str, versions: dict[str, Version]) -> None:
    said = everything(versions[audience].file).lower()
    assert [words for words in GONE[audience] if words.lower() in said] == []


def test_the_complete_report_has_all_of_it(versions: dict[str, Version]) -> None:
    """The control: the search finds what is there."""
    said = everything(versions[""].file).lower()
    wanted = {words for words in GONE["public"] if words not in NOT_PRINTED}
    assert [words for words in wanted if words.lower() not in said] == []


def test_the_data_of_the_complete_report_have_the_rest(versions: dict[str, Version]) -> None:
    data = b"".join(data_of(versions[""].file).values()).decode()
    said = " ".join(data.split())
    assert [
        words
        for words in NOT_PRINTED - {"Ostrand"}
        if words.replace("'", "''") not in said and words not in said
    ] == []


@pytest.mark.parametrize("audience", AUDIENCES)
def test_every_grade_is_the_same(audience: str, versions: dict[str, Version]) -> None:
    def grades(version: Version) -> list[tuple[str, str, str]]:
        return [(part.component.id, part.grade, part.computed) for part in version.graded.components]

    assert grades(versions[audience]) == grades(versions[""])


@pytest.mark.parametrize("audience", AUDIENCES)
def test_the_first_page_says_what_kind_of_thing_was_left_out(
    audience: str, versions: dict[str, Version]
) -> None:
    with pypdfium2.PdfDocument(versions[audience].file) as pdf:
        first = " ".join(pdf[0].get_textpage().get_text_bounded().split())
    assert "This version does not tell everything." in first
    assert "RT-2026-014" in first
    assert ("the attached data" in first) == (audience == "public")


def test_the_complete_report_says_no_such_thing(versions: dict[str, Version]) -> None:
    assert "does not tell everything" not in everything(versions[""].file)


def test_a_photo_of_people_is_gone_with_its_pixels_and_its_line(versions: dict[str, Version]) -> None:
    pictures = {audience: _pictures(version.file) for audience, version in versions.items()}
    assert len(pictures[""]) > len(pictures["buyer"]) == len(pictures["public"])
    assert pictures["buyer"] < pictures[""]
    register = data_of(versions["buyer"].file)["photo_register.csv"].decode()
    assert "photos/chain_dry.jpg" in register
    assert "brake" not in register


def _pictures(file: Path) -> set[bytes]:
    with pikepdf.open(file) as pdf:
        return {
            each.read_raw_bytes()
            for each in pdf.objects
            if isinstance(each, pikepdf.Stream) and each.get("/Subtype") == "/Image"
        }


def test_a_buyer_gets_data_and_the_public_none(versions: dict[str, Version]) -> None:
    assert set(data_of(versions["buyer"].file)) == set(data_of(versions[""].file))
    assert data_of(versions["public"].file) == {}


def test_the_data_of_a_cut_version_grade_as_before(versions: dict[str, Version]) -> None:
    from reporter.proving.regrading import carried

    told = carried(str(versions["buyer"].file))
    close()
    assert [each.id for each in told.evidence.remarks] == ["verify.data", "verify.regraded"]
    assert told.evidence.agrees
    assert told.audience == "buyer"


@pytest.mark.parametrize("audience", AUDIENCES)
def test_a_cut_version_is_made_again_from_the_folder(
    audience: str, folder: Path, versions: dict[str, Version]
) -> None:
    from reporter.model.sealed import ProofOutcome
    from reporter.proving import prove

    proof = prove(versions[audience].file, folder)
    assert proof.outcome is ProofOutcome.UNSEALED
    assert "verify.remade" in {each.id for each in proof.remarks}


def test_where_the_data_are_the_same_the_number_is(
    folder: Path, registry: Registry, versions: dict[str, Version]
) -> None:
    """A version that leaves out nothing but the attachment bears the complete report's number; one that cuts names does not."""
    whole = data_hash(data_of(versions[""].file))
    assert grouped(whole) in everything(versions[""].file)
    assert _number(folder, registry, ("data",)) == whole
    assert _number(folder, registry, ("data", "names")) != whole


def _number(folder: Path, registry: Registry, rules: tuple[str, ...]) -> str:
    """The number that a version bears which carries nothing."""
    chosen: Template = registry.template("pre_purchase").model_copy(update={"leaves_out": rules})
    job = leave_out(pipeline.collect(folder, registry), chosen.leaves_out)
    close()
    report = outline(job, pipeline.grade(job, registry, chosen), chosen, registry)
    assert report.attachments == ()
    at = next(
        place for place, block in enumerate(report.blocks) if getattr(block, "anchor", "") == "fingerprint"
    )
    text = report.blocks[at + 2]
    assert text.kind == "paragraph"
    return text.text[0].text.replace(" ", "")


def test_a_template_can_leave_out_by_itself(folder: Path, registry: Registry) -> None:
    chosen = registry.template("pre_purchase").model_copy(update={"leaves_out": ("boat",)})
    file = folder.parent / "by_template.pdf"
    pipeline.report(folder, file, registry, chosen, tell=lambda _step: None)
    close()
    assert not [words for words in BOAT if words.lower() in everything(file).lower()]


def test_what_still_stands_in_the_report_is_refused(folder: Path, registry: Registry) -> None:
    """The last look before the file is written, with a report from which nothing was taken."""
    job = pipeline.collect(folder, registry)
    close()
    chosen = registry.template("pre_purchase")
    report = outline(job, pipeline.grade(job, registry, chosen), chosen, registry)
    rules: tuple[Rule, ...] = ("names",)
    with pytest.raises(DisclosureError, match="Mateus Lindqvar"):
        must_be_absent(report, job, rules)
    must_be_absent(report, job, ())


def test_every_rule_belongs_to_the_public_and_none_is_told_twice() -> None:
    assert set(AUDIENCES["public"]) == set(RULES)
    assert all(len(set(rules)) == len(rules) for rules in AUDIENCES.values())


def test_photos_of_the_boat_go_with_her_name(folder: Path, registry: Registry) -> None:
    """Whole boat and number on her hull tell which boat it is; the others stay."""
    job = pipeline.collect(folder, registry)
    names = [photo.name for photo in job.photos]
    vessel = job.sheet.vessel.model_copy(update={"photo": names[0], "hull_number_photo": names[1]})
    shown = job.model_copy(update={"sheet": job.sheet.model_copy(update={"vessel": vessel})})
    assert {photo.name for photo in leave_out(shown, {"told"}).photos} == set(names)
    cut = leave_out(shown, {"boat"})
    assert {photo.name for photo in cut.photos} == set(names[2:])
    assert not cut.sheet.vessel.photos
