"""The JSON Schemas accept what collecting accepts, and show words for choices.

The validator is an independent implementation of JSON Schema (draft 2020-12).
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from typing import Any

import pytest

from reporter.collect import schemas
from reporter.collect.ledger import Ledger
from reporter.collect.yaml_file import read_yaml
from reporter.kinds import kind_schema
from reporter.kinds.schema import key_words
from reporter.registry import find, load
from reporter.wording import catalogue

jsonschema = pytest.importorskip("jsonschema", reason="the independent validator is not installed")


@pytest.fixture(scope="module")
def made(installed: Any) -> dict[str, Any]:
    """The schemas of the two made-up kinds."""
    return schemas(installed.plugins, installed.templates)


def as_an_editor_reads(value: Any) -> Any:
    """Strings to numbers and truth values, as YAML 1.2 has them (core schema, 10.3.2)."""
    if isinstance(value, dict):
        return {key: as_an_editor_reads(each) for key, each in value.items()}
    if isinstance(value, list):
        return [as_an_editor_reads(each) for each in value]
    if value in {"true", "false"}:
        return value == "true"
    if re.fullmatch(r"-?[0-9]+", value):
        return int(value)
    return float(value) if re.fullmatch(r"-?[0-9]+\.[0-9]+", value) else value


def errors(made: dict[str, Any], name: str, text: str) -> list[str]:
    """What the independent validator finds wrong."""
    sheet = read_yaml(text, name, Ledger())
    assert sheet is not None
    found = jsonschema.Draft202012Validator(made[name]).iter_errors(as_an_editor_reads(sheet.data))
    return [error.message for error in found]


@pytest.mark.parametrize("name", ["job.yaml", "findings.yaml", "measurements.csv"])
def test_each_is_a_schema(made: dict[str, Any], name: str) -> None:
    """Valid against the dialect's own meta-schema, and plain JSON."""
    jsonschema.Draft202012Validator.check_schema(made[name])
    json.dumps(made[name])


@pytest.mark.parametrize("name", ["job.yaml", "findings.yaml"])
def test_a_good_folder_is_accepted(made: dict[str, Any], name: str, good: Any) -> None:
    """An editor shows no error where the program finds none."""
    assert errors(made, name, good[name]) == []


@pytest.mark.parametrize(
    ("name", "old", "new"),
    [
        ("job.yaml", "purpose: trial", "purpose: trail"),
        ("job.yaml", "role: author", "role: autor"),
        ("job.yaml", "built: 2004", "bilt: 2004"),
        ("findings.yaml", "kind: belt", "kind: blet"),
        ("findings.yaml", "rust: surface", "rust: surfaces"),
        ("findings.yaml", "rust: surface", "corrosion: surface"),
        ("findings.yaml", "teeth: 13", "tooth: 13"),
        ("findings.yaml", "value: steel,", "value: inox,"),
        ("findings.yaml", "[all_round]", "[everywhere]"),
        ("findings.yaml", "[direction]", "[compass]"),
    ],
)
def test_a_slip_is_shown(made: dict[str, Any], good: Any, name: str, old: str, new: str) -> None:
    """An editor marks what the program would refuse."""
    assert errors(made, name, good[name].replace(old, new))


def test_choices_carry_their_words(made: dict[str, Any]) -> None:
    """An id with the words a sailor would use."""
    text = json.dumps(made["findings.yaml"])
    assert '{"const": "surface", "title": "rust that a cloth takes off"}' in text
    assert '{"const": "stainless", "title": "stainless steel"}' in text
    assert '{"const": "belt", "title": "Drive belt"}' in text


def test_rows_of_the_table(made: dict[str, Any]) -> None:
    """A row of measurements.csv as an object."""
    check = jsonschema.Draft202012Validator(made["measurements.csv"])
    assert check.is_valid({"component": "a", "quantity": "b", "value": "1 mm", "side": "port"})
    assert not check.is_valid({"component": "a", "quantity": "b", "value": "1 mm", "side": "left"})
    assert not check.is_valid({"component": "a", "value": "1 mm"})


