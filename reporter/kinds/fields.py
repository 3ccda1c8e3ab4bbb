"""What each key of a kind's file means: the words that editors show, and that the guide for plugin authors is made from.

In: `fields.toml`. Out: the words by table and key, or a schema with them beside its properties. A test holds that no key
goes without.
"""

from __future__ import annotations

from functools import lru_cache
from importlib import resources
from typing import Any

import tomli

Node = dict[str, Any]
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
