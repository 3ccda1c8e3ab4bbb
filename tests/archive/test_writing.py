"""Writing: the same bytes every time, never half a file, and a refusal that says why."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import zlib
from dataclasses import replace
from pathlib import Path

import pikepdf
import pytest

from reporter.archive import archive, archiving, verify
from reporter.errors import CannotWriteError, ExitCode, GudgeonError, VerificationError
from reporter.model.pages import Element
from reporter.model.report import Attachment
from tests.archive.marked import REPORT, lay_out

STATUS = Path("/proc/self/status")
EARLIER = b"%PDF-1.7 <pdf:Producer>gudgeon 0</pdf:Producer> the earlier report"


@pytest.fixture
def target(tmp_path: Path) -> Path:
    """Name a place to write where an earlier report lies, alone in its folder."""
    path = tmp_path / "out" / "report.pdf"
    path.parent.mkdir()
    path.write_bytes(EARLIER)
    return path


def untouched(target: Path) -> bool:
    """Whether the earlier report is whole and nothing else lies beside it."""
    return target.read_bytes() == EARLIER and list(target.parent.iterdir()) == [target]


def apart(folder: Path, code: str, **environment: str) -> subprocess.CompletedProcess[str]:
    """Run code in a Python of its own, with REPORT, `pages` laid out in the folder, and `target` there."""
    before = (
        "import sys; from pathlib import Path\n"
        "sys.path.insert(0, sys.argv[1])\n"
        "from tests.archive.marked import REPORT, lay_out\n"
        "from reporter.archive import archive\n"
        "target = Path(sys.argv[2]) / 'report.pdf'\n"
        "pages = lay_out(target.with_name('laid.pdf'))\n"
    )
    command = [sys.executable, "-c", before + code, str(Path(__file__).parents[2]), str(folder)]
    done = subprocess.run(command, env=os.environ | environment, capture_output=True, text=True, check=False)
    assert "Traceback" not in done.stderr, done.stderr
    return done


def test_the_file_is_in_order_and_alone(tmp_path: Path, target: Path) -> None:
    archive(REPORT, lay_out(tmp_path / "laid.pdf"), target)
    assert verify(target) == []
    assert list(target.parent.iterdir()) == [target]


def test_same_report_same_bytes_whatever_the_clock_and_the_hash_seed(tmp_path: Path, good: Path) -> None:
    # The layout library takes its file identifier from this clock, so the laid-out files do differ.
    apart(tmp_path, "archive(REPORT, pages, target)", SOURCE_DATE_EPOCH="86400", PYTHONHASHSEED="7")
    assert (tmp_path / "laid.pdf").read_bytes() != (good.parent / "laid-out.pdf").read_bytes()
    assert (tmp_path / "report.pdf").read_bytes() == good.read_bytes()


def test_a_file_that_fails_its_check_is_not_put_in_place(tmp_path: Path, target: Path) -> None:
    pages = lay_out(tmp_path / "laid.pdf")
    kids = tuple(
        replace(kid, alt="") if isinstance(kid, Element) and kid.role == "Figure" else kid
        for kid in pages.tree.kids
    )
    with pytest.raises(VerificationError, match="Figure has no alternative text") as caught:
        archive(REPORT, replace(pages, tree=replace(pages.tree, kids=kids)), target)
    assert caught.value.exit_code == ExitCode.VERIFICATION_FAILED
    assert untouched(target)


def test_an_interrupted_run_leaves_the_earlier_report(
    tmp_path: Path, target: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def interrupt(_: Path, **_how: object) -> list[str]:
        raise KeyboardInterrupt

    monkeypatch.setattr(archiving, "find_faults", interrupt)
    with pytest.raises(KeyboardInterrupt):
        archive(REPORT, lay_out(tmp_path / "laid.pdf"), target)
    assert untouched(target)


@pytest.mark.skipif(not hasattr(signal, "SIGKILL"), reason="this system cannot kill a process outright")
def test_a_killed_run_leaves_the_earlier_report(tmp_path: Path) -> None:
    (tmp_path / "report.pdf").write_bytes(EARLIER)
    done = apart(
        tmp_path,
        "import os, signal; from reporter.archive import archiving\n"
        "archiving.find_faults = lambda _, **how: os.kill(os.getpid(), signal.SIGKILL)\n"
        "archive(REPORT, pages, target)",
    )
    assert done.returncode == -signal.SIGKILL
    assert (tmp_path / "report.pdf").read_bytes() == EARLIER


@pytest.mark.parametrize("call", ["fsync", "replace"])
def test_a_full_disk_and_an_open_file_are_told(
    tmp_path: Path, target: Path, monkeypatch: pytest.MonkeyPatch, call: str
) -> None:
    def refuse(*_: object) -> None:
        raise PermissionError(13, "The file is in use")

    monkeypatch.setattr(os, call, refuse)
    with pytest.raises(
        CannotWriteError, match=r"report\.pdf cannot be written: you may not write there"
    ) as caught:
        archive(REPORT, lay_out(tmp_path / "laid.pdf"), target)
    assert caught.value.exit_code == ExitCode.CANNOT_WRITE
    monkeypatch.undo()
    assert untouched(target)


def test_a_folder_in_the_way_and_a_missing_folder_are_told(tmp_path: Path) -> None:
    pages = lay_out(tmp_path / "laid.pdf")
    (tmp_path / "folder.pdf").mkdir()
    for target in (tmp_path / "folder.pdf", tmp_path / "missing" / "report.pdf"):
        with pytest.raises(CannotWriteError):
            archive(REPORT, pages, target)
    assert sorted(path.name for path in tmp_path.iterdir()) == ["folder.pdf", "laid.pdf"]


@pytest.mark.skipif(os.name == "nt", reason="this system has no umask")
def test_the_file_can_be_read_by_those_who_may_read_other_new_files(tmp_path: Path, target: Path) -> None:
    before = os.umask(0o027)
    try:
        archive(REPORT, lay_out(tmp_path / "laid.pdf"), target)
    finally:
        os.umask(before)
    assert target.stat().st_mode & 0o777 == 0o640


@pytest.mark.parametrize("names", [["../job.yaml"], ["notes.txt"], ["job.yaml", "job.yaml"]])
def test_a_file_that_could_not_be_taken_out_again_is_not_put_in(
    tmp_path: Path, target: Path, names: list[str]
) -> None:
    attachments = tuple(
        Attachment(name=name, media_type="text/plain", description="", packed=zlib.compress(b"x"))
        for name in names
    )
    report = REPORT.model_copy(update={"attachments": attachments})
    with pytest.raises(GudgeonError, match="cannot be attached"):
        archive(report, lay_out(tmp_path / "laid.pdf"), target)
    assert untouched(target)


@pytest.mark.slow
@pytest.mark.skipif(not STATUS.exists(), reason="this system does not tell a peak of memory")
def test_memory_does_not_grow_with_the_photos(tmp_path: Path) -> None:
    with pikepdf.open(lay_out(tmp_path / "light.pdf").file) as pdf:
        for number in range(40):
            # Marked as a JPEG, it is copied as it is: what happens to a photo.
            photo = pdf.make_stream(os.urandom(2_000_000))
            photo.Filter = pikepdf.Name.DCTDecode
            pdf.pages[0].obj.Resources[f"/Photo{number}"] = photo
        pdf.save(tmp_path / "heavy.pdf")
    done = apart(
        tmp_path,
        "import re; from dataclasses import replace\n"
        # The peak of this process alone: getrusage would also tell its parent's.
        f"def peak(): return int(re.search(r'VmHWM:\\s+(\\d+)', Path({str(STATUS)!r}).read_text())[1])\n"
        "before = peak()\n"
        "archive(REPORT, replace(pages, file=target.with_name('heavy.pdf')), target)\n"
        "print(peak() - before)",
    )
    assert (tmp_path / "report.pdf").stat().st_size > 80_000_000
    assert int(done.stdout) < 25_000, "80 MB of photos were held in memory"
