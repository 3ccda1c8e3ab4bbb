"""The commands as their users type them, the password at a terminal of its own; and the whole way of a report in two hands."""

from __future__ import annotations

import fcntl
import json
import os
import pty
import re
import subprocess
import sys
import termios
from pathlib import Path

import pytest

from reporter.commands.sealing import kept
from reporter.errors import ExitCode, UsageError
from tests.history.folders import findings, write
from tests.living import until
from tests.seal.made import AUTHOR, INK, PASSWORD, RECEIVER, Made

pytestmark = pytest.mark.slow

GUDGEON = Path(sys.executable).with_name("gudgeon")


def typed(*arguments: str | Path, answers: list[str], cwd: Path) -> tuple[int, str]:
    """The command at a terminal: each answer is typed when it is asked for; exit code and all that was shown."""
    master, slave = pty.openpty()
    process = subprocess.Popen(
        [GUDGEON, *arguments],
        stdin=slave,
        stdout=slave,
        stderr=slave,
        cwd=cwd,
        start_new_session=True,
        preexec_fn=lambda: fcntl.ioctl(0, termios.TIOCSCTTY, 0),  # noqa: PLW1509 - the child's own terminal
    )
    os.close(slave)
    shown, since = "", ""
    while True:
        try:
            piece = os.read(master, 4096).decode("utf-8", "replace")
        except OSError:  # the other end is closed
            break
        shown, since = shown + piece, since + piece
        if answers and re.search(r"(Password|Repeat)[^\n]*: ?\Z", since):
            # The terminal forgets what was typed before its echo was switched off.
            assert until(lambda: not termios.tcgetattr(master)[3] & termios.ECHO)
            os.write(master, f"{answers.pop(0)}\n".encode())
            since = ""
    os.close(master)
    return process.wait(), shown


def run(*arguments: str | Path, cwd: Path) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [GUDGEON, *arguments], capture_output=True, text=True, cwd=cwd, check=False, stdin=subprocess.DEVNULL
    )


def test_from_two_keys_to_a_verified_handover(tmp_path: Path) -> None:
    write(tmp_path / "job", number="H-1", day="2025-05-03", findings_text=findings("chain"))
    (tmp_path / "ink.svg").write_text(INK, "utf-8")
    prints = []
    for file, name in (("mine.p12", AUTHOR), ("theirs.p12", RECEIVER)):
        code, shown = typed("key", "new", file, "--name", name, answers=[PASSWORD, PASSWORD], cwd=tmp_path)
        assert code == 0, shown
        assert PASSWORD not in shown
        told = " ".join(shown.split())
        assert "not a qualified" in told or "no qualified signature" in told
        prints.append(
            next(
                kept([line.partition(": ")[2]], tmp_path)
                for line in shown.splitlines()
                if "fingerprint of" in line
            )
        )
    assert run("report", "job", cwd=tmp_path).returncode == 0
    code, shown = typed(
        "seal", "job.pdf", "--key", "mine.p12", "--ink", "ink.svg", answers=[PASSWORD], cwd=tmp_path
    )
    assert (code, "job-sealed.pdf" in shown) == (0, True), shown
    code, shown = typed(
        "sign",
        "job-sealed.pdf",
        "--field",
        "received",
        "--key",
        "theirs.p12",
        answers=[PASSWORD],
        cwd=tmp_path,
    )
    assert code == 0, shown
    assert (tmp_path / "job-sealed.pdf").read_bytes().startswith((tmp_path / "job.pdf").read_bytes())
    known = [part for each in prints for part in ("--known", *each)]
    done = run("verify", "job-sealed.pdf", "job", *known, "--signatures", "2", cwd=tmp_path)
    assert done.returncode == ExitCode.DONE, done.stdout
    assert "Sealed by Rowan Teale" in done.stdout
    assert "byte for byte" in done.stdout
    data = json.loads(run("verify", "job-sealed.pdf", "--json", cwd=tmp_path).stdout)
    assert data["outcome"] == "limited"
    assert [each["field"] for each in data["inspection"]["signatures"]] == ["handed_over", "received"]


@pytest.fixture
def folder(signed: Made, tmp_path: Path) -> Path:
    """The small report in its three states, beside nothing else."""
    for name in ("plain", "sealed", "received"):
        (tmp_path / f"{name}.pdf").write_bytes(getattr(signed, name))
    (tmp_path / "changed.pdf").write_bytes(signed.sealed + b" ")
    (tmp_path / "junk.pdf").write_bytes(b"junk")
    return tmp_path


