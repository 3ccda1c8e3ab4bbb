"""A desk as a person starts it, and a browser before it; every complaint of a page and every foreign request is a failure."""

from __future__ import annotations

import os
import re
import shutil
import signal
import subprocess
import sys
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any
from urllib.parse import urlsplit

import pytest

from tests.browsing import chromium
from tests.desk.conftest import free_port
from tests.desk_page.hands import Hands
from tests.living import PATIENCE

ROOT = Path(__file__).parents[2]


@pytest.fixture(scope="package")
def browser() -> Iterator[Any]:
    """One browser for all tests of the page."""
    with chromium() as opened:
        yield opened


ON_NETWORK = """
import sys
from reporter import cli
from reporter.desk import serving
serving.own_address = lambda: "{}"
sys.exit(cli.main())
"""


@dataclass
class Server:
    """`gudgeon desk` as a process of its own on one port, which it keeps over a restart."""

    folder: Path
    port: int
    url: str = ""
    pass_on: Any = None
    """What a browser keeps that has entered: the key itself is good once."""
    process: subprocess.Popen[str] | None = None
    network: str = ""
    """The address at which other devices are to find it: this computer's second name for itself will do."""

    def start(self) -> str:
        """Starts it; gives the address with its key."""
        command = [
            sys.executable,
            "-P",
            *(["-c", ON_NETWORK.format(self.network)] if self.network else ["-m", "reporter"]),
            "desk",
            *(["--on-network"] if self.network else []),
            str(self.folder),
            "--no-browser",
            "--port",
            str(self.port),
        ]
        self.pass_on = None
        self.process = subprocess.Popen(
            command,
            stdout=subprocess.PIPE,
            stderr=subprocess.STDOUT,
            text=True,
            cwd=ROOT,
            start_new_session=True,
        )
        assert self.process.stdout
        told = []
        for line in self.process.stdout:
            told.append(line)
            if found := re.search(r"http://127\.0\.0\.1:\d+/#key=\S+", line):
                self.url = found[0]
                return self.url
        self.process.wait(PATIENCE)
        self.process.stdout.close()
        pytest.fail("the desk did not start: " + "".join(told))

    def kill(self, how: int = signal.SIGKILL) -> None:
        """Ends it with its helpers, as a power cut would."""
        assert self.process
        os.killpg(self.process.pid, how)
        self.process.wait(PATIENCE)
        assert self.process.stdout
        self.process.stdout.close()


@pytest.fixture(scope="session")
def shown(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Server]:
    """A desk on a copy of the demo that no test changes."""
    folder = tmp_path_factory.mktemp("desk") / "demo_job"
    shutil.copytree(ROOT / "demo_job", folder)
    server = Server(folder, free_port())
    server.start()
    yield server
    server.kill(signal.SIGTERM)


@pytest.fixture
def start() -> Iterator[Any]:
    """Starts a desk on a folder."""
    running: list[Server] = []

    def run(folder: Path, network: str = "") -> Server:
        server = Server(folder, free_port(), network=network)
        running.append(server)
        server.start()
        return server

    yield run
    for server in running:
        if server.process and server.process.poll() is None:
            server.kill(signal.SIGTERM)


@dataclass
class Windows:
    """Windows of one browser before one server; a second window shares the first one's key."""

    browser: Any
    asked: list[str] = field(default_factory=list)
    complaints: list[str] = field(default_factory=list)
    opened: list[Any] = field(default_factory=list)
    hosts: set[str] = field(default_factory=lambda: {"127.0.0.1"})

    def first(
        self,
        server: Server,
        *,
        width: int = 820,
        height: int = 1180,
        scheme: str = "light",
        touch: bool = True,
    ) -> Hands:
        """A new browser profile: it enters with the key."""
        context = self.browser.new_context(
            viewport={"width": width, "height": height},
            color_scheme=scheme,
            has_touch=touch,
            storage_state=server.pass_on,
        )
        self.opened.append(context)
        hands = self._page(context, server.url.split("#")[0] if server.pass_on else server.url)
        hands.page.locator(".top, .alone").first.wait_for()
        server.pass_on = context.storage_state()
        return hands

    def phone(self, url: str) -> Hands:
        """Another device that has read an address off the screen."""
        self.hosts.add(urlsplit(url).hostname or "")
        context = self.browser.new_context(viewport={"width": 390, "height": 844}, has_touch=True)
        self.opened.append(context)
        return self._page(context, url)

    def another(self, hands: Hands) -> Hands:
        """A second window beside the first."""
        parts = urlsplit(hands.url)
        return self._page(hands.page.context, f"{parts.scheme}://{parts.netloc}/")

    def _page(self, context: Any, url: str) -> Hands:
        page = context.new_page()
        page.set_default_timeout(PATIENCE * 200)
        page.on("request", lambda request: self.asked.append(request.url))
        page.on("console", lambda message: self.complaints.append(message.text))
        page.on("pageerror", lambda error: self.complaints.append(str(error)))
        page.goto(url)
        page.locator("main").wait_for()
        return Hands(page, url)


@pytest.fixture
def windows(browser: Any) -> Iterator[Windows]:
    """Windows that are closed in the end."""
    found = Windows(browser)
    yield found
    for context in found.opened:
        context.close()
    hosts = {urlsplit(url).hostname for url in found.asked if urlsplit(url).scheme not in {"data", "blob"}}
    assert hosts <= found.hosts, "nothing is asked of anybody else"


@pytest.fixture
def demo(tmp_path: Path) -> Path:
    """A copy of the demo job."""
    folder = tmp_path / "demo_job"
    shutil.copytree(ROOT / "demo_job", folder)
    return folder
