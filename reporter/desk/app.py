"""The requests that the page makes, each to what answers it. Nothing here decides anything.

In: HTTP, past the guards. Out: JSON, pictures, files. Every error of the program becomes a sentence and what to do.
"""

from __future__ import annotations

import json
import time
from collections.abc import Callable, Mapping
from dataclasses import asdict, dataclass
from functools import cache
from importlib import resources
from pathlib import Path
from typing import Any

from anyio import sleep, to_thread
from starlette.applications import Starlette
from starlette.exceptions import HTTPException
from starlette.requests import ClientDisconnect, Request
from starlette.responses import FileResponse, JSONResponse, Response
from starlette.routing import Route

from reporter.desk import parts, photos, views
from reporter.desk.building import Building
from reporter.desk.jobs import Jobs
from reporter.desk.keys import Guest, Keys, Tell
from reporter.desk.pairing import Network
from reporter.desk.sheet import sheet
from reporter.desk.store import Store, edits_of
from reporter.desk.told import names_of_earlier, told
from reporter.develop.copying import InsetOrder
from reporter.editing import ConflictError, EditError
from reporter.errors import CannotWriteError, GudgeonError, NoSuchError, UsageError
from reporter.web import figures
from reporter.web.signs import store as signs
from reporter.wording import catalogue, speaking

WAIT, LOOK = 20.0, 0.25
"""Seconds that a question for news waits at most, and between two looks at the folder."""
KINDS_OF_FILES = {".html": "text/html", ".js": "text/javascript", ".css": "text/css", ".svg": "image/svg+xml"}
STATUS: tuple[tuple[type[GudgeonError], int], ...] = (
    (ConflictError, 409),
    (EditError, 422),
    (NoSuchError, 404),
    (CannotWriteError, 507),
    (UsageError, 422),
)


@dataclass
class Desk:
    """Everything that requests are answered from."""

    jobs: Jobs
    keys: Keys
    building: Building
    copies: photos.Copies
    network: Network | None
    cookie: str
    tell: Tell

    @property
    def store(self) -> Store:
        """The open job."""
        return self.jobs.store()


def application(desk: Desk) -> Starlette:
    """The application; it must stand behind `guards.Guard`."""

    def get(path: str, answer: Callable[[Desk, Request], Any]) -> Route:
        return Route(path, _plain(desk, answer), methods=["GET"])

    def post(path: str, answer: Callable[[Desk, Any], Any]) -> Route:
        return Route(path, _with_body(desk, answer), methods=["POST"])

    routes = [
        get("/", lambda _desk, _request: _static("index.html")),
        get("/static/{name}", lambda _desk, request: _static(request.path_params["name"])),
        get("/api/words", _words),
        Route("/api/enter", _enter(desk), methods=["POST"]),
        get("/api/jobs", _jobs),
        post("/api/jobs", _choose),
        Route("/api/job", _news(desk), methods=["GET"]),
        get("/api/part/{ident}", _part),
        get("/api/sheet", lambda desk, _: {"version": desk.store.version, **sheet(desk.store.standing())}),
        get("/api/kinds", lambda desk, _: views.kinds(desk.store.standing())),
        post("/api/edit", _edit),
        post("/api/undo", lambda desk, _: _turned(desk.store, desk.store.undo().label)),
        post("/api/redo", lambda desk, _: _turned(desk.store, desk.store.redo().label)),
        get("/api/lost", lambda desk, _: {"lost": [_json(asdict(each)) for each in desk.store.lost()]}),
        post("/api/lost", _put_back),
        Route("/api/photos", _take_photo(desk), methods=["POST"]),
        get("/photo/{file:path}", _photo),
        get("/thumb/{file:path}", _thumb),
        get("/drawing/{system}.svg", _drawing),
        post("/api/build", _build),
        get("/api/build", lambda desk, _: desk.building.told()),
        get("/page/{number:int}.jpg", _page),
        get(
            "/out/{file}", lambda desk, request: FileResponse(desk.building.file(request.path_params["file"]))
        ),
        get("/api/told/{what}", _told),
        Route("/api/pair", _pair(desk), methods=["POST"]),
        get("/api/guests", lambda desk, _: {"guests": [_guest(each) for each in desk.keys.guests()]}),
    ]
    application = Starlette(
        routes=routes, exception_handlers={HTTPException: _no_such, Exception: _our_fault}
    )
    application.router.redirect_slashes = False
    return application


