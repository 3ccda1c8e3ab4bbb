"""A sheet that is not yet in order, without what is wrong in it: so a half-filled folder is graded as far as it goes.

In: a sheet as read, and the entries that problems are about. Out: a sheet without them. What is taken out is told
beforehand; a stand-in takes the place of what a job cannot be without, and is never told or printed. And which parts are
whole in spite of problems: those can be graded, unless a fault touches what every grade rests on (the day, the limits, the
sizes of the boat, the table as a whole).
"""

from __future__ import annotations

import copy
from bisect import bisect, insort
from collections.abc import Iterable, Iterator, Mapping
from typing import Any

from reporter.collect.translate import STAND_INS
from reporter.collect.yaml_file import Loc, YamlFile
from reporter.errors import Problem
from reporter.model.terms import Extent

ROUNDS = (24, 24, 24, 3, 2)
"""How finely each round takes out what the last one found: entries first, whole parts where that does not help."""
USUAL_PURPOSE = "pre_purchase"
NOT_SAID = {"extent": Extent.PART_SEEN.value}
"""How a part was looked at of which nobody has told it yet: it is listed, and not clear by that."""
AN_ANSWER, A_DETAIL, A_MARK = 5, 4, 6
"""How long the way to one answer, one detail or one mark on a photo of a part is."""


def without_faults(
    name: str, sheet: YamlFile | None, bad: Iterable[Loc], templates: Mapping[str, object], depth: int
) -> YamlFile:
    """The sheet of file `name` without the entries `bad`, cut off after `depth` steps; only stand-ins for none."""
    data = copy.deepcopy(sheet.data) if sheet else {}
    gone: set[Loc] = set()
    # From the end, so that the positions before stay right.
    for loc in sorted({each[:depth] for each in bad}, key=_order, reverse=True):
        _take_out(data, loc, gone)
    data["format"] = "1"
    if name == "findings.yaml":
        data.setdefault("components", [])
        for each in data["components"] if isinstance(data["components"], list) else ():
            if isinstance(each, dict):
                each.setdefault("examined", dict(NOT_SAID))
    else:
        usual = USUAL_PURPOSE if USUAL_PURPOSE in templates else next(iter(sorted(templates)), "0")
        _fill(data, {**copy.deepcopy(STAND_INS), "format": "1", "purpose": usual})
    return _with_lines(YamlFile(name, data, dict.fromkeys(_places(data, ()), 0)), sheet, gone)


def _with_lines(made: YamlFile, sheet: YamlFile | None, gone: set[Loc]) -> YamlFile:
    """The sheet with the lines and numbers that its entries have in the file; a stand-in has none."""
    if sheet is None:
        return made
    left: dict[Loc, list[int]] = {}
    for *way, step in gone:
        if isinstance(step, int):
            insort(left.setdefault(tuple(way), []), step)
    for loc, line in sheet.lines.items():
        if not _lies_in(loc, gone):
            moved = _moved(loc, left)
            made.lines[moved] = line
            made.numbers[moved] = sheet.numbers.get(loc, loc[-1])
    return made


def _lies_in(loc: Loc, gone: set[Loc]) -> bool:
    return any(loc[:steps] in gone for steps in range(1, len(loc) + 1))


def _moved(loc: Loc, left: Mapping[Loc, list[int]]) -> Loc:
    """Where an entry stands now that entries have `left` the lists that it lies in."""
    return tuple(
        step - bisect(left.get(loc[:depth], ()), step) if isinstance(step, int) else step
        for depth, step in enumerate(loc)
    )


def _order(loc: Loc) -> list[tuple[int, int, str]]:
    return [(0, step, "") if isinstance(step, int) else (1, 0, step) for step in loc]


def _take_out(data: dict[str, Any], loc: Loc, gone: set[Loc]) -> None:
    """Take out the last step of `loc` that is there, or the answer, detail or mark that it is a part of, and note it in `gone`."""
    match loc:
        case ("components", int(), "examined") if isinstance(_at(data, loc), str | dict | None):
            return  # what is told of the looking stands, whether or not it agrees with the rest; nothing has a stand-in
        case ("components", int(), "observed", *_):
            loc = loc[:AN_ANSWER]
        case ("components", int(), "details", *_):
            loc = loc[:A_DETAIL]
        case ("components", int(), "photos", int(), "marks", *_):
            loc = loc[:A_MARK]
        case ("components", int(), "id" | "kind", *_):
            loc = loc[:2]
    here: Any = data
    parent: Any = None
    way: Loc = ()
    for step in loc:
        inside = _at(here, (step,))
        if inside is not None:
            parent, way, here = here, (*way, step), inside
    if parent is not None and not _lies_in(way, gone):  # what moved up into its place is another entry
        del parent[way[-1]]
        gone.add(way)


def _at(data: Any, loc: Loc) -> Any:
    for step in loc:
        if isinstance(data, dict):
            data = data.get(step)
        elif isinstance(data, list) and isinstance(step, int) and step < len(data):
            data = data[step]
        else:
            return None
    return data


def _fill(data: dict[str, Any], stand_ins: Mapping[str, Any]) -> None:
    for key, each in stand_ins.items():
        given = data.get(key)
        if isinstance(each, dict) and isinstance(given, dict):
            _fill(given, each)
        elif not given:
            data[key] = each


def _places(node: Any, loc: Loc) -> Iterator[Loc]:
    """Every way to an entry of the data."""
    pairs = node.items() if isinstance(node, dict) else enumerate(node) if isinstance(node, list) else ()
    for step, each in pairs:
        yield (*loc, step)
        yield from _places(each, (*loc, step))


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
