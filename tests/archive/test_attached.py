"""Attached data: what goes in comes out under our names, and a stranger's file places nothing elsewhere."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pikepdf
import pytest
from pikepdf import AttachedFileSpec, Name

from reporter.archive import attached, data_of, extract, origin, read_form
from reporter.errors import CannotWriteError, ExitCode, UsageError, VerificationError
from tests.archive.broken import Broken
from tests.archive.marked import REPORT


def test_what_goes_in_comes_out(good: Path, tmp_path: Path) -> None:
    paths = extract(good, tmp_path / "new" / "folder")
    assert {path.name: path.read_bytes() for path in paths} == {
        attachment.name: attachment.content for attachment in REPORT.attachments
    }
    assert sorted(paths) == sorted((tmp_path / "new" / "folder").iterdir())


def test_the_files_say_what_they_are(good: Path) -> None:
    with pikepdf.open(good) as pdf:
        said = {
            str(file.UF): (str(file.AFRelationship), str(file.EF.F.Subtype), str(file.Desc))
            for file in pdf.Root.AF
        }
    assert said == {
        "job.yaml": ("/Source", "/application/yaml", "Job data"),
        "measurements.csv": ("/Data", "/text/csv", "Readings as printed"),
    }


def test_nothing_is_overwritten(good: Path, tmp_path: Path) -> None:
    (tmp_path / "measurements.csv").write_text("mine")
    with pytest.raises(CannotWriteError, match=r"measurements\.csv exists already") as caught:
        extract(good, tmp_path)
    assert caught.value.exit_code == ExitCode.CANNOT_WRITE
    assert [path.name for path in tmp_path.iterdir()] == ["measurements.csv"]
    assert (tmp_path / "measurements.csv").read_text() == "mine"


def test_a_dangling_link_is_not_followed(good: Path, tmp_path: Path) -> None:
    folder = tmp_path / "folder"
    folder.mkdir()
    (folder / "job.yaml").symlink_to(tmp_path / "elsewhere")
    with pytest.raises(CannotWriteError):
        extract(good, folder)
    assert not (tmp_path / "elsewhere").exists()


def test_a_write_that_fails_half_way_leaves_nothing(
    good: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    real = Path.open

    def fail_on_second(path: Path, mode: str = "r") -> object:
        if path.name == "measurements.csv":
            raise OSError(28, "No space left on device")
        return real(path, mode)

    monkeypatch.setattr(Path, "open", fail_on_second)
    with pytest.raises(CannotWriteError, match="the disk is full"):
        extract(good, tmp_path)
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize("name", ["../job.yaml", "/etc/job.yaml", "run.sh", "JOB.YAML", "job.yaml\x00", ""])
def test_a_strange_name_is_refused(good: Path, tmp_path: Path, name: str) -> None:
    def add(pdf: pikepdf.Pdf) -> None:
        pdf.attachments[name] = AttachedFileSpec(pdf, b"x", filename="job.yaml")

    spoilt = Broken("strange", add, "").spoil(good, tmp_path)
    with pytest.raises(VerificationError, match="not one of ours"):
        extract(spoilt, tmp_path / "out")
    assert not (tmp_path / "out").exists()


def test_a_small_file_that_unpacks_to_a_huge_one_is_refused(
    good: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def swell(pdf: pikepdf.Pdf) -> None:
        pdf.Root.AF[0].EF.F.write(bytes(100_000))

    spoilt = Broken("huge", swell, "").spoil(good, tmp_path)
    monkeypatch.setattr(attached, "_LARGEST", 99_999)
    with pytest.raises(VerificationError, match="larger than"):
        extract(spoilt, tmp_path / "out")


def test_an_unusual_encoding_is_refused(good: Path, tmp_path: Path) -> None:
    def wrap(pdf: pikepdf.Pdf) -> None:
        pdf.Root.AF[0].EF.F.write(b"78>", filter=Name.ASCIIHexDecode)

    spoilt = tmp_path / "hex.pdf"
    with pikepdf.open(good) as pdf:
        wrap(pdf)
        pdf.save(spoilt, compress_streams=False, stream_decode_level=pikepdf.StreamDecodeLevel.none)
    with pytest.raises(VerificationError, match="packed in a way"):
        extract(spoilt, tmp_path / "out")


def test_no_attachments_no_files(good: Path, tmp_path: Path) -> None:
    def strip(pdf: pikepdf.Pdf) -> None:
        del pdf.Root.Names
        del pdf.Root.AF

    with pytest.raises(VerificationError, match="carries no data"):
        extract(Broken("bare", strip, "").spoil(good, tmp_path), tmp_path / "out")
    assert not (tmp_path / "out").exists()


def lead_round(pdf: pikepdf.Pdf) -> None:
    """A name tree (ISO 32000-1, 7.9.6) whose only branch is itself."""
    node = pdf.make_indirect(pikepdf.Dictionary(Limits=[pikepdf.String("a"), pikepdf.String("z")]))
    node.Kids = pikepdf.Array([node])
    pdf.Root.Names.EmbeddedFiles = node


@pytest.mark.parametrize(
    ("how", "told"),
    [
        (lead_round, "carries no data"),
        (lambda pdf: pdf.Root.Names.__setattr__("EmbeddedFiles", pikepdf.String("x")), "carries no data"),
        (lambda pdf: pdf.Root.AF[0].__setattr__("EF", pikepdf.Dictionary()), "cannot be read"),
    ],
)
def test_a_spoilt_tree_of_names_is_told(
    good: Path, tmp_path: Path, how: Callable[[pikepdf.Pdf], None], told: str
) -> None:
    spoilt = Broken("spoilt", how, "").spoil(good, tmp_path)
    with pytest.raises(VerificationError, match=told) as caught:
        extract(spoilt, tmp_path / "out")
    assert caught.value.exit_code == ExitCode.VERIFICATION_FAILED
    assert not (tmp_path / "out").exists()


def test_a_locked_file_is_told_by_all_who_read(good: Path, tmp_path: Path) -> None:
    locked = tmp_path / "locked.pdf"
    with pikepdf.open(good) as pdf:
        pdf.save(locked, encryption=pikepdf.Encryption(user="u", owner="o"))
    for read in (data_of, origin, read_form, lambda path: extract(path, tmp_path / "out")):
        with pytest.raises(VerificationError, match="locked with a password"):
            read(locked)
    assert not (tmp_path / "out").exists()


def test_what_is_no_report_is_told(tmp_path: Path) -> None:
    with pytest.raises(UsageError):
        extract(tmp_path / "none.pdf", tmp_path)
    (tmp_path / "no.pdf").write_bytes(b"not a PDF")
    with pytest.raises(VerificationError):
        extract(tmp_path / "no.pdf", tmp_path)
