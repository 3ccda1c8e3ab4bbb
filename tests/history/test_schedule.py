"""What is due when: by grade and plans, by interval, by care; dates over leap days; work near the compass."""

from __future__ import annotations

import datetime as dt
import importlib
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from reporter.contract import Care, Remedy
from reporter.grade.dating import months_on
from reporter.model.findings import Done
from reporter.model.history import Due
from reporter.model.sheet import Plans
from reporter.model.terms import Grade, LimitKind
from tests.grade import cases
from tests.grade.cases import part
from tests.history.visits import graded, kind, visit

DAY = "2026-05-12"
PLANS = Plans.model_validate(
    {"next_passage": "2026-06", "next_haul_out": "2026-10-03", "passage": "across the bay"}
)


@given(st.dates(dt.date(1990, 1, 1), dt.date(2100, 12, 31)), st.integers(0, 600))
def test_months_on_agree_with_dateutil(day: dt.date, months: int) -> None:
    """dateutil.relativedelta is the oracle, leap days and short months included."""
    relativedelta: Any = importlib.import_module("dateutil.relativedelta").relativedelta
    assert months_on(day, months) == day + relativedelta(months=months)


@pytest.mark.parametrize(
    ("look", "plans", "on", "when"),
    [
        ("broken", Plans(), "2026-05-12", "before it is used again"),
        ("loose", Plans(), None, "before the next passage"),
        ("loose", PLANS, "2026-06-01", "before the passage of June\u00a02026"),
        ("bent", Plans(), "2027-05-12", "at the next lay-up"),
        ("bent", PLANS, "2026-10-03", "at the haul-out of 3\u00a0October\u00a02026"),
        ("rusty", Plans(), "2027-05-12", "within a year, and before a long passage"),
        ("rusty", PLANS, "2026-06-01", "within a year, and before a long passage"),
    ],
)
def test_the_grade_and_the_plans_set_the_day(look: str, plans: Plans, on: str | None, when: str) -> None:
    """A bare month counts from its first day: that is the last day to rely on."""
    (action,) = graded(visit(DAY, parts=(part(observed={"look": [look]}),), next=plans)).actions
    assert (str(action.due) if action.due else None, action.by_when) == (on, when)


@pytest.mark.parametrize(
    ("written", "on"), [("2026-07-01", "2026-07-01"), ("2026-07", "2026-07-31"), ("when she is out", "None")]
)
def test_the_inspectors_own_words_stand(written: str, on: str) -> None:
    rusty = part(observed={"look": ["rusty"]}, actions=({"id": "part.look", "by_when": written},))
    (action,) = graded(visit(DAY, parts=(rusty,))).actions
    assert (str(action.due), action.by_when, action.dated_by) == (on, written, "inspector")


def test_a_template_sets_words_of_its_own() -> None:
    template = cases.TEMPLATE.model_copy(update={"due": {"unseen": "due.unseen_sale"}})
    hidden = part(examined={"extent": "not_seen", "because": "locked"})
    (action,) = graded(visit(DAY, parts=(hidden,), next=PLANS), template=template).actions
    assert action.by_when == "before the sale is agreed"


def due(reason: str, *found: Due) -> list[Due]:
    return [each for each in found if each.reason == reason]


def test_done_and_declined_are_not_due_and_everything_is_looked_at_once_a_year() -> None:
    settled = part(
        observed={"look": ["rusty"]}, actions=({"id": "part.look", "decline": True, "reason": "cosmetic"},)
    )
    found = graded(visit("2028-02-29", parts=(settled,))).schedule
    assert [(each.reason, str(each.on)) for each in found] == [("look", "2029-02-28")]


def test_before_the_passage_one_walk_over_everything() -> None:
    (found,) = due("passage", *graded(visit(DAY, next=PLANS)).schedule)
    assert (found.component, str(found.on)) == ("", "2026-06-01")
    assert "across the bay" in found.what


def test_an_age_is_due_before_it_is_reached() -> None:
    aged = kind().model_copy(
        update={
            "limits": (
                cases.limit(10.0, Grade.PLAN, ident="age").model_copy(
                    update={"quantity": "installed", "unit": "years", "kind": LimitKind.AGE}
                ),
            )
        }
    )
    from reporter.model.findings import Fact
    from reporter.model.quantity import PartialDate
    from reporter.model.terms import Basis

    fitted = PartialDate.model_validate("2020-02-29")
    job = visit(DAY, parts=(part(installed="2020-02-29"),))
    job = job.model_copy(update={"facts": {"one": {"installed": Fact(basis=Basis.INVOICE, date=fitted)}}})
    (found,) = due("interval", *graded(job, plugin=aged).schedule)
    assert str(found.on) == "2030-02-28"
    assert "10\u00a0years" in found.what


def done(**told: object) -> Done:
    return Done.model_validate(told)


OIL = Care(id="oil", what="Oil it", supply="30-weight oil", months=6)


@pytest.mark.parametrize(
    ("now", "then", "on"),
    [
        (None, None, "2026-11-12"),
        (done(what="oiled", remedy=Remedy.LUBRICATE, date="2026-05-01"), None, "2026-11-01"),
        (done(what="oiled", remedy=Remedy.LUBRICATE), None, "2026-11-12"),
        (None, done(what="oiled", remedy=Remedy.LUBRICATE, date="2026-02-28"), "2026-08-28"),
        (None, done(what="oiled", remedy=Remedy.LUBRICATE, date="2024-02-28"), DAY),
        (done(what="seen to", settles=("oil",), date="2026-05-01"), None, "2026-11-01"),
    ],
)
def test_care_is_counted_from_the_last_time_on_record(now: Done | None, then: Done | None, on: str) -> None:
    plugin = kind().model_copy(update={"care": (OIL,)})
    parts = [(part(done=(each,) if each else (), proved=("all",)),) for each in (now, then)]
    found = graded(visit(DAY, parts=parts[0]), visit("2026-03-01", parts=parts[1]), plugin=plugin).schedule
    (care,) = due("care", *found)
    assert (str(care.on), care.bring) == (on, ("30-weight oil",))


def test_work_near_the_compass_asks_for_the_deviation_once() -> None:
    from reporter.contract import ProofItem

    near = kind().model_copy(update={"proof": (ProofItem(id="compass", words="compass looked at"),)})
    worked = [
        part(each, done=(Done(what="taken apart", remedy=Remedy.REPAIR),), proved=("all",))
        for each in ("one", "two")
    ]
    found = graded(visit(DAY, parts=tuple(worked)), plugin=near)
    (action,) = [each for each in found.actions if each.id.endswith(".deviation")]
    assert action.grade is Grade.FIRST
    oiled = part(done=(done(what="oiled", remedy=Remedy.LUBRICATE),), proved=("all",))
    assert [each.grade for each in graded(visit(DAY, parts=(oiled,)), plugin=near).actions] == [Grade.WATCH]
    assert graded(visit(DAY, parts=(oiled,))).actions == ()
    assert graded(visit(DAY), plugin=near).actions == ()
