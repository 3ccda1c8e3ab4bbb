"""Golden table of the condition score and of what would settle a doubtful reading, reckoned by hand.

Score: linear within a grade, nodes clear 100, watch 85, plan 65, first 40, stop 10 (docs/decisions.md); from the
reading x0 at which the grade is entered to the one x1 at which the next worse grade is: top − (x − x0)/(x1 − x0)·(top −
bottom), never nearer than 0.1 to the next node. Past the last rung the wear so far, x0 − unworn, is the pace.
"""

from __future__ import annotations

from typing import Any

import pytest

from reporter.contract import Dimension, Grade, Limit, LimitKind, Quantity, Sense, Value
from reporter.model.job import Reading
from reporter.model.plugin import Plugin
from reporter.model.terms import Remedy
from tests.grade.cases import gap, limit, one, plugin

W, P, F, S, C = Grade.WATCH, Grade.PLAN, Grade.FIRST, Grade.STOP, Grade.CLEAR
LADDER = (limit(2, W, ident="w"), limit(4, P, ident="p"), limit(6, F, ident="f"), limit(10, S, ident="s"))
FIRST = (limit(6),)
LOWER = (limit(8, F, sense=Sense.AT_LEAST, unworn=10.0),)
WINDOW = (limit(4, P, sense=Sense.WINDOW, upper=8.0),)

SCORES = [
    # limits, reading, U, on a load path, grade, score
    (LADDER, 0.0, 0, True, C, 100.0),
    (LADDER, 1.0, 0, True, C, 92.5),  # 100 − 1/2·15
    (LADDER, 2.0, 0, True, C, 85.1),  # at the limit is within it
    (LADDER, 3.0, 0, True, W, 75.0),  # 85 − 1/2·20
    (LADDER, 4.0, 0, True, W, 65.1),
    (LADDER, 4.5, 0, True, P, 58.75),  # 65 − 1/4·25
    (LADDER, 6.0, 0, True, P, 40.1),
    (LADDER, 7.0, 0, True, F, 32.5),  # 40 − 1/4·30
    (LADDER, 9.0, 0, True, F, 17.5),  # 40 − 3/4·30
    (LADDER, 12.0, 0, True, S, 8.0),  # 10·(1 − 2/10): the pace is the 10 mm so far
    (LADDER, 15.0, 0, True, S, 5.0),
    (LADDER, 20.0, 0, True, S, 0.0),
    (LADDER, 30.0, 0, True, S, 0.0),
    ((limit(10, S),), 5.0, 0, True, C, 92.5),  # straight to stop: 85 falls to 10 at the limit
    ((limit(10, S),), 10.0, 0, True, C, 85.1),
    ((limit(10, S),), 10.001, 0, True, S, 9.999),
    (FIRST, 2.5, 1, True, C, 92.5),  # first rung at 6 − 1: 100 − 1/2·15
    (FIRST, 5.0, 1, True, C, 85.1),
    (FIRST, 5.5, 1, True, P, 52.5),  # close: plan from 5 to 6: 65 − 1/2·25
    (FIRST, 6.0, 1, True, P, 40.1),
    (FIRST, 6.5, 1, True, F, 37.5),  # doubtful on a load path: 40 − 0.5/6·30
    (FIRST, 9.0, 1, True, F, 25.0),  # 40 − 3/6·30
    (FIRST, 12.0, 1, True, F, 10.1),
    (FIRST, 6.5, 1, False, P, 40.1),  # doubtful beside it: still plan
    (FIRST, 8.0, 1, False, F, 30.0),  # 40 − 2/6·30
    ((limit(6, W),), 5.5, 1, True, W, 83.0),  # watch from 5 on: 85 − 0.5/5·20
    ((limit(6, W),), 8.0, 1, True, W, 73.0),  # 85 − 3/5·20
    (LOWER, 10.0, 0, True, C, 100.0),
    (LOWER, 9.0, 0, True, C, 92.5),
    (LOWER, 8.0, 0, True, C, 85.1),
    (LOWER, 7.0, 0, True, F, 25.0),  # 40 − 1/2·30: the pace is the 2 mm from 10 to 8
    (LOWER, 7.5, 1, True, F, 32.5),  # doubtful: 40 − 0.5/2·30
    (WINDOW, 6.0, 0, True, C, 100.0),  # middle of 4 to 8
    (WINDOW, 7.0, 0, True, C, 92.5),
    (WINDOW, 5.0, 0, True, C, 92.5),
    (WINDOW, 9.0, 0, True, P, 52.5),  # 65 − 1/2·25
    (WINDOW, 3.0, 0, True, P, 52.5),
    ((limit(6, F, unworn=2.0),), 4.0, 0, True, C, 92.5),  # half way from 2 to 6
    ((limit(6, F, unworn=None),), 3.0, 0, True, C, 100.0),  # where new stands is not known: nothing to count
    ((limit(6, F), limit(6, S, ident="same")), 7.0, 0, True, S, 8.33333),  # 10·(1 − 1/6): the worse of two at one value
]  # fmt: skip


@pytest.mark.parametrize(("limits", "mm", "expanded", "load_path", "grade", "score"), SCORES)
def test_score_of_a_reading(
    limits: tuple[Limit, ...], mm: float, expanded: float, load_path: bool, grade: Grade, score: float
) -> None:
    found = one(plugin(*limits, load_path=load_path), gap(mm, expanded=expanded))
    assert found.grade is grade
    for reached in (found.score, *(check.score for check in found.checks)):
        assert reached == pytest.approx(score, abs=2e-5)


