"""When wear reaches its limit, and every reason not to say so."""

from __future__ import annotations

import datetime as dt
import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from reporter.grade.forecast import scrapped
from reporter.model.plugin import Choice, Plugin, Task
from reporter.model.quantity import PartialDate, Value
from reporter.model.sheet import Instrument, Plans
from reporter.model.terms import Dimension, Grade, Remedy, Sense, State
from tests.grade.cases import gap, limit, part
from tests.history.visits import forecast, graded, kind, visit

A, B, C = "2024-05-01", "2025-05-01", "2026-05-01"


def test_two_readings_give_a_rate_and_a_range_of_dates() -> None:
    """1.0 to 2.0 mm in 365 days, U 0.2 mm each: rate and its uncertainty by hand (GUM, 5.1.2)."""
    found = forecast(visit(B, gap(2.0, expanded=0.2)), visit(A, gap(1.0, expanded=0.2)))
    assert found.refused == ""
    assert found.rate == pytest.approx(365.25 / 365)
    assert found.rate_expanded == pytest.approx(365.25 / 365 * math.hypot(0.2, 0.2))
    assert found.middle == dt.date(2025, 5, 1) + dt.timedelta(days=2 * 365)
    assert found.earliest is not None
    assert found.latest is not None
    assert found.earliest < found.middle < found.latest


def with_rule(day: str, mm: float, rule: str, what: str) -> object:
    reading = gap(mm, expanded=0.1).model_copy(update={"instrument": rule})
    return visit(day, reading, instruments=(Instrument(id=rule, kind=what),))


@pytest.mark.parametrize(
    ("now", "then", "words"),
    [
        (visit(B, gap(2.0, expanded=0.2)), None, "once only"),
        (visit(B, gap(2.0)), visit(A, gap(1.0)), "no uncertainty"),
        (visit(B, gap(1.0, expanded=0.2)), visit(A, gap(2.0, expanded=0.2)), "ran backwards"),
        (visit(B, gap(1.05, expanded=0.2)), visit(A, gap(1.0, expanded=0.2)), "less than its uncertainty"),
        (visit(B, gap(0.95, expanded=0.2)), visit(A, gap(1.0, expanded=0.2)), "less than its uncertainty"),
        (visit(B, gap(4.5, expanded=0.2)), visit(A, gap(1.0, expanded=0.2)), "past its limit"),
        (visit(B, gap(2.0, expanded=0.2)), visit(B, gap(1.0, expanded=0.2), number="x"), "one day"),
        (
            with_rule(B, 2.0, "r", "caliper"),
            with_rule(A, 1.0, "r", "steel rule"),
            "another method or instrument",
        ),
        (with_rule(B, 2.0, "r", "caliper"), visit(A, gap(1.0, expanded=0.1)), "another method or instrument"),
        (
            visit(B, gap(2.0, expanded=0.1), gap(1.0, expanded=0.1, state=State.LEFT)),
            visit(A, gap(1.0, expanded=0.1)),
            "set or renewed",
        ),
        (
            visit(B, gap(2.0, expanded=0.1), parts=(part(installed="2025-02-01"),)),
            visit(A, gap(1.0, expanded=0.1)),
            "once only",
        ),
    ],
)
def test_a_forecast_is_refused_in_plain_words(now: object, then: object, words: str) -> None:
    earlier = (then,) if then else ()
    assert words in forecast(now, *earlier).refused  # type: ignore[arg-type]


RENEW = "Renew it"


