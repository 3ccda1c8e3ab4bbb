"""The faults and their choice: each kind is offered, names outlive moved lines, and the report tells what does not hold."""

from __future__ import annotations

import ast
from pathlib import Path

import pytest

from tests.mutation.choosing import ROOT, SHARE, chosen, drawn, mutant, noticed_by
from tests.mutation.operators import Fault, enums, faults
from tests.mutation.run import KINDS, explained, told
from tests.mutation.trying import Trial, Verdict, tried

MEMBERS = {"Grade": ["CLEAR", "STOP"]}


def changes(source: str) -> set[tuple[str, str]]:
    """Operator and change of each fault offered."""
    return {(each.operator, each.change) for each in faults("m.py", ast.parse(source), MEMBERS)}


@pytest.mark.parametrize(
    ("source", "offered"),
    [
        ("a + b", {("sign", "a + b -> a - b"), ("dropped", "a + b -> a")}),
        ("a * b", {("factor", "a * b -> a / b"), ("dropped", "a * b -> a")}),
        ("-a", {("sign", "-a -> a")}),
        ("not a", {("not", "not a -> a")}),
        ("a and b", {("and_or", "a and b -> a or b")}),
        ("a < b", {("compare", "a < b -> a <= b")}),
        ("a in b", {("compare", "a in b -> a not in b")}),
        ("min(a, b)", {("min_max", "min(a, b) -> max(a, b)")}),
        ("x = 3", {("plus_one", "3 -> 4"), ("minus_one", "3 -> 2")}),
        ("x = 2.0", {("scaled", "2.0 -> 2.2")}),
        ("Grade.STOP", {("enum", "Grade.STOP -> Grade.CLEAR")}),
        ("x: Literal[3] = y", set()),
        ("x = True", set()),
        ("'a' + b", set()),
    ],
)
def test_each_kind_of_fault_is_offered(source: str, offered: set[tuple[str, str]]) -> None:
    assert changes(source) == offered


FUNCTION = "def f(a):\n    if a > 1:\n        return a > 2\n    return a > 1\n"


def test_names_outlive_moved_lines_other_functions_and_other_changes_of_their_own() -> None:
    before = [each.key for each in faults("m.py", ast.parse(FUNCTION), MEMBERS)]
    inside = FUNCTION.replace("    if", "    if a < 9 and a > 3:\n        return 8\n    if", 1)
    moved = f'"""Words."""\n\nX = 5\n\n\ndef g():\n    return 1 > 2\n\n\n{inside}'
    after = {each.key for each in faults("m.py", ast.parse(moved), MEMBERS)}
    assert after > set(before)
    assert {"m.py::f::a > 2 -> a >= 2", "m.py::f::a > 1 -> a >= 1", "m.py::f::a > 1 -> a >= 1::2"} < after
    assert len(set(before)) == len(before)


def test_a_change_moves_the_choice_in_its_own_function_only() -> None:
    """Of 400 functions one grows, one goes, and ten are added at the top: the others keep what was drawn for them."""
    names = [f"f{number}" for number in range(400)]
    before = {name: f"def {name}(a, b):\n    return a > b + 1\n" for name in names}
    grown = "def f7(a, b):\n    c = max(a, 3) if a < b else -b\n    return c > b + 1\n"
    added = {f"new{number}": f"def new{number}(a):\n    return a < 5\n" for number in range(10)}
    after = {**added, **before, "f7": grown}
    del after["f9"]
    first, second = (
        [each.key for each in drawn(faults("m.py", ast.parse("\n".join(made.values())), MEMBERS))]
        for made in (before, after)
    )
    changed = {"f7", "f9", *added}
    of_others = [[key for key in keys if key.split("::")[1] not in changed] for keys in (first, second)]
    assert of_others[0] == of_others[1]
    lots = 5 * len(names)
    assert 0.6 * SHARE < len(first) / lots < 1.4 * SHARE


@pytest.fixture(scope="module")
def picked() -> list[Fault]:
    """The faults of the whole run."""
    return chosen()


