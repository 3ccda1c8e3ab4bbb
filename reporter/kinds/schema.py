"""The JSON Schema of a kind's file, for editors that check and complete TOML while one types.

In: nothing but the model. Out: a plain dict. What only the program can check (a task that is not declared, a condition
on an unknown detail) is left to `gudgeon plugins --check`. What each key
means stands in `fields.toml`; a test holds that no key goes without.
"""

from __future__ import annotations

from functools import lru_cache
from importlib import resources
from typing import Any

import tomli
from pydantic.json_schema import GenerateJsonSchema, JsonSchemaValue

from reporter.kinds.reading import TABLES
from reporter.model.plugin import Plugin

WHOLE = "kind"
"""The table of the file's own keys."""
LIKE = {"derived": "quantity"}
"""A table whose other keys mean what they do in that one."""


@lru_cache(maxsize=1)
def key_words() -> dict[str, dict[str, str]]:
    """Table -> key -> what it means; tables by the lower-case name of what they hold."""
    told: dict[str, dict[str, str]] = tomli.loads(
        resources.files(__package__).joinpath("fields.toml").read_text("utf-8")
    )
    return told


def words_of(table: str, key: str) -> str:
    """What a key means; KeyError for one that nobody described."""
    told = key_words()[table]
    return told[key] if key in told or table not in LIKE else key_words()[LIKE[table]][key]


def described(schema: Node) -> Node:
    """The schema of a kind's file with what each key means; what the model says of itself to programmers is taken out."""
    for name, node in ((WHOLE, schema), (WHOLE, schema["then"]), *schema["$defs"].items()):
        node.pop("description", None)
        for key, held in node.get("properties", {}).items():
            held.pop("title", None)
            held["description"] = words_of(name.lower(), key)
    return schema


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
