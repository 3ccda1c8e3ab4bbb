"""Judging: guard bands, the worst place, found and left, what was not seen, the inspector's word."""

from __future__ import annotations

from typing import Any

import pytest

from reporter.contract import Assessment, Evidence, Grade, LimitKind, Sense, Verdict
from reporter.engineering.verdict import guarded
from reporter.errors import PluginError
from reporter.grade import grade
from reporter.model.terms import Remedy, State
from tests.grade.cases import TEMPLATE, Kinds, gap, grades, job, limit, one, part, plugin

WORKED: dict[str, Any] = {"done": [{"what": "adjusted", "remedy": "adjust"}], "proved": ["works"]}
"""Work told and proved, without which nothing is as left."""


@pytest.mark.parametrize(
    ("reading", "verdict"),
    [(7.20, Verdict.WITHIN), (7.10, Verdict.CLOSE), (7.00, Verdict.DOUBTFUL), (6.90, Verdict.BEYOND)],
)
def test_guard_band_of_the_chain_case(reading: float, verdict: Verdict) -> None:
    """ILAC-G8:09/2019 guard band w = U; case W31: chain limit 7.04 mm (12 % of 8 mm), U = 0.10 mm."""
    assert guarded(reading, 0.10, 7.04, sense=Sense.AT_LEAST)[0] is verdict


@pytest.mark.parametrize(
    ("deviation", "verdict"), [(0.0017, Verdict.WITHIN), (0.0025, Verdict.CLOSE), (-0.0025, Verdict.CLOSE)]
)
def test_guard_band_of_the_printed_window(deviation: float, verdict: Verdict) -> None:
    """Case W31 as printed: limit ±0.003, U 0.001, acceptance ±0.002."""
    assert guarded(deviation, 0.001, -0.003, sense=Sense.WINDOW, upper=0.003)[0] is verdict


def test_a_doubtful_reading_on_a_load_path_counts_as_beyond() -> None:
    on_path = one(plugin(limit(6)), gap(6.1, expanded=0.5))
    beside = one(plugin(limit(6), load_path=False), gap(6.1, expanded=0.5))
    assert (on_path.checks[0].verdict, on_path.grade) == (Verdict.DOUBTFUL, Grade.FIRST)
    assert (beside.checks[0].verdict, beside.grade) == (Verdict.DOUBTFUL, Grade.PLAN)


def test_one_bad_place_among_good_ones_decides() -> None:
    """1, 1, 1, 1, 9 at five places must not pass a limit of 6 that their mean (2.6) would pass."""
    readings = [gap(mm, at=str(place)) for place, mm in enumerate((1, 1, 1, 1, 9))]
    assert one(plugin(limit(6)), *readings).grade is Grade.FIRST
    assert one(plugin(limit(6)), gap(9, at="4")).score == one(plugin(limit(6)), *readings).score


@pytest.mark.parametrize("load_path", [True, False])
def test_one_wild_repeat_is_never_better_than_none(load_path: bool) -> None:
    """3.2, 3.2, 9.0 at one place must not be better than 3.2, 3.2, 3.2."""
    kind = plugin(limit(3), load_path=load_path)
    steady = one(kind, *(gap(mm, expanded=0.1) for mm in (3.2, 3.2, 3.2)))
    wild = one(kind, *(gap(mm, expanded=0.1) for mm in (3.2, 3.2, 9.0)))
    assert wild.grade.rank >= steady.grade.rank
    assert (wild.score or 0) <= (steady.score or 0)


def test_as_left_governs_where_it_was_taken_again_but_not_in_an_as_found_report() -> None:
    readings = (gap(7), gap(2, state=State.LEFT))
    assert one(plugin(limit(6)), *readings, **WORKED).grade is Grade.CLEAR
    as_found = TEMPLATE.model_copy(update={"as_found_only": True})
    assert one(plugin(limit(6)), *readings, template=as_found).grade is Grade.FIRST


