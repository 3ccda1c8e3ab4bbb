"""YAML becomes strings with lines, or is told; both YAML readers agree."""

from __future__ import annotations

import json
import sys
from typing import Any

import pytest
import yaml
from hypothesis import given, settings
from hypothesis import strategies as st

from reporter.collect.ledger import Ledger
from reporter.collect.yaml_file import YamlFile, read_yaml

TEXT = """\
a: 1.10
b:
  - x: no
    y: 2026-05-12
  - [p, 'q']
c:
d: >
  folded
  text
e: ~
f: ""
"""


def sheet_of(text: str) -> YamlFile:
    """The sheet of a text that must be in order."""
    ledger = Ledger()
    sheet = read_yaml(text, "x.yaml", ledger)
    assert not ledger.problems
    assert sheet is not None
    return sheet


@pytest.fixture(params=["libyaml", "pure"])
def loader(request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch) -> str:
    """Once with the fast reader, once as on a system that has none."""
    if request.param == "pure":
        monkeypatch.delattr(yaml, "CBaseLoader")
    return str(request.param)


@pytest.mark.usefixtures("loader")
def test_every_scalar_stays_a_string_and_has_its_line() -> None:
    """Nothing is turned into a number, a date or a truth value."""
    sheet = sheet_of(TEXT)
    assert sheet.data == {
        "a": "1.10",
        "b": [{"x": "no", "y": "2026-05-12"}, ["p", "q"]],
        "d": "folded text\n",
    }
    assert sheet.lines[("b", 0, "y")] == 4
    assert sheet.lines[("b", 1, 1)] == 5
    assert sheet.lines[("d",)] == 7
    assert sheet.empty == {("c",), ("e",), ("f",)}


@pytest.mark.usefixtures("loader")
@pytest.mark.parametrize(
    "text",
    ["a: &x 1\n", "a: *x\n", "a: !t 1\n", "<<: {a: 1}\n", "a: 1\na: 2\n", "[a]: 1\n", "? {a: 1}\n: 2\n", "a: 1\n---\nb: 2\n",
     "- a\n", "just text\n", "", "# only\n", "a: [" * 40, "a: [1,,2]\n", ": 1\n", "a: \x07\n"],
)  # fmt: skip
def test_refused(text: str) -> None:
    """Each with one problem, and no sheet."""
    ledger = Ledger()
    assert read_yaml(text, "x.yaml", ledger) is None
    assert len(ledger.problems) == 1


def test_a_control_character_is_told_at_its_key() -> None:
    """The sheet is read on, so that whatever else is wrong is told with it."""
    ledger = Ledger()
    assert read_yaml('a: "\\0"\nb: 1\n', "x.yaml", ledger) is not None
    assert [(each.line, each.key) for each in ledger.problems] == [(1, "a")]


def test_a_bomb_of_aliases_is_refused_before_it_grows() -> None:
    """Nine lines that would be a thousand million entries."""
    lines = ["a0: &a0 [x, x]", *(f"a{n}: &a{n} [{', '.join([f'*a{n - 1}'] * 9)}]" for n in range(1, 10))]
    ledger = Ledger()
    assert read_yaml("\n".join(lines), "x.yaml", ledger) is None
    assert ledger.problems[0].line == 1


plain = st.text(
    st.characters(min_codepoint=32, max_codepoint=0x2FF, exclude_categories=["Cc", "Cs"]), max_size=12
)
trees: Any = st.recursive(
    plain.filter(str.strip), lambda inner: st.lists(inner, min_size=1, max_size=3) | st.dictionaries(plain.filter(bool), inner, max_size=3), max_leaves=8
)  # fmt: skip


@given(st.dictionaries(plain.filter(bool), trees, min_size=1, max_size=3))
@settings(max_examples=60)
def test_json_is_read_back(data: dict[str, Any]) -> None:
    """JSON is YAML (YAML 1.2.2, 1.2): whatever it writes comes back as it was; a text of blanks counts as none."""
    text = json.dumps(data)
    if '"<<":' in text:
        return
    sheet = sheet_of(text)
    assert sheet.data == data
    for loc in sheet.lines:
        assert sheet.found(loc) == loc


def test_five_times_the_components_take_five_times_the_calls() -> None:
    """Reading is linear, counted by the functions entered."""
    one = "  - id: c{}\n    kind: belt\n    details: {{a: 1, b: 2}}\n    found: some words\n    photos: [x.jpg, y.jpg]\n"

    def calls(count: int) -> int:
        text = "components:\n" + "".join(one.format(number) for number in range(count))
        entered = 0

        def enter(_frame: object, event: str, _value: object) -> None:
            nonlocal entered
            entered += event in ("call", "c_call")

        sys.setprofile(enter)
        try:
            data = sheet_of(text).data
        finally:
            sys.setprofile(None)
        assert len(data["components"]) == count
        return entered

    assert calls(500) < 5.5 * calls(100)
