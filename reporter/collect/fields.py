"""What each field of job.yaml, findings.yaml and measurements.csv is called, and what belongs into it, in one language.

Comes in: a catalogue, the name of a group of fields and a field. Goes out: a title and a short help text. The words stand in
the catalogue, as "Title. Help." under `field.<group>.<name>`; a schema shows them, and so may any form.
"""

from __future__ import annotations

from typing import Any

from reporter.wording import Catalogue

Node = dict[str, Any]
ANY = "mark"
"""The group of the fields that all marks share."""
CHOICES = {
    "Access": "access.{}", "Basis": "basis.{}", "Extent": "component.extent_{}", "Grade": "grade.{}", "Remedy": "remedy.{}",
    "Person.role": "role.{}", "Particulars.steering": "steering.{}", "Particulars.steering_gear": "steering.{}",
    "Conditions.afloat": "lay.{}", "Examined.how": "how.{}",
}  # fmt: skip
"""A group, or a field, that offers choices -> where the catalogue holds their words."""


def field_words(words: Catalogue, group: str, name: str) -> tuple[str, str]:
    """Title and help of a field; KeyError for a field that nobody described."""
    ident = f"field.{group.lower()}.{name}"
    if not words.has(ident):
        ident = f"field.{ANY}.{name}"
    title, _, help_text = words(ident).partition(". ")
    return title, help_text


def describe(schema: Node, group: str, words: Catalogue) -> None:
    """Puts title and help beside every field of a schema made from the model, and words beside the choices of some.

    `group` is that of the schema's own fields. What the model says of itself to programmers is taken out.
    """
    groups = {group: schema, **schema.get("$defs", {})}
    for name, node in groups.items():
        node.pop("title", None)
        node.pop("description", None)
        _worded(node, CHOICES.get(name, ""), words)
        for field, declared in node.get("properties", {}).items():
            declared["title"], declared["description"] = field_words(words, name, field)
            _worded(declared.get("items", declared), CHOICES.get(f"{name}.{field}", ""), words)


def _worded(node: Node, ident: str, words: Catalogue) -> None:
    """Choices with their words in place of the bare ones."""
    if ident and "enum" in node:
        node["oneOf"] = [
            {"const": each, "title": words(ident.format(each))} for each in node.pop("enum") if each
        ]
