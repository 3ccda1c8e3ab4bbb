"""Golden table of verdicts and of the grades they lead to.

Guard band w = U (k = 2) after JCGM 106:2012 8.3.2 and ILAC-G8:09/2019 4.2.2: acceptance limit A = TL − U for an upper
and TL + U for a lower limit, reckoned in the remark of each row. Four ways: inside A, between A and TL, between TL and
TL ± U, past it. A value at its limit is within it (decision of the product, docs/decisions.md).
"""

from __future__ import annotations

import datetime as dt

import numpy as np
import pytest
from scipy import stats

from reporter.contract import Dimension, Evidence, Grade, LimitKind, Sense, Value, Verdict, compare
from reporter.engineering import units
from reporter.engineering.verdict import (
    conformity,
    conformity_at_least,
    conformity_at_most,
    conformity_between,
    grade_reached,
    guarded,
)
from tests.grade.cases import limit, part

WITHIN, CLOSE, DOUBTFUL, BEYOND = Verdict.WITHIN, Verdict.CLOSE, Verdict.DOUBTFUL, Verdict.BEYOND
MOST, LEAST, WINDOW = Sense.AT_MOST, Sense.AT_LEAST, Sense.WINDOW

VERDICTS = [
    # sense, limit, upper, U, value, verdict
    (MOST, 6.0, None, 0.5, 5.4, WITHIN),  # A = 5.5
    (MOST, 6.0, None, 0.5, 5.5, WITHIN),
    (MOST, 6.0, None, 0.5, 5.51, CLOSE),
    (MOST, 6.0, None, 0.5, 6.0, CLOSE),  # at the limit
    (MOST, 6.0, None, 0.5, 6.01, DOUBTFUL),
    (MOST, 6.0, None, 0.5, 6.5, DOUBTFUL),  # 6.5 − 0.5 = 6.0, still inside
    (MOST, 6.0, None, 0.5, 6.51, BEYOND),
    (MOST, 6.0, None, 0.0, 6.0, WITHIN),  # exact: two ways only
    (MOST, 6.0, None, 0.0, 6.01, BEYOND),
    (MOST, 0.015, None, 0.002, 0.0135, CLOSE),  # chain: 1.5 %, U 0.2 %: A = 1.3 %
    (MOST, -5.4, None, 0.1, -5.47, CLOSE),  # below zero: A = −5.5
    (MOST, -5.4, None, 0.1, -5.35, DOUBTFUL),
    (LEAST, 7.04, None, 0.1, 7.14, WITHIN),  # A = 7.14
    (LEAST, 7.04, None, 0.1, 7.13, CLOSE),
    (LEAST, 7.04, None, 0.1, 7.04, CLOSE),
    (LEAST, 7.04, None, 0.1, 7.03, DOUBTFUL),
    (LEAST, 7.04, None, 0.1, 6.95, DOUBTFUL),
    (LEAST, 7.04, None, 0.1, 6.93, BEYOND),
    (WINDOW, 450.0, 560.0, 10.0, 460.0, WITHIN),  # A = 460 … 550
    (WINDOW, 450.0, 560.0, 10.0, 459.0, CLOSE),
    (WINDOW, 450.0, 560.0, 10.0, 449.0, DOUBTFUL),
    (WINDOW, 450.0, 560.0, 10.0, 439.0, BEYOND),
    (WINDOW, 450.0, 560.0, 10.0, 550.0, WITHIN),
    (WINDOW, 450.0, 560.0, 10.0, 551.0, CLOSE),
    (WINDOW, 450.0, 560.0, 10.0, 570.0, DOUBTFUL),
    (WINDOW, 450.0, 560.0, 10.0, 571.0, BEYOND),
    (WINDOW, 450.0, 560.0, 60.0, 505.0, CLOSE),  # U wider than half the window: nothing is surely inside
]


@pytest.mark.parametrize(("sense", "bound", "upper", "expanded", "value", "verdict"), VERDICTS)
def test_verdict(
    sense: Sense, bound: float, upper: float | None, expanded: float, value: float, verdict: Verdict
) -> None:
    assert guarded(value, expanded, bound, sense=sense, upper=upper)[0] is verdict


@pytest.mark.parametrize(
    ("sense", "bound", "upper", "unworn", "value", "use"),
    [
        (MOST, 6.0, None, 0.0, 1.5, 0.25), (MOST, 6.0, None, 2.0, 5.0, 0.75), (MOST, 6.0, None, 0.0, 9.0, 1.5),
        (LEAST, 8.0, None, 10.0, 9.5, 0.25), (LEAST, 8.0, None, 10.0, 7.0, 1.5), (WINDOW, 4.0, 8.0, None, 6.0, 0.0),
        (WINDOW, 4.0, 8.0, None, 4.5, 0.75), (WINDOW, 4.0, 8.0, None, 9.0, 1.5), (MOST, 6.0, None, None, 3.0, None),
        (MOST, 6.0, None, 6.0, 3.0, None),
    ],
)  # fmt: skip
def test_use(
    sense: Sense, bound: float, upper: float | None, unworn: float | None, value: float, use: float | None
) -> None:
    """By hand: the way gone from unworn, over the way to the limit; of a window from its middle."""
    found = guarded(value, 0.0, bound, sense=sense, upper=upper, unworn=unworn)[1]
    assert found == (None if use is None else pytest.approx(use))