async def _no_such(_: Request, error: Exception) -> Response:
    status = error.status_code if isinstance(error, HTTPException) else 404
    return _refusal(status, "This cannot be asked here.", "Load the page again.")


async def _our_fault(_: Request, error: Exception) -> Response:
    told = f"This is a fault of the program, not of your job: {type(error).__name__}."
    return _refusal(500, told, "What was saved is saved. Load the page again.")


def _plain(desk: Desk, answer: Callable[[Desk, Request], Any]) -> Callable[[Request], Any]:
    """An answer that is made in a thread of its own, with errors in words."""

    async def endpoint(request: Request) -> Response:
        return await to_thread.run_sync(_answered, answer, desk, request)

    return endpoint


def _with_body(desk: Desk, answer: Callable[[Desk, Any], Any]) -> Callable[[Request], Any]:
    async def endpoint(request: Request) -> Response:
        body = await _body(request)
        if body is None:
            return _refusal(400, "This cannot be read.", "Load the page again.")
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
        conflicts = [_json(asdict(each)) for each in error.conflicts]
        return JSONResponse({"error": error.message, "do": error.advice, "conflicts": conflicts}, 409)
    except GudgeonError as error:
        return _refusal(_status(error), error.message, error.advice)
    return made if isinstance(made, Response) else JSONResponse(made)


def _status(error: GudgeonError) -> int:
    return next((status for kind, status in STATUS if isinstance(error, kind)), 500)


def _refusal(status: int, error: str, do: str) -> Response:
    return JSONResponse({"error": error, "do": do}, status)


def _json(told: dict[str, Any]) -> dict[str, Any]:
    return {key: list(value) if isinstance(value, tuple) else value for key, value in told.items()}


@cache
def _files() -> Mapping[str, bytes]:
    """The page's own files, by name: nothing else can be asked for."""
    own = resources.files("reporter.desk").joinpath("static")
    found = {
        each.name: each.read_bytes()
        for each in own.iterdir()
        if Path(each.name).suffix in KINDS_OF_FILES and each.is_file()
    }
    return {**found, "figures.css": figures().encode("utf-8")}


def _static(name: str) -> Response:
    data = _files().get(name)
    if data is None:
        return _refusal(404, "There is no such file.", "Load the page again.")
    kind = f"{KINDS_OF_FILES[Path(name).suffix]}; charset=utf-8"
    return Response(data, headers={"content-type": kind, "cache-control": "no-cache"})


def _words(desk: Desk, _: Request) -> dict[str, Any]:
    """The page's own words and signs; the job's language, else English."""
    sheet = desk.store.standing().job.sheet if desk.jobs.name else None
    lang, terms = (sheet.lang, sheet.terms) if sheet else ("en", "uk")
    words = catalogue(lang, terms)
    told = {ident: words.either(ident, "") for ident in words.ids if ident.startswith("desk.")}
    return {"lang": lang, "words": told, "signs": signs()}


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
                401, "This key or code does not hold.", "Open the address that the terminal shows."
            )
        if (guest := desk.keys.guest(token)) and not guest.own:
            desk.tell(f"Connected: {guest.name or 'a device'} from {guest.address}.")
        answer = JSONResponse({})
        answer.set_cookie(desk.cookie, token, httponly=True, samesite="strict", path="/")
        return answer

    return endpoint


def _jobs(desk: Desk, _: Request) -> dict[str, Any]:
    return {**desk.jobs.told(), "on_network": desk.network is not None}


def _choose(desk: Desk, told: dict[str, Any]) -> dict[str, Any]:
    if "begin" in told:
        desk.jobs.begin(told["begin"])
    else:
        desk.jobs.open(told.get("open"))
    return {"open": desk.jobs.name}


def _news(desk: Desk) -> Callable[[Request], Any]:
    """The state; with `since` it waits for another version, and says so when there is none."""

    async def endpoint(request: Request) -> Response:
        since = request.query_params.get("since", "")
        until = time.monotonic() + WAIT
        while since and desk.jobs.name and time.monotonic() < until:
            if await to_thread.run_sync(lambda: desk.store.version) != since:
                break
            if await request.is_disconnected():
                return Response(status_code=204)
            await sleep(LOOK)
        return await to_thread.run_sync(_answered, _state, desk, since)

    return endpoint


def _state(desk: Desk, since: str) -> dict[str, Any]:
    store = desk.store
    if since and store.version == since:
        return {"version": since}
    return views.state(store.standing(), store.folder.name, store.files.can())