PARTS: list[tuple[tuple[Limit, ...], float, dict[str, Any], float]] = [
    ((), 0.0, {"observed": {"look": "good"}}, 100.0),  # an answer scores the node of its grade
    ((), 0.0, {"observed": {"look": "rusty"}}, 85.0),
    ((), 0.0, {"observed": {"look": "bent"}}, 65.0),
    ((), 0.0, {"observed": {"look": "loose"}}, 40.0),
    ((), 0.0, {"observed": {"look": "broken"}}, 10.0),
    (LADDER, 3.0, {"observed": {"look": "bent"}}, 65.0),  # the lower of 75 and 65
    (LADDER, 7.0, {"observed": {"look": "bent"}}, 32.5),  # the lower of 32.5 and 65
    (
        (limit(6, F, kind=LimitKind.RULE),),
        9.0,
        {"observed": {"look": "good"}},
        65.0,
    ),  # a rule sets plan: its top
    (
        LADDER,
        15.0,
        {"judgement": {"grade": "watch", "reason": "a spare"}},
        65.1,
    ),  # raised into the judged band
    (LADDER, 1.0, {"judgement": {"grade": "stop", "reason": "it cracked"}}, 10.0),  # lowered into it
]


@pytest.mark.parametrize(("limits", "mm", "more", "score"), PARTS)
def test_score_of_a_part(limits: tuple[Limit, ...], mm: float, more: dict[str, Any], score: float) -> None:
    """The worst check, held inside the band of the grade that stands (US Navy MO-111.1, 4.2.1)."""
    readings = [gap(mm)] if limits else []
    assert one(plugin(*limits), *readings, **more).score == pytest.approx(score)


def said(kind: Plugin, *readings: Reading) -> list[str]:
    """What the tests that would settle something ask for."""
    return [action.what for action in one(kind, *readings).actions if action.remedy is Remedy.TEST]


INSPECTOR = "Decide by judgement"
"""Who decides where no reading can be exact enough."""

SETTLING = [
    # limits, reading, U, what the next reading must be good to: nine tenths of the way to the limit, one figure, down;
    # a reading that is close is always asked about, and the inspector decides where the next would have to be finer than
    # the method can be hoped to become (a tenth of U, no method being declared)
    (FIRST, 5.9, 0.5, "0.09"),  # 0.1·0.9
    (FIRST, 5.7, 0.5, "0.2"),  # 0.27
    (FIRST, 5.5, 1.0, "0.4"),  # 0.45
    (FIRST, 6.2, 0.5, "0.1"),  # doubtful: 0.18
    (FIRST, 4.5, 2.0, "1"),  # 1.35
    ((limit(40),), 25.0, 20.0, "10"),  # 13.5
    (LOWER, 8.3, 0.5, "0.2"),  # 0.27
    (LOWER, 7.9, 0.5, "0.09"),
    (WINDOW, 7.8, 0.5, "0.1"),  # to the upper end: 0.18
    (WINDOW, 4.1, 0.5, "0.09"),  # to the lower end
    (WINDOW, 4.05, 0.5, INSPECTOR),  # close: 0.045 is finer than a tenth of the 0.5 that the reading has
    (FIRST, 6.0, 0.5, INSPECTOR),  # close, on the limit itself: 0
    (FIRST, 6.05, 0.5, ""),  # doubtful, 0.045: its limit's own action stands beside it, and nothing is asked
    (FIRST, 3.0, 0.5, ""),  # within: nothing to settle
    (FIRST, 6.9, 0.5, ""),  # beyond: settled
    ((limit(6, governs=False),), 5.9, 0.5, ""),  # a yardstick decides nothing
]


@pytest.mark.parametrize(("limits", "mm", "expanded", "needed"), SETTLING)
def test_what_would_settle_it(limits: tuple[Limit, ...], mm: float, expanded: float, needed: str) -> None:
    asked = said(plugin(*limits), gap(mm, expanded=expanded))
    told = needed if needed in {"", INSPECTOR} else f"±{needed}\u00a0mm"
    assert [told in each for each in asked] == ([True] if needed else [])


@pytest.mark.parametrize(
    ("mm", "expanded", "how"),
    [
        (5.5, 1.0, "pitches: 45 instead of 20"),  # 20·1.0/0.45 = 44.4
        (5.7, 0.5, "pitches: 38 instead of 20"),  # 20·0.5/0.27 = 37.04
        (5.9, 0.5, "by micrometer"),  # 20·0.5/0.09 = 111.1, more than the 60 that can be
    ],
)
def test_over_more_pitches_or_by_a_better_method(mm: float, expanded: float, how: str) -> None:
    """The uncertainty shrinks in proportion to the pitches measured over: n2 = n1·U/needed, rounded up."""
    given = plugin(*FIRST)
    measure = given.readings[0].model_copy(update={"better": "by micrometer", "shrinks_with": "pitches"})
    pitches = Quantity(id="pitches", title="Pitches", dimension=Dimension.COUNT, unit="", method="counted", plausible=(1, 60))  # fmt: skip
    count = Reading(component="one", quantity="pitches", value=Value(dimension=Dimension.COUNT, value=20))
    kind = given.model_copy(update={"readings": (measure, pitches)})
    (asked,) = said(kind, gap(mm, expanded=expanded), count)
    assert how in asked
