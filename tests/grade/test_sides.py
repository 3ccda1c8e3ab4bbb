"""Both sides held against each other, within one part and between two; the figures by the `uncertainties` library."""

from __future__ import annotations

import math
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.stats import norm
from uncertainties import ufloat

from reporter.contract import (
    Assessment,
    DetailField,
    Dimension,
    Evidence,
    Grade,
    Limit,
    Plugin,
    Quantity,
    Value,
    Verdict,
    compare,
)
from reporter.engineering import units
from reporter.engineering.sides import APART, APART_OF_LARGER
from reporter.model.assessment import Check, Graded
from reporter.model.findings import Component, Fact
from reporter.model.job import Reading
from reporter.model.plugin import Derived
from reporter.model.terms import Basis, Extent, State
from tests.grade.cases import SOURCE, grades, job, limit, nothing, part, plugin

UNIT = {Dimension.ANGLE: "°", Dimension.FORCE: "kN", Dimension.COUNT: "links", Dimension.LENGTH: "mm"}


def between(
    value: float, unit: str, *, relative: bool = False, quantity: str = "angle", **more: Any
) -> Limit:
    """A limit on the difference between the sides."""
    told = {
        "quantity": quantity,
        "unit": unit,
        "between": "sides",
        "relative": relative,
        "source": SOURCE,
        **more,
    }
    return limit(value, ident="sides", **told)


def kind(*limits: Limit, dimension: Dimension = Dimension.ANGLE, **more: Any) -> Plugin:
    """A part with one reading that is taken on each side."""
    reading = Quantity(
        id="angle", title="Angle", dimension=dimension, unit=UNIT[dimension], method="gauge", plausible=(-100, 1000),
        per_side=True,
    )  # fmt: skip
    role = DetailField(id="role", title="Role", holds="choice", choices={"cap": "cap", "lower": "lower"})
    told = {"readings": (reading,), "limits": limits, "details": (role,), "pair_by": ("role",), **more}
    return plugin().model_copy(update=told)


def reading(
    number: float,
    side: str = "",
    *,
    of: Dimension = Dimension.ANGLE,
    expanded: float = 0.0,
    at: str = "",
    **more: Any,
) -> Reading:
    unit = UNIT[of]
    value = Value(
        dimension=of,
        value=units.to_base(number, unit),
        u=units.to_base(expanded, unit) / 2,
        unit=unit,
        written=f"{number:g}",
    )
    told = {"component": "one", "quantity": "angle", "at": at, "side": side, "value": value, **more}
    return Reading.model_validate(told)


def compared(found: Graded) -> list[Check]:
    return [check for check in found.checks if check.limit and check.limit.between]


def one(kind_: Plugin, *readings: Reading) -> Graded:
    return grades(job(part(), readings=readings), kind_).components[0]


def test_twenty_degrees_to_port_and_thirty_six_to_starboard() -> None:
    found = one(
        kind(between(3, "°", then=Grade.PLAN)),
        reading(20, "port", expanded=1),
        reading(36, "starboard", expanded=1),
    )
    (check,) = compared(found)
    apart = ufloat(36, 0.5) - ufloat(20, 0.5)
    assert check.value is not None
    assert math.degrees(check.value.value) == pytest.approx(apart.n)
    assert math.degrees(check.value.u) == pytest.approx(apart.s, rel=1e-6)
    assert (check.verdict, found.grade) == (Verdict.BEYOND, Grade.PLAN)
    assert [term.meaning for term in check.working[0].inputs] == [
        "larger side: starboard",
        "smaller side: port",
    ]
    assert "16.0 ± 1.4°" in check.said.replace("\u00a0", " ")


def test_no_single_side_is_held_against_it() -> None:
    def own(evidence: Evidence) -> Assessment:
        held = evidence.limits.values()
        return Assessment(
            checks=tuple(
                compare(evidence, each.value, bound, title="T") for bound in held for each in evidence.spots
            )
        )

    found = one(kind(between(3, "°"), assess=own), reading(36, "port"))
    assert found.checks == ()


