"""The shape that a sheet must have, read off the model's own JSON Schema, and the first check against it.

In: a sheet and a model class. Out: problems about single entries that the model would read too kindly or name too
technically (numbers, dates, texts), with their locations; and what keys and choices there are at a location.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from functools import cache
from typing import Any

from pydantic import BaseModel
from pydantic.json_schema import GenerateJsonSchema, JsonSchemaValue
from pydantic_core import core_schema

from reporter.collect.dates import date_fault, in_iso
from reporter.collect.yaml_file import Loc, YamlFile

Node = dict[str, Any]
Fault = tuple[Loc, str, str]


@cache
def shape_of(model: type[BaseModel]) -> DataShape:
    """The shape of a model class (made once)."""
    return DataShape(model.model_json_schema(schema_generator=_WithoutDefaults))


class _WithoutDefaults(GenerateJsonSchema):
    """What an entry is when nobody gives it is no part of its shape, and the dearest part of a schema to make."""

    def default_schema(self, schema: core_schema.WithDefaultSchema) -> JsonSchemaValue:
        return self.generate_inner(schema["schema"])


class DataShape:
    """A JSON Schema that can be walked beside the data it describes."""

    def __init__(self, schema: Node) -> None:
        self.root = schema
        self._defs: dict[str, Node] = schema.get("$defs", {})

    def resolve(self, node: Node, data: Any = None) -> Node:
        """`node` with its references followed, `null` left out and the variant chosen that `data` names."""
        while True:
            if "$ref" in node:
                node = self._defs[node["$ref"].rpartition("/")[2]]
            elif "anyOf" in node:
                node = next((each for each in node["anyOf"] if each.get("type") != "null"), {})
            elif (
                "oneOf" in node
                and isinstance(data, dict)
                and data.get("kind") in node["discriminator"]["mapping"]
            ):
                node = {"$ref": node["discriminator"]["mapping"][data["kind"]]}
            else:
                return node

    def step(self, node: Node, step: str | int) -> Node | None:
        """The node one step below an already resolved one."""
        if isinstance(step, int):
            prefix = node.get("prefixItems", [])
            return prefix[step] if step < len(prefix) else node.get("items")
        if step in node.get("properties", {}):
            return dict(node["properties"][step])
        extra = node.get("additionalProperties")
        return extra if isinstance(extra, dict) else None

    def at(self, loc: Loc, sheet: YamlFile) -> Node:
        """The node that describes `loc` of `sheet`; steps that name a variant of a union are passed over."""
        node = self.resolve(self.root, sheet.data)
        here: Loc = ()
        for step in loc:
            below = self.step(node, step)
            if below is not None:
                here = (*here, step)
                node = self.resolve(below, sheet.value(here))
        return node

    def keys(self, loc: Loc, sheet: YamlFile) -> tuple[str, ...]:
        """The keys that may stand at `loc`."""
        return tuple(self.at(loc, sheet).get("properties", {}))

    def choices(self, loc: Loc, sheet: YamlFile) -> tuple[str, ...]:
        """The words that may stand at `loc`, where it is a choice."""
        node = self.at(loc, sheet)
        mapping = node.get("discriminator", {}).get("mapping", {})
        chosen = node.get("enum") or ([node["const"]] if "const" in node else list(mapping))
        return tuple(str(each) for each in chosen if each != "")

    def faults(self, sheet: YamlFile) -> list[Fault]:
        """Entries whose text is not what is due there: location, what is wrong, what to do."""
        return list(self._walk(self.resolve(self.root), sheet.data, ()))

    def read_dates(self, sheet: YamlFile) -> None:
        """Put dates as reports print them into the form of the file, where a date is due."""
        for loc, text in list(sheet.texts.items()):
            if text[-4:].isdigit() and (iso := in_iso(text)) != text and _is_date(self.at(loc, sheet)):
                sheet.put(loc, iso)

    def _walk(self, node: Node, data: Any, loc: Loc) -> list[Fault]:
        node = self.resolve(node, data)
        leaf = _leaf(node)
        if leaf is not None:
            fault = leaf(data) if isinstance(data, str) else _not_text(data)
            return [(loc, *fault)] if fault else []
        below = data.items() if isinstance(data, dict) else enumerate(data) if isinstance(data, list) else ()
        found: list[Fault] = []
        for step, each in below:
            inner = self.step(node, step)
            if inner is not None:
                found += self._walk(inner, each, (*loc, step))
        return found


def _is_date(node: Node) -> bool:
    return node.get("title") == "PartialDate" or node.get("format") == "date"


def _not_text(data: Any) -> tuple[str, str] | None:
    kind = "a list" if isinstance(data, list) else "a group of keys"
    return (
        f"One plain entry is due here, but {kind} is written.",
        "Write the entry on one line after the colon.",
    )


def _leaf(node: Node) -> Callable[[str], tuple[str, str] | None] | None:
    """The check for a single entry of this node; None where the node is a group or a list."""
    if node.get("title") == "PartialDate":
        return lambda text: date_fault(text, partial=True)
    if node.get("format") == "date":
        return lambda text: date_fault(text, partial=False)
    if node.get("format") == "date-time":
        return _moment
    by_type = {"number": _number, "integer": _whole, "string": _anything, "boolean": _yes_or_no}
    return by_type.get(str(node.get("type")))


def _anything(_: str) -> None:
    return None


def _number(text: str) -> tuple[str, str] | None:
    if re.fullmatch(r"[-+]?[0-9]{1,12}(?:\.[0-9]{1,12})?|\.[0-9]{1,12}", text):
        return None
    if re.fullmatch(r"[-+]?[0-9]{1,12},[0-9]{1,12}", text):
        return f"'{text}' has a decimal comma.", f"Write {text.replace(',', '.')}."
    return f"'{text}' is no plain number.", "Write the number alone, such as 0.35, without a unit."


def _whole(text: str) -> tuple[str, str] | None:
    good = re.fullmatch(r"-?[0-9]{1,9}", text)
    return None if good else (f"'{text}' is no whole number.", "Write a whole number, such as 1.")


def _yes_or_no(text: str) -> tuple[str, str] | None:
    good = text.lower() in {"yes", "no", "true", "false", "on", "off"}
    return None if good else (f"'{text}' is neither yes nor no.", "Write yes or no.")


_MOMENT = re.compile(r"([0-9]{4}-[0-9]{2}-[0-9]{2})[ T]([01][0-9]|2[0-3]):[0-5][0-9](:[0-5][0-9])?")


def _moment(text: str) -> tuple[str, str] | None:
    found = _MOMENT.fullmatch(text)
    if not found:
        return f"'{text}' is no date and time.", "Write it as 2026-05-12 09:30:00."
    return date_fault(found[1], partial=False)
