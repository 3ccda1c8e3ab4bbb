"""Single steps of the judging whose slips a whole graded part can hide."""

from __future__ import annotations

import datetime as dt

import pytest

from reporter.contract import (
    Assessment,
    Basis,
    Check,
    Choice,
    Dimension,
    Evidence,
    Extent,
    Grade,
    Observation,
    Remedy,
    Value,
    Verdict,
)
from reporter.grade.evidence import age_of
from reporter.grade.judged import _no_worse
from reporter.grade.observing import _observed
from reporter.grade.time_series import Readings, _put, _went_in
from reporter.model.assessment import Action, Term, Working
from reporter.model.evidence import MeasurementPoint
from reporter.model.findings import Fact, Observed
from reporter.model.plugin import Need
from reporter.model.quantity import PartialDate
from reporter.model.terms import State
from tests.grade.cases import SOURCE, gap, grades, job, limit, one, part, plugin


def action(grade: Grade) -> Action:
    """Something to be done, as urgent as that."""
    return Action(id="a", what="Renew it", remedy=Remedy.REPLACE, why="worn", grade=grade)


@pytest.mark.parametrize(
    ("judged", "becomes"),
    [
        (Grade.CLEAR, Grade.CLEAR), (Grade.WATCH, Grade.WATCH), (Grade.FIRST, Grade.FIRST), (Grade.STOP, Grade.FIRST),
        (Grade.UNSEEN, Grade.FIRST),
    ],
)  # fmt: skip
def test_a_judgement_caps_urgency_unless_it_says_unseen(judged: Grade, becomes: Grade) -> None:
    """What nobody saw cannot make an action milder, and a worse judgement makes none more urgent."""
    assert _no_worse(action(Grade.FIRST), judged).grade is becomes


def test_an_answer_that_tells_a_gap_counts_as_not_seen() -> None:
    choices = (
        Choice(id="deck", words="from deck only", grade=Grade.UNSEEN, gap=True),
        Choice(id="good", words="good", grade=Grade.CLEAR),
    )
    look = Observation(id="look", title="Look", choices=choices)
    verdicts = [_observed(plugin(), look, Observed(choice=each.id), 0).verdict for each in choices]
    assert verdicts == [Verdict.UNSEEN, Verdict.SEEN]


def length(metres: float) -> Value:
    """A length as read."""
    return Value(dimension=Dimension.LENGTH, value=metres)


WORN = Working(
    title="Wear", formula="w = s / n", source=SOURCE, result=Term(symbol="w", meaning="wear", value=1, unit="%"),
    inputs=(Term(symbol="s", meaning="span", value=254, unit="mm"), Term(symbol="n", meaning="pitches", value=20, unit="")),
)  # fmt: skip
CHECK = Check(
    id="c", subject="wear", title="Wear", value=length(0.5), verdict=Verdict.WITHIN, grade=Grade.CLEAR, at="top", side="port",
    working=(WORN,),
)  # fmt: skip


@pytest.mark.parametrize(
    ("changes", "went_in"),
    [
        ({}, True), ({"at": ""}, True), ({"side": ""}, True), ({"at": "foot"}, False), ({"side": "starboard"}, False),
        ({"state": State.LEFT}, False), ({"value": length(0.255)}, False), ({"quantity": "wear", "value": length(0.5)}, True),
        ({"value": length(0.5)}, False), ({"value": Value(dimension=Dimension.MASS, value=0.254)}, False),
    ],
)  # fmt: skip
def test_a_reading_went_into_a_sum_of_its_own_place_only(changes: dict[str, object], went_in: bool) -> None:
    """254 mm at the top of the port side: at another place, on another side or after work it is another reading."""
    given = {"quantity": "span", "at": "top", "side": "port", "value": length(0.254), **changes}
    assert _went_in(MeasurementPoint.model_validate(given), CHECK) == went_in


def test_limits_for_information_stand_among_the_yardsticks() -> None:
    governing, other = limit(6), limit(3, ident="crane", governs=False)
    limits = {each.id: each for each in (governing, other)}
    assert grades(job(part(), limits=limits), plugin(governing, other)).yardsticks == (other,)


def test_what_is_not_fitted_withholds_nothing_and_what_was_not_found_does() -> None:
    """A part that the boat does not have is no link of her load path; one that could not be found is."""
    seen = part("one", observed={"look": "rusty"})
    for extent, withheld in ((Extent.NOT_FITTED, ""), (Extent.NOT_SEEN, "Part")):
        other = part("two", examined={"extent": extent, "because": "looked for"})
        system = grades(job(seen, other), plugin()).systems[0]
        assert system.withheld == withheld
        assert (system.score is None) == bool(withheld)
    lost = part("two", examined={"extent": Extent.NOT_FOUND, "because": "looked for"})
    assert grades(job(seen, lost), plugin()).systems[0].grade is Grade.FIRST