@pytest.mark.parametrize(
    ("file", "code", "words"),
    [
        ("received.pdf", ExitCode.VERIFIED_WITH_LIMITS, "Verified with limits"),
        ("changed.pdf", ExitCode.CHANGED, "Changed"),
        ("plain.pdf", ExitCode.UNSEALED, "Unsealed"),
        ("junk.pdf", ExitCode.UNREADABLE, "Unreadable"),
        ("none.pdf", ExitCode.USAGE, ""),
    ],
)
def test_each_verdict_has_its_words_and_its_code(file: str, code: ExitCode, words: str, folder: Path) -> None:
    done = run("verify", file, cwd=folder)
    assert done.returncode == code, done.stdout + done.stderr
    assert done.stdout.startswith(words)
    assert "Traceback" not in done.stderr


def test_it_speaks_german(folder: Path) -> None:
    told = run("verify", "received.pdf", "--lang", "de", cwd=folder).stdout
    assert "Versiegelt von Rowan Teale" in told
    assert "Sealed" not in told


def test_without_a_terminal_nothing_is_asked_and_nothing_made(folder: Path) -> None:
    for command in (["key", "new", "me.p12", "--name", AUTHOR], ["seal", "plain.pdf", "--key", "junk.pdf"]):
        done = run(*command, cwd=folder)
        assert done.returncode == ExitCode.USAGE
        assert "terminal" in done.stderr
    assert not {"me.p12", "plain-sealed.pdf"} & {path.name for path in folder.iterdir()}


def test_passwords_that_differ_are_asked_for_again(tmp_path: Path) -> None:
    answers = [PASSWORD, "another one", PASSWORD, PASSWORD]
    code, shown = typed("key", "new", "me.p12", "--name", AUTHOR, answers=answers, cwd=tmp_path)
    assert (code, answers) == (0, []), shown


def test_a_sealed_file_is_never_overwritten(folder: Path) -> None:
    (folder / "plain-sealed.pdf").write_bytes(b"an earlier one")
    done = run("seal", "plain.pdf", "--key", "me.p12", cwd=folder)
    assert done.returncode == ExitCode.USAGE
    assert (folder / "plain-sealed.pdf").read_bytes() == b"an earlier one"


@pytest.mark.parametrize("file", ["plain.pdf", "changed.pdf", "junk.pdf"])
def test_what_is_not_as_it_was_sealed_is_not_signed(file: str, folder: Path) -> None:
    before = (folder / file).read_bytes()
    done = run("sign", file, "--field", "received", "--key", "me.p12", cwd=folder)
    assert done.returncode == ExitCode.USAGE
    assert "gudgeon verify" in done.stderr
    assert (folder / file).read_bytes() == before


def test_without_the_extra_one_sentence_says_what_to_install(folder: Path) -> None:
    """An installation without the two libraries, as the import system tells it."""
    code = (
        "import importlib.util as u, sys; real = u.find_spec\n"
        "u.find_spec = lambda name, *a: None if name in {'pyhanko', 'cryptography'} else real(name, *a)\n"
        "from reporter.cli import main; main()"
    )
    for arguments in (["verify", "sealed.pdf"], ["key", "new", "me.p12"], ["report", "--help"]):
        done = subprocess.run(
            [sys.executable, "-c", code, *arguments], capture_output=True, text=True, cwd=folder, check=False
        )
        if arguments[0] == "report":
            assert done.returncode == 0
        else:
            assert done.returncode == ExitCode.USAGE
            assert (
                done.stderr
                == 'Keys and seals need two more libraries.\n    → Run: pip install "gudgeon[seal]"\n'
            )


def test_fingerprints_are_read_as_people_write_them(tmp_path: Path) -> None:
    number = "0123456789abcdef" * 4
    coloned = ":".join(number[at : at + 2] for at in range(0, 64, 2)).upper()
    spaced = " ".join(number[at : at + 4] for at in range(0, 64, 4))
    (tmp_path / "rowan.txt").write_text(f"Rowan Teale, by telephone\n{coloned} Rowan\n", "utf-8")
    for given in ([number], [coloned], [spaced], [str(tmp_path / "rowan.txt")]):
        assert kept(given, tmp_path / "none") == {number}
    assert kept([], tmp_path) == {number}
    for wrong in (number[:-1], number + "0", "Rowan"):
        with pytest.raises(UsageError):
            kept([wrong], tmp_path / "none")


def test_signing_replaces_the_signed_file_and_no_other(folder: Path) -> None:
    """Refused before a password is asked for."""
    (folder / "me.p12").touch()
    before = {each: each.read_bytes() for each in folder.iterdir()}
    for target in ("plain.pdf", "received.pdf", "me.p12"):
        words = ("sign", "sealed.pdf", "--field", "received", "--key", "me.p12", "-o", target)
        done = run(*words, cwd=folder)
        assert (done.returncode, "exists already" in done.stderr) == (ExitCode.USAGE, True), done.stderr
    assert before == {each: each.read_bytes() for each in folder.iterdir()}
