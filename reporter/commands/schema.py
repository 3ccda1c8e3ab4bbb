"""`gudgeon schema`: JSON Schemas for an editor, one at a time.

Comes in: which one is asked for, or a folder to write them into. Goes out: the schema, or the list of what can be asked for.
"""

from __future__ import annotations

import json
from importlib.metadata import version
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import typer

from reporter.commands.options import OwnLang, echo, echo_data, registry
from reporter.errors import NoSuchError

if TYPE_CHECKING:
    from reporter.registry import Registry

FILES = {
    "job": "job.yaml",
    "findings": "findings.yaml",
    "measurements": "measurements.csv",
    "template": "template.toml",
    "kind": "kind.toml",
}
"""What can be asked for -> the file that it is the schema of."""


def schema(
    which: Annotated[
        str,
        typer.Argument(
            help="job, findings, measurements, template, kind, or the name of a component kind.",
            metavar="[WHICH]",
        ),
    ] = "",
    output: Annotated[
        Path | None,
        typer.Option("-o", "--output", help="A folder to write into, one file per schema; default: print."),
    ] = None,
    lang: OwnLang = "",
) -> None:
    """Print a JSON Schema for your editor, choices with their words; without WHICH tell which there are."""
    installed = registry()
    if output is not None:
        _write(_wanted(which, installed, lang) if which else _all(installed, lang), output)
    elif which:
        for content in _wanted(which, installed, lang).values():
            echo_data(json.dumps(content, ensure_ascii=False, indent=1))
    else:
        echo("\n".join(_listed(lang)))


def _all(installed: Registry, lang: str) -> dict[str, Any]:
    """Every schema by the name of its file; those of single kinds stand in that of findings.yaml."""
    from reporter.collect.schema import schemas, template_schema
    from reporter.kinds import kind_schema

    told = installed.in_language(lang)
    made: dict[str, Any] = schemas(told.plugins, told.templates, lang)
    return {**made, "template.toml": template_schema(), "kind.toml": kind_schema()}


def _wanted(which: str, installed: Registry, lang: str) -> dict[str, Any]:
    """The one that is asked for, by its own name, its file's or a kind's."""
    from reporter.collect.schema import of_one_kind
    from reporter.wording import catalogue

    name = Path(which).name.lower()
    if file := FILES.get(name) or (name if name in FILES.values() else ""):
        return {file: _all(installed, lang)[file]}
    installed.refuse_left_out("gudgeon.plugins", which)
    if which not in installed.plugins:
        msg = f"There is no schema of '{which}'."
        raise NoSuchError(
            msg, f"Ask for {', '.join(FILES)}, or a component kind as `gudgeon plugins` lists them."
        )
    plugin = installed.in_language(lang).plugin(which)
    return {which: of_one_kind(plugin, catalogue(lang))}


def _listed(lang: str) -> list[str]:
    """What can be asked for, each with what it is."""
    from reporter.outputs.screen import hanging, wrapped
    from reporter.wording import catalogue

    words = catalogue(lang)
    lines = wrapped(words("schema.lead"), 0)
    for name in (*FILES, "KIND"):
        lines += hanging(
            f"  {name}", words(f"schema.of_{name.lower()}" if name != "KIND" else "schema.of_one")
        )
    return [*lines, *wrapped(words("schema.all_of_them"), 0)]


def _write(made: dict[str, Any], folder: Path) -> None:
    from reporter.archive import write_folder

    texts = {
        f"{name}.schema.json": json.dumps(_ours(content), ensure_ascii=False, indent=1)
        for name, content in made.items()
    }
    write_folder(texts, folder)


def _ours(content: dict[str, Any]) -> dict[str, Any]:
    """With a mark by which a later run knows that it may replace the file (JSON Schema 2020-12, core, 8.3)."""
    return {"$comment": f"Written by gudgeon {version('gudgeon')}", **content}