def test_every_check_with_a_limit_has_its_sentence_and_keeps_one_that_it_has() -> None:
    """A reading says its value and its limit; an observation says the words chosen."""
    checks = one(plugin(limit(6)), gap(4), observed={"look": "rusty"}).checks
    sentences = {check.subject: check.said for check in checks}
    assert sentences["look"] == "rusty"
    assert "4" in sentences["gap"]
    assert "6" in sentences["gap"]


def test_what_is_asked_for_on_request_is_missing_to_nobody() -> None:
    needs = tuple(
        Need(id=asked, source="vessel", name="beam", asked=asked, why=f"needed {asked}")
        for asked in ("usual", "on_request")
    )
    kind = plugin(limit(6)).model_copy(update={"needs": needs})
    assert one(kind, gap(4)).unmet == ("needed usual",)


def test_of_checks_that_ask_for_one_task_the_worst_speaks() -> None:
    """Bent (plan) and a gap past its limit (first) are one job: it is as urgent as the gap."""
    (only,) = one(plugin(limit(6, task="straighten")), gap(9), observed={"look": "bent"}).actions
    assert (only.what, only.grade, only.remedy) == ("Straighten it", Grade.FIRST, Remedy.REPAIR)
    assert {check.partition(".")[2].partition(".")[0] for check in only.settles} == {"gap", "look"}


def test_the_inspectors_own_actions_are_counted_from_one() -> None:
    told = ({"what": "Grease it", "reason": "dry"}, {"what": "Paint it", "reason": "bare"})
    own = [each for each in one(plugin(), actions=told).actions if each.proposed_by == "inspector"]
    assert [each.id for each in own] == ["part.own_1", "part.own_2"]


def test_a_check_with_a_limit_and_no_value_is_no_better_than_new() -> None:
    def unread(evidence: Evidence) -> Assessment:
        told = {
            "id": "part.gap.none",
            "subject": "gap",
            "title": "Gap",
            "verdict": "unseen",
            "grade": "unseen",
        }
        return Assessment(checks=(Check.model_validate({**told, "limit": evidence.limit("part.gap.wear")}),))

    (check,) = one(plugin(limit(6), assess=unread)).checks
    assert (check.verdict, check.notes) == (Verdict.UNSEEN, ())


@pytest.mark.parametrize(
    ("mine", "other", "same"),
    [
        ("", "", True),
        ("port", "", True),
        ("", "port", True),
        ("port", "port", True),
        ("port", "starboard", False),
        ("fore", "fore", True),
        ("fore", "aft", False),
    ],
)
def test_a_part_of_no_group_belongs_to_each(mine: str, other: str, same: bool) -> None:
    assert part("a", group=mine).agrees(part("b", group=other)) == same


def test_an_age_is_an_age() -> None:
    """Hours run are no years: fitted a year ago to the day."""
    evidence = Evidence(component=part(), today=dt.date(2026, 5, 12))
    age = age_of(Fact(basis=Basis.TOLD, date=PartialDate(year=2025, month=5, day=12)), evidence)
    assert age is not None
    assert (age.dimension, age.value, age.u) == (Dimension.AGE, 1, 0)


@pytest.mark.parametrize(("mm", "stands"), [(5, 5), (3, 4), (4, 4)])
def test_of_readings_of_one_place_the_worse_stands(mm: float, stands: float) -> None:
    """Wear from 0 to 6 mm; 4 mm was read first."""
    held = CHECK.model_copy(update={"limit": limit(6), "working": ()})
    found: Readings = {}
    for each in (4, mm):
        value = length(each / 1000)
        _put(found, held.model_copy(update={"value": value}), value, "feeler")
    (states,) = found.values()
    assert states[State.FOUND].value.value == stands / 1000


@pytest.mark.parametrize(
    ("mine", "other", "same"),
    [
        ({"side": "port"}, {"side": "starboard"}, False),
        ({"side": "port"}, {"side": "port"}, True),
        ({"side": "port"}, {"group": "port"}, True),
        ({"side": "port"}, {"group": "starboard"}, False),
        ({"side": "port"}, {}, True),
    ],
)
def test_a_side_parts_like_a_group(mine: dict[str, str], other: dict[str, str], same: bool) -> None:
    assert part("a", **mine).agrees(part("b", **other)) == same
    assert part("b", **other).agrees(part("a", **mine)) == same
