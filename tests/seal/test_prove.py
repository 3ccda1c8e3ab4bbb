"""A received file against its seals, its own data and a folder: every verdict, and what each rests on.

The folder is a small one of the tests of history; it is signed by whoever hands over and whoever takes over.
"""

from __future__ import annotations

import json
import zlib
from collections.abc import Callable
from dataclasses import dataclass
from io import BytesIO
from pathlib import Path

import pikepdf
import pytest

from reporter import pipeline
from reporter.door import close
from reporter.model.sealed import Proof, ProofOutcome
from reporter.proving import prove
from reporter.registry import find, load
from reporter.seal import add_signature
from tests.history.folders import findings, write
from tests.seal.made import AUTHOR, RECEIVER, Made

pytestmark = pytest.mark.slow


@dataclass(frozen=True)
class Case:
    """A folder, its report, and the report sealed and signed by both."""

    folder: Path
    plain: bytes
    signed: bytes


@pytest.fixture(scope="module")
def case(signed: Made, tmp_path_factory: pytest.TempPathFactory) -> Case:
    place = tmp_path_factory.mktemp("case")
    folder = write(place / "job", number="H-1", day="2025-05-03", findings_text=findings("chain"))
    target = place / "report.pdf"
    pipeline.report(folder, target, load(find()), tell=lambda _step: None)
    close()
    unsealed = target.read_bytes()
    return Case(folder, unsealed, both(unsealed, signed))


def both(document: bytes, signed: Made) -> bytes:
    sealed = add_signature(document, signed.keys[AUTHOR])
    return add_signature(sealed, signed.keys[RECEIVER], "received")


def fingerprints(signed: Made) -> set[str]:
    return {signed.keys[name].fingerprint for name in (AUTHOR, RECEIVER)}


def told(proof: Proof) -> set[str]:
    return {each.id.removeprefix("verify.") for each in proof.remarks}


def proven(document: bytes, folder: Path, **options: object) -> Proof:
    file = folder / "received.pdf"
    file.write_bytes(document)
    return prove(file, **options)  # type: ignore[arg-type]


def rebuilt(document: bytes, change: Callable[[pikepdf.Pdf], None]) -> bytes:
    """The unsealed report as somebody might change it before it is sealed."""
    out = BytesIO()
    with pikepdf.open(BytesIO(document)) as pdf:
        change(pdf)
        pdf.save(out, fix_metadata_version=False)
    return out.getvalue()


def test_all_agrees(case: Case, signed: Made, tmp_path: Path) -> None:
    proof = proven(case.signed, tmp_path, job=case.folder, known=fingerprints(signed), expected=2)
    assert proof.outcome is ProofOutcome.VERIFIED
    assert told(proof) == {
        "covered",
        "report",
        "revision",
        "sealed",
        "signed",
        "known",
        "data",
        "regraded",
        "photos",
        "remade",
    }


def test_who_keeps_no_fingerprint_has_a_limit(case: Case, signed: Made, tmp_path: Path) -> None:
    kept = {signed.keys[AUTHOR].fingerprint}
    proof = proven(case.signed, tmp_path, known=kept)
    assert proof.outcome is ProofOutcome.LIMITED
    assert {"known", "unknown"} <= told(proof)
    assert proof.known == tuple(kept)


@pytest.mark.parametrize("expected", [1, 3])
def test_another_number_of_signatures_than_expected(
    expected: int, case: Case, signed: Made, tmp_path: Path
) -> None:
    proof = proven(case.signed, tmp_path, known=fingerprints(signed), expected=expected)
    assert proof.outcome is ProofOutcome.CHANGED
    assert "count" in told(proof)


def test_a_photo_of_the_folder_has_changed(case: Case, signed: Made, tmp_path: Path) -> None:
    folder = write(tmp_path / "job", number="H-1", day="2025-05-03", findings_text=findings("chain"))
    with (folder / "photos/chain_dry.jpg").open("ab") as photo:
        photo.write(b"\0")
    proof = proven(case.signed, tmp_path, job=folder, known=fingerprints(signed))
    assert proof.outcome is ProofOutcome.CHANGED
    assert {"photos_not", "remade_not"} <= told(proof)


def test_a_reading_of_the_folder_has_changed(case: Case, signed: Made, tmp_path: Path) -> None:
    folder = write(
        tmp_path / "job", number="H-1", day="2025-05-03", findings_text=findings("chain"), top=509.5
    )
    proof = proven(case.signed, tmp_path, job=folder, known=fingerprints(signed))
    assert proof.outcome is ProofOutcome.CHANGED
    assert {"photos", "remade_not"} <= told(proof)


