"""How a run of the command ends: interrupted at any step, on a full disk, without memory, with a fault of its own."""

from __future__ import annotations

import errno
import os
import random
import resource
import signal
import subprocess
import sys
from collections.abc import Callable, Iterator
from contextlib import suppress
from pathlib import Path
from typing import Any, NoReturn

import pytest

from reporter import pipeline, visiting
from reporter.commands import ending
from reporter.errors import CannotWriteError, ExitCode
from reporter.machine.scratch import scratch
from reporter.machine.shortage import CLOSE, MEMORY
from reporter.registry import find, load
from tests.living import PATIENCE, living, until

pytestmark = pytest.mark.skipif(sys.platform == "win32", reason="signals and limits of POSIX")
GUDGEON = str(Path(sys.executable).with_name("gudgeon"))
CAP_DAC_OVERRIDE, CAP_DAC_READ_SEARCH, PR_CAPBSET_DROP = 1, 2, 24
"""Numbers of linux/capability.h and linux/prctl.h."""


def run(*words: str | Path, **how: Any) -> subprocess.CompletedProcess[str]:
    """The installed command."""
    return subprocess.run(
        [GUDGEON, *map(str, words)], capture_output=True, text=True, check=False, timeout=PATIENCE, **how
    )


def ordinary() -> None:
    """Before the command starts: root without the right to write everywhere is as anybody else."""
    import ctypes

    libc = ctypes.CDLL(None)
    for right in (CAP_DAC_OVERRIDE, CAP_DAC_READ_SEARCH):
        libc.prctl(PR_CAPBSET_DROP, right, 0, 0, 0)


def unbroken(told: str) -> str:
    """What is told as one line: where it breaks follows from how long the folder's name is."""
    return " ".join(told.split())


@pytest.fixture
def disk(tmp_path: Path) -> Iterator[Callable[[int], Path]]:
    """A disk of so many bytes, where the system lets us have one."""
    place = tmp_path / "disk"
    place.mkdir()

    def of(size: int) -> Path:
        command = ["mount", "-t", "tmpfs", "-o", f"size={size}", "tmpfs", str(place)]
        if subprocess.run(command, capture_output=True, check=False).returncode:
            pytest.skip("a small disk cannot be mounted here")
        return place

    yield of
    subprocess.run(["umount", str(place)], capture_output=True, check=False)


STRUCK = """
import os, pkgutil, sys
place, word, calls, who, asked, *sys.argv[1:] = sys.argv[1:]
left = int(calls)
def count(*_):
    global left
    left -= 1
    if left < 0:
        sys.setprofile(None)
        os.killpg(0, int(asked)) if who == "all" else os.kill(os.getpid(), int(asked))
module, _, name = place.partition(":")
module = pkgutil.resolve_name(module)
usual = getattr(module, name)
def watched(*given):
    if word in str(given):
        sys.setprofile(count)
    return usual(*given)
setattr(module, name, watched)
from reporter.entry import main
main()
"""
"""The command asks itself to end: so many calls after a function was called with a word, however busy the computer is."""
STEP = "reporter.machine.log:note"
"""Is called with each step that begins."""


def struck(
    words: list[str], at: tuple[str, str, int], asked: int, tmp: Path, *, group: bool = False
) -> tuple[int, str]:
    """Run until it is asked to end at (function, word, calls), by one process or, as a terminal does, by all; nobody stays."""
    tmp.mkdir(exist_ok=True)
    done = ["all" if group else "one", str(int(asked))]
    with subprocess.Popen(
        [sys.executable, "-P", "-c", STRUCK, *map(str, at), *done, *words],
        stdout=subprocess.DEVNULL,
        stderr=subprocess.PIPE,
        text=True,
        env={**os.environ, "TMPDIR": str(tmp)},
        start_new_session=True,
    ) as process:
        _, told = process.communicate(timeout=PATIENCE)
    assert until(lambda: not living(process.pid))
    return process.returncode, told


@pytest.mark.slow
@pytest.mark.parametrize("step", ["1 collect", "3 outline", "4 develop", "5 typeset", "6 archive"])
@pytest.mark.parametrize(("asked", "group"), [(signal.SIGINT, True), (signal.SIGTERM, False)])
def test_an_interruption_leaves_nothing(
    small_job: Path, tmp_path: Path, step: str, asked: int, *, group: bool
) -> None:
    out, tmp = tmp_path / "out", tmp_path / "tmp"
    out.mkdir()
    words = ["report", str(small_job), "-o", str(out / "r.pdf")]
    calls = random.Random(f"{step}{asked}").randrange(3000)  # noqa: S311 - any moment within the step
    code, told = struck(words, (STEP, step, calls), asked, tmp, group=group)
    assert code == ExitCode.INTERRUPTED
    assert list(tmp.iterdir()) == []
    if list(out.iterdir()):
        assert told == f"Interrupted. Already written: {out / 'r.pdf'}.\n"
    else:
        assert told == "Interrupted. Nothing was written.\n"


