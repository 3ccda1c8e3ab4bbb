"""The server: a port of this computer, the application behind its guards, the address with its key.

It listens on 127.0.0.1 and nowhere else unless asked. What it keeps for a run (copies of photos, documents) lies in a folder
of its own outside the job and goes with it.
"""

from __future__ import annotations

import os
import socket
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

import uvicorn

from reporter.desk.answers import Desk
from reporter.desk.app import application
from reporter.desk.building import Building
from reporter.desk.guards import Guard
from reporter.desk.jobs import Jobs
from reporter.desk.keys import Keys, Network, Tell, own_address
from reporter.desk.photos import Copies
from reporter.errors import UsageError
from reporter.machine.scratch import scratch
from reporter.registry import Registry

SELF = "127.0.0.1"


@dataclass(frozen=True)
class OpenDesk:
    """A desk that is ready to answer."""

    app: Guard
    keys: Keys
    host: str

    @property
    def url(self) -> str:
        """The address with a key in it, good once."""
        return f"http://{self.host}/#key={self.keys.key}"


@contextmanager
def open_desk(
    folder: Path, registry: Registry, port: int, tell: Tell, *, is_job: bool, address: str = ""
) -> Iterator[OpenDesk]:
    """The desk on a folder; `address` is this computer's on the network, where other devices may come."""
    hosts = {f"{SELF}:{port}", *([f"{address}:{port}"] if address else [])}
    cookie = f"gudgeon-{port}"
    with scratch() as place:
        for name in ("copies", "documents"):
            (place / name).mkdir()
        building = Building(place / "documents")
        desk = Desk(
            jobs=Jobs(folder, registry, is_job=is_job),
            keys=Keys(),
            building=building,
            copies=Copies(place / "copies"),
            network=Network(f"{address}:{port}") if address else None,
            cookie=cookie,
            tell=tell,
        )
        try:
            yield OpenDesk(
                Guard(application(desk), desk.keys, frozenset(hosts), cookie), desk.keys, f"{SELF}:{port}"
            )
        finally:
            building.end()


def serve(
    folder: Path,
    registry: Registry,
    *,
    is_job: bool,
    port: int = 0,
    on_network: bool = False,
    tell: Tell,
    ready: Callable[[str], None],
) -> None:
    """Answer until interrupted; `ready` is called with the address once questions can come."""
    from reporter.door import close

    address = own_address() if on_network else ""
    if on_network and address == SELF:
        raise UsageError("This computer is on no network.", "Join one, or leave --on-network out.")
    with _listening("0.0.0.0" if on_network else SELF, port) as listener:  # noqa: S104 - asked for
        port = listener.getsockname()[1]
        with open_desk(folder, registry, port, tell, is_job=is_job, address=address) as desk:
            try:
                _Server(desk, ready).run(sockets=[listener])
            finally:
                close()


@contextmanager
def _listening(host: str, port: int) -> Iterator[socket.socket]:
    with socket.socket(socket.AF_INET, socket.SOCK_STREAM) as listener:
        if os.name != "nt":
            # A port of a run that has just ended is free; on Windows this would take one that is in use.
            listener.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        try:
            listener.bind((host, port))
        except OSError as error:
            msg = f"Port {port} cannot be used: {error.strerror}"
            raise UsageError(msg, "Choose another one with --port, or leave it out.") from error
        yield listener


class _Server(uvicorn.Server):
    """Uvicorn without a log: addresses in it would hold names of photos."""

    def __init__(self, desk: OpenDesk, ready: Callable[[str], None]) -> None:
        self._desk = desk
        self._ready = ready
        super().__init__(
            uvicorn.Config(
                desk.app,
                access_log=False,
                log_level="error",
                lifespan="off",
                server_header=False,
                proxy_headers=False,
                timeout_graceful_shutdown=1,
                h11_max_incomplete_event_size=32_768,
            )
        )

    async def startup(self, sockets: list[socket.socket] | None = None) -> None:
        """Say that questions can come."""
        await super().startup(sockets)
        self._ready(self._desk.url)
