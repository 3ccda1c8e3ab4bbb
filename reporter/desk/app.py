"""The requests that the page makes, each to what answers it. Nothing here decides anything.

In: HTTP, past the guards. Out: JSON, pictures, files. Every error of the program becomes a sentence and what to do.
"""

from __future__ import annotations

import json
import time
from collections import Counter
from collections.abc import Awaitable, Callable
from dataclasses import asdict
from pathlib import Path
from typing import Any, TypeVar

from anyio import sleep, to_thread
from starlette.applications import Starlette
from starlette.exceptions import HTTPException
from starlette.requests import ClientDisconnect, Request
from starlette.responses import JSONResponse, Response
from starlette.routing import Route

from reporter import visiting
from reporter.desk import photos, views
from reporter.desk.answers import ASKED, DONE, Desk, state_of
from reporter.desk.keys import Guest
from reporter.desk.store import Store
from reporter.editing import ConflictError, EditError
from reporter.errors import CannotWriteError, GudgeonError, NoSuchError, UsageError
from reporter.wording import speaking

WAIT, LOOK = 20.0, 0.25
"""Seconds that a question for news waits at most, and between two looks at the folder."""
MANY, SHORT = 3, 1.0
"""A browser keeps six lines open to one place: where more windows wait than this, each waits that short."""
STATUS: tuple[tuple[type[GudgeonError], int], ...] = (
    (ConflictError, 409),
    (EditError, 422),
    (NoSuchError, 404),
    (CannotWriteError, 507),
    (UsageError, 422),
)


def application(desk: Desk) -> Starlette:
    """The application; it must stand behind `guards.Guard`."""
    routes = [
        *(Route(path, _plain(desk, answer), methods=["GET"]) for path, answer in ASKED.items()),
        *(Route(path, _with_body(desk, answer), methods=["POST"]) for path, answer in DONE.items()),
        Route("/api/enter", _enter(desk), methods=["POST"]),
        Route("/api/job", _news(desk), methods=["GET"]),
        Route("/api/photos", _taking(desk, _receive_photo, _put_photo), methods=["POST"]),
        Route("/api/take", _taking(desk, _receive_sheet, _put_sheet), methods=["POST"]),
        Route("/api/pair", _pair(desk), methods=["POST"]),
    ]
    handlers: Any = {HTTPException: _no_such(desk), Exception: _our_fault(desk)}
    made = Starlette(routes=routes, exception_handlers=handlers)
    made.router.redirect_slashes = False
    return made


def _no_such(desk: Desk) -> Callable[[Request, Exception], Any]:
    async def endpoint(_: Request, error: Exception) -> Response:
        status = error.status_code if isinstance(error, HTTPException) else 404
        return _refusal(desk, status, "This cannot be asked here.", "Load the page again.")

    return endpoint


def _our_fault(desk: Desk) -> Callable[[Request, Exception], Any]:
    async def endpoint(_: Request, error: Exception) -> Response:
        told = f"This is a fault of the program, not of your job: {type(error).__name__}."
        return _refusal(desk, 500, told, "What was saved is saved. Load the page again.")

    return endpoint


def _plain(desk: Desk, answer: Callable[[Desk, Request], Any]) -> Callable[[Request], Any]:
    """An answer that is made in a thread of its own, with errors in words."""

    async def endpoint(request: Request) -> Response:
        return await to_thread.run_sync(_answered, answer, desk, request)

    return endpoint


def _with_body(desk: Desk, answer: Callable[[Desk, Any], Any]) -> Callable[[Request], Any]:
    async def endpoint(request: Request) -> Response:
        body = await _body(request)
        if body is None:
            return _refusal(desk, 400, "This cannot be read.", "Load the page again.")
        return await to_thread.run_sync(_answered, answer, desk, body)

    return endpoint


async def _body(request: Request) -> dict[str, Any] | None:
    """The JSON of a request; None when it is none."""
    try:
        told = json.loads(await request.body() or b"{}")
    except (ValueError, RecursionError):
        return None
    return told if isinstance(told, dict) else None


def _answered(answer: Callable[[Desk, Any], Any], desk: Desk, asked: Any) -> Response:
    try:
        made = answer(desk, asked)
    except ConflictError as error:
        conflicts = [asdict(each) for each in error.conflicts]
        return _refusal(desk, 409, error.message, error.advice, conflicts=conflicts)
    except GudgeonError as error:
        return _refusal(desk, _status(error), error.message, error.advice)
    return made if isinstance(made, Response) else JSONResponse(made)


