"""The guides that are made, not written: the job folder with every key, mark, grade and unit; every key of a kind's file.

Comes in: the installed kinds and templates in one language. Goes out: Markdown, a text for each page. They are made from
what the schemas and the kinds say, so that neither can go out of date; nothing of a kind stands here.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from reporter.collect.schema import schemas
from reporter.engineering import units
from reporter.kinds import kind_schema
from reporter.model.plugin import Plugin
from reporter.model.terms import Dimension, Grade
from reporter.outputs.kind_page import kind_page
from reporter.registry import Registry
from reporter.wording import Catalogue

Node = Mapping[str, Any]
MOST_CHOICES = 30
"""More choices than these do not stand in a cell."""
MADE = "<!-- Written by gudgeon describe --all -o FOLDER, which writes over it. -->"
"""By which a later run knows that it may."""


def pages(registry: Registry, words: Catalogue, lang: str) -> dict[str, str]:
    """File name -> text of every page: the two guides, and one page of each kind; all in `lang`."""
    made = {
        f"kinds/{kind}.md": f"{MADE}\n{kind_page(plugin, words)}"
        for kind, plugin in sorted(registry.plugins.items())
    }
    return {"job_folder.md": job_folder(registry, words, lang), "kind_file.md": kind_file(registry), **made}


def job_folder(registry: Registry, words: Catalogue, lang: str) -> str:
    """The guide to the job folder."""
    files = schemas(registry.plugins, registry.templates, lang)
    # The kinds' own answers stand in the schema in place of what every answer may hold.
    part = files["findings.yaml"]["$defs"]["Component"]["properties"]
    part["observed"]["additionalProperties"] = {"$ref": "#/$defs/Observed"}
    lines = [MADE, f"# {words('guide.folder')}", "", words("guide.folder_help")]
    for name in ("job.yaml", "findings.yaml"):
        lines += ["", f"## {name}", "", words(f"guide.{name.partition('.')[0]}_help")]
        lines += _Tables(files[name], words).lines()
    lines += ["", "## measurements.csv", "", words("guide.measurements_help")]
    lines += _Tables(files["measurements.csv"], words).lines()
    lines += _grades(words)
    lines += _units(words)
    lines += _kinds(registry, words)
    return words.terms("\n".join(lines)) + "\n"


def kind_file(registry: Registry) -> str:
    """Every key of a kind's file, table by table, and the systems with their stations; English, as the file is."""
    lines = [MADE, "# The file of a component kind", ""]
    lines += [
        "What a kind is and how it is shipped, [plugins.md](plugins.md) tells; here is every key that its file may hold."
    ]
    schema = kind_schema()
    tables = {
        name: _held(node) for name, node in schema["properties"].items() if _held(node) in schema["$defs"]
    }
    lines += ["", "## The file", "", *_keys(schema, tables)]
    named = {
        "Choice": "observation.….choices",
        "Citation": "source",
        **{held: name for name, held in tables.items()},
    }
    for held, name in sorted(named.items(), key=lambda each: each[1]):
        lines += [
            "",
            f"## `[{name}.…]`" if held != "Choice" else f"## `[{name}]`",
            "",
            *_keys(schema["$defs"][held], {}),
        ]
    lines += ["", "## Systems and stations", "", *_row("`system`", "`station`, in walking order"), *_rule(2)]
    for ident, system in registry.systems.items():
        stations = ", ".join(f"`{each.id}` {each.title}" for each in system.stations)
        lines += _row(f"`{ident}` {system.title}", stations)
    return "\n".join(lines) + "\n"


def _held(node: Node) -> str:
    """The group that the entries of a table hold."""
    more = node.get("additionalProperties")
    return str(more.get("$ref", "")).rpartition("/")[2] if isinstance(more, dict) else ""


def _keys(node: Node, tables: Mapping[str, str]) -> Iterator[str]:
    yield from _row("key", "what it is")
    yield from _rule(2)
    for key, said in node["properties"].items():
        yield from _row(f"`[{key}.…]`" if key in tables else f"`{key}`", said["description"])


