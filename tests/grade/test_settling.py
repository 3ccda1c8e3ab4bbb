"""What is close to its limit asks for a better reading and for nothing else; and never for an impossible one."""

from __future__ import annotations

import datetime as dt
from typing import Any

import pytest

from reporter.contract import (
    Assessment,
    Basis,
    Check,
    Dimension,
    Evidence,
    Grade,
    Plugin,
    Remedy,
    Value,
    Verdict,
)
from reporter.grade.evidence import years_between
from reporter.model.assessment import Graded
from reporter.model.findings import Fact
from reporter.model.quantity import PartialDate
from tests.grade.cases import gap, grades, job, limit, one, part, plugin

RENEW: dict[str, Any] = {"task": "replace"}


def finely(kind: Plugin, expected: float, better: str = "") -> Plugin:
    """The kind with a method good to `expected` mm (k = 2), and a better one if named."""
    reading = kind.readings[0].model_copy(update={"expected_u": expected, "better": better})
    return kind.model_copy(update={"readings": (reading,)})


@pytest.mark.parametrize("load_path", [True, False])
def test_a_close_check_asks_for_one_better_reading_and_nothing_else(load_path: bool) -> None:
    graded = one(plugin(limit(6, **RENEW), load_path=load_path), gap(5.9, expanded=0.5))
    assert graded.checks[0].verdict is Verdict.CLOSE
    (action,) = graded.actions
    assert (action.remedy, action.grade) == (Remedy.TEST, Grade.PLAN)
    assert graded.grade is action.grade
    assert "Replace" not in action.what


def test_a_limit_that_is_only_close_never_speaks_for_one_that_was_reached() -> None:
    """Beyond 4 mm (watch), close to 6 mm (first, so plan): rebush by the one, measure again by the other."""
    low = limit(4, Grade.WATCH, ident="low", task="straighten")
    graded = one(plugin(low, limit(6, **RENEW)), gap(5.9, expanded=0.5))
    assert {(each.what[:9], each.remedy, each.grade) for each in graded.actions} == {
        ("Straighte", Remedy.REPAIR, Grade.WATCH),
        ("Measure a", Remedy.TEST, Grade.PLAN),
    }


def test_nothing_is_settled_that_another_limit_has_decided() -> None:
    low = limit(4, Grade.FIRST, ident="low", task="straighten")
    graded = one(plugin(low, limit(6, **RENEW)), gap(5.9, expanded=0.5))
    assert [each.what for each in graded.actions] == ["Straighten it"]


@pytest.mark.parametrize("mm", [6.0, 5.9999, 5.96])
def test_where_no_reading_can_be_exact_enough_the_inspector_decides(mm: float) -> None:
    """A feeler good to 0.1 mm cannot settle 0.04 mm; none settles nothing at all."""
    (action,) = one(finely(plugin(limit(6, **RENEW)), 0.1), gap(mm, expanded=0.5)).actions
    assert action.remedy is Remedy.TEST
    assert "±" not in action.what
    assert "no better reading can settle it" in action.what


def test_a_better_method_is_asked_for_one_more_decimal_place_and_no_more() -> None:
    kind = finely(plugin(limit(6)), 0.1, "a micrometer")
    (near,) = one(kind, gap(5.96, expanded=0.1)).actions
    assert "to ±0.03\u00a0mm or better" in near.what
    assert near.what.endswith("(a micrometer)")
    (nearer,) = one(kind, gap(5.995, expanded=0.1)).actions
    assert "no better reading" in nearer.what


def test_a_doubtful_reading_without_uncertainty_of_its_own_asks_for_none() -> None:
    """A kind may call an exact figure doubtful (a rule that says "under", not "at most")."""

    def at_the_limit(evidence: Evidence) -> Assessment:
        exact = Value(dimension=Dimension.LENGTH, value=0.006, unit="mm")
        check = Check(id="part.gap.rule", subject="gap", title="Gap", value=exact, limit=evidence.limit("part.gap.wear"),
                      verdict=Verdict.DOUBTFUL, grade=Grade.FIRST, task="replace")  # fmt: skip
        return Assessment(checks=(check,))

    graded = one(plugin(limit(6, **RENEW), assess=at_the_limit))
    assert [each.what for each in graded.actions] == ["Replace it"]


