"""Anchors, shackles, swivels, rodes and windlasses through their kinds.

Sources: UK and Caribbean small commercial vessel codes (Table 20.1, Annex 7; 20.5); cruising-guide page (rope rode);
the tenth for shackles is from memory and is tested for what it does, not for being right.
"""

from __future__ import annotations

import pytest

from reporter.model.evidence import MeasurementPoint
from reporter.model.findings import Fact
from reporter.model.plugin import Plugin
from reporter.model.quantity import Value
from reporter.model.terms import Grade, Verdict
from tests.plugins.evidence import REGISTRY, best, check_of, fact, graded, known, shown, spot, value

anchor = REGISTRY.plugin("anchor")
anchor_chain = REGISTRY.plugin("anchor_chain")
rode = REGISTRY.plugin("rode")
shackle = REGISTRY.plugin("shackle")
swivel = REGISTRY.plugin("swivel")
windlass = REGISTRY.plugin("windlass")


def length(
    metres: float, waterline: float | None = None
) -> dict[str, tuple[MeasurementPoint, ...] | Fact | Value]:
    """The vessel's lengths as needs."""
    needed: dict[str, tuple[MeasurementPoint, ...] | Fact | Value] = {"length_overall": value(metres, "m")}
    return needed if waterline is None else {**needed, "length_waterline": value(waterline, "m")}


@pytest.mark.parametrize(
    ("use", "metres", "table"), [("main", 12, 18), ("main", 10, 13), ("kedge", 10, 6), ("main", 12.01, 21)]
)
def test_w15_anchor_mass(use: str, metres: float, table: float) -> None:
    """W15: 12 m 18 kg, 10 m 13 and 6 kg; the row is the next larger length. For information."""
    for mass, verdict in ((table, Verdict.WITHIN), (table - 0.1, Verdict.BEYOND)):
        facts = {"use": fact(choice=use), "mass": fact(mass, "kg")}
        evidence = known(anchor, facts=facts, needed=length(metres), observed=best(anchor))
        check = check_of(anchor, evidence, "anchor.table_share.code")
        assert check.verdict is verdict
        assert not check.governs
        assert graded(anchor, evidence).grade is Grade.CLEAR


@pytest.mark.parametrize(("mass", "verdict"), [(16.2, Verdict.WITHIN), (16.1, Verdict.BEYOND)])
def test_w15_lighter_categories(mass: float, verdict: Verdict) -> None:
    """W15: categories 4 and 5, 90 % of 18 kg is 16.2 kg."""
    facts = {"use": fact(choice="main"), "mass": fact(mass, "kg")}
    assert (
        check_of(anchor, known(anchor, facts=facts, needed=length(12)), "anchor.table_share.lighter").verdict
        is verdict
    )


def test_w15_the_mean_length_where_it_is_known() -> None:
    """12.6 m over all and 11.4 m on the waterline: the row of 12 m."""
    facts = {"use": fact(choice="main"), "mass": fact(18, "kg")}
    check = check_of(anchor, known(anchor, facts=facts, needed=length(12.6, 11.4)), "anchor.table_share.code")
    assert shown(check, "%") == pytest.approx(100)
    assert [working.title for working in check.working] == [
        "Mean length",
        "Mass in parts of the outfit table",
    ]
    assert "row of 12\u00a0m" in check.notes[0]


@pytest.mark.parametrize(
    ("use", "metres", "size"), [("main", 12, 8), ("main", 13, 10), ("kedge", 11, 6), ("kedge", 12, 8)]
)
def test_w15_steps_of_the_chain(use: str, metres: float, size: float) -> None:
    """W15: 12 to 13 m takes the main chain from 8 to 10 mm, 11 to 12 m the kedge's from 6 to 8."""
    facts = {"use": fact(choice=use), "size": fact(size, "mm")}
    check = check_of(
        anchor_chain, known(anchor_chain, facts=facts, needed=length(metres)), "anchor_chain.table_share.code"
    )
    assert shown(check, "%") == pytest.approx(100)


@pytest.mark.parametrize(("metres", "size"), [(11, 12), (12, 14)])
def test_w15_steps_of_the_rope(metres: float, size: float) -> None:
    """W15: 11 to 12 m takes the rope from 12 to 14 mm."""
    facts = {"use": fact(choice="main"), "diameter": fact(size, "mm")}
    check = check_of(rode, known(rode, facts=facts, needed=length(metres)), "rode.table_share.code")
    assert shown(check, "%") == pytest.approx(100)


def test_beyond_the_table_nothing_is_said() -> None:
    facts = {"use": fact(choice="main"), "mass": fact(80, "kg")}
    part = graded(anchor, known(anchor, facts=facts, needed=length(25)))
    assert not any(check.subject == "table_share" for check in part.checks)


@pytest.mark.parametrize(("newtons", "verdict"), [(8 * 4003.4, Verdict.WITHIN), (8 * 4003.3, Verdict.BEYOND)])
def test_eight_times_the_highest_load(newtons: float, verdict: Verdict) -> None:
    """Cruising-guide page; the load is H-40's 900 lbf (4,003.4 N) of 32 ft in 30 kn. For information."""
    facts = {"breaking_load": fact(newtons, "N"), "sizing_wind": fact(choice="30")}
    evidence = known(rode, facts=facts, needed={"length_overall": value(32, "ft")}, observed=best(rode))
    check = check_of(rode, evidence, "rode.wind_factor.eight")
    assert check.verdict is verdict
    assert not check.governs
    assert graded(rode, evidence).grade is Grade.CLEAR


@pytest.mark.parametrize("plugin", [shackle, swivel], ids=lambda plugin: plugin.kind)
def test_a_tenth_of_a_link(plugin: Plugin) -> None:
    for now, grade in ((9.0, Grade.CLEAR), (8.9, Grade.FIRST)):
        evidence = known(
            plugin, facts={"size": fact(10, "mm")}, spots=[spot("worn", now, "mm")], observed=best(plugin)
        )
        assert graded(plugin, evidence).grade is grade


@pytest.mark.parametrize(
    ("gypsy", "chain", "grade"),
    [
        (("iso_4565", 10, "mm"), ("iso_4565", 10, "mm"), Grade.CLEAR),
        (("iso_4565", 10, "mm"), ("din_766", 10, "mm"), Grade.PLAN),
        (("other", 8, "mm"), ("other", 0.3125, "in"), Grade.CLEAR),
        (("other", 10, "mm"), ("other", 0.375, "in"), Grade.PLAN),
        (("unknown", 10, "mm"), ("din_766", 10, "mm"), Grade.CLEAR),
    ],
)
def test_gypsy_and_chain(gypsy: tuple[str, float, str], chain: tuple[str, float, str], grade: Grade) -> None:
    """10 mm chain has two pitches, and 3/8 in is not 10 mm; by their marks alone that is a matter for planning."""
    facts = {"gypsy_standard": fact(choice=gypsy[0]), "gypsy_size": fact(gypsy[1], gypsy[2])}
    needed = {"chain_standard": fact(choice=chain[0]), "chain_size": fact(chain[1], chain[2])}
    part = graded(windlass, known(windlass, facts=facts, needed=needed, observed=best(windlass)))
    assert part.grade is grade
