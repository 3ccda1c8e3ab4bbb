"""Properties of judging that no job may break: worse never looks better, order does not matter, nothing averages."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from reporter.contract import Grade, Sense
from reporter.grade.evidence import merge
from reporter.grade.scoring import FLOORS, NODES
from reporter.model.assessment import Graded
from tests.effort import tries
from tests.grade.cases import gap, grades, job, limit, one, part, plugin

GAPS = st.floats(min_value=0, max_value=20, allow_nan=False).map(lambda mm: round(mm, 3))
SPREADS = st.sampled_from([0.0, 0.1, 0.5, 2.0])
LADDER = st.sampled_from([Grade.WATCH, Grade.PLAN, Grade.FIRST, Grade.STOP])
CHOICES = ["good", "rusty", "bent", "loose", "broken"]


def not_better(worse: Graded, better: Graded) -> None:
    """Neither grade nor score of `worse` is better than that of `better`."""
    assert worse.grade.rank >= better.grade.rank
    if worse.score is not None and better.score is not None:
        assert worse.score <= better.score + 1e-9


@given(GAPS, st.floats(0, 5), SPREADS, LADDER, LADDER, st.booleans())
def test_moving_a_reading_towards_the_limit_never_improves(
    start: float, step: float, spread: float, low: Grade, high: Grade, load_path: bool
) -> None:
    kind = plugin(limit(4, low, ident="low"), limit(8, high, ident="high"), load_path=load_path)
    not_better(one(kind, gap(start + step, expanded=spread)), one(kind, gap(start, expanded=spread)))


@given(GAPS, st.floats(0, 5), SPREADS, LADDER)
def test_the_same_holds_for_a_lower_limit(start: float, step: float, spread: float, then: Grade) -> None:
    kind = plugin(limit(8, then, sense=Sense.AT_LEAST, unworn=10.0))
    not_better(one(kind, gap(max(start - step, 0), expanded=spread)), one(kind, gap(start, expanded=spread)))


@given(st.lists(GAPS, min_size=2, max_size=5), st.floats(0, 5), SPREADS)
def test_moving_all_repeats_of_one_spot_by_one_amount_never_improves(
    spots: list[float], step: float, spread: float
) -> None:
    kind = plugin(limit(6))
    moved = [gap(mm + step, expanded=spread) for mm in spots]
    not_better(one(kind, *moved), one(kind, *(gap(mm, expanded=spread) for mm in spots)))


@given(st.lists(GAPS, min_size=1, max_size=4), st.integers(0, 3), st.floats(0, 15), SPREADS, st.booleans())
def test_raising_one_repeat_from_equal_ones_never_improves(
    spots: list[float], place: int, step: float, spread: float, load_path: bool
) -> None:
    level = spots[0]
    kind = plugin(limit(6), load_path=load_path)
    equal = [gap(level, expanded=spread) for _ in spots]
    raised = [
        gap(level + (step if number == place % len(spots) else 0), expanded=spread)
        for number in range(len(spots))
    ]
    not_better(one(kind, *raised), one(kind, *equal))


REPEATS = st.integers(2, 5).flatmap(lambda count: st.lists(st.floats(-3, 3), min_size=count, max_size=count))
"""Repeats as multiples of one reading's standard uncertainty, where agreement turns into scatter."""


def edges(away: list[float]) -> tuple[tuple[float, float, float], bool]:
    """Largest lower end, value and upper end of what the repeats become, in mm, and whether they scatter.

    Where these three lie decides every verdict against any upper limit; a lower limit is the mirror.
    """
    spots = merge([gap(30 + at, expanded=2.0) for at in away], None)
    ends = [[1000 * (spot.value.value + sign * 2 * spot.value.u) for spot in spots] for sign in (-1, 0, 1)]
    return (max(ends[0]), max(ends[1]), max(ends[2])), spots[0].uneven


@pytest.mark.slow
@settings(max_examples=tries(3000, 800))
@given(REPEATS, st.integers(0, 4), st.floats(0.01, 4))
def test_raising_one_repeat_never_improves_unless_it_brings_the_repeats_into_agreement(
    away: list[float], place: int, step: float
) -> None:
    raised = [at + step if each == place % len(away) else at for each, at in enumerate(away)]
    before, after = edges(away), edges(raised)
    if not (before[1] and not after[1]):
        assert all(new >= old - 1e-9 for old, new in zip(before[0], after[0], strict=True))


@settings(max_examples=1000)
@given(REPEATS)
def test_repeats_on_their_own_are_never_judged_milder_than_their_mean(away: list[float]) -> None:
    """So that scattering gains nothing; each alone is the repeat of nothing else."""
    together, _ = edges(away)
    apart = [edges([at])[0] for at in away]
    assert all(max(each[end] for each in apart) >= together[end] - 1e-9 for end in range(3))


@given(st.lists(GAPS, min_size=1, max_size=4), GAPS, SPREADS)
def test_adding_a_place_never_improves(spots: list[float], more: float, spread: float) -> None:
    kind = plugin(limit(6))
    readings = [gap(mm, expanded=spread, at=str(place)) for place, mm in enumerate(spots)]
    not_better(one(kind, *readings, gap(more, expanded=spread, at="more")), one(kind, *readings))


@given(st.sampled_from(range(5)), st.sampled_from(range(5)))
def test_taking_a_worse_choice_never_improves(first: int, second: int) -> None:
    better, worse = sorted((first, second))
    not_better(
        one(plugin(), observed={"look": CHOICES[worse]}), one(plugin(), observed={"look": CHOICES[better]})
    )


@given(st.lists(st.sampled_from(CHOICES), min_size=1, max_size=5), st.sampled_from(CHOICES))
def test_adding_a_part_never_raises_a_system(looks: list[str], more: str) -> None:
    parts = [part(f"p{number}", observed={"look": look}) for number, look in enumerate(looks)]
    before = grades(job(*parts), plugin()).systems[0]
    after = grades(job(*parts, part("more", observed={"look": more})), plugin()).systems[0]
    assert after.grade.rank >= before.grade.rank
    assert after.score is not None
    assert before.score is not None
    assert after.score <= before.score


@given(st.permutations(range(5)))
def test_the_order_of_parts_and_readings_does_not_matter(order: list[int]) -> None:
    parts = [part(f"p{number}", observed={"look": look}) for number, look in enumerate(CHOICES)]
    readings = [gap(float(number), at=str(number), part="p0") for number in range(5)]
    straight = grades(job(*parts, readings=tuple(readings)), plugin(limit(6)))
    mixed = grades(
        job(*(parts[i] for i in order), readings=tuple(readings[i] for i in order)), plugin(limit(6))
    )
    assert straight.systems[0].model_copy(update={"components": ()}) == mixed.systems[0].model_copy(
        update={"components": ()}
    )
    told = {each.component.id: (each.grade, each.score) for each in straight.components}
    assert told == {each.component.id: (each.grade, each.score) for each in mixed.components}


@given(GAPS, SPREADS, LADDER, st.booleans())
def test_score_and_grade_never_contradict(mm: float, spread: float, then: Grade, load_path: bool) -> None:
    graded = one(plugin(limit(6, then), load_path=load_path), gap(mm, expanded=spread))
    assert graded.score is not None
    assert FLOORS[graded.grade] <= graded.score <= NODES[graded.grade]
    assert graded.grade is Grade.STOP or graded.score > FLOORS[graded.grade]
