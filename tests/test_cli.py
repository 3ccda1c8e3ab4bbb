"""The command line as its users meet it: exit codes, messages, an untrusted folder, the speed of --help."""

from __future__ import annotations

import json
import re
import shutil
import signal
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest
from typer.main import get_command
from typer.testing import CliRunner

from reporter.cli import app
from reporter.errors import ExitCode, GradeMetError, JobError

ROOT = Path(__file__).parents[1]
GUDGEON = Path(sys.executable).with_name("gudgeon")
Run = Callable[..., subprocess.CompletedProcess[str]]


def run(*arguments: str | Path, cwd: Path) -> subprocess.CompletedProcess[str]:
    """The installed command, as a user types it."""
    command = [str(GUDGEON), *map(str, arguments)]
    return subprocess.run(command, capture_output=True, text=True, cwd=cwd, check=False)


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A copy of the demo that a test may break."""
    shutil.copytree(ROOT / "demo_job", tmp_path / "job")
    return tmp_path / "job"


@pytest.fixture
def small(small_job: Path, tmp_path: Path) -> Path:
    """The same of one part with its photo: a report of it takes all the steps."""
    return Path(shutil.copytree(small_job, tmp_path / "job"))


def change(file: Path, old: str, new: str) -> None:
    """Replaces text that must be there."""
    text = file.read_text("utf-8")
    assert old in text
    file.write_text(text.replace(old, new, 1), "utf-8")


def test_a_report_lands_in_the_current_folder_and_nothing_in_the_job(small: Path, tmp_path: Path) -> None:
    before = {path: path.stat().st_mtime_ns for path in small.rglob("*")}
    done = run("report", small, cwd=tmp_path)
    assert (done.returncode, done.stderr) == (ExitCode.DONE, "")
    assert (tmp_path / "job.pdf").read_bytes().startswith(b"%PDF-1.")
    assert before == {path: path.stat().st_mtime_ns for path in small.rglob("*")}


@pytest.mark.slow
def test_the_same_folder_gives_the_same_bytes(folder: Path, tmp_path: Path) -> None:
    """With pictures of an earlier run at hand, and without."""
    for name, *how in (("one.pdf",), ("two.pdf", "--no-cache", "-q")):
        done = run("report", folder, "-o", name, *how, cwd=tmp_path)
        assert (done.returncode, done.stdout) == (0, "" if how else "one.pdf\n")
    assert (tmp_path / "one.pdf").read_bytes() == (tmp_path / "two.pdf").read_bytes()


def test_usage(tmp_path: Path) -> None:
    assert run("repot", cwd=tmp_path).returncode == ExitCode.USAGE
    assert CliRunner().invoke(app, ["report"]).exit_code == ExitCode.USAGE
    bad = CliRunner().invoke(app, ["check", str(tmp_path), "--fail-on", "bad"]).exception
    assert getattr(bad, "exit_code", None) == ExitCode.USAGE


def test_an_unusable_folder_is_told_with_what_to_do(tmp_path: Path) -> None:
    target = tmp_path / "job"
    done = run("report", target, cwd=tmp_path)
    assert done.returncode == ExitCode.JOB_INVALID
    assert "→" in done.stderr
    assert "Traceback" not in done.stderr
    target.mkdir()
    (tmp_path / "file").write_text("not a folder")
    for unusable in (target, tmp_path / "file"):
        told = CliRunner().invoke(app, ["report", str(unusable)]).exception
        assert isinstance(told, JobError)
        assert "→" in str(told)


def test_everything_wrong_is_told_at_once(folder: Path, tmp_path: Path) -> None:
    """Each file's faults, and two of one part: the first must not hide the second."""
    change(folder / "job.yaml", "purpose: pre_purchase", "purpose: pre_purchse")
    change(folder / "findings.yaml", "corrosion:", "corosion:")
    change(folder / "findings.yaml", "at: [0.459, 0.448]", "at: [1.459, 0.448]")
    change(folder / "measurements.csv", ",mm,", ",kg,")
    done = run("check", folder, cwd=tmp_path)
    assert done.returncode == ExitCode.JOB_INVALID
    for file in ("job.yaml", "findings.yaml", "measurements.csv"):
        assert re.search(rf"{file}, line \d+", done.stderr), done.stderr
    for told in (
        "'pre_purchase'",
        "Did you mean 'corrosion'?",
        "1.459 lies outside the photo",
        "'kg' is for a weight",
    ):
        assert told in done.stderr


def test_an_unknown_kind_asked_for(tmp_path: Path) -> None:
    done = run("limits", "chian", cwd=tmp_path)
    assert done.returncode == ExitCode.NO_SUCH
    assert "chain" in done.stderr


