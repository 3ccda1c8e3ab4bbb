"""What was left, and what was not seen: neither a word of the inspector's nor a gap may take a finding back."""

from __future__ import annotations

from typing import Any

import pytest
from pydantic import ValidationError

from reporter.collect.schema import schemas
from reporter.contract import Choice, Grade, Observation, Plugin, Remedy, Task
from reporter.model.assessment import Graded
from reporter.model.terms import State
from reporter.outputs.kind_page import kind_page
from reporter.wording import catalogue
from tests.grade.cases import gap, limit, one, plugin

PROVED: dict[str, Any] = {"done": [{"what": "adjusted", "remedy": "adjust"}], "proved": ["works"]}


def toggled(required: str = "needed", task: str = "") -> Plugin:
    """A part with one more observation, of which one answer is a gap."""
    hidden = Choice.model_validate({"id": "hidden", "words": "hidden by the drum", "gap": True, "task": task})
    seen = (
        Choice(id="whole", words="whole", grade=Grade.CLEAR),
        hidden,
        Choice(id="cracked", words="cracked", grade=Grade.STOP, task="replace"),
    )
    more = Observation.model_validate(
        {"id": "toggle", "title": "Toggle", "choices": seen, "required": required}
    )
    made = plugin(limit(6))
    uncover = Task(id="uncover", words="Lift the drum", remedy=Remedy.OPEN_UP)
    return made.model_copy(
        update={"observations": (*made.observations, more), "tasks": (*made.tasks, uncover)}
    )


def looked(*toggle: str, kind: Plugin | None = None, **more: Any) -> Graded:
    """The part looked at, with these answers for its toggle."""
    return one(
        kind or toggled(), observed={"look": "good", **({"toggle": list(toggle)} if toggle else {})}, **more
    )


def test_as_left_without_work_told_asks_for_proof_on_a_load_path() -> None:
    """Nothing says which work it was, so that it counts as taking apart."""
    readings = (gap(7), gap(2, state=State.LEFT))
    graded = one(plugin(limit(6, Grade.STOP)), *readings)
    assert graded.grade is Grade.FIRST
    assert "works both ways" in graded.sentence
    left = one(plugin(), observed={"look": ["broken", {"choice": "good", "state": "left"}]})
    assert left.grade is Grade.FIRST
    assert one(plugin(limit(6), load_path=False), *readings).grade is Grade.CLEAR


def test_only_what_was_superseded_is_told_as_put_right() -> None:
    """A yardstick for information that is exceeded tells of no work."""
    crane = limit(3, ident="crane", governs=False)
    graded = one(plugin(limit(6), crane), gap(4))
    assert (graded.grade, graded.sentence) == (Grade.CLEAR, "")
    worked = one(plugin(limit(6), crane), gap(7), gap(4, state=State.LEFT), **PROVED)
    assert worked.grade is Grade.CLEAR
    assert "as found: Gap 7" in worked.sentence
    assert [check.superseded for check in worked.checks] == [True, False, False, False]


def test_a_gap_as_left_supersedes_nothing() -> None:
    kind = toggled()
    seen = {"look": "good", "toggle": ["cracked", {"choice": "hidden", "state": "left"}]}
    assert one(kind, observed=seen, **PROVED).grade is Grade.STOP


@pytest.mark.parametrize("grade", ["clear", "unseen", None])
def test_a_gap_is_unseen_however_it_is_declared(grade: str | None) -> None:
    given = {"id": "a", "words": "hidden", "gap": True} | ({"grade": grade} if grade else {})
    choice = Choice.model_validate(given)
    assert (choice.grade, choice.remedy) == (Grade.UNSEEN, None)
    assert Choice.model_validate({**given, "task": "uncover"}).remedy is Remedy.OPEN_UP
    assert Choice.model_validate({**given, "task": "feel", "remedy": "test"}).remedy is Remedy.TEST


@pytest.mark.parametrize(
    "given", [{"gap": True, "grade": "watch"}, {"grade": "unseen"}, {"gap": True, "damage": True}]
)
def test_an_answer_is_a_gap_or_has_a_grade(given: dict[str, object]) -> None:
    with pytest.raises(ValidationError):
        Choice.model_validate({"id": "a", "words": "hidden", **given})


def test_could_not_be_seen_is_no_milder_than_silence() -> None:
    silent, hidden = looked(), looked("hidden")
    assert (hidden.grade, hidden.score) == (silent.grade, silent.score) == (Grade.UNSEEN, None)
    assert "toggle" in hidden.sentence
    assert [check.score for check in hidden.checks if check.subject == "toggle"] == [None]
    assert looked("hidden", "whole").grade is Grade.CLEAR
    assert looked("cracked", "hidden").grade is Grade.STOP


def test_an_optional_gap_lowers_coverage_only() -> None:
    graded = looked("hidden", kind=toggled("optional"))
    assert graded.grade is Grade.CLEAR
    assert [each.id for each in graded.missing if each.id == "toggle"] == ["toggle"]


@pytest.mark.parametrize("required", ["needed", "optional"])
def test_a_gap_with_an_action_is_opened_up(required: str) -> None:
    """In place of the action that asks for what is needed, not beside it."""
    graded = looked("hidden", kind=toggled(required, "uncover"))
    assert [(each.what, each.remedy, each.grade) for each in graded.actions] == [
        ("Lift the drum", Remedy.OPEN_UP, Grade.UNSEEN)
    ]
    assert [each.what for each in looked("hidden").actions] == [
        "Look at or measure what is still wanted: toggle"
    ]


def test_a_gap_is_described_as_not_seen() -> None:
    kind = toggled()
    (line,) = [each for each in kind_page(kind, catalogue()).splitlines() if "`hidden`" in each]
    assert "not seen" in line
    assert "clear" not in line
    assert "hidden by the drum (not seen)" in str(schemas({"part": kind}, {}))
