"""What is wrong with a folder, beside the field it is about.

In: the problems as they are told for a file. Out: the same with part and question, where their key says which.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from pydantic import BaseModel

from reporter.desk.fields import bare, is_group, said
from reporter.desk.forms import FILE, FINDINGS, TABLE, seen
from reporter.desk.standing import Standing
from reporter.editing import EditError, row_at
from reporter.errors import Problem
from reporter.model.sheet import JobSheet

BETWEEN = " › "
DEEP = {"details", "observed", "examined", "judgement"}
"""Keys of a part whose own keys are questions."""


def faults(standing: Standing) -> list[dict[str, Any]]:
    """Every problem as the page shows it."""
    return [_fault(problem, standing) for problem in standing.problems]


def of_part(standing: Standing, ident: str) -> list[dict[str, Any]]:
    """The problems of one part."""
    return [each for each in faults(standing) if each["part"] == ident]


def _fault(problem: Problem, standing: Standing) -> dict[str, Any]:
    part, keys = _about(problem, standing)
    return {
        "file": problem.file,
        "line": problem.line,
        "key": problem.key,
        "problem": problem.what,
        "do": problem.do,
        "part": part,
        "question": ".".join(keys),
        "title": _title(standing, part, keys),
        "empty": bool(keys) and problem.file != TABLE and _is_empty(problem, standing, part),
    }


def _about(problem: Problem, standing: Standing) -> tuple[str, list[str]]:
    """The part, and the keys of the question; empty where the problem does not say."""
    keys = problem.key.split(BETWEEN) if problem.key else []
    if problem.file == TABLE:
        return _of_row(standing.texts.get(problem.file, ""), problem.line)
    if problem.file == FINDINGS and keys:
        return keys[0], keys[1:3] if keys[1:2] and keys[1] in DEEP else keys[1:2]
    return "", list(_of_sheet(keys, JobSheet)) if problem.file == FILE else []


def _of_sheet(keys: list[str], model: type[BaseModel]) -> Iterator[str]:
    """The keys down to the one that the sheet asks for: what is inside a list belongs to the list."""
    if keys and keys[0] in model.model_fields:
        yield keys[0]
        kind = bare(model.model_fields[keys[0]].annotation)
        if is_group(kind):
            yield from _of_sheet(keys[1:], kind)


def _of_row(text: str, line: int) -> tuple[str, list[str]]:
    try:
        row = row_at(text, line)
    except EditError:
        return "", []
    quantity = row.get("quantity", "")
    return row.get("component", ""), ["readings", quantity] if quantity else []


def _title(standing: Standing, part: str, keys: list[str]) -> str:
    """What the question is called where it is asked; "" where the kind asks none of that name."""
    if not part or not keys:
        return said(standing.words, *_field(keys))["title"] if keys else ""
    graded = standing.graded.part(part)
    if graded is None:
        return ""
    if len(keys) == 1 or keys[0] not in {"details", "observed", "readings"}:
        return standing.words.either(f"form.{keys[0]}", "")
    plugin = standing.kinds.plugin(graded.component.kind)
    find = {"details": plugin.detail, "observed": plugin.observation, "readings": plugin.quantity}[keys[0]]
    found = find(keys[1])
    return standing.words.terms(found.title) if found else ""


def _field(keys: list[str]) -> tuple[type[BaseModel], str]:
    """The model and the field that keys of the sheet lead to."""
    model: type[BaseModel] = JobSheet
    for key in keys[:-1]:
        model = bare(model.model_fields[key].annotation)
    return model, keys[-1]


def _is_empty(problem: Problem, standing: Standing, part: str) -> bool:
    """Whether nothing stands there yet: that is no mistake, it is still to be told."""
    first, *rest = problem.key.split(BETWEEN)
    here = seen(standing, problem.file, ["components", {"id": part}] if part else [first])
    for step in rest:
        if isinstance(here, list):
            number = int(step.split()[-1]) if step.split()[-1].isdigit() else 0
            here = here[number - 1] if 0 < number <= len(here) else None
        else:
            here = here.get(step) if isinstance(here, dict) else None
    return here is None
