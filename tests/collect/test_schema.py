"""The JSON Schemas accept what collecting accepts, and show words for choices.

The validator is an independent implementation of JSON Schema (draft 2020-12).
"""

from __future__ import annotations

import json
import re
from typing import Any

import pytest

from reporter.collect import schemas
from reporter.collect.ledger import Ledger
from reporter.collect.yaml_file import read_yaml

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
