"""What differs from the earlier record, which part is the same part, and what became of each recommendation."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from reporter.grade.lineage import renewed
from reporter.model.findings import Component, Done
from reporter.model.history import Carried, worsened
from reporter.model.job import Job
from reporter.model.quantity import PartialDate
from reporter.model.sheet import Particulars
from reporter.model.terms import Grade, Remedy, Sense
from tests.grade.cases import gap, limit, part
from tests.grade.cases import plugin as kind_of
from tests.history.visits import change, graded, visit

THEN, NOW = "2025-05-03", "2026-11-07"
RUSTY, GOOD, BROKEN = {"look": ["rusty"]}, {"look": ["good"]}, {"look": ["broken"]}
UNSEEN = {"extent": "not_seen", "because": "locked"}


def one(told: dict[str, object]) -> Component:
    """The part `one`, or the id that is told, with what else is told of it."""
    more = dict(told)
    return part(str(more.pop("id", "one"))).model_validate(
        {**part().model_dump(), "id": told.get("id", "one"), **more}
    )


@pytest.mark.parametrize(
    ("before", "now", "told"),
    [
        ({"observed": GOOD}, {"observed": RUSTY}, "worse"),
        ({"observed": RUSTY}, {"observed": GOOD}, "better"),
        (
            {"observed": RUSTY},
            {"observed": GOOD, "done": (Done(what="cleaned", remedy=Remedy.CLEAN),), "proved": ("all",)},
            "done",
        ),
        ({"observed": RUSTY}, {"observed": RUSTY}, "unchanged"),
        ({"observed": RUSTY}, {"examined": UNSEEN}, "not_seen"),
        ({"examined": UNSEEN}, {"observed": GOOD}, "first_time"),
        ({"examined": UNSEEN}, {"examined": UNSEEN}, "unchanged"),
        ({"observed": RUSTY}, {"examined": "not_found"}, "gone"),
        ({"observed": RUSTY}, {"examined": "not_fitted"}, "gone"),
        ({"observed": BROKEN}, {"observed": GOOD, "installed": "2026-03"}, "renewed"),
        ({"observed": RUSTY, "id": "old"}, {"observed": RUSTY, "was": "old"}, "unchanged"),
    ],
)
def test_how_a_part_stands_against_its_earlier_record(
    before: dict[str, object], now: dict[str, object], told: str
) -> None:
    assert change(visit(NOW, parts=(one(now),)), visit(THEN, parts=(one(before),))).changed.value == told


@pytest.mark.parametrize(
    ("before", "now", "sense", "told", "worse"),
    [
        # a bearing's play, graded by what was seen of it: cleaner than last time, and looser
        (0.60, 1.10, Sense.AT_MOST, "mixed", True),
        (1.10, 0.60, Sense.AT_MOST, "better", False),
        (0.60, 0.70, Sense.AT_MOST, "better", None),  # less than both uncertainties together, 0.14 mm
        # what is left of something: less of it is worse, up or down as the limit says
        (3.00, 2.00, Sense.AT_LEAST, "mixed", True),
        (2.00, 3.00, Sense.AT_LEAST, "better", False),
    ],
)
def test_nothing_is_called_better_of_which_a_reading_came_nearer_to_its_limit(
    before: float, now: float, sense: Sense, told: str, worse: bool | None
) -> None:
    bounds = {Sense.AT_MOST: (5.0, 0.0), Sense.AT_LEAST: (1.0, 10.0)}[sense]
    plugin = kind_of(limit(bounds[0], sense=sense, unworn=bounds[1]))
    visits = [
        visit(day, gap(read, expanded=0.1), parts=(one({"observed": seen}),))
        for day, read, seen in ((THEN, before, RUSTY), (NOW, now, GOOD))
    ]
    history = graded(visits[1], visits[0], plugin=plugin).history
    assert [each.changed.value for each in history.changes] == [told]
    assert [worsened(run, plugin.limits) for run in history.runs] == [worse]
    assert [worsened(run, ()) for run in history.runs] == [None], "without a limit nobody can say"


@pytest.mark.parametrize(("now", "told"), [(1.10, "worn"), (0.70, "unchanged"), (0.10, "unchanged")])
def test_a_part_graded_as_before_is_not_called_as_it_was_where_a_reading_is_worse(
    now: float, told: str
) -> None:
    visits = [
        visit(day, gap(read, expanded=0.1), parts=(one({"observed": RUSTY}),))
        for day, read in ((THEN, 0.60), (NOW, now))
    ]
    (found,) = graded(visits[1], visits[0], plugin=kind_of(limit(5.0, unworn=0.0))).history.changes
    assert (found.changed.value, found.before, found.now) == (told, Grade.WATCH, Grade.WATCH)


def test_a_part_not_listed_any_more_is_gone_and_one_never_listed_is_new() -> None:
    found = graded(visit(NOW, parts=(part("two"),)), visit(THEN)).history.changes
    assert {(each.component, each.changed.value) for each in found} == {
        ("one", "gone"),
        ("two", "first_time"),
    }


def test_the_record_compared_with_is_the_latest_in_which_the_part_was_listed() -> None:
    found = change(visit(NOW), visit("2026-01-05", parts=()), visit(THEN), visit("2024-02-01"))
    assert str(found.since) == THEN
    assert [record.number for record in found.records] == ["R-2024-02-01", f"R-{THEN}"]


def test_the_grade_then_issued_is_shown_where_it_differs_from_todays_limits() -> None:
    old = visit(THEN, gap(4.5)).model_copy(update={"issued": {"one": Grade.WATCH}})
    found = change(visit(NOW), old)
    assert (found.before, found.issued) == (Grade.FIRST, Grade.WATCH)
    assert change(visit(NOW), visit(THEN, gap(4.5))).issued is None


def test_a_hull_number_of_another_boat_is_told() -> None:
    boats = [visit(day) for day in (THEN, NOW)]
    named = [
        job.model_copy(update={"sheet": job.sheet.model_copy(update={"vessel": job.sheet.vessel.model_copy(update={"hull_number": hull})})})
        for job, hull in zip(boats, ("XX-1", "XX-2"), strict=True)
    ]  # fmt: skip
    assert "XX-1" in graded(named[1], named[0]).history.remarks[0]
    assert graded(boats[1], boats[0]).history.remarks == ()


@pytest.mark.parametrize(
    ("then", "now", "told"),
    [
        (("Marram", ""), ("Sedge", ""), "Report R-2025-05-03 is of “Marram”, this one of “Sedge”"),
        (("Marram", "XX-1"), ("Sedge", ""), "“Marram”"),
        (("Marram", "XX-1"), ("Sedge", "xx-1"), ""),  # renamed: the number on her hull stays
        (("Marram", "XX-1"), ("Marram", "XX-2"), "XX-1"),
        (("Marram ", ""), ("MARRAM", "XX-1"), ""),
    ],
)
def test_another_boat_is_known_by_her_number_else_by_her_name(
    then: tuple[str, str], now: tuple[str, str], told: str
) -> None:
    jobs = [
        visit(day, vessel=Particulars(name=name, hull_number=hull))
        for day, (name, hull) in ((THEN, then), (NOW, now))
    ]
    history = graded(jobs[1], jobs[0]).history
    said = [str(each) for each in history.remarks]
    assert (told in said[0]) if told else said == []


@pytest.mark.parametrize(
    ("now", "then", "anew"),
    [
        (None, None, False),
        ("2024", "2024", False),
        ("2026-01-10", "2016", True),
        ("2016", "2015", False),
        ("2025", "2016", True),
        ("2025", None, True),
        ("2025-04", None, False),
        ("2025-05-03", None, False),
    ],
)
def test_whether_a_part_was_renewed_since_the_third_of_may_2025(
    now: str | None,
    then: str | None,
    anew: bool,
) -> None:
    dates = [PartialDate.model_validate(each) if each else None for each in (now, then)]
    assert renewed(dates[0], dates[1], visit(THEN).sheet.inspection.last_day) is anew


def carried(now: Job, *earlier: Job) -> dict[str, Carried]:
    found = graded(now, *earlier).history.carried
    return {each.what: each for each in found}


def test_a_recommendation_keeps_the_number_of_the_report_that_first_made_it() -> None:
    rusty = (part(observed=RUSTY),)
    found = carried(visit(NOW, parts=rusty), visit("2026-01-05", parts=rusty), visit(THEN, parts=rusty))[
        "Clean it"
    ]
    assert (found.first, found.state, found.number) == (f"R-{THEN}/1", "open", 1)


def test_a_visit_that_did_not_see_the_part_closes_nothing() -> None:
    rusty, hidden = (part(observed=RUSTY),), (part(examined=UNSEEN),)
    found = carried(visit(NOW, parts=rusty), visit("2026-01-05", parts=hidden), visit(THEN, parts=rusty))[
        "Clean it"
    ]
    assert (found.first, found.state) == (f"R-{THEN}/1", "open")
    assert carried(visit(NOW, parts=hidden), visit(THEN, parts=rusty))["Clean it"].state == "not_seen"


@pytest.mark.parametrize(
    ("now", "state", "told"),
    [
        ({"observed": GOOD}, "lapsed", ""),
        ({"observed": GOOD, "done": (Done(what="cleaned", by="A. Hand", settles=("part.look",)),)}, "done", "A. Hand"),
        ({"observed": RUSTY, "actions": ({"id": "part.look", "decline": True, "reason": "cosmetic"},)}, "declined", "cosmetic"),
        (
            {"observed": GOOD, "actions": ({"id": "part.look", "done": {"what": "cleaned", "by": "a yard", "documents": ["bill.pdf"]}},)},
            "done",
            "a yard",
        ),
        ({"observed": GOOD, "installed": "2026-02-01"}, "done", "renewed"),
    ],
)  # fmt: skip
def test_what_became_of_a_recommendation(now: dict[str, object], state: str, told: str) -> None:
    found = carried(visit(NOW, parts=(one(now),)), visit(THEN, parts=(part(observed=RUSTY),)))["Clean it"]
    assert found.state == state
    assert told in f"{found.by} {found.reason}"


def test_the_inspectors_own_recommendation_is_known_by_its_words() -> None:
    own = ({"what": "Bring a spare"}, {"what": "Paint it"})
    found = carried(visit(NOW, parts=(part(actions=own[1:]),)), visit(THEN, parts=(part(actions=own),)))
    assert (found["Paint it"].state, found["Bring a spare"].state) == ("open", "lapsed")


values = st.floats(0.0, 3.5)


@settings(max_examples=40)
@given(st.lists(values, min_size=3, max_size=3), st.permutations(range(3)), st.booleans())
def test_the_order_in_which_folders_are_named_changes_nothing(
    gaps: list[float],
    order: list[int],
    one_day: bool,
) -> None:
    days = ("2023-05-01", "2024-05-01", "2024-05-01" if one_day else "2025-05-01")
    past = [
        visit(day, gap(each, expanded=0.1), number=f"R-{place}")
        for place, (day, each) in enumerate(zip(days, gaps, strict=True))
    ]
    now = visit(NOW, gap(3.0, expanded=0.1))
    assert graded(now, *past) == graded(now, *(past[place] for place in order))
