"""Lifelines, stanchions, pulpits and jackstays through their kinds.

Sources: Offshore Special Regulations 3.14.1, 3.14.2 (questions and answers 2014-013), 3.14.6 Table 8 (2008), 4.04.1, as
quoted in secondary texts unless read; FAA AC 43.13-1B 7-149 for broken wires.
"""

from __future__ import annotations

import pytest

from reporter.model.evidence import Evidence
from reporter.model.plugin import Plugin
from reporter.model.terms import Grade, LimitKind, Verdict
from tests.plugins.evidence import REGISTRY, best, check_of, fact, graded, known, shown, spot, value

jackstay = REGISTRY.plugin("jackstay")
lifeline = REGISTRY.plugin("lifeline")
pulpit = REGISTRY.plugin("pulpit")
stanchion = REGISTRY.plugin("stanchion")

BARE = {"material": fact(choice="bare")}
CLEAN = spot("broken_wires", 0)


def sag_test(reading: str, sag: float, force: float, span: float = 2.2, expanded: float = 0.0) -> Evidence:
    """A sag with its force, at one place."""
    spots = [
        CLEAN,
        spot(reading, sag, "mm", expanded),
        spot("test_force", force, "N"),
        spot("span", span, "m"),
    ]
    return known(lifeline, facts=BARE, spots=spots, observed=best(lifeline))


@pytest.mark.parametrize(
    ("reading", "sag", "grade"),
    [
        ("sag_upper", 50, Grade.CLEAR),
        ("sag_upper", 51, Grade.PLAN),
        ("sag_intermediate", 120, Grade.CLEAR),
        ("sag_intermediate", 121, Grade.PLAN),
    ],
)
def test_w12_sag_under_40_newtons(reading: str, sag: float, grade: Grade) -> None:
    """W12: 40 N; 50 mm upper, 120 mm intermediate."""
    assert graded(lifeline, sag_test(reading, sag, 40)).grade is grade


@pytest.mark.parametrize("force", [50, 30])
def test_w12_another_force_is_another_test(force: float) -> None:
    """W12: 51 mm under 50 N is outside the test after 2014: no verdict, and the test is asked for again."""
    part = graded(lifeline, sag_test("sag_upper", 51, force))
    assert part.grade is Grade.CLEAR
    assert not any(check.limit and check.limit.id == "lifeline.sag.upper" for check in part.checks)
    assert f"not for {force:g}\u00a0N" in next(each.why for each in part.missing if each.id == "sag")
    assert "lifeline.sag_again" in {action.id for action in part.actions}


def test_w12_the_older_test_is_for_information() -> None:
    """Before 2014, as advice: 50 N, 50 mm."""
    check = check_of(lifeline, sag_test("sag_upper", 51, 50), "lifeline.sag.before_2014")
    assert check.verdict is Verdict.BEYOND
    assert not check.governs


def test_a_sag_without_its_force_says_nothing() -> None:
    part = graded(
        lifeline,
        known(lifeline, facts=BARE, spots=[CLEAN, spot("sag_upper", 10, "mm")], observed=best(lifeline)),
    )
    assert "without its force" in next(each.why for each in part.missing if each.id == "sag")


@pytest.mark.parametrize(("span", "newtons"), [(2.2, 440), (1.8, 361)])
def test_w12_tension_that_the_sag_tells_of(span: float, newtons: float) -> None:
    """W12: 440 N at 2.2 m and 50 mm, 361 N at 1.8 m."""
    check = check_of(lifeline, sag_test("sag_upper", 50, 40, span), "lifeline.tension_upper.worked")
    assert shown(check, "N") == pytest.approx(newtons, abs=0.5)
    assert not check.governs


@pytest.mark.parametrize(("length", "least"), [(8.49, 3), (8.5, 4), (13.0, 4), (13.01, 5)])
def test_w13_wire_by_length(length: float, least: float) -> None:
    """W13, Table 8: 3 mm under 8.5 m, 4 mm to 13 m, 5 mm over it. A rule: no further than plan."""
    for diameter, grade in ((least, Grade.CLEAR), (least - 1, Grade.PLAN)):
        evidence = known(
            lifeline, facts={**BARE, "diameter": fact(diameter, "mm")}, spots=[CLEAN], observed=best(lifeline),
            needed={"length_overall": value(length, "m")},
        )  # fmt: skip
        assert graded(lifeline, evidence).grade is grade
        check = check_of(lifeline, evidence, f"lifeline.wire.{least:g}mm")
        assert check.kind is LimitKind.RULE


def test_w13_an_unknown_length_is_named() -> None:
    part = graded(
        lifeline,
        known(lifeline, facts={**BARE, "diameter": fact(3, "mm")}, spots=[CLEAN], observed=best(lifeline)),
    )
    assert any("length overall" in text for text in part.unmet)


@pytest.mark.parametrize(("year", "gap"), [("from_1993", 380), ("before_1993", 560)])
def test_w13_gap_by_year(year: str, gap: float) -> None:
    """W13: 380 mm, and 560 mm for boats first launched before 1993."""
    for mm, grade in ((gap, Grade.CLEAR), (gap + 1, Grade.PLAN)):
        facts = {**BARE, "first_launched": fact(choice=year)}
        assert (
            graded(
                lifeline,
                known(lifeline, facts=facts, spots=[CLEAN, spot("gap", mm, "mm")], observed=best(lifeline)),
            ).grade
            is grade
        )


