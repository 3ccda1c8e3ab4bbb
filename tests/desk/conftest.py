"""A desk on a copy of the demonstration job, behind its guards: in this process, and as a server of its own."""

from __future__ import annotations

import random
import shutil
import socket
import subprocess
import sys
from collections.abc import Callable, Iterator
from contextlib import ExitStack, suppress
from pathlib import Path
from typing import Any

import pytest
from starlette.testclient import TestClient

from reporter.desk.serving import OpenDesk, open_desk
from reporter.registry import Registry, find, load

DEMO = Path(__file__).parents[2] / "demo_job"
PORT = 8123
HOST = f"127.0.0.1:{PORT}"
ORIGIN = {"Origin": f"http://{HOST}"}


@pytest.fixture(scope="session")
def registry() -> Registry:
    """What is installed."""
    return load(find())


@pytest.fixture
def job(tmp_path: Path) -> Path:
    """A copy of the demonstration job."""
    return Path(shutil.copytree(DEMO, tmp_path / "job"))


@pytest.fixture
def told() -> list[str]:
    """What the terminal was told."""
    return []


@pytest.fixture
def desk(job: Path, registry: Registry, told: list[str]) -> Iterator[OpenDesk]:
    """A desk that other devices may come to."""
    with open_desk(job, registry, PORT, told.append, is_job=True, address="192.168.7.7") as ready:
        yield ready


@pytest.fixture
def stranger(desk: OpenDesk) -> TestClient:
    """A browser that has not entered."""
    return TestClient(desk.app, base_url=f"http://{HOST}", headers=ORIGIN)


@pytest.fixture
def page(desk: OpenDesk, stranger: TestClient) -> TestClient:
    """The browser that the terminal opened."""
    assert stranger.post("/api/enter", json={"key": desk.keys.key}).status_code == 200
    return stranger


Serve = Callable[..., tuple[subprocess.Popen[str], str, str]]
PATIENT = "from reporter.desk import app; app.WAIT = {}; from reporter.entry import main; main()"


@pytest.fixture
def serve() -> Iterator[Serve]:
    """Starts `gudgeon desk` on a folder: the process, its address, and its key.

    `wait` is how long a question for news waits there, in seconds, if not as long as usual.
    """
    with ExitStack() as stack:

        def start(folder: Path, port: int = 0, wait: float = 0) -> tuple[subprocess.Popen[str], str, str]:
            usual = [str(Path(sys.executable).parent / "gudgeon")]
            command = [
                *([sys.executable, "-P", "-c", PATIENT.format(wait)] if wait else usual),
                "desk",
                str(folder),
                "--no-browser",
                "--port",
                str(port),
            ]
            process = subprocess.Popen(command, stdout=subprocess.PIPE, text=True)
            stack.callback(_end, process)
            assert process.stdout
            url = process.stdout.readline().split()[-1]
            base, _, key = url.partition("/#key=")
            return process, base, key

        yield start


def _end(process: subprocess.Popen[str]) -> None:
    process.kill()
    process.wait()
    if process.stdout:
        process.stdout.close()


def free_port() -> int:
    """A port that nobody listens on, of those that no system hands out by itself: it stays free over a restart."""
    while True:
        port = random.SystemRandom().randrange(20_000, 32_000)
        with socket.socket() as probe, suppress(OSError):
            probe.bind(("127.0.0.1", port))
            return port


def edit(
    page: Any, address: list[Any], seen: Any, wanted: Any, file: str = "findings.yaml", label: str = "x"
) -> Any:
    """One edit as the page sends it."""
    body = {"label": label, "edits": [{"file": file, "address": address, "seen": seen, "wanted": wanted}]}
    return page.post("/api/edit", json=body)
