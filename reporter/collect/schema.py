"""JSON Schemas of job.yaml, findings.yaml and measurements.csv, for editors that check and complete while one types.

In: the installed component kinds and templates. Out: plain dicts. They are made from the model and from what the kinds
declare, so that nothing about a kind stands here. Choices carry their words. A schema cannot hold everything that
collecting checks (dates in order, photos that exist).
"""

from __future__ import annotations

import copy
import json
from collections.abc import Iterable, Mapping
from typing import Any

from reporter.collect.fields import describe, field_words
from reporter.collect.measurements import NEEDED, SIDES, STATES
from reporter.model.findings import FindingsSheet
from reporter.model.job import COLUMNS
from reporter.model.photo import PICTURES
from reporter.model.plugin import Choice, DetailField, Observation, Plugin
from reporter.model.sheet import JobSheet
from reporter.model.template import Template
from reporter.wording import Catalogue, catalogue

Node = dict[str, Any]
DIALECT = "https://json-schema.org/draft/2020-12/schema"
_BARE = ("Detail", "Observed", "Examined", "PhotoUse")
"""Groups that may be written as one word, which then stands for their first key."""


def schemas(
    plugins: Mapping[str, Plugin], templates: Mapping[str, Template], lang: str = "en"
) -> dict[str, Node]:
    """The schema of each file of a job folder, by file name."""
    words = catalogue(lang)
    made = {
        "job.yaml": _job(plugins, templates, words),
        "findings.yaml": _findings(plugins, words),
        "measurements.csv": _measurements(plugins, words),
    }
    # No trade term holds a character that JSON writes in another way.
    told: dict[str, Node] = json.loads(words.terms(json.dumps(made)))
    return told


def of_one_kind(plugin: Plugin, words: Catalogue) -> Node:
    """What the entries of one kind may hold in findings.yaml, and what can be read of it in measurements.csv."""
    readings = {each.id: each.title for each in plugin.readings}
    kind = {"const": plugin.kind, "title": plugin.title}
    made = {
        "$schema": DIALECT,
        "title": plugin.title,
        "type": "object",
        "properties": {"kind": kind, **_of_kind(plugin, words)},
        "$defs": {plugin.kind: _choice(readings, words("schema.readings", kind=plugin.kind))},
    }
    told: Node = json.loads(words.terms(json.dumps(made)))
    return told


def template_schema() -> Node:
    """The schema of a template's file; its id is the file's name."""
    made = Template.model_json_schema()
    del made["properties"]["id"]
    made["required"].remove("id")
    return {"$schema": DIALECT, **made, "title": "template.toml"}


def _job(plugins: Mapping[str, Plugin], templates: Mapping[str, Template], words: Catalogue) -> Node:
    schema = _written(JobSheet.model_json_schema(), "job.yaml", "job", words)
    purposes = {
        name: words.either(template.title_id, template.id) for name, template in sorted(templates.items())
    }
    schema["properties"]["purpose"] |= _choice(purposes, words("schema.purpose"))
    limits = {
        limit.id: f"{limit.quantity}, {limit.value:g} {limit.unit}".strip() for limit in _limits(plugins)
    }
    schema["$defs"]["LimitChange"]["properties"]["id"] |= _choice(limits, words("schema.limit"))
    return schema


def _limits(plugins: Mapping[str, Plugin]) -> Iterable[Any]:
    return (limit for _, plugin in sorted(plugins.items()) for limit in plugin.limits)


def _findings(plugins: Mapping[str, Plugin], words: Catalogue) -> Node:
    schema = _written(FindingsSheet.model_json_schema(), "findings.yaml", "findings", words)
    component = schema["$defs"]["Component"]
    kinds = {kind: each.title for kind, each in sorted(plugins.items())}
    component["properties"]["kind"] |= _choice(kinds, words("schema.kind"))
    component["properties"]["observed"]["additionalProperties"] = {"type": ["string", "object", "array"]}
    component["allOf"] = [
        {
            "if": {"properties": {"kind": {"const": kind}}, "required": ["kind"]},
            "then": {"properties": _of_kind(plugin, words)},
        }
        for kind, plugin in sorted(plugins.items())
    ]
    return schema


def _of_kind(plugin: Plugin, words: Catalogue) -> Node:
    """What the entries of one kind may hold."""
    examination = {"all": words("schema.all"), **{each.id: each.words for each in plugin.examination}}
    proof = {"all": words("schema.all"), **{each.id: each.words for each in plugin.proof}}
    included = {"type": "array", "items": _choice(examination, words("schema.examined"))}
    held: Node = {
        "details": _group({each.id: _detail(each, words) for each in plugin.details}),
        "observed": _group({each.id: _observation(each, words) for each in plugin.observations}),
        "examined": {"properties": {"included": _told_of(included, "examined", "included", words)}},
        "proved": {"type": "array", "items": _choice(proof, words("schema.proof"))},
    }
    return {name: _told_of(each, "component", name, words) for name, each in held.items()}


