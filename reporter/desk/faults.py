"""What is wrong with a folder, beside the field it is about.

In: the problems as they are told for a file. Out: the same with part and question, where their key says which.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from reporter.desk.standing import Standing
from reporter.editing import EditError, row_at
from reporter.errors import Problem

DEEP = {"details", "observed", "examined", "judgement"}
"""Keys of a part whose own keys are questions."""


def faults(standing: Standing) -> list[dict[str, Any]]:
    """Every problem as the page shows it."""
    return [_fault(problem, standing) for problem in standing.problems]


def of_part(standing: Standing, ident: str) -> list[dict[str, Any]]:
    """The problems of one part."""
    return [each for each in faults(standing) if each["part"] == ident]


def _fault(problem: Problem, standing: Standing) -> dict[str, Any]:
    part, question = _about(problem, standing)
    return {
        "file": problem.file,
        "line": problem.line,
        "key": problem.key,
        "problem": problem.what,
        "do": problem.do,
        "part": part,
        "question": question,
    }


def _about(problem: Problem, standing: Standing) -> tuple[str, str]:
    """Part and question; empty where the key does not say."""
    keys = problem.key.split(" › ") if problem.key else []
    if problem.file == "measurements.csv":
        return _of_row(standing.texts.get(problem.file, ""), problem.line)
    if problem.file == "findings.yaml" and keys:
        inside = keys[1:3] if keys[1:2] and keys[1] in DEEP else keys[1:2]
        return keys[0], ".".join(inside)
    if problem.file == "job.yaml":
        return "", ".".join(_plain(keys))
    return "", ""


def _plain(keys: Iterable[str]) -> list[str]:
    """Up to two keys: what the sheet asks is never deeper."""
    return list(keys)[:2]


def _of_row(text: str, line: int) -> tuple[str, str]:
    try:
        row = row_at(text, line)
    except EditError:
        return "", ""
    quantity = row.get("quantity", "")
    return row.get("component", ""), f"readings.{quantity}" if quantity else ""
