"""Every attack on a sealed report that was found to pass a reader, or that a list of rules might forget: each is caught."""

from __future__ import annotations

from io import BytesIO
from pathlib import Path
from typing import Any

import pikepdf
import pytest
from pyhanko.pdf_utils.incremental_writer import IncrementalPdfFileWriter
from pyhanko.pdf_utils.reader import PdfFileReader
from pyhanko.sign import PdfSignatureMetadata, PdfSigner
from pyhanko.sign.fields import MDPPerm, SigSeedSubFilter
from pyhanko.stamp import TextStampStyle

from reporter.model.sealed import SealInspection
from reporter.seal import add_signature, inspect
from reporter.seal.revisions import Revision, whole_faults
from reporter.seal.sealing import _signer, _Strokes, _Style
from tests.seal.attacks import ATTACKS, HIDDEN, Attack, alone, with_signature
from tests.seal.made import AUTHOR, INK, RECEIVER, STRANGER, Made, key_of, report, written

pytestmark = pytest.mark.slow


def told(document: bytes, folder: Path) -> SealInspection:
    (folder / "file.pdf").write_bytes(document)
    return inspect(str(folder / "file.pdf"))


def faults(document: bytes, folder: Path) -> set[str]:
    return {each.id for each in told(document, folder).faults}


@pytest.mark.parametrize("name", ["sealed", "received", "witnessed"])
def test_a_file_that_nobody_touched_has_no_fault(name: str, signed: Made, tmp_path: Path) -> None:
    """The control of all others."""
    assert faults(getattr(signed, name), tmp_path) == set()


@pytest.mark.parametrize("begun", ["sealed", "received"])
@pytest.mark.parametrize("attack", ATTACKS, ids=lambda attack: attack.name)
def test_an_update_of_its_own_is_caught(attack: Attack, begun: str, signed: Made, tmp_path: Path) -> None:
    assert attack.told in faults(alone(getattr(signed, begun), attack), tmp_path)


def test_a_strangers_signature_alone_is_allowed(signed: Made, tmp_path: Path) -> None:
    """The control: anybody may sign an empty field, and is told by fingerprint."""
    found = told(with_signature(signed.received, None, signed.keys[STRANGER]), tmp_path)
    assert found.faults == ()
    assert found.signatures[-1].name == STRANGER


@pytest.mark.parametrize("begun", ["sealed", "received"])
@pytest.mark.parametrize("attack", HIDDEN, ids=lambda attack: attack.name)
def test_an_update_with_a_strangers_signature_is_caught(
    attack: Attack, begun: str, signed: Made, tmp_path: Path
) -> None:
    own = {
        "label_changed": "field_changed",
        "witness_enlarged": "field_changed",
        "field_over_page": "fields_changed",
    }
    found = faults(with_signature(getattr(signed, begun), attack, signed.keys[STRANGER]), tmp_path)
    assert f"verify.{own.get(attack.name, 'revision_beyond')}" in found


def test_words_where_a_line_belongs_are_caught(signed: Made, tmp_path: Path) -> None:
    """The library's own stamp: who signed and when in a font, which the page does not need and PDF/A refuses."""
    stamped = with_signature(signed.sealed, None, signed.keys[STRANGER], style=TextStampStyle())
    assert "verify.revision_beyond" in faults(stamped, tmp_path)


def test_other_operators_than_a_lines_are_caught(signed: Made, tmp_path: Path) -> None:
    class Form(_Strokes):
        def render(self) -> bytes:
            return b"/Im0 Do"

    class Style(_Style):
        def create_stamp(self, writer: Any, box: Any, _params: Any) -> Form:
            return Form(writer, self, box)

    drawn = with_signature(signed.sealed, None, signed.keys[STRANGER], style=Style())
    assert faults(drawn, tmp_path) == {"verify.appearance"}


@pytest.mark.parametrize(
    ("allowed", "told"),
    [
        (MDPPerm.FILL_FORMS, set()),
        (MDPPerm.NO_CHANGES, {"verify.dictionary"}),
        (MDPPerm.ANNOTATE, {"verify.dictionary"}),
    ],
)
def test_a_seal_allows_signatures_and_nothing_else(
    allowed: MDPPerm, told: set[str], signed: Made, tmp_path: Path
) -> None:
    """ISO 32000-1, table 254: 1 would forbid the others to sign, 3 would let anybody write notes on it."""
    sealed = with_signature(
        signed.plain, None, signed.keys[AUTHOR], "author", certify=True, docmdp_permissions=allowed
    )
    assert faults(sealed, tmp_path) == told


@pytest.mark.parametrize(
    ("name", "told"),
    [("open_action", "catalogue"), ("data_cut_off", "catalogue"), ("orphan", "revision_beyond")],
)
def test_the_seals_own_revision_is_held_to_the_rules_too(
    name: str, told: str, signed: Made, tmp_path: Path
) -> None:
    attack = next(each for each in ATTACKS if each.name == name)
    rule = MDPPerm.FILL_FORMS
    sealed = with_signature(
        signed.plain, attack, signed.keys[AUTHOR], "author", certify=True, docmdp_permissions=rule
    )
    assert f"verify.{told}" in faults(sealed, tmp_path)


def test_a_reason_that_the_reader_is_not_shown_is_caught(signed: Made, tmp_path: Path) -> None:
    reasoned = with_signature(signed.sealed, None, signed.keys[STRANGER], reason="I disagree")
    assert faults(reasoned, tmp_path) == {"verify.dictionary"}


