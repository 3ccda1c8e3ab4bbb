"""The JSON Schema of a kind's file, for editors that check and complete TOML while one types.

In: nothing but the model. Out: a plain dict. What only the program can check (a task that is not declared, a condition
on an unknown detail) is left to `gudgeon plugins --check`.
"""

from __future__ import annotations

from typing import Any

from pydantic.json_schema import GenerateJsonSchema, JsonSchemaValue

from reporter.kinds.fields import described
from reporter.kinds.reading import TABLES
from reporter.model.plugin import Plugin

Node = dict[str, Any]
KEYED = ("id",)
"""What stands in the key of a table, and so not in the table."""


class _Written(GenerateJsonSchema):
    """As the model, but for the function `assess`, of which a file names the module."""

    def callable_schema(self, schema: Any) -> JsonSchemaValue:  # noqa: ARG002
        return {"type": "string"}


def kind_schema() -> Node:
    """Tables keyed by id where the model has tuples; `source` and `use` beside them."""
    shown = Plugin.model_json_schema(schema_generator=_Written)
    kept = shown["properties"]
    for table, field in TABLES.items():
        kept[table] = {"type": "object", "additionalProperties": kept.pop(field)["items"]}
    for table in ("examination", "proof"):
        kept[table]["additionalProperties"] = {"type": "string"}
    kept["source"] = {"type": "object", "additionalProperties": {"$ref": "#/$defs/Citation"}}
    kept["use"] = {"type": "array", "items": {"type": "string"}, "title": "Shared blocks"}
    del kept["kind"]
    definitions = shown["$defs"]
    for held in definitions.values():
        for key in KEYED:
            held.get("properties", {}).pop(key, None)
        held["required"] = [key for key in held.get("required", ()) if key not in KEYED]
    # A choice of a shared block may be named only to change its task; the program asks for the rest.
    del definitions["Choice"]["required"]
    definitions["Observation"]["properties"]["choices"] = {
        "type": "object",
        "additionalProperties": {"$ref": "#/$defs/Choice"},
    }
    named = {"anyOf": [{"type": "string"}, {"$ref": "#/$defs/Citation"}]}
    definitions["Limit"]["properties"]["source"] = named
    whole = {"if": {"not": {"required": ["use"]}}, "then": {"properties": _whole(kept, definitions)}}
    required = ["title", "system", "station", "load_path"]
    return described({**shown, **whole, "title": "Component kind", "required": required})


def _whole(tables: Node, definitions: Node) -> Node:
    """What each entry of a table must say where no shared block lies beneath it; taken out of the entry's own schema."""
    asked = {}
    for table in TABLES:
        entry = definitions.get(tables[table]["additionalProperties"].get("$ref", "").rpartition("/")[2], {})
        if required := entry.pop("required", None):
            asked[table] = {"additionalProperties": {"required": required}}
    return asked
