"""Sheaves: ratio to the wire by construction, as a design check that never grades worse than `plan`.

C22 to C24 and F11 are cases of the project's reference file for steering gear (`../shared`).
"""

from __future__ import annotations

import pytest

from reporter.model.evidence import Evidence
from reporter.model.terms import Grade, Verdict
from tests.plugins.evidence import REGISTRY, best, check_of, fact, graded, known, shown, spot

plugin = REGISTRY.plugin("sheave")


def over(
    tread: float, unit: str, wire: float, wire_unit: str, construction: str, without: str = ""
) -> Evidence:
    """One sheave with its wire, one of its needs left out."""
    needed = {"wire_diameter": fact(wire, wire_unit), "construction": fact(choice=construction)}
    needed.pop(without, None)
    return known(plugin, facts={"tread_diameter": fact(tread, unit)}, needed=needed, observed=best(plugin))


@pytest.mark.parametrize(
    ("evidence", "ratio", "verdicts", "grade"),
    [
        pytest.param(
            over(100, "mm", 6, "mm", "7x19"), 16.67,
            {"7x19_steering": Verdict.WITHIN, "7x19_least": Verdict.BEYOND, "7x19_desired": Verdict.BEYOND}, Grade.WATCH, id="C22",
        ),
        pytest.param(
            over(4, "in", 0.25, "in", "7x19"), 16.0,
            {"7x19_steering": Verdict.WITHIN, "7x19_least": Verdict.BEYOND}, Grade.WATCH, id="C23",
        ),
        pytest.param(
            over(4, "in", 0.1875, "in", "7x7"), 21.33,
            {"small_boat": Verdict.WITHIN, "7x7_least": Verdict.BEYOND, "7x7_desired": Verdict.BEYOND}, Grade.PLAN, id="C24",
        ),
        pytest.param(over(95, "mm", 6, "mm", "7x19"), 15.83, {"7x19_steering": Verdict.BEYOND}, Grade.PLAN, id="below 16"),
        pytest.param(over(108, "mm", 6, "mm", "7x19"), 18.0, {"7x19_least": Verdict.WITHIN}, Grade.CLEAR, id="at 18"),
        pytest.param(over(168, "mm", 6, "mm", "7x7"), 28.0, {"7x7_least": Verdict.WITHIN}, Grade.CLEAR, id="at 28"),
    ],
)  # fmt: skip
def test_ratio_by_construction(
    evidence: Evidence, ratio: float, verdicts: dict[str, Verdict], grade: Grade
) -> None:
    for ident, verdict in verdicts.items():
        check = check_of(plugin, evidence, f"sheave.ratio.{ident}")
        assert check.verdict is verdict, ident
        assert shown(check, "1") == pytest.approx(ratio, abs=0.005)
        assert check.working
    assert graded(plugin, evidence).grade is grade


def test_a_small_sheave_is_not_a_broken_one() -> None:
    """design.md 5: design checks do not score and stop at `plan`."""
    part = graded(plugin, over(30, "mm", 6, "mm", "7x7"))
    assert part.grade is Grade.PLAN
    assert all(check.score is None for check in part.checks if check.subject.startswith("ratio"))


def test_the_least_tread_of_the_table() -> None:
    """C23 and C24 name what would do: 4.5 in for 1/4 in 7x19, 5.25 in for 3/16 in 7x7."""
    for tread, wire, construction, ident in (
        (4.5, 0.25, "7x19", "7x19_least"),
        (5.25, 0.1875, "7x7", "7x7_least"),
    ):
        evidence = over(tread, "in", wire, "in", construction)
        assert check_of(plugin, evidence, f"sheave.ratio.{ident}").verdict is Verdict.WITHIN


def test_bending_strength_is_told_where_the_table_reaches() -> None:
    """Trade table: D/d 20 keeps 91 %."""
    evidence = over(120, "mm", 6, "mm", "7x19")
    assert any("91\u00a0%" in note for note in check_of(plugin, evidence, "sheave.ratio.7x19_least").notes)
    evidence = over(500, "mm", 6, "mm", "7x19")
    assert not check_of(plugin, evidence, "sheave.ratio.7x19_least").notes


def test_a_strand_over_a_sheave_is_told() -> None:
    part = graded(plugin, over(100, "mm", 6, "mm", "1x19"))
    assert part.grade is Grade.PLAN
    assert [action.what for action in part.actions] == [
        "Renew the steering wire in a flexible construction, 7x19"
    ]


@pytest.mark.parametrize("missing", ["wire_diameter", "construction"])
def test_a_missing_wire_is_named(missing: str) -> None:
    part = graded(plugin, over(100, "mm", 6, "mm", "7x19", without=missing))
    assert not any(check.governs and check.subject.startswith("ratio") for check in part.checks)
    assert any("steering wire" in text for text in part.unmet)


@pytest.mark.parametrize(
    ("degrees", "verdict", "grade"),
    [
        (1.9, Verdict.WITHIN, Grade.CLEAR),
        (3, Verdict.CLOSE, Grade.WATCH),
        (3.5, Verdict.DOUBTFUL, Grade.PLAN),
        (4.1, Verdict.BEYOND, Grade.PLAN),
    ],
)
def test_fairlead_deflection(degrees: float, verdict: Verdict, grade: Grade) -> None:
    """F11, with an uncertainty of 1 degree: AC 43.13-1B 7-149 n allows 3 degrees, and 4 are over it."""
    evidence = known(plugin, spots=[spot("deflection", degrees, "°", 1, at="mouth")], observed=best(plugin))
    check = check_of(plugin, evidence, "sheave.deflection.fairlead")
    assert check.verdict is verdict
    assert graded(plugin, evidence).grade is grade


def test_fairlead_deflection_without_uncertainty() -> None:
    """F11 as the book has it: 3 meets, 4 does not."""
    at = {
        d: check_of(plugin, known(plugin, spots=[spot("deflection", d, "°")]), "sheave.deflection.fairlead")
        for d in (3, 4)
    }
    assert [at[3].verdict, at[4].verdict] == [Verdict.WITHIN, Verdict.BEYOND]


def test_the_figure_nobody_could_find_is_marked_from_memory() -> None:
    limit = next(each for each in plugin.limits if each.id == "sheave.misalignment.plane")
    assert limit.source.status == "MEMORY"
    assert not limit.governs


def test_a_base_that_moves_stops_the_boat() -> None:
    assert graded(plugin, known(plugin, observed=best(plugin, base="moves"))).grade is Grade.STOP
    assert [each.id for each in plugin.observations if each.loaded_test] == ["base"]