def fields_of(schema: dict[str, Any]) -> dict[str, dict[str, Any]]:
    """Group and field -> what the schema says of it; the short forms of a group looked through."""
    groups = {"": schema, **schema.get("$defs", {})}
    found: dict[str, dict[str, Any]] = {}
    for name, node in groups.items():
        whole = next((each for each in node.get("anyOf", ()) if "properties" in each), node)
        found |= {f"{name}.{field}": said for field, said in whole.get("properties", {}).items()}
    return found


@pytest.mark.parametrize("lang", ["en", "de"])
@pytest.mark.parametrize("name", ["job.yaml", "findings.yaml", "measurements.csv"])
def test_every_field_is_named_and_described(installed: Any, name: str, lang: str) -> None:
    """An editor shows both while one types: a title without a full stop, and one sentence or more of help."""
    found = fields_of(schemas(installed.plugins, installed.templates, lang)[name])
    assert len(found) >= 10
    for field, said in found.items():
        assert re.fullmatch(r"[^.]{2,40}", said["title"]), field
        assert re.fullmatch(r".{5,120}\.", said["description"]), field


def properties(node: Any) -> Iterator[tuple[str, dict[str, Any]]]:
    """Every property of a schema, however deep, but for those of a condition."""
    if isinstance(node, dict):
        yield from node.get("properties", {}).items()
        for name, each in node.items():
            yield from () if name == "if" else properties(each)
    elif isinstance(node, list):
        for each in node:
            yield from properties(each)


@pytest.mark.parametrize("lang", ["en", "de"])
def test_every_property_is_described_those_of_every_installed_kind_too(lang: str) -> None:
    """Counted, so that a schema that says nothing at all is noticed: editors show these words while one types."""
    registry = load(find()).in_language(lang)
    made = {**schemas(registry.plugins, registry.templates, lang), "kind.toml": kind_schema()}
    counted = {}
    for name, schema in made.items():
        found = list(properties(schema))
        assert [key for key, said in found if not re.search(r"[.?]$", said.get("description", ""))] == []
        counted[name] = len(found)
    assert counted["measurements.csv"] == 10
    assert counted["job.yaml"] > 115
    assert counted["findings.yaml"] > 1600
    assert counted["kind.toml"] > 135


def test_no_word_on_a_kinds_file_is_idle() -> None:
    """Each belongs to a key that a kind's file may hold."""
    shown = kind_schema()
    known = {name.lower(): set(node.get("properties", {})) for name, node in shown["$defs"].items()}
    known["kind"] = set(shown["properties"])
    assert {
        table: set(told) - known[table] for table, told in key_words().items() if set(told) - known[table]
    } == {}


def test_no_field_is_described_in_the_other_language(installed: Any) -> None:
    told = {lang: schemas(installed.plugins, installed.templates, lang) for lang in ("en", "de")}
    for name in told["en"]:
        english, german = fields_of(told["en"][name]), fields_of(told["de"][name])
        assert [
            field for field in english if english[field]["description"] == german[field]["description"]
        ] == []


def test_no_description_is_idle(installed: Any) -> None:
    """Each one belongs to a field that the files may hold."""
    made = schemas(installed.plugins, installed.templates)
    files = {"": "", "job.yaml": "job", "findings.yaml": "findings", "measurements.csv": "measurement"}
    known = {
        f"field.{(group or files[name]).lower()}.{field}"
        for name, schema in made.items()
        for each in fields_of(schema)
        for group, field in [each.split(".", 1)]
    }
    described = {ident for ident in catalogue().ids if ident.startswith("field.")}
    shared = {"field.mark.callout", "field.mark.kind"}
    assert described - known == shared
    assert len(known & described) > 190


def test_choices_show_their_words(installed: Any) -> None:
    made = schemas(installed.plugins, installed.templates, "de")
    role = fields_of(made["job.yaml"])["Person.role"]
    assert {"const": "skipper_in", "title": "Übernehmender Skipper"} in role["oneOf"]
    assert {"const": "mirror", "title": "mit dem Spiegel"} in fields_of(made["findings.yaml"])[
        "Examined.how"
    ]["items"]["oneOf"]