W, P, F, S, C = Grade.WATCH, Grade.PLAN, Grade.FIRST, Grade.STOP, Grade.CLEAR
GRADES = [
    # the limit's own grade; on a load path: close, doubtful, beyond; beside it: close, doubtful, beyond
    (LimitKind.CONDITION, W, (W, W, W), (W, W, W)),  # never milder than watch
    (LimitKind.CONDITION, P, (W, P, P), (W, W, P)),
    (LimitKind.CONDITION, F, (P, F, F), (P, P, F)),
    (LimitKind.CONDITION, S, (F, S, S), (F, F, S)),
    (LimitKind.DESIGN, S, (W, P, P), (W, W, P)),  # an undersized part is not a broken one: plan at most
    (LimitKind.RULE, F, (W, P, P), (W, W, P)),
    (LimitKind.AGE, P, (W, P, P), (W, W, P)),
    (LimitKind.AGE, W, (W, W, W), (W, W, W)),
]


@pytest.mark.parametrize(("kind", "then", "on_path", "beside"), GRADES)
def test_grade_of_a_verdict(
    kind: LimitKind, then: Grade, on_path: tuple[Grade, ...], beside: tuple[Grade, ...]
) -> None:
    for load_path, expected in ((True, on_path), (False, beside)):
        found = [
            grade_reached(each, then, kind, load_path=load_path)
            for each in (CLOSE, DOUBTFUL, BEYOND, WITHIN, Verdict.UNSEEN)
        ]
        assert found == [*expected, C, Grade.UNSEEN]


@pytest.mark.parametrize(
    ("count", "u", "verdict", "grade"), [(0, 0.5, WITHIN, C), (1, 0.5, BEYOND, S), (2, 3.0, BEYOND, S)]
)
def test_a_count_has_no_guard_band(count: float, u: float, verdict: Verdict, grade: Grade) -> None:
    """Broken wires are "at least n": one is one, whatever uncertainty was written beside it."""
    evidence = Evidence(component=part(), today=dt.date(2026, 5, 12))
    given = Value(dimension=Dimension.COUNT, value=count, u=u)
    check = compare(evidence, given, limit(0, S, unit=""), title="Broken wires")
    assert (check.verdict, check.grade, check.conformity) == (verdict, grade, None)


CONFORMITY = [
    (MOST, 6.0, None, 5.5, 0.25),
    (MOST, 6.0, None, 6.1, 0.25),
    (LEAST, 7.04, None, 7.1, 0.05),
    (LEAST, 7.04, None, 6.9, 0.05),
    (WINDOW, 450.0, 560.0, 455.0, 5.0),
    (WINDOW, 12.5, 16.3, 13.6, 1.8),
]


@pytest.mark.parametrize(("sense", "bound", "upper", "value", "u"), CONFORMITY)
def test_probability_of_conformity(
    sense: Sense, bound: float, upper: float | None, value: float, u: float
) -> None:
    """By scipy's normal distribution, and the share of drawn values that lie inside (JCGM 101 6.4.7)."""
    low = -np.inf if sense is MOST else bound
    high = bound if sense is MOST else np.inf if upper is None else upper
    found = conformity(value, u, bound, sense, upper)
    assert found == pytest.approx(stats.norm.cdf(high, value, u) - stats.norm.cdf(low, value, u), abs=1e-9)
    drawn = np.random.default_rng(3).normal(value, u, 200_000)
    assert found == pytest.approx(float(np.mean((drawn >= low) & (drawn <= high))), abs=0.004)


def test_a_check_tells_the_probability_of_its_own_reading() -> None:
    """5.5 mm ± 0.5 mm (k = 2) under 6 mm: two standard uncertainties away, Φ(2) = 0.97725."""
    evidence = Evidence(component=part(), today=dt.date(2026, 5, 12))
    given = Value(dimension=Dimension.LENGTH, value=5.5e-3, u=0.25e-3)
    check = compare(evidence, given, limit(6), title="Gap")
    assert check.conformity == pytest.approx(0.97725, abs=5e-6)


def test_nothing_is_claimed_of_a_value_without_uncertainty() -> None:
    assert conformity(5.0, 0.0, 6.0, MOST) is None


REFUSALS = [
    (lambda: guarded(5, 1, 4, sense=WINDOW), "upper end"),
    (lambda: guarded(5, 1, 4, sense=WINDOW, upper=4), "upper end"),
    (lambda: guarded(5, 1, 4, sense=WINDOW, upper=3), "upper end"),
    (lambda: conformity_at_most(float("inf"), 0.1, 6.0), "value must"),
    (lambda: conformity_at_least(6.0, -0.1, 6.0), "standard uncertainty must"),
    (lambda: conformity_between(6.0, 0.1, 7.0, 7.0), "above the lower"),
    (lambda: units.to_base(1.0, "furlong"), "not a unit"),
    (lambda: conformity_at_most(5.0, 0.1, float("nan")), "limit must"),
]


@pytest.mark.parametrize(("asked", "words"), REFUSALS)
def test_refusal(asked: object, words: str) -> None:
    """What cannot be judged is refused in words, never guessed."""
    assert callable(asked)
    with pytest.raises((ValueError, KeyError), match=words):
        asked()
