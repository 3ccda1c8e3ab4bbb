"""Keys to the desk: the one in the address that the terminal opens, codes for other devices, and who is connected.

A key or code is good once. What it is exchanged for is a token that only the browser keeps, in a cookie that no script can
read. Nothing of this is ever written to a disk or a log. Beside them the address that devices on the same network reach this
computer at, and the picture of it that they scan.
"""

from __future__ import annotations

import datetime as dt
import hmac
import io
import secrets
import socket
import time
from collections.abc import Callable
from dataclasses import dataclass, field
from threading import Lock
from typing import Any

LETTERS = "23456789ABCDEFGHJKMNPQRSTVWXYZ"
"""Without what looks alike: a code may be typed."""
CODE_LENGTH = 8
CODE_LASTS = 600
"""Seconds."""
MOST_TRIES = 5
"""Wrong tries after which a code is void: 30 to the power of 8 cannot be gone through so."""
LONGEST_NAME = 40

Tell = Callable[[str], None]


@dataclass(frozen=True)
class Guest:
    """One browser that may ask: what it calls itself, from where, since when; `own` for the one that the terminal opened."""

    name: str
    address: str
    since: str
    own: bool


@dataclass(frozen=True)
class Code:
    """A code for one more device, and until when it is good."""

    code: str
    ends: float
    until: str


@dataclass
class Keys:
    """All keys of one run."""

    key: str = field(default_factory=lambda: secrets.token_urlsafe(18))
    _code: Code | None = None
    _tries: int = 0
    _guests: dict[str, Guest] = field(default_factory=dict)
    _lock: Lock = field(default_factory=Lock)

    def enter(self, key: str, address: str) -> str | None:
        """A token for the key of the address, and a new key in its place; None for a wrong one."""
        with self._lock:
            if not _same(key, self.key):
                return None
            self.key = secrets.token_urlsafe(18)
            return self._token("", address, own=True)

    def offer(self) -> Code:
        """A code for one more device; an earlier one ends."""
        with self._lock:
            code = "".join(secrets.choice(LETTERS) for _ in range(CODE_LENGTH))
            until = dt.datetime.now().astimezone() + dt.timedelta(seconds=CODE_LASTS)
            self._code = Code(code, time.monotonic() + CODE_LASTS, until.isoformat(timespec="seconds"))
            self._tries = 0
            return self._code

    def pair(self, code: str, name: str, address: str) -> str | None:
        """A token for a code that was offered; None for a wrong one, or one that has ended."""
        with self._lock:
            offered = self._code
            if offered is None or time.monotonic() > offered.ends:
                return None
            if not _same(code.strip().upper(), offered.code):
                self._tries += 1
                self._code = None if self._tries >= MOST_TRIES else offered
                return None
            self._code = None
            return self._token(name, address, own=False)

    def _token(self, name: str, address: str, *, own: bool) -> str:
        token = secrets.token_urlsafe(32)
        since = dt.datetime.now().astimezone().isoformat(timespec="seconds")
        shown = "".join(each for each in name if each.isprintable())[:LONGEST_NAME].strip()
        self._guests[token] = Guest(shown, address, since, own)
        return token

    def guest(self, token: str) -> Guest | None:
        """Whose token this is; None for nobody's."""
        with self._lock:
            return next((guest for known, guest in self._guests.items() if _same(token, known)), None)

    def guests(self) -> list[Guest]:
        """Everybody who entered, in order."""
        with self._lock:
            return list(self._guests.values())


def _same(one: str, other: str) -> bool:
    return hmac.compare_digest(one.encode("utf-8", "replace"), other.encode())


NOWHERE = ("192.0.2.1", 9)
"""An address for documentation (RFC 5737): nothing is sent there, the system only says which way it would go."""


@dataclass(frozen=True)
class Network:
    """Where other devices find the desk."""

    host: str

    def offered(self, code: Code) -> dict[str, Any]:
        """A code as the page shows it."""
        import segno

        url = f"http://{self.host}/#pair={code.code}"
        picture = io.BytesIO()
        segno.make(url, error="m").save(picture, kind="svg", scale=8, border=4, xmldecl=False, svgclass="qr")
        return {"svg": picture.getvalue().decode(), "url": url, "code": code.code, "until": code.until}


def own_address() -> str:
    """The address of this computer on its network; that of itself alone where there is no network."""
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as probe:
        try:
            probe.connect(NOWHERE)
            return str(probe.getsockname()[0])
        except OSError:
            return "127.0.0.1"