@given(
    st.floats(1, 60),
    st.floats(1, 60),
    st.sampled_from([0.2, 1.0, 3.0]),
    st.sampled_from([0.2, 1.0]),
    st.booleans(),
)
def test_difference_and_guard_band_by_other_libraries(
    a: float, b: float, ua: float, ub: float, relative: bool
) -> None:
    held = between(10, "%" if relative else "°", relative=relative)
    (check,) = compared(
        one(kind(held), reading(a, "port", expanded=ua), reading(b, "starboard", expanded=ub))
    )
    x, y = ufloat(a, ua / 2), ufloat(b, ub / 2)
    apart = x - y if a >= b else y - x
    apart = 100 * apart / (x if a >= b else y) if relative else apart
    assert check.value is not None
    unit = "%" if relative else "°"
    assert units.from_base(check.value.value, unit) == pytest.approx(apart.n, abs=1e-9)
    assert units.from_base(check.value.u, unit) == pytest.approx(apart.s, rel=1e-5)
    assert check.conformity == pytest.approx(norm.cdf(10, apart.n, apart.s), abs=1e-6)
    z = (10 - apart.n) / apart.s
    if min(abs(z), abs(abs(z) - 2)) > 1e-6:
        expected = (
            Verdict.WITHIN
            if z > 2
            else Verdict.CLOSE
            if z > 0
            else Verdict.DOUBTFUL
            if z > -2
            else Verdict.BEYOND
        )
        assert check.verdict is expected


@given(st.floats(1, 60), st.floats(1, 60))
def test_exchanging_the_sides_changes_nothing(a: float, b: float) -> None:
    held = kind(between(10, "°"))
    ways = [
        one(held, reading(x, "port", expanded=1), reading(y, "starboard", expanded=1))
        for x, y in ((a, b), (b, a))
    ]
    numbers = [compared(each)[0].value for each in ways]
    assert numbers[0] == numbers[1]
    assert ways[0].grade is ways[1].grade


def test_equal_sides_keep_their_uncertainty() -> None:
    (check,) = compared(
        one(kind(between(1, "°")), reading(30, "port", expanded=1), reading(30, "starboard", expanded=1))
    )
    assert check.value is not None
    assert math.degrees(2 * check.value.u) == pytest.approx(math.sqrt(2))
    assert check.verdict is Verdict.CLOSE


def test_counts_have_no_guard_band() -> None:
    held = kind(between(1, "links"), dimension=Dimension.COUNT)
    for starboard, verdict in ((3, Verdict.WITHIN), (2, Verdict.BEYOND)):
        sides = [reading(n, s, of=Dimension.COUNT) for n, s in ((4, "port"), (starboard, "starboard"))]
        (check,) = compared(one(held, *sides))
        assert check.verdict is verdict


def test_places_are_kept_apart_and_a_single_side_says_nothing() -> None:
    held = kind(between(3, "°"))
    found = one(
        held,
        reading(20, "port", at="top"),
        reading(36, "starboard", at="foot"),
        reading(21, "starboard", at="Top "),
    )
    assert [(check.at, check.verdict) for check in compared(found)] == [("top", Verdict.WITHIN)]


def test_as_left_takes_the_side_that_was_not_touched_as_found() -> None:
    found = one(
        kind(between(3, "°")),
        reading(20, "port"),
        reading(36, "starboard"),
        reading(35, "port", state=State.LEFT),
    )
    told = {check.state: (check.verdict, check.governs) for check in compared(found)}
    assert told == {State.FOUND: (Verdict.BEYOND, False), State.LEFT: (Verdict.WITHIN, True)}


def stay(ident: str, group: str = "", **more: Any) -> Component:
    return part(ident, group=group, **more)