@pytest.mark.slow
def test_an_interrupted_beginning_of_a_job_leaves_nothing(small_job: Path, tmp_path: Path) -> None:
    """While it copies the photos."""
    (tmp_path / "out").mkdir()
    words = ["new", str(tmp_path / "out" / "job"), "--photos", str(small_job / "photos")]
    at = "reporter.begin.beginning:_copy", "swage_crack.jpg", 9
    code, told = struck(words, at, signal.SIGTERM, tmp_path / "tmp")
    assert (code, told) == (ExitCode.INTERRUPTED, "Interrupted. Nothing was written.\n")
    assert list((tmp_path / "out").iterdir()) == []
    assert list((tmp_path / "tmp").iterdir()) == []


@pytest.mark.slow
def test_what_a_killed_report_leaves_is_swept_by_the_next(small_job: Path, tmp_path: Path) -> None:
    tmp, out = tmp_path / "tmp", tmp_path / "out"
    out.mkdir()
    words = ["report", str(small_job), "-o", str(out / "r.pdf")]
    assert struck(words, (STEP, "6 archive", 99), signal.SIGKILL, tmp)[0] == -signal.SIGKILL
    assert list(tmp.glob("*/*.jpg"))
    where = {**os.environ, "TMPDIR": str(tmp)}
    assert run("plan", small_job, "-o", out / "p.html", env=where).returncode == ExitCode.DONE
    assert list(tmp.iterdir()) == []
    assert [each.name for each in out.iterdir()] == ["p.html"]


@pytest.mark.slow
def test_output_never_destroys_what_the_job_is_made_of(small_job: Path) -> None:
    """Every document, onto every sort of file of the job; all of it refused before any work."""
    before = {path: path.read_bytes() for path in small_job.rglob("*") if path.is_file()}
    registry = load(find())
    for document in (pipeline.report, pipeline.work, visiting.sheet):
        for name in (
            "job.yaml",
            "findings.yaml",
            "measurements.csv",
            "photos/swage_crack.jpg",
            "photos/new.pdf",
        ):
            with pytest.raises(CannotWriteError):
                document(small_job, small_job / name, registry, tell=pytest.fail)
    with pytest.raises(CannotWriteError):
        pipeline.due([small_job], registry, as_of=None, by="date", calendar=small_job / "findings.yaml")
    with pytest.raises(CannotWriteError):
        visiting.print_plan(
            visiting.plan(None, ["chain"], registry), small_job, small_job / "job.yaml", tell=pytest.fail
        )
    assert before == {path: path.read_bytes() for path in small_job.rglob("*") if path.is_file()}


@pytest.mark.slow
def test_a_refusal_fits_the_terminal(small_job: Path, tmp_path: Path) -> None:
    (tmp_path / "mine.txt").write_text("my own")
    for words in (
        ["report", str(small_job), "-o", "/dev/null"],
        ["check", str(small_job), "--log", "mine.txt"],
    ):
        done = run(*words, cwd=tmp_path, env={**os.environ, "COLUMNS": "80"})
        assert (done.returncode, done.stdout, done.stderr.count("→")) == (ExitCode.CANNOT_WRITE, "", 1)
        assert max(map(len, done.stderr.splitlines())) <= 80
    assert [each.read_text() for each in tmp_path.iterdir()] == ["my own"]


@pytest.mark.slow
def test_folders_that_are_not_there_or_closed(small_job: Path, tmp_path: Path) -> None:
    closed = tmp_path / "closed"
    closed.mkdir(mode=0o555)
    for target, told in (
        (closed / "x.pdf", "may not write there"),
        (tmp_path / "no" / "x", "no such folder"),
    ):
        done = run("report", small_job, "-o", target, preexec_fn=ordinary)
        assert done.returncode == ExitCode.CANNOT_WRITE
        assert told in unbroken(done.stderr)
        done = run("sheet", small_job, cwd=tmp_path, env={**os.environ, "TMPDIR": str(target.parent)}, preexec_fn=ordinary)  # fmt: skip
        assert done.returncode == ExitCode.CANNOT_WRITE
        assert f"written to {target.parent}" in unbroken(done.stderr)
        assert told in unbroken(done.stderr)
    assert list(closed.iterdir()) == []