@pytest.mark.parametrize(
    ("observed", "actions", "refused"),
    [
        ("broken", (), True),  # graded stop, replaced: damage
        ("worn", (), True),  # graded first, the whole part renewed by the kind's own word
        ("bent", (), False),  # damage, but it is to be straightened
        ("loose", (), False),  # graded first, but nothing is replaced
        ("pin", (), False),  # graded first, a pin of it is replaced
        ("late", (), False),  # replaced, but not before the next passage
        ("loose", ({"what": RENEW, "remedy": "replace", "reason": "it is old"},), False),
        ("worn", ({"id": "part.look", "decline": True, "reason": "it stays"},), False),
        ("worn", ({"id": "part.look", "what": "Get another one"},), True),
        ("worn", ({"id": "part.look", "remedy": "repair"},), False),
        ("worn", ({"id": "part.look", "done": {"what": "done", "by": "me"}},), True),
    ],
)
def test_nothing_is_forecast_of_a_part_to_be_renewed(
    observed: str, actions: tuple[object, ...], refused: bool
) -> None:
    now = visit(B, gap(2.0, expanded=0.2), parts=(part(observed={"look": [observed]}, actions=actions),))
    found = forecast(now, visit(A, gap(1.0, expanded=0.2)), plugin=renewable())
    assert ("is to be renewed" in found.refused) == refused
    assert (found.earliest is None) == refused


def renewable() -> Plugin:
    """The part of the grading tests with more ways to go, and a word of its own for its renewal."""
    plain = kind()
    look = plain.observations[0]
    broken = next(each for each in look.choices if each.id == "broken")
    choices = (
        *(each for each in look.choices if each.id != "broken"),
        broken.model_copy(update={"damage": True}),
        Choice(id="worn", words="worn", grade=Grade.FIRST, task="renew"),
        Choice(id="pin", words="pin worn", grade=Grade.FIRST, task="pin"),
        Choice(id="late", words="tired", grade=Grade.PLAN, task="renew", damage=True),
    )
    looks = (look.model_copy(update={"choices": choices}),)
    tasks = (
        *plain.tasks,
        Task(id="renew", words=RENEW, remedy=Remedy.REPLACE, renews=True),
        Task(id="pin", words="Renew the pin", remedy=Remedy.REPLACE),
    )
    return plain.model_copy(update={"observations": looks, "tasks": tasks})


def test_nothing_is_forecast_of_wear_that_itself_asks_for_a_new_part() -> None:
    """Past the limit that renews it, the next limit ahead is nobody's question; a limit that plans it asks on."""
    for then, refused in ((Grade.FIRST, True), (Grade.PLAN, False)):
        limits = (
            limit(1.5, then, ident="worn", task="replace"),
            limit(4.0, Grade.STOP, ident="gone"),
        )
        plugin = kind().model_copy(update={"limits": limits})
        found = forecast(visit(B, gap(2.0, expanded=0.2)), visit(A, gap(1.0, expanded=0.2)), plugin=plugin)
        assert ("is to be renewed" in found.refused) == refused


@pytest.mark.parametrize(("middle", "backwards"), [(0.73, False), (0.71, True)])
def test_a_fall_beyond_the_uncertainty_of_both_readings_is_no_wear(middle: float, backwards: bool) -> None:
    """U 0.2 mm each: of their difference √(0.2² + 0.2²) = 0.283 mm (GUM, 5.1.2)."""
    first, then, now = (visit(day, gap(mm, expanded=0.2)) for day, mm in ((A, 1.0), (B, middle), (C, 2.0)))
    assert ("ran backwards" in forecast(now, first, then).refused) == backwards


def test_a_reading_at_its_limit_has_nothing_ahead() -> None:
    assert (
        "past its limit"
        in forecast(visit(B, gap(4.0, expanded=0.2)), visit(A, gap(1.0, expanded=0.2))).refused
    )


def test_nothing_is_forecast_of_what_was_not_read_today_nor_of_a_window() -> None:
    past = visit(A, gap(1.0, expanded=0.2)), visit(B, gap(2.0, expanded=0.2))
    assert graded(visit(C), *past).history.forecasts == ()
    window = limit(0.5, sense=Sense.WINDOW, upper=4.0, unworn=None)
    plugin = kind().model_copy(update={"limits": (window,)})
    assert graded(visit(C, gap(2.5, expanded=0.2)), *past, plugin=plugin).history.forecasts == ()