@pytest.mark.slow
def test_a_target_that_cannot_be_written_leaves_no_half_file(small: Path, tmp_path: Path) -> None:
    done = run("report", small, "-o", tmp_path / "nowhere" / "out.pdf", cwd=tmp_path)
    assert done.returncode == ExitCode.CANNOT_WRITE
    (tmp_path / "taken.pdf").mkdir()
    assert (
        run("report", small, "-o", tmp_path / "taken.pdf", cwd=tmp_path).returncode == ExitCode.CANNOT_WRITE
    )
    assert {path.name for path in tmp_path.iterdir()} == {"job", "taken.pdf"}


def test_fail_on(small: Path, tmp_path: Path) -> None:
    assert run("check", small, "--fail-on", "stop", cwd=tmp_path).returncode == ExitCode.GRADE_MET
    told = CliRunner().invoke(app, ["check", str(small), "--fail-on", "watch"]).exception
    assert isinstance(told, GradeMetError)


def test_check_fits_a_terminal_and_a_script(folder: Path, tmp_path: Path) -> None:
    told = run("check", folder, cwd=tmp_path)
    assert told.returncode == 0
    assert max(len(line) for line in told.stdout.splitlines()) <= 80
    graded = json.loads(CliRunner().invoke(app, ["check", str(folder), "--json"]).stdout)
    assert {row["id"] for row in graded["components"]} >= {"chain"}


def test_no_code_of_a_job_folder_is_ever_run(small: Path, tmp_path: Path) -> None:
    """A folder holding signal.py, reporter/ and reporter_plugins/ runs none of them, even as the current folder."""
    trap = f"open({str(tmp_path / 'ran')!r}, 'a').write(__name__)\n"
    for name in (
        "signal.py",
        "reporter/__init__.py",
        "reporter_plugins/__init__.py",
        "sitecustomize.py",
        "PIL/__init__.py",
    ):
        (small / name).parent.mkdir(exist_ok=True)
        (small / name).write_text(trap)
    for where in (small, tmp_path):
        done = run("report", small, "-o", tmp_path / "out.pdf", cwd=where)
        assert done.returncode == 0, done.stderr
    assert not (tmp_path / "ran").exists()


def test_help_is_quick(tmp_path: Path) -> None:
    """Under 0.3 s of CPU on the machine it was measured on; here it must not import the heavy libraries at all."""
    code = (
        "import sys\nfrom reporter.cli import app\ntry:\n    app(['--help'], standalone_mode=False)\nexcept SystemExit:\n    pass\n"
        "heavy = {'reportlab', 'pikepdf', 'pydantic', 'PIL', 'uncertainties', 'yaml'} & set(sys.modules)\n"
        "assert not heavy, heavy"
    )
    done = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, cwd=tmp_path, check=False
    )
    assert done.returncode == 0, done.stderr


def test_every_command_and_exit_code_is_documented() -> None:
    told = (ROOT / "docs/commands.md").read_text("utf-8")
    commands = getattr(get_command(app), "commands", {})
    assert commands
    assert all(f"`gudgeon {name}" in told for name in commands)
    assert all(f"| {int(code)} |" in told for code in ExitCode)


def test_the_pictures_of_the_readme_exist() -> None:
    pictures = re.findall(r'src="([^"]+)"', (ROOT / "README.md").read_text("utf-8"))
    assert len(pictures) == 7
    assert all((ROOT / picture).is_file() for picture in pictures)


def test_a_killed_run_leaves_the_earlier_report_whole(small: Path, tmp_path: Path) -> None:
    earlier = b"%PDF-1.7 <pdf:Producer>gudgeon 0</pdf:Producer> the earlier report"
    (tmp_path / "out.pdf").write_bytes(earlier)
    killed = (
        "import os, signal; from pathlib import Path\n"
        "Path.replace = lambda *_: os.kill(os.getpid(), signal.SIGKILL)\n"
        "from reporter.entry import main; main()"
    )
    command = [sys.executable, "-P", "-c", killed, "report", str(small), "-o", str(tmp_path / "out.pdf")]
    done = subprocess.run(command, capture_output=True, cwd=tmp_path, check=False)
    assert done.returncode == -signal.SIGKILL
    assert (tmp_path / "out.pdf").read_bytes() == earlier


def test_a_day_is_read_as_reports_print_it(small: Path, tmp_path: Path) -> None:
    done = run("due", small, "--as-of", "1 June 2026", cwd=tmp_path)
    assert (done.returncode, "Due as of 1 June 2026" in done.stdout.replace("\u00a0", " ")) == (
        ExitCode.DONE,
        True,
    )