def test_found_and_left_are_never_merged() -> None:
    checks = one(plugin(limit(6)), gap(7), gap(2, state=State.LEFT), **WORKED).checks
    assert [(check.state, check.value and round(check.value.value * 1000, 3)) for check in checks] == [
        (State.FOUND, 7.0),
        (State.LEFT, 2.0),
    ]


@pytest.mark.parametrize("kind", [LimitKind.DESIGN, LimitKind.RULE])
def test_design_and_rule_limits_never_grade_worse_than_plan_nor_score(kind: LimitKind) -> None:
    graded = one(plugin(limit(6, Grade.STOP, kind=kind)), gap(9))
    assert graded.grade is Grade.PLAN
    assert graded.checks[0].score is None


def test_what_is_needed_and_not_taken_leaves_the_part_unseen_and_is_named() -> None:
    graded = one(plugin(limit(6), needed=True), observed={"look": "good"})
    assert graded.grade is Grade.UNSEEN
    assert "gap" in graded.sentence


def test_a_bad_check_decides_even_when_something_needed_is_missing() -> None:
    assert one(plugin(limit(6), needed=True), observed={"look": "broken"}).grade is Grade.STOP


def test_an_optional_gap_changes_no_grade() -> None:
    assert one(plugin(limit(6)), observed={"look": "good"}).grade is Grade.CLEAR


def test_less_than_the_examination_asks_for_is_not_clear_and_raises_opening_up() -> None:
    graded = one(plugin(), observed={"look": "good"}, examined={"extent": "seen"})
    assert graded.grade is Grade.UNSEEN
    assert [action.remedy for action in graded.actions] == [Remedy.OPEN_UP]


@pytest.mark.parametrize(
    ("extent", "expected"),
    [("not_seen", Grade.UNSEEN), ("not_fitted", Grade.UNSEEN), ("not_found", Grade.FIRST)],
)
def test_absent_parts(extent: str, expected: Grade) -> None:
    """An emergency tiller that was looked for and not found is a defect; one not seen is a gap."""
    graded = one(plugin(), examined={"extent": extent, "because": "locked"})
    assert graded.grade is expected
    assert bool(graded.actions) is (extent != "not_fitted")


def test_work_on_a_load_path_is_not_clear_until_proved() -> None:
    done: dict[str, Any] = {"observed": {"look": "good"}, "done": [{"what": "refitted", "remedy": "refit"}]}
    assert one(plugin(), **done).grade is Grade.FIRST
    assert one(plugin(), **done, proved=["works"]).grade is Grade.CLEAR
    assert one(plugin(load_path=False), **done).grade is Grade.CLEAR


def test_cleaning_alone_asks_to_be_watched_until_proved() -> None:
    assert (
        one(plugin(), observed={"look": "good"}, done=[{"what": "wiped", "remedy": "clean"}]).grade
        is Grade.WATCH
    )


def test_the_inspector_judges_last_and_the_rule_stays_visible() -> None:
    worse = one(plugin(), observed={"look": "good"}, judgement={"grade": "stop", "reason": "heard it crack"})
    better = one(
        plugin(), observed={"look": "broken"}, judgement={"grade": "watch", "reason": "it is a spare"}
    )
    assert (worse.grade, worse.computed) == (Grade.STOP, Grade.CLEAR)
    assert (better.grade, better.computed) == (Grade.WATCH, Grade.STOP)
    assert 65 < (better.score or 0) <= 85


def test_yardsticks_for_information_decide_nothing() -> None:
    graded = one(plugin(limit(6), limit(3, ident="crane", governs=False)), gap(4))
    assert graded.grade is Grade.CLEAR
    assert {check.verdict for check in graded.checks} == {Verdict.WITHIN, Verdict.BEYOND}


def test_actions_are_numbered_once_most_urgent_first() -> None:
    given = job(part("one", observed={"look": "rusty"}), part("two", observed={"look": "broken"}))
    assessed = grades(given, plugin())
    assert [(action.number, action.what) for action in assessed.actions] == [
        (1, "Replace it"),
        (2, "Clean it"),
    ]


