"""`gudgeon desk` on the command line: what it says, how it ends, what it refuses."""

from __future__ import annotations

import importlib.util
import signal
import socket
import subprocess
import sys
from pathlib import Path
from urllib.parse import urlsplit

import pytest
from typer.testing import CliRunner

from reporter.cli import app
from reporter.errors import UsageError
from tests.desk.conftest import Serve
from tests.living import PATIENCE

GUDGEON = str(Path(sys.executable).parent / "gudgeon")


def run(*words: str, folder: Path) -> subprocess.CompletedProcess[str]:
    """The command, as it ends by itself."""
    return subprocess.run(
        [GUDGEON, "desk", *words], cwd=folder, capture_output=True, text=True, check=False, timeout=PATIENCE
    )


def test_it_shows_its_address_and_ends_without_a_fuss(serve: Serve, job: Path) -> None:
    process, base, key = serve(job)
    assert urlsplit(base).hostname == "127.0.0.1"
    assert len(key) > 20
    process.send_signal(signal.SIGINT)
    assert process.wait(timeout=PATIENCE) == 0
    assert process.stdout
    told = process.stdout.read()
    assert "Ctrl-C" in told
    assert "closed" in told


def test_what_cannot_be_is_refused_with_what_to_do(tmp_path: Path, job: Path) -> None:
    missing = CliRunner().invoke(app, ["desk", str(tmp_path / "nowhere"), "--no-browser"]).exception
    assert isinstance(missing, UsageError)
    assert missing.advice
    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        taken.listen()
        busy = run(str(job), "--no-browser", "--port", str(taken.getsockname()[1]), folder=tmp_path)
    assert busy.returncode == 2
    assert "--port" in busy.stderr
    assert CliRunner().invoke(app, ["desk", str(job), "--port", "70000"]).exit_code == 2


def test_without_its_packages_it_says_how_to_get_them(job: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    real = importlib.util.find_spec
    module = sys.modules["reporter.commands.desk"]
    monkeypatch.setattr(module, "find_spec", lambda name: None if name == "uvicorn" else real(name))
    outcome = CliRunner().invoke(app, ["desk", str(job), "--no-browser"])
    assert isinstance(outcome.exception, UsageError)
    assert "gudgeon[desk]" in outcome.exception.advice


def test_no_code_of_a_job_folder_is_run(serve: Serve, job: Path) -> None:
    """A folder that came from somebody else may hold modules with the names of ours."""
    for name in ("signal.py", "reporter.py", "starlette.py", "PIL.py"):
        (job / name).write_text(f"open({str(job / 'ran')!r}, 'w').close()\n")
    process, base, _ = serve(job)
    import urllib.request

    assert urllib.request.urlopen(f"{base}/api/words").status == 200  # noqa: S310 - our own server
    assert not (job / "ran").exists()
    assert process.poll() is None
