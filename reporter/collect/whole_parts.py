"""Which parts of a folder with faults are whole: those can be graded, the others are told as incomplete.

In: what is wrong, and which problem is about a row of which part. Out: the ids of the parts at fault, or that a fault
touches what every grade rests on (the day, the limits, the sizes of the boat, the table as a whole).
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from reporter.errors import Problem

TOLD_ONLY = (
    "vessel › name", "people", "report", "scope", "not_examined", "incidents", "inventory", "documents", "opinion",
    "own_terms", "disclose", "evidence", "page", "text", "cameras", "vessel › photo", "vessel › hull_number_photo",
)  # fmt: skip
"""Keys of job.yaml that a report tells and no grade rests on."""
STEP = " › "


def touches_all(problem: Problem, parts: Mapping[Problem, str]) -> bool:
    """Whether grades of other parts may rest on what is wrong."""
    if problem.file == "job.yaml":
        return not problem.line or not any(
            problem.key == key or problem.key.startswith(f"{key}{STEP}") for key in TOLD_ONLY
        )
    if problem.file == "findings.yaml":
        return problem.key.partition(STEP)[0] in {"", "format", "components", "paths"}
    return problem.file == "measurements.csv" and problem not in parts


def parts_at_fault(problems: Iterable[Problem], parts: Mapping[Problem, str]) -> set[str]:
    """Ids of the parts of which something is not in order; a photo that is missing leaves the grade as it is."""
    of_sheet = (each.key.split(STEP) for each in problems if each.file == "findings.yaml")
    return {steps[0] for steps in of_sheet if "photos" not in steps} | set(parts.values())
