"""What the commands tell on a terminal, for the page: the check, the work, what is due, what has changed.

In: a standing. Out: lines of text, as the command of the same name prints them.
"""

from __future__ import annotations

from collections.abc import Callable

from reporter import pipeline
from reporter.desk.standing import Standing
from reporter.errors import NoSuchError
from reporter.outputs.comparison import compared
from reporter.outputs.due_list import boat_of, lines
from reporter.outputs.grades import summary
from reporter.wording import speaking


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