def test_a_limit_that_renews_the_part_ends_the_forecast_of_its_other_wear() -> None:
    """Also where the inspector puts the renewal in words of her own."""
    worn = limit(1.5, Grade.FIRST, task="renew")
    plugin = renewable().model_copy(update={"limits": (worn,)})
    answer = ({"id": "part.gap", "what": "Get another one"},)
    (found,) = graded(
        visit(B, gap(2.0, expanded=0.2), parts=(part(actions=answer),)), plugin=plugin
    ).components
    assert [action.what for action in found.actions] == ["Get another one"]
    assert scrapped(found, plugin, "other wear")
    assert not scrapped(found, plugin.model_copy(update={"tasks": kind().tasks}), "other wear")


def test_the_earliest_date_is_never_before_today() -> None:
    """0.05 mm short of the limit, U 0.2 mm: the edge is past it already."""
    found = forecast(visit(B, gap(3.95, expanded=0.2)), visit(A, gap(3.0, expanded=0.2)))
    assert found.earliest == dt.date(2025, 5, 1)


def test_the_same_gauge_under_another_id_is_the_same_gauge() -> None:
    assert forecast(with_rule(B, 2.0, "b", "steel rule"), with_rule(A, 1.0, "a", "steel rule")).refused == ""  # type: ignore[arg-type]


def test_only_wear_is_forecast() -> None:
    """A quantity that its kind does not call wear, a count and an observation get no forecast and no refusal."""
    plain = kind(wears=False)
    assert (
        graded(
            visit(B, gap(2.0, expanded=0.2)), visit(A, gap(1.0, expanded=0.2)), plugin=plain
        ).history.forecasts
        == ()
    )


def test_a_template_without_forecasts_holds_none() -> None:
    from tests.grade.cases import TEMPLATE

    found = graded(visit(B, gap(2.0, expanded=0.2)), visit(A, gap(1.0, expanded=0.2)), template=TEMPLATE)
    assert found.history.forecasts == ()
    assert len(found.history.runs[0].points) == 2


def test_each_place_has_its_own_line() -> None:
    now = visit(B, gap(2.0, expanded=0.2, at="Upper end"), gap(1.0, expanded=0.2, at="lower end"))
    then = visit(A, gap(1.0, expanded=0.2, at="upper  end"))
    found = {each.run.at: each for each in graded(now, then).history.forecasts}
    assert found["Upper end"].refused == ""
    assert "once only" in found["lower end"].refused


def miles(day: str, mm: float, run: float | None) -> object:
    job = visit(day, gap(mm, expanded=0.1))
    logged = Value(dimension=Dimension.LENGTH, value=run * 1852, unit="nmi") if run is not None else None
    vessel = job.sheet.vessel.model_copy(update={"miles": logged})
    return job.model_copy(update={"sheet": job.sheet.model_copy(update={"vessel": vessel})})


def test_wear_by_miles_where_the_kind_says_so_and_every_visit_gives_them() -> None:
    """Half the miles of the first year in the second: by miles the limit lies nearer than the calendar says."""
    by_miles = kind(wears_by="miles")
    now, past = miles(C, 2.5, 3000), (miles(A, 1.0, 0), miles(B, 2.0, 2000))
    found = forecast(now, *past, plugin=by_miles)  # type: ignore[arg-type]
    assert found.per == "miles"
    assert found.rate == pytest.approx(0.5)
    assert found.middle == dt.date(2026, 5, 1) + dt.timedelta(days=2 * 365)
    assert forecast(now, miles(A, 1.0, None), past[1], plugin=by_miles).per == "time"  # type: ignore[arg-type]
    still = miles(A, 1.0, 2000), miles(B, 1.02, 2000)
    by_time = forecast(now, *still, plugin=by_miles)  # type: ignore[arg-type]
    assert (by_time.per, by_time.refused) == ("time", "")