def test_metadata_rewritten_with_a_signature_are_caught(signed: Made, tmp_path: Path) -> None:
    """What the library writes by itself: its own name and the time in title and metadata."""
    described = PdfSignatureMetadata(
        field_name="witness", md_algorithm="sha256", subfilter=SigSeedSubFilter.PADES
    )
    out, writer = BytesIO(), IncrementalPdfFileWriter(BytesIO(signed.received))
    signer = PdfSigner(described, _signer(signed.keys[STRANGER]), stamp_style=_Style())
    signer.sign_pdf(writer, existing_fields_only=True, output=out)
    assert "verify.revision_beyond" in faults(out.getvalue(), tmp_path)


@pytest.mark.parametrize("junk", [b" ", b"\n", b"% a comment\n", b"junk", b"% a comment\n%%EOF\n"])
def test_bytes_after_the_end_are_caught(junk: bytes, signed: Made, tmp_path: Path) -> None:
    try:
        found = faults(signed.sealed + junk, tmp_path)
    except Exception:  # noqa: BLE001 - a file that cannot be read is caught as well
        return
    assert found


def test_a_byte_before_the_beginning_is_caught(signed: Made, tmp_path: Path) -> None:
    try:
        found = faults(b" " + signed.sealed, tmp_path)
    except Exception:  # noqa: BLE001
        return
    assert found


def test_a_file_rewritten_by_another_program_is_caught(signed: Made, tmp_path: Path) -> None:
    with pikepdf.open(BytesIO(signed.sealed)) as pdf:
        pdf.save(tmp_path / "rewritten.pdf")
    found = faults((tmp_path / "rewritten.pdf").read_bytes(), tmp_path)
    assert "verify.signed_in_report" in found


def test_a_report_signed_before_it_is_sealed_is_no_sealed_report(signed: Made, tmp_path: Path) -> None:
    first = with_signature(signed.plain, None, signed.keys[STRANGER], field="received")
    assert "verify.not_sealed_first" in faults(first, tmp_path)


def test_the_author_removed_and_a_stranger_signed_is_not_one_good_signature(
    signed: Made, tmp_path: Path
) -> None:
    unsigned = next(each for each in ATTACKS if each.name == "author_unsigned")
    found = told(with_signature(alone(signed.sealed, unsigned), None, signed.keys[STRANGER]), tmp_path)
    assert "verify.revision_unsigned" in {each.id for each in found.faults}


def test_cut_back_to_an_earlier_revision_only_the_count_shows_it(signed: Made, tmp_path: Path) -> None:
    """The file is whole in itself: what is caught is that a signature is missing that the reader expects."""
    found = told(signed.received, tmp_path)
    cut = signed.received[: found.signatures[0].ends]
    assert cut == signed.sealed
    assert told(cut, tmp_path).faults == ()
    assert (len(found.signatures), len(told(cut, tmp_path).signatures)) == (2, 1)
    assert told(cut, tmp_path).empty == ("received", "witness")


def test_rebuilt_and_sealed_in_the_same_name_has_another_fingerprint(signed: Made, tmp_path: Path) -> None:
    forger = key_of(tmp_path, AUTHOR)
    other = add_signature(written(report("The wire is whole."), tmp_path), forger, ink=INK)
    forged, true = told(other, tmp_path).signatures[0], told(signed.sealed, tmp_path).signatures[0]
    assert forged.name == true.name == AUTHOR
    assert forged.fingerprint != true.fingerprint == signed.keys[AUTHOR].fingerprint


def test_a_signature_moved_to_another_report_does_not_fit(signed: Made, tmp_path: Path) -> None:
    """The same length, another word on the page."""
    other = signed.sealed.replace(b"/Lang (en)", b"/Lang (de)")
    assert other != signed.sealed
    assert "verify.broken" in faults(other, tmp_path)


def test_a_name_with_control_characters_cannot_steer_a_terminal(signed: Made, tmp_path: Path) -> None:
    key = key_of(tmp_path, "Rowan\x1b[2J\nTeale")
    assert (
        told(add_signature(signed.sealed, key, "received"), tmp_path).signatures[1].name == "Rowan [2J Teale"
    )


def test_who_received_cannot_take_the_authors_field(signed: Made, tmp_path: Path) -> None:
    found = told(add_signature(signed.sealed, signed.keys[RECEIVER], "received"), tmp_path)
    assert [(each.field, each.name) for each in found.signatures] == [
        ("author", AUTHOR),
        ("received", RECEIVER),
    ]


def test_a_signature_over_somebodys_addition_is_caught(signed: Made, tmp_path: Path) -> None:
    """A comment after the last revision, then a signature that covers it."""
    over = with_signature(signed.received + b"% the wire is whole\n", None, signed.keys[STRANGER])
    assert {"verify.revision_gap", "verify.contents"} <= faults(over, tmp_path)


@pytest.mark.parametrize(
    ("old", "new"), [(b"endobj\n\nstartxref", b"endobj\n%startxref"), (b" 0 obj\n<<", b" 0 obx\n<<")]
)
def test_bytes_of_a_revision_that_belong_to_nothing_are_caught(old: bytes, new: bytes, signed: Made) -> None:
    """The rule by itself: where the bytes are changed the signature would break as well."""
    reader = PdfFileReader(BytesIO(signed.sealed))
    start = Revision(signed.sealed, reader, 1).start
    changed = signed.sealed[:start] + signed.sealed[start:].replace(old, new, 1)
    for document, told_of in ((signed.sealed, []), (changed, ["verify.revision_loose"])):
        revision = Revision(document, reader, 1)
        assert [
            each.id for each in whole_faults(document, [revision], ["author", "received", "witness"])
        ] == told_of