@pytest.mark.parametrize(("length", "grade"), [(8.49, Grade.CLEAR), (8.5, Grade.PLAN), (9, Grade.PLAN)])
def test_a_single_lifeline_is_for_hulls_under_8_5_metres(length: float, grade: Grade) -> None:
    """3.14.1 b iv: under 8.5 m; at 8.5 m itself no more."""
    evidence = known(
        lifeline, facts={**BARE, "lines": fact(choice="single")}, spots=[CLEAN], observed=best(lifeline),
        needed={"length_overall": value(length, "m")},
    )  # fmt: skip
    assert graded(lifeline, evidence).grade is grade


def test_one_broken_wire_stops_and_an_unwiped_wire_is_not_clear() -> None:
    assert (
        graded(
            lifeline, known(lifeline, facts=BARE, spots=[spot("broken_wires", 1)], observed=best(lifeline))
        ).grade
        is Grade.STOP
    )
    part = graded(lifeline, known(lifeline, facts=BARE, observed=best(lifeline)))
    assert part.grade is Grade.UNSEEN
    assert "Broken wires" in {each.title for each in part.missing if each.needed}


def test_a_fibre_line_has_no_wires_to_count() -> None:
    facts = {"material": fact(choice="fibre"), "diameter": fact(3, "mm")}
    part = graded(
        lifeline,
        known(lifeline, facts=facts, observed=best(lifeline), needed={"length_overall": value(14, "m")}),
    )
    assert part.grade is Grade.CLEAR


@pytest.mark.parametrize("plugin", [lifeline, jackstay], ids=lambda plugin: plugin.kind)
def test_a_coating_is_a_matter_for_planning(plugin: Plugin) -> None:
    """3.14.6, a national rule 17.17 and 4.04.1: bare wire."""
    part = graded(
        plugin, known(plugin, facts={"material": fact(choice="coated")}, spots=[CLEAN], observed=best(plugin))
    )
    assert part.grade is Grade.PLAN
    assert f"{plugin.kind}.coated" in {action.id for action in part.actions}


@pytest.mark.parametrize(
    ("beam", "inset", "grade"),
    [
        (2.8, 150, Grade.CLEAR),
        (2.8, 151, Grade.PLAN),
        (4.0, 200, Grade.CLEAR),
        (4.0, 201, Grade.PLAN),
        (None, 150, Grade.CLEAR),
        (None, 180, Grade.CLEAR),
    ],
)
def test_inset_of_a_stanchion_by_beam(beam: float | None, inset: float, grade: Grade) -> None:
    """3.14.1 e: 5 % of beam or 150 mm, whichever is greater; without a beam more than 150 mm says nothing."""
    needed = {} if beam is None else {"beam": value(beam, "m")}
    evidence = known(stanchion, spots=[spot("inset", inset, "mm")], observed=best(stanchion), needed=needed)
    assert graded(stanchion, evidence).grade is grade


@pytest.mark.parametrize(
    ("plugin", "observation"),
    [(stanchion, "base"), (pulpit, "welds"), (pulpit, "eyes"), (lifeline, "ends"), (jackstay, "ends")],
    ids=lambda each: getattr(each, "kind", each),
)
def test_a_crack_stops(plugin: Plugin, observation: str) -> None:
    last = next(each for each in plugin.observations if each.id == observation).choices[-1]
    assert last.grade is Grade.STOP
    assert last.damage


def test_w14_jackstay() -> None:
    """W14: 4 mm of 1,284 kgf is under 5 mm and under 2,040 kgf; 5 mm reckons to 19.3 kN, for information."""
    wire = {"material": fact(choice="wire")}
    thin = known(
        jackstay,
        facts={**wire, "diameter": fact(4, "mm"), "marked_strength": fact(1284, "kgf")},
        spots=[CLEAN],
        observed=best(jackstay),
    )
    assert check_of(jackstay, thin, "jackstay.diameter.wire").verdict is Verdict.BEYOND
    assert check_of(jackstay, thin, "jackstay.strength.wire").verdict is Verdict.BEYOND
    assert graded(jackstay, thin).grade is Grade.PLAN
    thick = known(jackstay, facts={**wire, "diameter": fact(5, "mm")}, spots=[CLEAN], observed=best(jackstay))
    check = check_of(jackstay, thick, "jackstay.strength.wire")
    # 12.553 + (30.693 − 12.553)·(25 − 16) / (40.3225 − 16) kN, between 4 mm and 1/4 in as published.
    assert shown(check, "kN") == pytest.approx(19.265, abs=0.002)
    assert check.verdict is Verdict.BEYOND
    assert graded(jackstay, thick).grade is Grade.CLEAR


@pytest.mark.parametrize(("kilonewtons", "grade"), [(20, Grade.CLEAR), (19.9, Grade.PLAN)])
def test_w14_webbing(kilonewtons: float, grade: Grade) -> None:
    """4.04.1: webbing of 20 kN."""
    facts = {"material": fact(choice="webbing"), "marked_strength": fact(kilonewtons, "kN")}
    assert graded(jackstay, known(jackstay, facts=facts, observed=best(jackstay))).grade is grade
