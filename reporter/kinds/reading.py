"""Reads a kind's file: tables keyed by id become the tuples of a `Plugin`, shared blocks are laid beneath.

Comes in: TOML text and the package that it stands in. Goes out: a `Plugin`. What is wrong is told as a PluginError
with file, line and key, all at once; the parser forgets lines, so the text is searched for them.
`faults` tells what is wrong although each entry is well formed, references that lead nowhere; `unexplained` where help is
missing. Neither mends anything.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from functools import partial
from importlib import import_module, resources
from typing import Any

import tomli
from pydantic import ValidationError

from reporter.errors import PluginError
from reporter.kinds.shared import laid_over, translated
from reporter.model.assessment import Assessment
from reporter.model.evidence import Evidence
from reporter.model.plugin import Assess, Observation, Plugin, Quantity


def line_of(text: str, path: Sequence[str]) -> int:
    """The line of `path`: its table's header, then within that table the key that is nearest to it."""
    lines = text.splitlines()
    start, rest = _header(lines, path)
    for number in range(start + 1, len(lines)):
        if lines[number].startswith("["):
            break
        if any(re.match(rf'\s*"?(?:choices\.)?"?{re.escape(key)}"?\s*[=.]', lines[number]) for key in rest):
            return number + 1
    return max(start, 0) + 1


def _header(lines: Sequence[str], path: Sequence[str]) -> tuple[int, Sequence[str]]:
    """The line of the header of the path's table (-1 where there is none), and what is left of the path."""
    for length in (2, 1):
        names = [re.escape(each) for each in path[:length]]
        pattern = r"\[" + r"\.".join(f'"?{each}"?' for each in names) + r"\]"
        for number, line in enumerate(lines):
            if re.match(pattern, line):
                return number, path[length:]
    return -1, path


TABLES = {
    "examination": "examination",
    "proof": "proof",
    "detail": "details",
    "reading": "readings",
    "derived": "derived",
    "observation": "observations",
    "task": "tasks",
    "care": "care",
    "need": "needs",
    "limit": "limits",
    "together": "together",
}
"""Table of a kind's file -> field of `Plugin`; each table is keyed by the id of what it holds."""

MEND = "Correct this file; `gudgeon plugins --check FILE` tells whether it is whole."


def read_kind(package: str, kind: str, lang: str = "en") -> Plugin:
    """The kind told by `<kind>.toml` in the installed package; PluginError when it is not as it should be.

    In another language with the words of `<kind>.<lang>.toml` where they are given, else with the English ones.
    """
    file, other = f"{kind}.toml", f"{kind}.{lang}.toml"
    try:
        folder = resources.files(package)
        text = folder.joinpath(file).read_text("utf-8")
        words = folder.joinpath(other).read_text("utf-8") if folder.joinpath(other).is_file() else ""
    except (OSError, ModuleNotFoundError) as error:
        msg = f"The kind '{kind}' could not be read from {package}: {error}"
        raise PluginError(msg, f"Repair or reinstall the package that brings '{kind}'.") from error
    return parse_kind(text, kind, package, file, lang=lang, words=words)


def parse_kind(text: str, kind: str, package: str, file: str, *, lang: str = "en", words: str = "") -> Plugin:
    """The Plugin that the text of a kind's file tells; `package` is where `assess` is looked for."""
    try:
        data = laid_over(tomli.loads(text), lang)
        if words:
            data = translated(data, tomli.loads(words))
        fields = _fields(data, kind, package)
        return Plugin.model_validate(fields)
    except (tomli.TOMLDecodeError, KeyError, TypeError, RecursionError) as error:
        msg = f"{file}: {error.args[0] if error.args else error}"
        raise PluginError(msg, MEND) from error
    except ValidationError as error:
        raise PluginError("\n".join(_told(error, text, file, fields)), MEND) from error


def _fields(data: Mapping[str, Any], kind: str, package: str) -> dict[str, Any]:
    """Keyword arguments of `Plugin`, ids taken from the keys."""
    fields = {key: value for key, value in data.items() if key not in {*TABLES, "source", "use"}}
    sources = data.get("source", {})
    for table, field in TABLES.items():
        rows = data.get(table, {})
        fields[field] = [_row(table, ident, row, kind, sources) for ident, row in rows.items()]
    fields["kind"] = kind
    fields["assess"] = _assess(package, data.get("assess", ""))
    return fields


def _row(table: str, ident: str, row: Any, kind: str, sources: Mapping[str, Any]) -> dict[str, Any]:
    # An examination or proof item is its words and nothing else.
    row = {"words": row} if isinstance(row, str) else dict(row)
    if table == "observation":
        row["choices"] = [{"id": key, **choice} for key, choice in row.get("choices", {}).items()]
    if table == "limit":
        ident = f"{kind}.{ident}"
        if isinstance(row.get("source"), str):
            row["source"] = sources[row["source"]]
    return {"id": ident, **row}


def _assess(package: str, module: str) -> Assess:
    """The kind's arithmetic, its module imported when it is first needed; nothing where the file names none."""
    return partial(_run, package, module) if module else _nothing


def _run(package: str, module: str, evidence: Evidence) -> Assessment:
    run: Assess = import_module(f"{package}.{module}").assess
    return run(evidence)


def _nothing(evidence: Evidence) -> Assessment:  # noqa: ARG001
    """Nothing to work out: what was read and seen is held against the declaration alone."""
    return Assessment()


def _told(error: ValidationError, text: str, file: str, fields: Mapping[str, Any]) -> list[str]:
    """Every fault with file, line and key."""
    by_field = {field: table for table, field in TABLES.items()}
    told = []
    for fault in error.errors(include_url=False):
        path = [str(step) for step in fault["loc"]]
        if len(path) > 1 and path[0] in by_field:
            ident = fields[path[0]][int(path[1])]["id"]
            path = [by_field[path[0]], ident.split(".", 1)[1] if path[0] == "limits" else ident, *path[2:]]
        told.append(f"{file}, line {line_of(text, path)}: {'.'.join(path)}: {fault['msg']}")
    return told


def faults(plugin: Plugin) -> Iterator[str]:
    """Conditions on details, subjects of limits, members of groups: each must be declared by the kind itself."""
    details = {detail.id: detail for detail in plugin.details}
    conditions = [(detail.id, detail.only_if) for detail in plugin.details]
    conditions += [(each.id, each.only_if) for each in _asked(plugin)]
    conditions += [(limit.id, limit.applies) for limit in plugin.limits]
    for ident, condition in conditions:
        for detail, choices in condition.items():
            if detail not in details:
                yield f"'{ident}' depends on the detail '{detail}', which is not declared"
            elif unknown := sorted(set(choices) - set(details[detail].choices)):
                yield f"'{ident}' depends on {detail} being {', '.join(unknown)}, which is none of its choices"
    members = {each.id for each in _asked(plugin)}
    for group in plugin.together:
        for ident in sorted(set(group.holds) - members):
            yield f"the group '{group.id}' holds '{ident}', which is neither a reading nor an observation"


def unexplained(plugin: Plugin) -> list[str]:
    """Readings and observations without a help text, one line each."""
    return [f"{each.id} has no help: say how to look or measure." for each in _asked(plugin) if not each.help]


def _asked(plugin: Plugin) -> list[Quantity | Observation]:
    return [*plugin.readings, *plugin.observations]