@pytest.mark.slow
def test_full_disks_are_told_as_the_disks_fault(
    small_job: Path, tmp_path: Path, disk: Callable[[int], Path]
) -> None:
    """Seen beforehand with the numbers; and where it fills up meanwhile, never as a fault of a photo."""
    place = disk(700_000)
    for how in (
        {"env": {**os.environ, "TMPDIR": str(place)}, "cwd": tmp_path},
        {"cwd": place},
    ):
        done = run("report", small_job, **how)
        assert done.returncode == ExitCode.CANNOT_WRITE
        assert " MB are free." in unbroken(done.stderr)
        assert "photo" not in done.stderr
    with suppress(OSError):
        (place / "full").write_bytes(bytes(10**6))
    for words in (
        ["work", str(small_job), "-o", "w.csv"],
        ["due", str(small_job), "--ics", "d.ics"],
        ["schema", "-o", "s"],
    ):
        done = run(*words, cwd=place)
        assert done.returncode == ExitCode.CANNOT_WRITE, words
        assert "the disk is full" in unbroken(done.stderr)
    assert {each.name for each in place.iterdir()} <= {"full", "s"}


@pytest.mark.slow
def test_a_disk_that_fills_up_under_the_photos(
    small_job: Path, tmp_path: Path, disk: Callable[[int], Path]
) -> None:
    """Without the reckoning: the worker meets the end of the disk, and no photo is called damaged."""
    code = (
        "import sys; from reporter import develop; import reporter.develop.room as room\n"
        "room.reckon = lambda *_, **__: 0\n"
        "from reporter.cli import main; main()"
    )
    place = disk(100_000)
    done = subprocess.run(
        [sys.executable, "-P", "-c", code, "report", str(small_job)],
        env={**os.environ, "TMPDIR": str(place)},
        cwd=tmp_path,
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == ExitCode.CANNOT_WRITE
    assert "the disk is full" in unbroken(done.stderr)
    assert "damaged" not in done.stderr
    assert list(place.iterdir()) == []


@pytest.mark.slow
def test_too_little_memory_is_told_as_such(small_job: Path, tmp_path: Path) -> None:
    """As under `ulimit -v`: the report is made, or the memory is named; never a photo, never a fault of the program."""
    most = 250 * 1024**2
    done = run(
        "report",
        small_job,
        cwd=tmp_path,
        preexec_fn=lambda: resource.setrlimit(resource.RLIMIT_AS, (most, most)),
    )
    assert done.returncode in {ExitCode.DONE, ExitCode.CANNOT_WRITE}, done.stderr
    assert ("not enough memory" in unbroken(done.stderr)) is (done.returncode != ExitCode.DONE)
    assert "Traceback" not in done.stderr


@pytest.mark.parametrize(
    "error", [MemoryError(), OSError(errno.ENOMEM, "Cannot allocate memory", "screen.py")]
)
def test_memory_that_is_too_short_to_tell_it_is_told(
    error: Exception, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """The words of this run could not be fetched any more."""

    def fails(*_: object) -> NoReturn:
        raise error

    monkeypatch.setattr(ending, "for_terminal", fails)
    with pytest.raises(SystemExit) as left:
        ending.run_to_the_end(lambda: fails)
    assert left.value.code == ExitCode.CANNOT_WRITE
    assert capsys.readouterr().err == f"{MEMORY}\n    → {CLOSE}\n"


def test_what_could_not_be_taken_away_without_memory_goes_at_the_end(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    monkeypatch.setenv("TMPDIR", str(tmp_path))

    def without_memory(**_: object) -> NoReturn:
        with pytest.MonkeyPatch.context() as meanwhile, scratch() as place:
            (place / "page.pdf").touch()
            meanwhile.setattr("shutil.rmtree", lambda *_, **__: None)
            raise MemoryError

    with pytest.raises(SystemExit) as left:
        ending.run_to_the_end(lambda: without_memory)
    assert left.value.code == ExitCode.CANNOT_WRITE
    assert list(tmp_path.iterdir()) == []


def test_a_destructor_without_memory_says_nothing(capfd: pytest.CaptureFixture[str]) -> None:
    code = (
        "from reporter.machine import interrupts; interrupts.arm()\n"
        "class Left:\n"
        "    def __init__(self, fault): self.fault = fault\n"
        "    def __del__(self): raise self.fault\n"
        "Left(MemoryError()); Left(ValueError('told'))"
    )
    subprocess.run([sys.executable, "-P", "-c", code], check=True)
    told = capfd.readouterr().err
    assert "told" in told
    assert "MemoryError" not in told


@pytest.mark.slow
def test_the_code_of_a_command_whose_reader_has_enough_stays(small_job: Path, tmp_path: Path) -> None:
    command = f"'{GUDGEON}' check '{small_job}' --fail-on stop | head -1; exit ${{PIPESTATUS[0]}}"
    done = subprocess.run(["bash", "-c", command], capture_output=True, text=True, check=False, cwd=tmp_path)
    assert (done.returncode, done.stderr.count("\n"), done.stdout.count("\n")) == (ExitCode.GRADE_MET, 1, 1)
    with Path("/dev/full").open("w") as full:
        done = subprocess.run(
            [GUDGEON, "limits", "chain"], stdout=full, stderr=subprocess.PIPE, text=True, check=False
        )
    assert (done.returncode, done.stderr.count("\n")) == (ExitCode.CANNOT_WRITE, 2)


FAULTY = """
import sys
from reporter import pipeline
def fail(folder, *_words, **_how):
    raise KeyError(str(folder))
pipeline.collect_parts = fail
from reporter.cli import main
main()
"""


@pytest.mark.slow
def test_a_fault_of_the_program_can_be_reported(small_job: Path, tmp_path: Path) -> None:
    done = subprocess.run(
        [sys.executable, "-P", "-c", FAULTY, "check", str(small_job), "--lang", "de", "--log", "log"],
        capture_output=True,
        text=True,
        check=False,
        cwd=tmp_path,
        env={**os.environ, "XDG_CONFIG_HOME": str(tmp_path / "config")},
    )
    assert done.returncode == ExitCode.BUG
    assert "Traceback" not in done.stderr
    (kept,) = (tmp_path / "config" / "gudgeon" / "faults").iterdir()
    assert str(kept) in done.stderr
    for text in (kept.read_text("utf-8"), (tmp_path / "log").read_text("utf-8")):
        assert "reporter/cli.py, line" in text
        assert "builtins.KeyError" in text
        assert "gudgeon 0." in text
        assert not any(private in text for private in (str(small_job), small_job.parent.name))
    assert "command: check --lang --log" in kept.read_text("utf-8")


@pytest.mark.slow
def test_the_version_tells_what_is_installed(tmp_path: Path) -> None:
    from importlib.metadata import version

    done = run("--version", cwd=tmp_path)
    assert (done.returncode, done.stderr) == (ExitCode.DONE, "")
    assert max(map(len, done.stdout.splitlines())) <= 80
    for told in (f"gudgeon {version('gudgeon')}", f"pikepdf {version('pikepdf')}", "kinds", "en, de"):
        assert told in done.stdout.replace("\n    ", " ")


@pytest.mark.slow
@pytest.mark.parametrize(
    ("words", "code", "told"),
    [
        (("check", "{}/job"), ExitCode.JOB_INVALID, "This folder cannot be read."),
        (("plan", "{}/job"), ExitCode.JOB_INVALID, "This folder cannot be read."),
        (("extract", "{}/x.pdf", "-o", "{}/../out"), ExitCode.CANNOT_WRITE, "x.pdf cannot be opened"),
        (("take", "{}/../small/job", "{}/x.pdf"), ExitCode.CANNOT_WRITE, "x.pdf cannot be opened"),
        (("new", "{}/job", "--boat", "Invented"), ExitCode.CANNOT_WRITE, "you may not"),
    ],
)
def test_what_may_not_be_looked_into_is_no_fault_of_the_program(
    words: tuple[str, ...], code: ExitCode, told: str, small_job: Path, tmp_path: Path
) -> None:
    closed = tmp_path / "closed"
    (closed / "job").mkdir(parents=True)
    closed.chmod(0)
    given = [str(small_job) if word == "{}/../small/job" else word.format(closed) for word in words]
    try:
        done = run(*given, cwd=tmp_path, preexec_fn=ordinary)
    finally:
        closed.chmod(0o755)
    assert (done.returncode, told in " ".join(done.stderr.split())) == (code, True), done.stderr
    assert "Traceback" not in done.stderr


@pytest.mark.slow
@pytest.mark.parametrize("mode", [0o000, 0o600])
def test_photos_that_nobody_may_see_are_one_problem(mode: int, small_job: Path, tmp_path: Path) -> None:
    (small_job / "photos").chmod(mode)
    try:
        done = run("check", small_job, cwd=tmp_path, preexec_fn=ordinary)
    finally:
        (small_job / "photos").chmod(0o755)
    assert done.returncode == ExitCode.JOB_INVALID
    assert done.stderr.startswith("1 problem in the job folder:\nphotos\n    This folder cannot be read.")


@pytest.mark.slow
def test_a_name_that_promises_another_sort_of_file_is_refused(small_job: Path, tmp_path: Path) -> None:
    for word, option, name, told in (
        ("report", "-o", "r.docx", "end in: .pdf, .html."),
        ("plan", "-o", "p.csv", "end in: .pdf, .html."),
        ("work", "-o", "w.xlsx", "end in: .pdf, .html, .csv."),
        ("due", "--ics", "d.pdf", "end in: .ics."),
    ):
        done = run(word, small_job, option, tmp_path / name, cwd=tmp_path)
        assert (done.returncode, told in done.stderr) == (ExitCode.USAGE, True)
    assert run("work", small_job, "-o", tmp_path / "w.csv", cwd=tmp_path).returncode == ExitCode.DONE
    assert not list(tmp_path.glob("[rpwd].[dxp]*"))