def test_what_lies_too_far_ahead_has_no_date() -> None:
    found = forecast(visit(B, gap(1.01, expanded=0.001)), visit(A, gap(1.0, expanded=0.001)))
    assert (found.refused, found.earliest, found.latest) == ("", None, None)


readings = st.lists(st.floats(0.0, 6.0), min_size=1, max_size=3)


@settings(max_examples=40)
@given(readings, st.floats(0.0, 6.0), st.floats(0.01, 0.5))
def test_a_renewed_part_inherits_no_wear(past: list[float], now: float, u: float) -> None:
    """Whatever was measured on the part that went, forecast and runs are those of a part seen for the first time."""
    fitted = (part(installed="2026-04-01"),)
    earlier = [visit(f"202{2 + place}-05-01", gap(mm, expanded=u)) for place, mm in enumerate(past)]
    alone = graded(visit(C, gap(now, expanded=u), parts=fitted))
    after = graded(visit(C, gap(now, expanded=u), parts=fitted), *earlier)
    assert after.history.runs == alone.history.runs
    assert after.history.forecasts == alone.history.forecasts
    assert after.schedule == alone.schedule


@settings(max_examples=60)
@given(st.floats(0.0, 5.0), st.floats(0.0, 5.0), st.floats(0.01, 0.3))
def test_a_forecast_brings_a_date_forward_and_never_pushes_one_back(
    then: float, now: float, u: float
) -> None:
    from tests.grade.cases import TEMPLATE

    visits = (
        visit(C, gap(now, expanded=u), parts=(part(observed={"look": ["rusty"]}),)),
        visit(B, gap(then, expanded=u)),
    )
    without, with_ = graded(*visits, template=TEMPLATE), graded(*visits)
    assert [each.grade for each in with_.components] == [each.grade for each in without.components]
    for plain, dated in zip(without.actions, with_.actions, strict=True):
        assert plain.due is None or (dated.due is not None and dated.due <= plain.due)
    looks = [next(each.on for each in found.schedule if each.remedy == "look" and each.reason in {"look", "forecast"}) for found in (without, with_)]  # fmt: skip
    assert looks[0] is not None
    assert looks[1] is not None
    assert looks[1] <= looks[0]


@pytest.mark.parametrize(("fell", "backwards"), [(5000, False), (5001, True)])
def test_a_fall_of_just_the_uncertainty_is_within_it(fell: float, backwards: bool) -> None:
    """U 3 and 4 m: √(3² + 4²) = 5 m, in numbers that have no rounding."""
    plugin = kind().model_copy(update={"limits": (limit(90_000.0),)})
    first, then = gap(8000.0, expanded=3000), gap(8000.0 - fell, expanded=4000)
    found = forecast(visit(C, gap(20_000.0, expanded=3000)), visit(A, first), visit(B, then), plugin=plugin)
    assert ("ran backwards" in found.refused) == backwards


def test_a_forecast_of_the_very_day_that_is_planned_changes_no_words() -> None:
    """Only an earlier day takes the plan's words away, which say why that day."""
    plugin = kind().model_copy(update={"limits": (limit(1.5, Grade.WATCH, ident="low"), limit(4.0))})
    now, then = visit(C, gap(2.9, expanded=0.2)), visit(B, gap(1.0, expanded=0.2))
    day = forecast(now, then, plugin=plugin).earliest
    assert day is not None
    for shift, by in ((0, "grade"), (1, "forecast")):
        passage = PartialDate.model_validate((day + dt.timedelta(days=shift)).isoformat())
        planned = now.sheet.model_copy(update={"next": Plans(next_passage=passage)})
        (action,) = graded(now.model_copy(update={"sheet": planned}), then, plugin=plugin).actions
        assert (action.due, action.dated_by) == (day, by), shift