def aged(fitted: str, **more: object) -> Graded:
    """A part of 7 years at most, fitted that day, seen on 12 May 2026."""
    given: dict[str, Any] = {
        "quantity": "installed",
        "unit": "years",
        "kind": "age",
        "unworn": None,
        **RENEW,
        **more,
    }
    kind = plugin(limit(7, Grade.PLAN, **given))
    fact = Fact(basis=Basis.TOLD, date=PartialDate.model_validate(fitted))
    return grades(job(part(observed={"look": "good"}), facts={"one": {"installed": fact}}), kind).components[
        0
    ]


@pytest.mark.parametrize(
    ("fitted", "verdict"),
    [
        ("2019-05-12", Verdict.WITHIN),
        ("2019-05-11", Verdict.BEYOND),
        ("2019-05-13", Verdict.WITHIN),
        ("2019-05", Verdict.CLOSE),
        ("2019-04", Verdict.BEYOND),
        ("2019", Verdict.CLOSE),
        ("2018", Verdict.BEYOND),
        ("2020", Verdict.WITHIN),
        ("2026", Verdict.WITHIN),
    ],
)
def test_ages_are_calendar_years(fitted: str, verdict: Verdict) -> None:
    assert [check.verdict for check in aged(fitted).checks if check.limit] == [verdict]


def test_an_age_that_may_be_past_asks_for_the_date() -> None:
    (action,) = aged("2019").actions
    assert action.remedy is Remedy.TEST
    assert "date" in action.what


@pytest.mark.parametrize(
    ("then", "now", "years"),
    [
        ("2016-02-29", "2023-02-28", 7.0),
        ("2016-02-29", "2023-02-27", 6 + 364 / 365),
        ("2016-02-29", "2024-02-29", 8.0),
        ("2016-02-29", "2024-02-28", 7 + 365 / 366),
        ("2019-05-12", "2026-05-12", 7.0),
        ("2019-05-12", "2026-05-13", 7 + 1 / 365),
        ("2026-05-12", "2026-05-12", 0.0),
    ],
)
def test_years_between_days(then: str, now: str, years: float) -> None:
    assert years_between(dt.date.fromisoformat(then), dt.date.fromisoformat(now)) == pytest.approx(
        years, abs=1e-12
    )


@pytest.mark.parametrize(
    ("unworn", "expanded", "coarse"),
    [(0.0, 5.9, False), (0.0, 6.1, True), (2.0, 3.9, False), (2.0, 4.1, True), (None, 9.0, False)],
)
def test_where_not_even_a_new_part_could_be_told_inside_the_reading_is_too_coarse(
    unworn: float | None, expanded: float, coarse: bool
) -> None:
    """Limit 6 mm, read 5.9 mm: a new part stands at `unworn`, so U may be 6 mm and 4 mm at most."""
    (check,) = one(plugin(limit(6, unworn=unworn)), gap(5.9, expanded=expanded)).checks
    assert check.verdict is Verdict.CLOSE
    assert ("so coarse a reading cannot show it" in check.said) == coarse
    assert ("by less than the uncertainty" in check.said) != coarse


@pytest.mark.parametrize(
    ("other", "asked"),
    [
        (8.0, "Measure both sides again, feeler, until the difference is known to ±0.9\u00a0mm"),
        (7.1, "Decide by judgement"),
    ],
)
def test_two_sides_are_asked_for_a_reading_ten_times_as_fine_at_most(other: float, asked: str) -> None:
    """10 mm beside 8.0 and 7.1 mm, limit 3 mm, U 1 mm each: √2 mm of the difference, of which a tenth is 0.14 mm.

    To decide, nine tenths of 1 mm will do; of 0.1 mm they are 0.09 mm.
    """
    sides = (("port", 10.0), ("starboard", other))
    readings = [gap(mm, expanded=1).model_copy(update={"side": side}) for side, mm in sides]
    (action,) = one(plugin(limit(3, between="sides")), *readings).actions
    assert action.what.startswith(asked)