def _group(properties: Node) -> Node:
    return {"type": "object", "properties": properties, "additionalProperties": False}


def _told_of(node: Node, group: str, field: str, words: Catalogue) -> Node:
    """A node with what the catalogue says of that field."""
    return {**node, "description": field_words(words, group, field)[1]}


def _detail(field: DetailField, words: Catalogue) -> Node:
    value: Node = {"type": ["string", "number"]}
    if field.holds == "choice":
        value = _choice(field.choices, field.title)
    elif field.holds == "date":
        value = _date(words)
    unit = words("schema.with_unit", unit=field.unit) if field.unit else ""
    holds = words(f"kind_page.holds_{field.holds}")
    help_text = " ".join(part for part in (field.help, unit) if part) or f"{holds[:1].upper()}{holds[1:]}."
    whole = {"type": "object", "properties": {"value": _told_of(value, "detail", "value", words)}}
    return {"title": field.title, "anyOf": [value, whole], "description": help_text}


def _observation(observation: Observation, words: Catalogue) -> Node:
    choice = _choice({each.id: _told(each, words) for each in observation.choices}, observation.title)
    inside = {"choice": _told_of(choice, "observed", "choice", words)}
    one = {"anyOf": [choice, {"type": "object", "properties": inside, "required": ["choice"]}]}
    return {
        "title": observation.title,
        "anyOf": [*one["anyOf"], {"type": "array", "items": one}],
        "description": observation.help or field_words(words, "observed", "choice")[1],
    }


def _told(choice: Choice, words: Catalogue) -> str:
    return words("schema.gap", words=choice.words) if choice.gap else choice.words


def _choice(words: Mapping[str, str], title: str) -> Node:
    """A choice whose words an editor shows; nothing at all where there is nothing to choose."""
    return (
        {"title": title, "oneOf": [{"const": ident, "title": said} for ident, said in words.items()]}
        if words
        else {"enum": []}
    )


def _measurements(plugins: Mapping[str, Plugin], words: Catalogue) -> Node:
    """One row of measurements.csv as an object: its columns and, for each kind, what can be read of it."""
    columns: dict[str, Node] = {name: {"type": "string"} for name in COLUMNS}
    columns["side"] = {"type": "string", "enum": ["", *SIDES]}
    columns["state"] = {"type": "string", "enum": ["", *STATES]}
    describe({"properties": columns}, "measurement", words)
    kinds = {
        kind: {each.id: each.title for each in plugin.readings} for kind, plugin in sorted(plugins.items())
    }
    return {
        "$schema": DIALECT,
        "title": words("schema.row"),
        "type": "object",
        "properties": columns,
        "required": list(NEEDED),
        "additionalProperties": False,
        "$defs": {
            kind: _choice(readings, words("schema.readings", kind=kind)) for kind, readings in kinds.items()
        },
    }


def _date(words: Catalogue) -> Node:
    """A date to the year, the month or the day."""
    return {
        "type": ["string", "integer"],
        "pattern": r"^\d{4}(-\d{2}(-\d{2})?)?$",
        "title": words("schema.date_title"),
        "description": words("schema.date"),
    }


def _written(schema: Node, title: str, group: str, words: Catalogue) -> Node:
    """The model's schema turned into what a person writes: dates and quantities as text, short forms allowed."""
    schema = _as_typed(copy.deepcopy(schema))
    definitions = schema["$defs"]
    for held in ("PartialDate", "Value"):
        definitions.get(held, {}).pop("properties", None)
    describe(schema, group, words)
    if "PartialDate" in definitions:
        definitions["PartialDate"] = _date(words)
    for name in _BARE:
        if name in definitions:
            definitions[name] = {"anyOf": [{"type": ["string", "number"]}, definitions[name]]}
    if "PhotoUse" in definitions:
        definitions["PhotoUse"]["description"] = words("schema.photo", endings=", ".join(sorted(PICTURES)))
    return {"$schema": DIALECT, **schema, "title": title}


def _as_typed(node: Any) -> Any:
    """An editor takes 2016 for a number and true for a truth value; here a text may look like one."""
    if isinstance(node, list):
        return [_as_typed(each) for each in node]
    if not isinstance(node, dict):
        return node
    node = {key: _as_typed(each) for key, each in node.items()}
    if node.get("type") == "string" and not node.keys() & {"enum", "const", "format", "pattern"}:
        node["type"] = ["string", "number"]
    if node.get("type") == "boolean":
        node = {
            **{key: each for key, each in node.items() if key != "type"},
            "enum": [True, False, "yes", "no"],
        }
    return node
