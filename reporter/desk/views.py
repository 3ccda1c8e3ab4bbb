"""The job and its kinds as the page is given them.

In: a standing. Out: JSON by the names that the page knows. Nothing is judged or worded here that the report does not judge
and word. Beside them what the commands tell on a terminal, line by line: the check, the work, what is due, what has changed.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable
from functools import lru_cache
from typing import Any

from reporter import pipeline
from reporter.collect.translate import STAND_INS
from reporter.desk.faults import faults
from reporter.desk.standing import Standing
from reporter.door import group_by_gaps
from reporter.errors import NoSuchError
from reporter.model.assessment import Graded
from reporter.model.drawing import Drawing
from reporter.model.photo import PhotoFile
from reporter.model.terms import Grade
from reporter.outline.photos import clock
from reporter.outputs.comparison import compared
from reporter.outputs.due_list import boat_of, lines
from reporter.outputs.grades import summary
from reporter.web.drawings import drawing
from reporter.wording import speaking

GAP_MINUTES = 5.0
"""A pause that long usually means that the inspector went on to another part."""
FOLDER = "photos/"


def state(standing: Standing, name: str, can: tuple[str | None, str | None]) -> dict[str, Any]:
    """The whole job: parts with their grades, photos, drawings, faults, and what can be undone."""
    with speaking(standing.job.sheet.lang):
        return {
            "version": standing.version,
            "name": name,
            "title": _boat(standing) or name,
            "lang": standing.job.sheet.lang,
            "grades": _grades(standing),
            "parts": [_part(standing, part) for part in standing.graded.components],
            "photos": _photos(standing),
            "drawings": drawings(standing),
            "faults": faults(standing),
            "remarks": list(standing.job.remarks),
            "undo": can[0],
            "redo": can[1],
            "out_of_reach": False,
        }


def _boat(standing: Standing) -> str:
    """The boat's name; "" where a stand-in takes its place."""
    name = standing.job.sheet.vessel.name
    return "" if name == STAND_INS["vessel"]["name"] else name


def _grades(standing: Standing) -> list[dict[str, Any]]:
    counts = Counter(part.grade for part in standing.graded.components)
    return [
        {
            "grade": each.value,
            "word": standing.words(f"grade.{each}"),
            "colour": each.value,
            "count": counts[each],
        }
        for each in (Grade.STOP, Grade.FIRST, Grade.PLAN, Grade.WATCH, Grade.CLEAR, Grade.UNSEEN)
    ]


def _part(standing: Standing, part: Graded) -> dict[str, Any]:
    told = part.component
    return {
        "id": told.id,
        "kind": told.kind,
        "title": part.title,
        "place": standing.context.place(part),
        "system": part.system,
        "station": part.station,
        "grade": part.grade.value,
        "word": standing.context.grade_word(part),
        "score": part.score,
        "photos": [_file(use.file) for use in told.photos],
        "open": sum(each.needed for each in part.missing),
    }


def _file(name: str) -> str:
    return name.removeprefix(FOLDER)


def _photos(standing: Standing) -> list[dict[str, Any]]:
    """All photos in the order of their time; those without one last."""
    uses = [(use, part.id) for part in standing.job.components for use in part.photos]
    groups = group_by_gaps(list(standing.job.photos), GAP_MINUTES)
    return [
        {
            **photo_told(standing, photo),
            "group": number,
            "parts": list(dict.fromkeys(ident for use, ident in uses if use.file == photo.name)),
            "marks": sum(len(use.marks) for use, _ in uses if use.file == photo.name),
        }
        for number, group in enumerate(groups)
        for photo in group
    ]


def photo_told(standing: Standing, photo: PhotoFile) -> dict[str, Any]:
    """What is known of a photo file."""
    taken = photo.taken
    return {
        "file": _file(photo.name),
        "sha256": photo.sha256,
        "width": photo.width,
        "height": photo.height,
        "taken": {"text": clock(taken), "time": taken.time.isoformat()} if taken else None,
        "remark": photo.problem or ("" if taken else standing.words("photo.no_time")),
    }


def drawings(standing: Standing) -> dict[str, str]:
    """The drawing of every system that draws itself, as SVG with its places to tap."""
    found = {}
    for system in standing.graded.systems:
        figure = standing.context.drawing(system) if system.components or system.expected else None
        if figure:
            found[system.id] = _drawn(figure.drawing)
    return found


@lru_cache(maxsize=32)
def _drawn(picture: Drawing) -> str:
    # Placing the names is most of the cost; an edit leaves most systems as they were.
    return drawing(None, picture, "full", tapped=True)


def kinds(standing: Standing) -> dict[str, Any]:
    """The walk: systems with their kinds in walking order, and which of them should be listed."""
    expected = {kind for system in standing.graded.systems for kind in system.not_listed}
    expected |= {part.component.kind for part in standing.graded.components}
    words, plugins = standing.words, standing.kinds.plugins
    systems = []
    for system in sorted(standing.kinds.systems.values(), key=lambda each: (each.order, each.id)):
        order = {station.id: place for place, station in enumerate(system.stations)}
        own = sorted(
            (each for each in plugins.values() if each.system == system.id),
            key=lambda each: order[each.station],
        )
        told = [
            {
                "kind": each.kind,
                "title": words.terms(each.title),
                "expected": each.kind in expected,
                "help": words.terms(each.purpose),
                "load_path": each.load_path,
            }
            for each in own
        ]
        systems.append({"system": system.id, "title": system.title, "kinds": told})
    return {"systems": systems}


def told(standing: Standing, what: str, earlier: str) -> list[str]:
    """The lines; NoSuchError for what is not told."""
    if what not in _TOLD:
        raise NoSuchError("This is not told here.", f"Ask for one of: {', '.join(_TOLD)}.")
    with speaking(standing.job.sheet.lang):
        return _TOLD[what](standing, earlier)


def names_of_earlier(standing: Standing) -> list[str]:
    """The earlier folders that the job names."""
    return [each.folder for each in standing.job.earlier]


def _check(standing: Standing, _: str) -> list[str]:
    return summary(standing.job, standing.graded, standing.template, standing.kinds)


def _work(standing: Standing, _: str) -> list[str]:
    """Every open action with its part and place, by number."""
    rows = [
        (
            action.number,
            f"{action.number}. {action.what}, {action.by_when}. {part.title}; {standing.context.place(part)}",
        )
        for part in standing.graded.components
        for action in part.actions
        if action.is_open
    ]
    return [standing.words.terms(line.removesuffix("; ")) for _, line in sorted(rows)]


def _due(standing: Standing, _: str) -> list[str]:
    sheet = standing.job.sheet
    boat = boat_of(standing.job, standing.graded, standing.kinds)
    return lines([boat], sheet.inspection.last_day, "date", sheet.lang, sheet.terms)


def _compare(standing: Standing, earlier: str) -> list[str]:
    past = next((each for each in standing.job.earlier if each.folder == earlier or not earlier), None)
    if past is None:
        raise NoSuchError("No earlier visit is named in job.yaml.", "Name its folder under 'earlier'.")
    job = standing.job.model_copy(update={"earlier": (past,)})
    graded = pipeline.grade(job, standing.kinds, standing.template, keep_going=True)
    return compared(job, graded, standing.template, standing.kinds, everything=True)


_TOLD: dict[str, Callable[[Standing, str], list[str]]] = {
    "check": _check,
    "work": _work,
    "due": _due,
    "compare": _compare,
}