class _Tables:
    """The tables of one file's schema: each group of keys once, where it is first met."""

    def __init__(self, schema: Node, words: Catalogue) -> None:
        self.schema = schema
        self.words = words
        self._told: dict[str, str] = {}

    def lines(self) -> list[str]:
        """The file's own keys, then each group of keys that they lead to, where it is first met."""
        waiting: list[tuple[str, Node]] = [("", self.schema)]
        lines: list[str] = []
        while waiting:
            path, node = waiting.pop(0)
            inner = self._met(path, self._whole(node))
            lines += ["", f"### `{path}`", ""] if path else [""]
            lines += self._table(node)
            waiting[:0] = [(self._told[name], self.schema["$defs"][name]) for name in inner]
        return lines

    def _met(self, path: str, node: Node) -> list[str]:
        """The groups that are first met below `path`, each given its place; several at one place are told apart by kind."""
        found: list[str] = []
        for key, said in node["properties"].items():
            place, groups = f"{path}.{key}".lstrip("."), list(self._groups(said))
            new = [name for name in groups if name not in self._told]
            self._told |= {
                name: f"{place} ({self._kind(name)})" if len(groups) > 1 else place for name in new
            }
            found += new
        return found

    def _kind(self, name: str) -> str:
        """Which of several groups at one place it is: a mark of which kind."""
        return str(self._properties(name)["kind"]["const"])

    def _properties(self, name: str) -> Node:
        held: Node = self._whole(self.schema["$defs"][name]).get("properties", {})
        return held

    def _whole(self, node: Node) -> Node:
        """The long form of a group that may be written as one word."""
        return next((each for each in node.get("anyOf", ()) if "properties" in each), node)

    def _table(self, node: Node) -> Iterator[str]:
        needed = self._whole(node).get("required", ())
        yield from _row(*(self.words(f"guide.{each}") for each in ("key", "what", "may_be")))
        yield from _rule(3)
        for key, said in self._whole(node)["properties"].items():
            mark = f" {self.words('guide.needed')}" if key in needed else ""
            yield from _row(f"`{key}`", f"{said['title']}. {said['description']}{mark}", self._may_be(said))

    def _groups(self, said: Node) -> Iterator[str]:
        """The groups of keys that a key leads to, looked for through lists and choices."""
        for each in (said, *said.get("anyOf", ()), *said.get("oneOf", ())):
            name = str(each.get("$ref", "")).rpartition("/")[2]
            if name and self._properties(name):
                yield name
            for inner in (each.get("items"), each.get("additionalProperties")):
                if isinstance(inner, dict):
                    yield from self._groups(inner)

    def _may_be(self, said: Node) -> str:
        """What may stand there, in words; a group by its heading."""
        words = self.words
        if groups := list(self._groups(said)):
            several = "guide.list" if said.get("type") == "array" else "guide.group"
            return words(several, what=", ".join(f"`{self._told.get(each, each)}`" for each in groups[:1]))
        if choices := self._choices(said):
            return (
                words("guide.many", count=len(choices)) if len(choices) > MOST_CHOICES else "; ".join(choices)
            )
        # A quantity is written as text, or left out; plain words have no such choice.
        if {"type": ["string", "number"]} in said.get("anyOf", ()):
            return words("guide.value")
        for each in (said, *said.get("anyOf", ())):
            if told := self._plain(each):
                return told
        return words("guide.text")

    def _choices(self, said: Node) -> list[str]:
        for each in (said, said.get("items", {}), *said.get("anyOf", ())):
            name = str(each.get("$ref", "")).rpartition("/")[2]
            node = self.schema["$defs"][name] if name else each
            if "oneOf" in node:
                return [f"`{one['const']}` {one['title']}" for one in node["oneOf"] if "const" in one]
            if "const" in node:
                return [f"`{node['const']}`"]
            if "enum" in node:
                return (
                    ["`yes`", "`no`"] if True in node["enum"] else [f"`{one}`" for one in node["enum"] if one]
                )
        return []

    def _plain(self, node: Node) -> str:
        """A date, a quantity, a number, a place on a photo, a list of words; "" for plain words."""
        words, name = self.words, str(node.get("$ref", "")).rpartition("/")[2]
        if name in {"PartialDate", "Value"}:
            return words(f"guide.{name.lower()}")
        if node.get("format") in {"date", "date-time"}:
            return words(f"guide.{node['format'].replace('-', '_')}")
        if "prefixItems" in node:
            return words("guide.point")
        if node.get("type") == "array":
            return words("guide.list", what=self._plain(node["items"]) or words("guide.text"))
        if node.get("type") in ("integer", "number"):
            low = node.get("minimum", node.get("exclusiveMinimum"))
            return (
                words("guide.number_between", low=low, high=node["maximum"])
                if "maximum" in node
                else words("guide.number")
            )
        return ""


def _grades(words: Catalogue) -> Iterator[str]:
    yield from ("", f"## {words('guide.grades')}", "", words("guide.grades_help"), "")
    yield from _row(*(words(f"guide.{each}") for each in ("grade", "on_paper", "means")))
    yield from _rule(3)
    for grade in Grade:
        yield from _row(f"`{grade}`", words(f"grade.{grade}"), words(f"grade_meaning.{grade}"))


def _units(words: Catalogue) -> Iterator[str]:
    yield from ("", f"## {words('guide.units')}", "", words("guide.units_help"), "")
    yield from _row(words("guide.dimension"), words("guide.units"))
    yield from _rule(2)
    for dimension in Dimension:
        if named := units.names(dimension):
            yield from _row(words(f"guide.of_{dimension}"), ", ".join(f"`{each}`" for each in named))


def _kinds(registry: Registry, words: Catalogue) -> Iterator[str]:
    yield from ("", f"## {words('listing.kinds')}", "", words("guide.kinds_help"))
    for ident, system in registry.systems.items():
        own = [plugin for plugin in registry.plugins.values() if plugin.system == ident]
        yield from ("", f"### {system.title} (`{ident}`)", "")
        yield from _row(*(words(f"guide.{each}") for each in ("kind", "readings", "answers", "details")))
        yield from _rule(4)
        for plugin in own:
            yield from _row(*_kind(plugin))


def _kind(plugin: Plugin) -> Sequence[str]:
    readings = [
        f"`{each.id}`{f' {each.unit}' if each.unit not in {'', '1'} else ''}" for each in plugin.readings
    ]
    return (
        f"`{plugin.kind}` {plugin.title}",
        ", ".join(readings),
        ", ".join(f"`{each.id}`" for each in plugin.observations),
        ", ".join(f"`{each.id}`" for each in plugin.details),
    )


def _row(*cells: str) -> Iterator[str]:
    yield f"| {' | '.join(cell.replace('|', '/') for cell in cells)} |"


def _rule(columns: int) -> Iterator[str]:
    yield "|" + "---|" * columns