def test_the_choice_is_the_same_each_time(picked: list[Fault]) -> None:
    """At least 120, from every package that reckons or judges; of one kind in one function no more than one."""
    assert [each.key for each in picked] == [each.key for each in chosen()]
    assert len({(each.module, each.function, each.operator) for each in picked}) == len(picked) >= 120
    assert {each.module.split("/")[1] for each in picked} >= {"collect", "engineering", "grade", "typeset"}


@pytest.mark.slow
def test_each_fault_changes_its_module(picked: list[Fault]) -> None:
    for each in picked:
        source = (ROOT / each.module).read_text("utf-8")
        assert ast.dump(mutant(each.module, each.key)) != ast.dump(ast.parse(source))


def test_a_new_package_takes_part_with_the_tests_of_its_name(tmp_path: Path) -> None:
    functions = "".join(f"def f{number}():\n    return {number}.5\n" for number in range(90))
    for name, text in (("model/terms", ""), ("advise/rules", functions), ("web/page", functions)):
        path = tmp_path / f"reporter/{name}.py"
        path.parent.mkdir(parents=True)
        path.write_text(text)
    picked = chosen(tmp_path)
    assert {each.module for each in picked} == {"reporter/advise/rules.py"}
    assert noticed_by("reporter/advise/rules.py") == ("tests/advise",)


def test_every_module_has_tests_and_they_are_there(picked: list[Fault]) -> None:
    for each in picked:
        for place in noticed_by(each.module):
            assert (ROOT / place).exists(), place


def test_enums_are_read_with_their_members() -> None:
    assert (
        enums("class Grade(StrEnum):\n    CLEAR = 'c'\n    STOP = 's'\nclass Other:\n    X = 1\n") == MEMBERS
    )


def test_the_list_of_survivors_is_whole() -> None:
    for key, entry in explained().items():
        assert key.startswith("reporter/")
        assert " -> " in key
        assert entry.keys() == {"kind", "because"}
        assert entry["kind"] in KINDS
        assert entry["because"]


def _fault(number: int) -> Fault:
    return Fault("reporter/grade/m.py", "f", "sign", number, "a + b -> a - b", lambda: None)


def test_the_gate_holds_only_where_all_is_noticed_or_explained_and_enough_is_noticed() -> None:
    found: dict[Fault, Verdict] = {_fault(number): "killed" for number in range(19)}
    assert told(found, {}, whole=True).holds
    found[_fault(19)] = "survived"
    assert not told(found, {}, whole=True).holds
    known = {_fault(19).key: {"kind": "not judged", "because": "said"}}
    assert told(found, known, whole=True).holds
    other = {_fault(19).key.replace("+", "*"): known[_fault(19).key]}
    report = told(found, other, whole=True)
    assert not report.holds
    assert any(line.startswith("explained, yet") for line in report.lines)
    assert any(line.startswith("LIVES ON") for line in report.lines)
    many = found.copy()
    many.update({_fault(number): "survived" for number in range(20, 24)})
    all_known = {each.key: known[_fault(19).key] for each in many}
    assert not told(many, all_known, whole=True).holds


@pytest.mark.slow
def test_a_fault_is_noticed_and_none_is_not(tmp_path: Path) -> None:
    """The process that is parted really runs the tests with the fault in the module."""
    (tmp_path / "conftest.py").write_text(f"import sys\nsys.path.insert(0, {str(tmp_path)!r})\n")
    (tmp_path / "pytest.ini").write_text("[pytest]\n")
    module = tmp_path / "gauge_of_depth.py"
    module.write_text("def more(a):\n    return a + 1\n")
    (tmp_path / "test_it.py").write_text(
        "import gauge_of_depth\n\ndef test_it():\n    assert gauge_of_depth.more(1) == 2\n"
    )
    tree = ast.parse("def more(a):\n    return a - 1\n")
    tests = (f"--rootdir={tmp_path}", f"-c={tmp_path}/pytest.ini", str(tmp_path / "test_it.py"))
    trials = [Trial("with", module, tree, tests), Trial("without", None, None, tests)]
    assert {trial.name: verdict for trial, verdict in tried(trials, 1)} == {
        "with": "killed",
        "without": "survived",
    }