def rig(
    *stays: Component,
    roles: dict[str, str],
    pulls: dict[str, float],
    assess: object = nothing,
    **more: Any,
) -> dict[str, Graded]:
    held = between(10, "%", relative=True, then=Grade.PLAN, **more)
    derived = (Derived(id="share", title="Share", dimension=Dimension.FORCE, unit="kN"),)
    made = kind(held, dimension=Dimension.FORCE, assess=assess, derived=derived)
    facts = {ident: {"role": Fact(basis=Basis.SEEN, choice=role)} for ident, role in roles.items()}
    readings = tuple(
        reading(kn, of=Dimension.FORCE, expanded=0.2, component=ident) for ident, kn in pulls.items()
    )
    done = grades(job(*stays, readings=readings, facts=facts), made)
    return {each.component.id: each for each in done.components}


def test_two_shrouds_are_opposite_numbers_by_their_role() -> None:
    names = ("cap-p", "cap-s", "low-p")
    stays = [stay("cap-p", "port"), stay("cap-s", "starboard"), stay("low-p", "port")]
    roles = dict(zip(names, ("cap", "cap", "lower"), strict=True))
    found = rig(*stays, roles=roles, pulls=dict(zip(names, (4.0, 5.0, 9.0), strict=True)))
    five, four = ufloat(5, 0.1), ufloat(4, 0.1)
    share = 1 - four / five
    for ident in ("cap-p", "cap-s"):
        (check,) = compared(found[ident])
        assert check.value is not None
        assert (check.value.value, check.value.u) == pytest.approx((share.n, share.s), rel=1e-5)
        assert found[ident].grade is Grade.PLAN
    assert compared(found["low-p"]) == []


def test_of_three_alike_none_is_chosen_and_a_part_not_seen_is_no_partner() -> None:
    names = ("a", "b", "c")
    roles = dict.fromkeys(names, "cap")
    pulls = dict(zip(names, (4.0, 5.0, 6.0), strict=True))
    three = rig(*(stay(name) for name in names), roles=roles, pulls=pulls)
    assert all(compared(each) == [] for each in three.values())
    hidden = rig(
        stay("a"), stay("b", examined={"extent": Extent.NOT_SEEN}), roles=roles, pulls={"a": 4.0, "b": 5.0}
    )
    assert compared(hidden["a"]) == []
    same_side = rig(stay("a", "port"), stay("b", "port"), roles=roles, pulls={"a": 4.0, "b": 5.0})
    assert compared(same_side["a"]) == []


def test_what_assess_works_out_is_compared_too() -> None:
    free = limit(99, quantity="share", unit="kN", unworn=None)

    def double(evidence: Evidence) -> Assessment:
        spots = evidence.at("angle")
        twice = [spot.value.model_copy(update={"value": 2 * spot.value.value}) for spot in spots]
        pairs = zip(twice, spots, strict=True)
        return Assessment(
            checks=tuple(compare(evidence, each, free, title="Share", like=spot) for each, spot in pairs)
        )

    roles, pulls = {"a": "cap", "b": "cap"}, {"a": 4.0, "b": 5.0}
    found = rig(
        stay("a", "port"), stay("b", "starboard"), roles=roles, pulls=pulls, assess=double, quantity="share"
    )
    (check,) = compared(found["a"])
    assert [term.value for term in check.working[0].inputs] == pytest.approx([10, 8])


def test_every_dimension_a_kind_may_read_on_both_sides_has_its_sum() -> None:
    dimensions = {
        Dimension.LENGTH,
        Dimension.ANGLE,
        Dimension.FORCE,
        Dimension.TORQUE,
        Dimension.COUNT,
        Dimension.RATIO,
    }
    assert set(APART) == set(APART_OF_LARGER) == dimensions


def test_relative_needs_between() -> None:
    with pytest.raises(ValueError, match="needs 'between'"):
        limit(10, relative=True)


def test_where_only_one_side_was_read_as_left_there_is_nothing_to_compare() -> None:
    """Port at the top, as found and as left; starboard at the foot only."""
    top = [reading(20, "port", at="top", state=state) for state in (State.FOUND, State.LEFT)]
    assert compared(one(kind(between(3, "°")), *top, reading(36, "starboard", at="foot"))) == []