def _part(desk: Desk, request: Request) -> Any:
    found = parts.part(desk.store.standing(), request.path_params["ident"])
    if found is None:
        raise NoSuchError("There is no such part.", "Look at the list of parts.")
    return found


def _edit(desk: Desk, told: dict[str, Any]) -> dict[str, Any]:
    store = desk.store
    entry = store.accept(str(told.get("label", ""))[:200], edits_of(told.get("edits")))
    return {"version": store.version, "entry": entry.entry if entry else None}


def _turned(store: Store, label: str) -> dict[str, Any]:
    return {"version": store.version, "label": label}


def _put_back(desk: Desk, told: dict[str, Any]) -> dict[str, Any]:
    wanted = told.get("put_back")
    numbers = [each for each in wanted if isinstance(each, int)] if isinstance(wanted, list) else []
    store = desk.store
    entry = store.put_back(numbers)
    return {"version": store.version, "entry": entry.entry if entry else None}


def _take_photo(desk: Desk) -> Callable[[Request], Any]:
    async def endpoint(request: Request) -> Response:
        try:
            store = desk.store
            came = await photos.take(store, request.query_params.get("name", ""), request.stream())
        except GudgeonError as error:
            return _refusal(_status(error), error.message, error.advice)
        except ClientDisconnect:
            return _refusal(400, "The photo did not come whole.", "Send it again.")

        def put(_desk: Desk, _body: Any) -> dict[str, Any]:
            taken = photos.put_away(store, *came)
            standing = store.standing()
            with speaking(standing.job.sheet.lang):
                return {**views.photo_told(standing, taken.photo), "already": taken.already}

        return await to_thread.run_sync(_answered, put, desk, None)

    return endpoint


def _number(request: Request, name: str, otherwise: float) -> float:
    try:
        value = float(request.query_params.get(name, otherwise))
    except ValueError:
        return otherwise
    return value if -1e6 < value < 1e6 else otherwise  # noqa: PLR2004 - keeps out what is no number


def _photo(desk: Desk, request: Request) -> Response:
    file, width = request.path_params["file"], int(_number(request, "w", 1200))
    standing = desk.store.standing()
    if "at" not in request.query_params:
        return _picture(desk.copies.wide(standing, file, width))
    try:
        x, y = (min(max(float(each), 0.0), 1.0) for each in request.query_params["at"].split(","))
    except ValueError as error:
        raise UsageError("This is no place on a photo.", "Give two fractions.") from error
    radius = min(max(_number(request, "radius", 0.06), 0.005), 0.5)
    return _picture(desk.copies.piece(standing, file, InsetOrder(x, y, radius, min(max(width, 40), 1600))))


def _thumb(desk: Desk, request: Request) -> Response:
    return _picture(desk.copies.wide(desk.store.standing(), request.path_params["file"], photos.THUMB))


def _picture(file: Path) -> Response:
    return FileResponse(file, media_type="image/jpeg", headers={"cache-control": "private, max-age=600"})


def _drawing(desk: Desk, request: Request) -> Response:
    standing = desk.store.standing()
    with speaking(standing.job.sheet.lang):
        drawn = views.drawings(standing).get(request.path_params["system"])
    if drawn is None:
        raise NoSuchError("There is no such drawing.", "Look at the walk.")
    return Response(drawn, media_type="image/svg+xml")


def _build(desk: Desk, told: dict[str, Any]) -> dict[str, Any]:
    return {"build": desk.building.start(desk.store.folder, str(told.get("what", "report")))}


def _page(desk: Desk, request: Request) -> Response:
    data = desk.building.page(request.path_params["number"], int(_number(request, "w", 900)))
    return Response(data, media_type="image/jpeg")


def _told(desk: Desk, request: Request) -> dict[str, Any]:
    standing = desk.store.standing()
    lines = told(standing, request.path_params["what"], request.query_params.get("earlier", ""))
    return {"lines": lines, "earlier": names_of_earlier(standing)}


def _pair(desk: Desk) -> Callable[[Request], Any]:
    async def endpoint(request: Request) -> Response:
        guest: Guest | None = request.scope.get("guest")
        if desk.network is None or guest is None or not guest.own:
            return _refusal(404, "Other devices are not let in.", "Start gudgeon desk with --on-network.")
        return JSONResponse(desk.network.offered(desk.keys.offer()))

    return endpoint


def _guest(guest: Guest) -> dict[str, Any]:
    return {"name": guest.name, "address": guest.address, "since": guest.since, "own": guest.own}
