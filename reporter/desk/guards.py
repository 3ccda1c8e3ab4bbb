"""Who may ask what: checked before anything of the job is touched.

In: every request, as ASGI hands it on. Out: the request, if it is for this address (Host), from this page (Origin), by a
browser that has entered (cookie), and no larger than what it asks for may be; else a refusal. Every answer carries the
policy under which the page runs: nothing from elsewhere, no inline script or style.
"""

from __future__ import annotations

import json
from collections.abc import Awaitable, Callable, MutableMapping
from http.cookies import CookieError, SimpleCookie
from typing import Any

from reporter.desk.keys import Keys

Message = MutableMapping[str, Any]
Receive = Callable[[], Awaitable[Message]]
Send = Callable[[Message], Awaitable[None]]
App = Callable[[Message, Receive, Send], Awaitable[None]]

LARGEST = 1_000_000
LARGEST_PHOTO = 120_000_000
"""Bytes of a body. The largest photos of telephones are below 100 MB."""
OPEN = ("/", "/api/enter", "/api/words")
"""What holds nothing of the job and so needs no cookie; `/static/` as well, or the page could not show how to enter."""
POLICY = (
    "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' blob: data:; font-src 'self'; "
    "connect-src 'self'; "
    "frame-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'self'"
)
ALWAYS = (
    (b"content-security-policy", POLICY.encode()),
    (b"x-content-type-options", b"nosniff"),
    (b"referrer-policy", b"no-referrer"),
    (b"cross-origin-opener-policy", b"same-origin"),
    (b"cross-origin-resource-policy", b"same-origin"),
)
SAYINGS = {
    400: ("This request cannot be understood.", "Open the address that the terminal shows."),
    401: ("This browser has not entered.", "Open the address that the terminal shows."),
    403: ("This is asked from another place.", "Open the address that the terminal shows."),
    405: ("This cannot be asked here.", "Load the page again."),
    413: ("This is too large.", "Send a smaller file."),
}


class Guard:
    """The application behind its guards. `hosts` are the names and ports it answers to."""

    def __init__(self, app: App, keys: Keys, hosts: frozenset[str], cookie: str) -> None:
        self.app = app
        self.keys = keys
        self.hosts = hosts
        self.origins = frozenset(f"http://{host}" for host in hosts)
        self.cookie = cookie

    async def __call__(self, scope: Message, receive: Receive, send: Send) -> None:
        """One request; anything but HTTP is not spoken here."""
        if scope["type"] == "lifespan":
            await self.app(scope, receive, send)
            return
        if scope["type"] != "http":
            return
        headers = [
            (name.lower().decode("latin-1"), value.decode("latin-1")) for name, value in scope["headers"]
        ]
        status = self._fault(scope, headers)
        if status:
            await refuse(send, status)
            return
        await _Measured(scope, receive, send).run(self.app)

    def _fault(self, scope: Message, headers: list[tuple[str, str]]) -> int:
        """The status to refuse with; 0 for a request that may go on."""
        return self._misplaced(scope, headers) or self._unknown(scope, dict(headers))

    def _misplaced(self, scope: Message, headers: list[tuple[str, str]]) -> int:
        """A request for another name, or from another page."""
        hosts = [value for name, value in headers if name == "host"]
        if len(hosts) != 1:
            return 400
        if hosts[0] not in self.hosts:
            return 403
        if scope["method"] not in {"GET", "HEAD", "POST"}:
            return 405
        told = dict(headers)
        # Over plain HTTP to another computer browsers send no Sec-Fetch-Site, but where it stands it must be right.
        if told.get("sec-fetch-site", "none") not in {"same-origin", "none"} and scope["path"] != "/":
            return 403
        if scope["method"] == "POST" and told.get("origin") not in self.origins:
            return 403
        return 0

    def _unknown(self, scope: Message, told: dict[str, str]) -> int:
        """A browser that has not entered."""
        if scope["path"] in OPEN or scope["path"].startswith("/static/"):
            return 0
        guest = self.keys.guest(_cookie(told.get("cookie", ""), self.cookie))
        scope["guest"] = guest
        return 0 if guest else 401


def _cookie(header: str, name: str) -> str:
    try:
        found = SimpleCookie(header).get(name)
    except CookieError:
        return ""
    return found.value if found else ""


class _Measured:
    """One request whose body is counted while it is read, whatever length it claims."""

    def __init__(self, scope: Message, receive: Receive, send: Send) -> None:
        self.scope = scope
        self._receive = receive
        self._send = send
        self._most = LARGEST_PHOTO if scope["path"] in {"/api/photos", "/api/take"} else LARGEST
        self._read = 0
        self._begun = False
        self._too_large = False

    async def run(self, app: App) -> None:
        """The application's answer, or the refusal of what is too large."""
        length = dict(self.scope["headers"]).get(b"content-length", b"0")
        if not length.isdigit() or int(length) > self._most:
            await refuse(self._send, 413)
            return
        try:
            await app(self.scope, self._receive_counted, self._send_guarded)
        except Exception:
            if not self._too_large:
                raise
        if self._too_large and not self._begun:
            await refuse(self._send, 413)

    async def _receive_counted(self) -> Message:
        if self._too_large:
            return {"type": "http.disconnect"}
        message = await self._receive()
        self._read += len(message.get("body", b""))
        self._too_large = self._read > self._most
        return {"type": "http.disconnect"} if self._too_large else message

    async def _send_guarded(self, message: Message) -> None:
        if self._too_large and not self._begun:
            return  # what the application makes of a body that broke off
        if message["type"] == "http.response.start":
            self._begun = True
            message = {**message, "headers": [*_unset(message.get("headers", ())), *ALWAYS]}
        await self._send(message)


def _unset(headers: Any) -> list[tuple[bytes, bytes]]:
    """The application's headers; what says nothing of keeping is not kept."""
    told = list(headers)
    if not any(name.lower() == b"cache-control" for name, _ in told):
        told.append((b"cache-control", b"no-store"))
    return told


async def refuse(send: Send, status: int) -> None:
    """A refusal in words."""
    what, do = SAYINGS[status]
    body = json.dumps({"error": what, "do": do}).encode()
    headers = [
        (b"content-type", b"application/json"),
        (b"cache-control", b"no-store"),
        (b"connection", b"close"),
        *ALWAYS,
    ]
    await send({"type": "http.response.start", "status": status, "headers": headers})
    await send({"type": "http.response.body", "body": body})
