"""The inspector's judgement and the list of what is to be done; and what counts as a limit made milder."""

from __future__ import annotations

import datetime as dt
from typing import Any

import pytest

from reporter.contract import Grade, Limit, Remedy, Sense
from reporter.model.citation import Override
from reporter.model.sheet import Plans
from tests.grade.cases import gap, grades, job, limit, one, part, plugin

WORSE = {"grade": "first", "reason": "what is left of this pin can fall out"}


def test_a_worse_judgement_raises_the_leading_action_and_its_day() -> None:
    given = job(part(observed={"look": ["bent", "rusty"]}, judgement=WORSE))
    plans = Plans.model_validate({"next_passage": "2026-06-20", "next_haul_out": "2026-10-01"})
    given = given.model_copy(update={"sheet": given.sheet.model_copy(update={"next": plans})})
    actions = grades(given, plugin()).actions
    assert [(each.what, each.grade, each.due) for each in actions] == [
        ("Straighten it", Grade.FIRST, dt.date(2026, 6, 20)),
        ("Clean it", Grade.WATCH, dt.date(2026, 6, 20)),
    ]


def test_a_worse_judgement_of_a_part_that_asks_for_nothing_is_looked_into() -> None:
    (action,) = one(plugin(), observed={"look": "good"}, judgement=WORSE).actions
    assert (action.grade, action.remedy) == (Grade.FIRST, Remedy.LOOK)
    assert WORSE["reason"] in action.what
    unseen = one(plugin(), examined={"extent": "not_seen", "because": "locked"}, judgement=WORSE)
    assert [each.grade for each in unseen.actions] == [Grade.UNSEEN, Grade.FIRST]


@pytest.mark.parametrize("extent", ["seen", "part_seen", "not_seen", "not_fitted", "not_found"])
@pytest.mark.parametrize("grade", ["stop", "first"])
def test_a_part_judged_so_always_asks_for_something(extent: str, grade: str) -> None:
    judged = {"grade": grade, "reason": "nothing steers her when the wheel fails"}
    graded = one(plugin(), examined={"extent": extent, "because": "sold"}, judgement=judged)
    assert grade in [each.grade for each in graded.actions if each.is_open]


def test_what_is_asked_for_by_hand_of_a_part_not_fitted_is_kept() -> None:
    graded = one(plugin(), examined={"extent": "not_fitted"}, judgement=WORSE, actions=[{"what": "Fit one"}])
    assert [(each.what, each.grade) for each in graded.actions] == [("Fit one", Grade.FIRST)]
    assert not one(plugin(), examined={"extent": "not_fitted"}).actions


def test_an_action_of_her_own_is_answer_enough() -> None:
    graded = one(plugin(), observed={"look": "good"}, judgement=WORSE, actions=[{"what": "Draw the pin"}])
    assert [(each.what, each.grade) for each in graded.actions] == [("Draw the pin", Grade.FIRST)]


@pytest.mark.parametrize(
    "edit", [{"decline": True, "reason": "sold"}, {"done": {"what": "straightened", "remedy": "repair"}}]
)
def test_a_closed_action_leads_nothing(edit: dict[str, Any]) -> None:
    closed = {"id": "part.look", **edit}
    graded = one(plugin(), observed={"look": "bent"}, judgement=WORSE, actions=[closed])
    assert [each.grade for each in graded.actions if each.is_open] == [Grade.FIRST]
    assert [each.grade for each in graded.actions if not each.is_open] == [Grade.PLAN]


def test_a_milder_judgement_raises_nothing() -> None:
    milder = {"grade": "watch", "reason": "a spare"}
    assert [each.grade for each in one(plugin(), observed={"look": "bent"}, judgement=milder).actions] == [
        Grade.WATCH
    ]


@pytest.mark.parametrize(
    ("governs", "sense", "value", "counted"),
    [
        (True, Sense.AT_MOST, 8, 1),
        (True, Sense.AT_MOST, 6, 0),
        (True, Sense.AT_MOST, 4, 0),
        (True, Sense.AT_LEAST, 8, 0),
        (True, Sense.AT_LEAST, 6, 0),
        (True, Sense.AT_LEAST, 4, 1),
        (False, Sense.AT_MOST, 8, 0),
    ],
)
def test_only_a_limit_that_decides_can_be_made_milder(
    governs: bool, sense: Sense, value: float, counted: int
) -> None:
    changed: Limit = limit(6, governs=governs, sense=sense).model_copy(
        update={"value": value, "override": Override(original=6, reason="r", by="A. Tester")}
    )
    given = job(part(), readings=(gap(1),), limits={changed.id: changed})
    assert len(grades(given, plugin(limit(6, governs=governs, sense=sense))).relaxed_limits) == counted