def _status(error: GudgeonError) -> int:
    return next((status for kind, status in STATUS if isinstance(error, kind)), 500)


def _refusal(desk: Desk, status: int, error: str, do: str, **more: Any) -> Response:
    return JSONResponse({"error": desk.say(error), "do": desk.say(do), **more}, status)


def _enter(desk: Desk) -> Callable[[Request], Any]:
    async def endpoint(request: Request) -> Response:
        told = await _body(request) or {}
        address = request.client.host if request.client else ""
        name = str(told.get("name", ""))
        if desk.network and isinstance(told.get("pair"), str):
            token = desk.keys.pair(told["pair"], name, address)
        else:
            token = desk.keys.enter(str(told.get("key", "")), address)
        if token is None:
            return _refusal(
                desk, 401, "This key or code does not hold.", "Open the address that the terminal shows."
            )
        if (guest := desk.keys.guest(token)) and not guest.own:
            desk.tell(f"Connected: {guest.name or 'a device'} from {guest.address}.")
        answer = JSONResponse({})
        answer.set_cookie(desk.cookie, token, httponly=True, samesite="strict", path="/")
        return answer

    return endpoint


def _news(desk: Desk) -> Callable[[Request], Any]:
    """The state; with `since` it waits for another version, and says so when there is none."""
    waiting: Counter[Guest] = Counter()

    async def wait(request: Request, since: str, until: float) -> None:
        while time.monotonic() < until and not await request.is_disconnected():
            if await to_thread.run_sync(lambda: desk.store.version) != since:
                return
            await sleep(LOOK)

    async def endpoint(request: Request) -> Response:
        since, guest = request.query_params.get("since", ""), request.scope["guest"]
        if since and desk.jobs.name:
            waiting[guest] += 1
            try:
                patience = WAIT if waiting[guest] <= MANY else SHORT
                await wait(request, since, time.monotonic() + patience)
            finally:
                waiting[guest] -= 1
        return await to_thread.run_sync(_answered, state_of, desk, since)

    return endpoint


Came = TypeVar("Came")


def _taking(
    desk: Desk,
    receive: Callable[[Store, Request], Awaitable[Came]],
    put: Callable[[Store, Request, Came], dict[str, Any]],
) -> Callable[[Request], Any]:
    """A file into the folder: read as it comes, then put in its place in a thread of its own."""

    async def endpoint(request: Request) -> Response:
        try:
            store = desk.store
            came = await receive(store, request)
        except GudgeonError as error:
            return _refusal(desk, _status(error), error.message, error.advice)
        except ClientDisconnect:
            return _refusal(desk, 400, "The file did not come whole.", "Send it again.")
        return await to_thread.run_sync(
            _answered, lambda _desk, _asked: put(store, request, came), desk, None
        )

    return endpoint


async def _receive_photo(store: Store, request: Request) -> tuple[Path, str, str]:
    return await photos.take(store, request.query_params.get("name", ""), request.stream())


def _put_photo(store: Store, _: Request, came: tuple[Path, str, str]) -> dict[str, Any]:
    arrival = photos.put_away(store, *came)
    standing = store.standing()
    with speaking(standing.job.sheet.lang):
        return {**views.photo_told(standing, arrival.photo), "already": arrival.already}


async def _receive_sheet(store: Store, request: Request) -> Path:
    path, _ = await photos.receive(store, ".pdf", request.stream())
    return path


def _put_sheet(store: Store, request: Request, path: Path) -> dict[str, Any]:
    """A filled field sheet; `replace=1` lets its word stand where the folder says something else."""
    try:
        replace = request.query_params.get("replace") == "1"
        taken = visiting.take(store.folder, path, store.registry, replace=replace)
    finally:
        path.unlink(missing_ok=True)
    return {"lines": list(taken.lines()), "differs": len(taken.of("differs"))}


def _pair(desk: Desk) -> Callable[[Request], Any]:
    async def endpoint(request: Request) -> Response:
        guest: Guest | None = request.scope.get("guest")
        if desk.network is None or guest is None or not guest.own:
            return _refusal(
                desk, 404, "Other devices are not let in.", "Start gudgeon desk with --on-network."
            )
        return JSONResponse(desk.network.offered(desk.keys.offer()))

    return endpoint
