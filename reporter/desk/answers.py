"""What is asked of the desk and done at it, each in one place: from a request to what goes back as JSON, picture or file.

In: the desk and a request, past the guards, in a thread of its own. Out: what goes back. Every error is one of the program's
own, with a sentence and what to do.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import asdict, dataclass
from functools import cache
from importlib import resources
from pathlib import Path
from typing import Any

from font_source_sans_pro import font_files_ttf
from starlette.requests import Request
from starlette.responses import FileResponse, Response

from reporter.desk import parts, photos, views
from reporter.desk.building import Building
from reporter.desk.forms import sheet
from reporter.desk.jobs import Jobs
from reporter.desk.keys import Keys, Network, Tell
from reporter.desk.store import Store, edits_of
from reporter.desk.views import names_of_earlier, told
from reporter.develop.copying import InsetOrder
from reporter.errors import NoSuchError, UsageError
from reporter.web import figures
from reporter.web.signs import store as signs
from reporter.wording import catalogue, speaking

KINDS_OF_FILES = {".html": "text/html", ".js": "text/javascript", ".css": "text/css", ".ttf": "font/ttf"}
FACES = ("SourceSansPro", "SourceSansProSemibold", "SourceSansProBold")
"""The report's own type, so that words in drawings are as wide as the drawings take them to be."""


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

    def say(self, english: str) -> str:
        """A refusal in the language of the open job; English where none is open."""
        return self.store.say(english) if self.jobs.name else english


@cache
def _files() -> Mapping[str, bytes]:
    """The page's own files, by name: nothing else can be asked for."""
    own = resources.files("reporter.desk").joinpath("static")
    found = {
        each.name: each.read_bytes()
        for each in own.iterdir()
        if Path(each.name).suffix in KINDS_OF_FILES and each.is_file()
    }
    faces = {f"{name}.ttf": Path(font_files_ttf[name]).read_bytes() for name in FACES}
    return {**found, **faces, "figures.css": figures().encode("utf-8")}


def _static(name: str) -> Response:
    data = _files().get(name)
    if data is None:
        raise NoSuchError("There is no such file.", "Load the page again.")
    kind = f"{KINDS_OF_FILES[Path(name).suffix]}; charset=utf-8"
    return Response(data, headers={"content-type": kind, "cache-control": "no-cache"})


def _words(desk: Desk, _: Request) -> dict[str, Any]:
    """The page's own words and signs; the job's language, else English."""
    sheet = desk.store.standing().job.sheet if desk.jobs.name else None
    lang, terms = (sheet.lang, sheet.terms) if sheet else ("en", "uk")
    words = catalogue(lang, terms)
    told = {ident: words.either(ident, "") for ident in words.ids if ident.startswith("desk.")}
    return {"lang": lang, "words": told, "signs": signs()}


def _jobs(desk: Desk, _: Request) -> dict[str, Any]:
    return {**desk.jobs.told(), "on_network": desk.network is not None}


def _choose(desk: Desk, told: dict[str, Any]) -> dict[str, Any]:
    if "begin" in told:
        desk.jobs.begin(told["begin"])
    else:
        desk.jobs.open(told.get("open"))
    return {"open": desk.jobs.name}


def state_of(desk: Desk, since: str) -> dict[str, Any]:
    """The whole state, or the version alone where it is the one that is known."""
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
    entry = store.files.accept(str(told.get("label", ""))[:200], edits_of(told.get("edits")))
    return {"version": store.version, "entry": entry.entry if entry else None}


def _turned(store: Store, label: str) -> dict[str, Any]:
    return {"version": store.version, "label": label}


def _put_back(desk: Desk, told: dict[str, Any]) -> dict[str, Any]:
    wanted = told.get("put_back")
    numbers = [each for each in wanted if isinstance(each, int)] if isinstance(wanted, list) else []
    store = desk.store
    entry = store.files.put_back(numbers)
    return {"version": store.version, "entry": entry.entry if entry else None}


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


ASKED: dict[str, Callable[[Desk, Request], Any]] = {
    "/": lambda _desk, _request: _static("index.html"),
    "/static/{name}": lambda _desk, request: _static(request.path_params["name"]),
    "/api/words": _words,
    "/api/jobs": _jobs,
    "/api/part/{ident}": _part,
    "/api/sheet": lambda desk, _: {"version": desk.store.version, **sheet(desk.store.standing())},
    "/api/kinds": lambda desk, _: views.kinds(desk.store.standing()),
    "/api/lost": lambda desk, _: {"lost": [asdict(each) for each in desk.store.lost()]},
    "/api/build": lambda desk, _: desk.building.told(),
    "/api/told/{what}": _told,
    "/api/guests": lambda desk, _: {"guests": [asdict(each) for each in desk.keys.guests()]},
    "/photo/{file:path}": _photo,
    "/thumb/{file:path}": _thumb,
    "/drawing/{system}.svg": _drawing,
    "/page/{number:int}.jpg": _page,
    "/out/{file}": lambda desk, request: FileResponse(desk.building.file(request.path_params["file"])),
}
"""What is asked, and what answers it."""
DONE: dict[str, Callable[[Desk, dict[str, Any]], Any]] = {
    "/api/jobs": _choose,
    "/api/edit": _edit,
    "/api/undo": lambda desk, _: _turned(desk.store, desk.store.files.undo().label),
    "/api/redo": lambda desk, _: _turned(desk.store, desk.store.files.redo().label),
    "/api/lost": _put_back,
    "/api/build": _build,
}
"""What is done, and by what."""