def test_an_edited_or_declined_action_keeps_its_number() -> None:
    edit = {"id": "part.look", "decline": True, "reason": "sold with the boat"}
    graded = one(plugin(), observed={"look": "broken"}, actions=[edit])
    assert graded.actions[0].edit is not None
    assert graded.actions[0].number == 1


def test_a_failing_plugin_stops_the_run_or_is_told() -> None:
    def fail(_evidence: Evidence) -> Assessment:
        msg = "no such bearing"
        raise ZeroDivisionError(msg)

    kind = plugin(assess=fail)
    with pytest.raises(PluginError, match="no such bearing"):
        grades(job(part()), kind)
    graded = grade(job(part()), Kinds(kind), TEMPLATE, keep_going=True).components[0]
    assert graded.grade is Grade.UNSEEN
    assert "no such bearing" in graded.failed


@pytest.mark.parametrize("keep_going", [False, True])
def test_want_of_memory_is_not_laid_at_a_plugins_door(*, keep_going: bool) -> None:
    def fail(_evidence: Evidence) -> Assessment:
        raise MemoryError

    with pytest.raises(MemoryError):
        grade(job(part()), Kinds(plugin(assess=fail)), TEMPLATE, keep_going=keep_going)


def test_a_plugin_that_returns_something_else_is_told() -> None:
    with pytest.raises(PluginError, match="returned no Assessment"):
        grades(job(part()), plugin(assess=lambda _evidence: None))  # type: ignore[arg-type, return-value]


def test_a_system_is_its_weakest_link_and_withheld_when_a_load_path_part_is_unseen() -> None:
    scored = grades(
        job(part("one", observed={"look": "rusty"}), part("two", observed={"look": "good"})), plugin()
    )
    assert (scored.systems[0].score, scored.systems[0].grade) == (85.0, Grade.WATCH)
    hidden = part("three", examined={"extent": "not_seen", "because": "in the conduit"})
    withheld = grades(job(part("one", observed={"look": "rusty"}), hidden), plugin())
    assert (withheld.systems[0].score, withheld.systems[0].withheld) == (None, "Part")


def test_what_would_settle_it_is_said_where_a_better_reading_could() -> None:
    """Limit 6 mm, reading 5.9 ± 0.5: the next reading has to be good to 0.09 mm (0.1 mm less a tenth)."""
    kind = plugin(limit(6))
    graded = one(kind, gap(5.9, expanded=0.5))
    tests = [action for action in graded.actions if action.remedy is Remedy.TEST]
    assert len(tests) == 1
    assert "±0.09\u00a0mm" in tests[0].what
    assert "feeler" in tests[0].what
    assert [action.remedy for action in one(kind, gap(3, expanded=0.5)).actions] == []


def test_a_better_reading_does_not_stand_in_for_the_repair() -> None:
    graded = one(plugin(limit(6, task="replace")), gap(6.1, expanded=0.5))
    assert {action.what for action in graded.actions} >= {"Replace it"}


def test_a_report_as_found_refuses_work_without_permission_on_record() -> None:
    from reporter.errors import JobError
    from reporter.model.sheet import Permission

    as_found = TEMPLATE.model_copy(update={"as_found_only": True})
    worked = job(part(done=[{"what": "oiled", "remedy": "lubricate"}]))
    with pytest.raises(JobError, match="no permission"):
        grades(worked, plugin(), template=as_found)
    allowed = worked.sheet.model_copy(update={"permission": Permission(work=True, by="the owner")})
    assert grades(worked.model_copy(update={"sheet": allowed}), plugin(), template=as_found).components


def test_the_lowest_rating_is_the_rating_of_the_part() -> None:
    """US Navy MO-111.1, 4.2.1: distresses rated 80, 60 and 40 make the member 40; here by three places of one part."""
    places = [{"choice": look, "at": str(place)} for place, look in enumerate(("rusty", "bent", "loose"))]
    graded = one(plugin(), observed={"look": places})
    assert sorted(check.score or 0 for check in graded.checks) == [40.0, 65.0, 85.0]
    assert graded.score == 40.0
