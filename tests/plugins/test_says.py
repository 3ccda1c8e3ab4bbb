"""What the arithmetic of the kinds says stands in data: no sentence in code, every message used, its placeholders filled.

Read from the code itself: `say("no_pitch", kind="chain")` and what is put into it.
"""

from __future__ import annotations

import ast
import re
import string
from collections.abc import Iterator
from pathlib import Path

import pytest
import tomli

from reporter.model.plugin import Plugin
from reporter.model.terms import Basis
from reporter.registry import find, load
from reporter.wording import catalogue

from .evidence import check_of, fact, graded, known, spot

ROOT = Path(__file__).parents[2]
KINDS = load(find()).plugins
FILES = [
    file
    for folder in ("plugins", "reporter/contract")
    for file in sorted((ROOT / folder).rglob("*.py"))
    if "drawings" not in file.parts and file.name != "system.py"
]
DECLARING = {"formula", "Symbol", "Citation", "model_validate"}
"""Calls whose words are those of a source or a formula, which are told by id elsewhere."""
TABLES = {"KNOTS", "ROWS", "_ROWS", "SIZES", "NAMES"}
"""Constants that hold names of rows in a table, or of a standard."""
EXCEPTIONS = {
    "standing rigging, metal",
    "49 CFR",
    "the hole is smaller than the pin: one of the two is mismeasured",
}
"""Names of rows; and a refusal of a sum that its caller never asks for."""


def children(node: ast.AST) -> Iterator[ast.AST]:
    """What stands beneath a node, but for docstrings, declarations and names of rows."""
    for child in ast.iter_child_nodes(node):
        if isinstance(child, ast.Expr) and isinstance(child.value, ast.Constant):
            continue
        if isinstance(child, ast.Call) and name_of(child) in DECLARING:
            continue
        if isinstance(child, ast.Assign) and {getattr(each, "id", "") for each in child.targets} & TABLES:
            continue
        yield child
        yield from children(child)


def name_of(call: ast.Call) -> str:
    """The last part of what is called."""
    return getattr(call.func, "id", getattr(call.func, "attr", ""))


def sentences(code: str) -> list[str]:
    """Strings of more than one word."""
    texts = [each.value for each in children(ast.parse(code)) if isinstance(each, ast.Constant)]
    words = [text for text in texts if isinstance(text, str) and re.search(r"\w.* |\ .*\w", text)]
    return [text for text in words if text not in EXCEPTIONS]


def calls(file: Path, *names: str) -> Iterator[ast.Call]:
    """Calls of those names in a file."""
    for node in ast.walk(ast.parse(file.read_text("utf-8"))):
        if isinstance(node, ast.Call) and name_of(node) in names:
            yield node


def said() -> Iterator[tuple[str, str, set[str] | None]]:
    """(kind or "", message, what is put in; None where that is not spelled out) of every message that code names."""
    for file in FILES:
        for call in calls(file, "say"):
            spelled = {each.arg: each.value for each in call.keywords}
            kind = spelled.pop("kind", None)
            owner = str(ast.literal_eval(kind)) if kind else ""
            put = None if None in spelled else {str(each) for each in spelled}
            branches = [call.args[0]]
            if isinstance(call.args[0], ast.IfExp):
                branches = [call.args[0].body, call.args[0].orelse]
            yield from ((owner, each.value, put) for each in branches if isinstance(each, ast.Constant))  # type: ignore[misc]


def asked_by_contract(kind: str) -> set[str]:
    """Messages that the contract takes from a kind: what is aloft of it, and what it is called in a question."""
    data = next((ROOT / "plugins").rglob(f"{kind}.toml"))
    file = data.with_name(f"{tomli.loads(data.read_text('utf-8')).get('assess', '')}.py")
    if not file.exists():
        return set()
    names = {each.id for each in ast.walk(ast.parse(file.read_text("utf-8"))) if isinstance(each, ast.Name)}
    aloft = {"aloft" for _ in names & {"not_close", "aloft_alone"}}
    # The steering wire asks in words of its own.
    asks = "rope_checks" in names or any(len(call.args) > 1 for call in calls(file, "size_question"))
    return aloft | ({"this"} if asks else set())


def fields(message: str) -> set[str]:
    """Names of the placeholders in a message."""
    return {field for _, field, _, _ in string.Formatter().parse(message) if field}


@pytest.mark.parametrize("file", FILES, ids=lambda file: str(file.relative_to(ROOT)))
def test_no_sentence_stands_in_code(file: Path) -> None:
    assert sentences(file.read_text("utf-8")) == []


def test_a_sentence_in_code_would_be_seen() -> None:
    code = '"""A docstring."""\nwhy = f"no pitch of {size}"\nnote = Symbol("l", "a length", "mm")\n'
    assert sentences(code) == ["no pitch of "]


@pytest.mark.parametrize("plugin", KINDS.values(), ids=lambda plugin: plugin.kind)
def test_every_message_of_a_kind_is_used_and_exists(plugin: Plugin) -> None:
    used = {ident for kind, ident, _ in said() if kind == plugin.kind} | asked_by_contract(plugin.kind)
    assert used == set(plugin.says)


def test_every_placeholder_is_filled_and_nothing_is_put_in_idly() -> None:
    for kind, ident, put in said():
        message = KINDS[kind].says[ident] if kind else catalogue()._words[ident]
        if put is not None:
            assert put == fields(message), f"{kind} {ident}"


def test_a_guessed_size_is_asked_about_as_it_was_written() -> None:
    """A guessed 8 mm has 5/16 in beside it; the missing size ends in one full stop, the action gets its own later."""
    facts = {"diameter": fact(8, "mm", basis=Basis.ESTIMATE)}
    plugin = KINDS["halyard"]
    part = graded(plugin, known(plugin, facts=facts, spots=[spot("rope_diameter", 7.8, "mm")]))
    why = "A size of 8 mm that nobody saw marked could as well be 5/16 in: no loss is reckoned from it"
    assert [each.why for each in part.missing if each.id == "nominal_size"] == [f"{why}."]
    (action,) = [each for each in part.actions if each.id == "halyard.nominal_size"]
    assert action.why == why
    assert action.what.startswith("Find out whether the halyard is 8 mm or 5/16 in: ")


def test_a_limit_that_shrinks_with_the_sprocket_says_why() -> None:
    """Chain-maker notes: 3 % or 200 / N %, whichever is less: 80 teeth take it to 2.5 %."""
    plugin = KINDS["chain"]
    facts = {"pitch": fact(12.7, "mm"), "larger_teeth": fact(80)}
    spots = [spot("span", 254, "mm"), spot("pitches", 20)]
    check = check_of(plugin, known(plugin, facts=facts, spots=spots), "chain.elongation.wear")
    assert check.limit
    assert check.limit.value == pytest.approx(2.5)
    assert check.notes == ("200 / 80 teeth, being less than 3\u00a0%",)