def test_assessments_that_do_not_follow_from_the_data(case: Case, signed: Made, tmp_path: Path) -> None:
    """Sealed by its own author, and yet not what the program gives of these readings."""

    def milder(pdf: pikepdf.Pdf) -> None:
        data = json.loads(pdf.attachments["assessments.json"].get_file().read_bytes())
        data["components"][0]["grade"] = "clear" if data["components"][0]["grade"] != "clear" else "watch"
        pdf.attachments["assessments.json"].obj.EF.F.write(json.dumps(data).encode())

    proof = proven(both(rebuilt(case.plain, milder), signed), tmp_path, known=fingerprints(signed))
    assert proof.outcome is ProofOutcome.CHANGED
    (fault,) = [each for each in proof.remarks if each.id == "verify.regraded_not"]
    assert fault.words == {"parts": "components"}


def test_another_version_is_not_compared(case: Case, signed: Made, tmp_path: Path) -> None:
    def older(pdf: pikepdf.Pdf) -> None:
        pdf.docinfo["/Creator"] = "gudgeon 0.0.9"

    proof = proven(
        both(rebuilt(case.plain, older), signed), tmp_path, job=case.folder, known=fingerprints(signed)
    )
    assert proof.outcome is ProofOutcome.LIMITED
    assert "version" in told(proof)
    assert not {"regraded", "regraded_not", "remade", "remade_not"} & told(proof)


def test_a_report_without_data_has_a_limit(case: Case, signed: Made, tmp_path: Path) -> None:
    def bare(pdf: pikepdf.Pdf) -> None:
        for name in list(pdf.attachments):
            del pdf.attachments[name]

    proof = proven(both(rebuilt(case.plain, bare), signed), tmp_path, known=fingerprints(signed))
    assert proof.outcome is ProofOutcome.LIMITED
    assert "no_data" in told(proof)
    assert proof.data == ""


def test_a_strangers_attachment_is_no_fault_of_the_program(case: Case, signed: Made, tmp_path: Path) -> None:
    def foreign(pdf: pikepdf.Pdf) -> None:
        pdf.attachments["run.sh"] = b"echo"

    proof = proven(both(rebuilt(case.plain, foreign), signed), tmp_path, known=fingerprints(signed))
    assert proof.outcome is ProofOutcome.LIMITED
    assert "ungraded" in told(proof)


def test_an_unsealed_report(case: Case, tmp_path: Path) -> None:
    proof = proven(case.plain, tmp_path, job=case.folder)
    assert proof.outcome is ProofOutcome.UNSEALED
    assert {"unsealed", "data", "regraded", "photos", "remade"} == told(proof)


def test_a_broken_seal_is_changed_and_no_name_is_believed(case: Case, signed: Made, tmp_path: Path) -> None:
    other = case.signed.replace(b"/Lang (en)", b"/Lang (de)")
    proof = proven(other, tmp_path, known=fingerprints(signed))
    assert proof.outcome is ProofOutcome.CHANGED
    assert "broken" in told(proof)
    assert not {"covered", "sealed", "signed", "known"} & told(proof)


BOMB = zlib.compress(bytes(400_000_000), 9)
HOSTILE = {
    "empty": b"",
    "text": b"Dear reader",
    "cut": b"%PDF-1.7\n1 0 obj\n<<",
    "nested": b"%PDF-1.7\n1 0 obj\n" + b"[" * 200_000 + b"\nendobj\nstartxref\n9\n%%EOF\n",
    "loop": b"%PDF-1.7\n1 0 obj\n<</Type/XRef/Size 2/W[1 1 1]/Root 1 0 R/Prev 9/Length 0>>\nstream\n\nendstream\nendobj\nstartxref\n9\n%%EOF\n",
    "bomb": b"%%PDF-1.7\n1 0 obj\n<</Type/XRef/Size 400000000/W[1 1 1]/Root 1 0 R/Filter/FlateDecode/Length %d>>\nstream\n%s\nendstream\nendobj\nstartxref\n9\n%%%%EOF\n"
    % (len(BOMB), BOMB),
}


@pytest.mark.parametrize("name", HOSTILE)
def test_a_file_that_cannot_be_read_is_told_as_one(name: str, tmp_path: Path) -> None:
    proof = proven(HOSTILE[name], tmp_path)
    assert proof.outcome is ProofOutcome.UNREADABLE
    assert told(proof) == {"unreadable"}


def test_a_file_larger_than_a_worker_may_hold_is_too_much(tmp_path: Path) -> None:
    """Four gibibytes of nothing, which take no room on the disk; the worker may have three."""
    file = tmp_path / "large.pdf"
    with file.open("wb") as out:
        out.truncate(4 * 1024**3)
    proof = prove(file)
    assert proof.outcome is ProofOutcome.UNREADABLE
    assert told(proof) == {"too_much"}
