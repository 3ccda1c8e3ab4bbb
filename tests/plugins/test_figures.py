"""Figures for information, each reckoned by hand beside it, and the ladder that every wear is judged by.

Mechanics needs no source; A10 is the offshore-race seminar's own example, D2 and D9 the steering arithmetic of part D.
"""

from __future__ import annotations

from collections.abc import Mapping

import pytest

from reporter.engineering import mechanics, stock, table
from reporter.engineering.rows import CableStrength, ChainSize, GroundChain, StrandStrength
from reporter.model.evidence import Evidence
from reporter.model.findings import Fact
from reporter.model.plugin import Plugin
from reporter.model.terms import Grade, LimitKind, Sense, SourceStatus, Verdict
from tests.plugins.evidence import REGISTRY, best, check_of, fact, graded, known, shown, spot, value

PLUGINS = REGISTRY.plugins


def test_a_pressed_wire_tells_its_tension() -> None:
    """50 N in the middle of 1000 mm, 20 mm aside: 50·1000 / (4·20) = 625 N; with the slope √(1 + 0.04²) more, 625.5 N."""
    spots = [
        spot("deflection", 20, "mm", side="port"),
        spot("pressed_with", 50, "N", side="port"),
        spot("pressed_span", 1000, "mm", side="port"),
    ]
    plugin = PLUGINS["steering_wire"]
    check = check_of(plugin, known(plugin, spots=spots), "steering_wire.pressed_tension.worked")
    assert shown(check, "N") == pytest.approx(625.50, abs=0.01)
    assert not check.governs
    alone = graded(plugin, known(plugin, spots=spots[:2])).checks
    assert not any(check.subject == "pressed_tension" for check in alone)


@pytest.mark.parametrize(("part", "short"), [(20, 0.005), (10, 0.0194)])
def test_the_usual_rule_is_short_by_what_is_said(part: float, short: float) -> None:
    """F·s / (4·f) against the exact line: √(1 + (2/20)²) = 1.00499, √(1 + (2/10)²) = 1.0198."""
    exact = mechanics.pressed_tension(50, 1.0, 1.0 / part)
    assert 1 - 50 * part / 4 / exact == pytest.approx(short, abs=0.0002)


def test_a_standing_wire_is_pressed_alike() -> None:
    """100 N, 1500 mm, 15 mm: 100·1500 / 60 = 2500 N, and 0.02 % for the slope."""
    plugin = PLUGINS["standing_wire"]
    spots = [
        spot("pressed_aside", 15, "mm"),
        spot("pressed_with", 100, "N"),
        spot("pressed_span", 1500, "mm"),
    ]
    check = check_of(plugin, known(plugin, spots=spots), "standing_wire.pressed_tension.worked")
    assert shown(check, "N") == pytest.approx(2500.5, abs=0.1)


@pytest.mark.parametrize(
    ("offset", "degrees", "verdict"), [(10, 1.1458, Verdict.WITHIN), (20, 2.2906, Verdict.BEYOND)]
)
def test_fleet_angle_by_offset_and_distance(offset: float, degrees: float, verdict: Verdict) -> None:
    """atan(10 / 500) = 1.1458°, atan(20 / 500) = 2.2906°; the 2° of aircraft mechanics decide nothing."""
    plugin = PLUGINS["sheave"]
    evidence = known(
        plugin,
        spots=[spot("fleet_offset", offset, "mm"), spot("fleet_distance", 500, "mm")],
        observed=best(plugin),
    )
    check = next(each for each in graded(plugin, evidence).checks if each.id.endswith("/offset"))
    assert shown(check, "°") == pytest.approx(degrees, abs=0.0001)
    assert check.verdict is verdict
    assert graded(plugin, evidence).grade is Grade.CLEAR


def steering_chain(**other: Fact) -> Evidence:
    """D2: 133.4 N at a wheel of 0.9144 m, 11 teeth of 15.875 mm."""
    facts = {"size": fact(choice="ansi_50"), "material": fact(choice="carbon"), "teeth": fact(11)}
    return known(
        PLUGINS["chain"],
        facts={**facts, **other},
        spots=[spot("span", 254, "mm", 0.5), spot("pitches", 16)],
        observed=best(PLUGINS["chain"]),
        needed={"wheel_diameter": fact(0.9144, "m"), "rim_force": (spot("rim_force", 133.4, "N"),)},
    )


def test_pull_and_strength_of_the_steering_chain() -> None:
    """D2: 2,164.8 N; D9: 21.71 kN over it is 10.03."""
    plugin = PLUGINS["chain"]
    assert shown(check_of(plugin, steering_chain(), "chain.chain_pull.worked"), "N") == pytest.approx(
        2164.8, abs=0.5
    )
    factor = check_of(plugin, steering_chain(), "chain.factor.worked")
    assert shown(factor, "1") == pytest.approx(10.03, abs=0.01)
    assert not factor.governs
    marked = steering_chain(marked_strength=fact(10.0, "kN"))
    assert shown(check_of(plugin, marked, "chain.factor.worked"), "1") == pytest.approx(4.62, abs=0.01)


def test_a_stainless_or_worn_chain_has_no_margin_from_the_table() -> None:
    """The table holds for carbon steel; at 8 % the chain is out of use, and no margin is told."""
    plugin = PLUGINS["chain"]
    stainless = graded(plugin, steering_chain(material=fact(choice="stainless"))).checks
    assert not any(check.id.startswith("chain.factor") for check in stainless)
    worn = steering_chain().model_copy(
        update={"spots": (spot("span", 274.3, "mm", 0.5), spot("pitches", 16))}
    )
    assert check_of(plugin, worn, "chain.factor.withheld").verdict is Verdict.NOT_APPLICABLE
    assert graded(plugin, worn).grade is Grade.STOP


def test_torque_of_a_hung_weight() -> None:
    """10 kg at 450 mm: 10 · 9.80665 · 0.45 = 44.13 N·m."""
    plugin = PLUGINS["wheel_brake"]
    evidence = known(plugin, spots=[spot("hung_mass", 10, "kg"), spot("hung_radius", 450, "mm")])
    check = check_of(plugin, evidence, "wheel_brake.hung_torque.worked")
    assert shown(check, "N·m") == pytest.approx(44.13, abs=0.005)
    assert stock.hung_torque(2, 1) == pytest.approx(19.6133)


def test_rudder_load_into_the_stock() -> None:
    """A10: 4 ft², 7 kn: 1,666 lbf; at an arm of 2 ft 3,332 lbf·ft. Aft 0.5 ft: 833; both √(3332² + 833²) = 3,434.6 lbf·ft."""
    plugin = PLUGINS["rudder_blade"]
    spots = [spot("speed_asked", 7, "kn"), spot("pressure_below", 2, "ft"), spot("pressure_aft", 0.5, "ft")]
    evidence = known(
        plugin, facts={"area": fact(4, "ft²")}, spots=spots, needed={"stock_diameter": fact(3, "in")}
    )
    for subject, figure, unit in (
        ("rudder_force", 1666, "lbf"),
        ("stock_bending", 3332, "lbf·ft"),
        ("stock_torsion", 833, "lbf·ft"),
        # 32 · 3434.6 · 12 / (π · 27) = 15,548 psi.
        ("stock_stress", 15_548, "psi"),
    ):
        check = check_of(plugin, evidence, f"rudder_blade.{subject}.worked")
        assert shown(check, unit) == pytest.approx(figure, rel=1e-3), subject
        assert not check.governs


STRANDS = [row for row in table(StrandStrength) if row.status is not SourceStatus.MEMORY]
CABLES = [
    (row, material, strength)
    for row in table(CableStrength)
    for material, strength in (("carbon", row.carbon_lbf), ("stainless", row.stainless_lbf))
]
MATERIALS = {"316": "316", "302/304": "302_304", "304": "302_304", "unstated": "unknown"}


def first_strength(plugin: Plugin, facts: Mapping[str, Fact]) -> float:
    """What the report reckons with, in newtons: the first breaking force that is told."""
    checks = graded(plugin, known(plugin, facts=facts)).checks
    found = next(check for check in checks if check.id.startswith(f"{plugin.kind}.breaking_"))
    return shown(found, "N")


@pytest.mark.parametrize("row", STRANDS, ids=lambda row: f"{row.diameter} {row.material} {row.strength:g}")
def test_a_stay_is_told_no_stronger_than_any_row_read(row: StrandStrength) -> None:
    facts = {
        "construction": fact(choice=row.construction),
        "diameter": fact(row.diameter_mm, "mm"),
        "grade_material": fact(choice=MATERIALS[row.material]),
        "load_share": fact(45, "%"),
        "safety_factor": fact(2.5, "1"),
    }
    assert first_strength(PLUGINS["standing_wire"], facts) <= value(row.strength, row.unit).value * (1 + 1e-9)


@pytest.mark.parametrize(
    ("row", "material", "pounds"), CABLES, ids=lambda each: getattr(each, "diameter", str(each))
)
@pytest.mark.parametrize("grade", ["1570", "1770"])
def test_a_steering_wire_is_told_no_stronger_than_its_row(
    row: CableStrength, material: str, pounds: float, grade: str
) -> None:
    """FAA AC 43.13-1B Table 7-3, at the printed size and 1 % below it, where carbon wire is reckoned by its factor."""
    for part in (1.0, 0.99):
        facts = {
            "construction": fact(choice=row.construction),
            "diameter": fact(row.diameter_in * part, "in"),
            "grade_material": fact(choice=material),
            "tensile_grade": fact(choice=grade),
        }
        if part < 1 and material == "stainless":
            continue
        assert first_strength(PLUGINS["steering_wire"], facts) <= value(pounds, "lbf").value * (1 + 1e-9)


@pytest.mark.parametrize(
    "row", table(GroundChain), ids=lambda row: f"{row.size_mm:g} mm {row.grade} {row.pitch_mm:g}"
)
def test_an_anchor_chain_is_told_no_stronger_than_its_row(row: GroundChain) -> None:
    facts = {"size": fact(row.size_mm, "mm"), "grade": fact(choice=str(row.grade))}
    assert first_strength(PLUGINS["anchor_chain"], facts) <= row.min_break_kn * 1000 * (1 + 1e-9)


@pytest.mark.parametrize("row", table(ChainSize), ids=lambda row: row.name)
def test_a_steering_chain_is_told_no_stronger_than_its_row(row: ChainSize) -> None:
    evidence = steering_chain(size=fact(choice=row.name.lower().replace(" ", "_").replace("-", "_")))
    spots = (spot("span", 10 * row.pitch_mm, "mm", 0.5), spot("pitches", 10))
    checks = graded(PLUGINS["chain"], evidence.model_copy(update={"spots": spots})).checks
    pull, factor = (
        next(check for check in checks if check.id == f"chain.{name}.worked")
        for name in ("chain_pull", "factor")
    )
    assert shown(pull, "N") * shown(factor, "1") <= row.min_strength_kn * 1000 * (1 + 1e-9)


JUDGED_AS = {
    "worn": "wear", "worn_across": "wear", "eleven": "stretch", "link_diameter": "wear", "rope_diameter": "diameter_loss",
    "hole_diameter": "slack_loss", "hole_over_pin": "slack_loss", "rim_play": "lash_share",
}  # fmt: skip
"""Readings that are judged as what is worked out of them."""
WEARING = [
    (plugin, measure.id)
    for plugin in PLUGINS.values()
    for measures in (plugin.readings, plugin.derived)
    for measure in measures
    if measure.wears
]


@pytest.mark.parametrize(("plugin", "name"), WEARING, ids=[f"{p.kind}.{n}" for p, n in WEARING])
def test_every_wear_is_decided_by_a_figure(plugin: Plugin, name: str) -> None:
    """A wear that nothing decides could go on for ever and stay clear; the far end is before the next passage or worse."""
    names = {name, JUDGED_AS.get(name, name)} | (
        {"loss_of_nominal", "loss_of_baseline"} if name == "wire_diameter" else set()
    )
    found = [limit for limit in plugin.limits if limit.quantity in names and limit.governs]
    assert found
    far = max(limit.then.rank for limit in found)
    # The tip's movement follows from the plays, which have their own far ends.
    assert far >= (Grade.PLAN if name == "tip_movement" else Grade.FIRST).rank


LADDERS = {
    (plugin.kind, limit.quantity, tuple(sorted(limit.applies.items())))
    for plugin in PLUGINS.values()
    for limit in plugin.limits
    if limit.governs
    and limit.kind is LimitKind.CONDITION
    and limit.sense is not Sense.WINDOW
    and not limit.between
}


@pytest.mark.parametrize("ladder", sorted(LADDERS), ids=lambda each: f"{each[0]}.{each[1]}")
def test_a_worse_figure_never_leads_to_a_milder_grade(ladder: tuple[str, str, tuple[object, ...]]) -> None:
    kind, quantity, applies = ladder
    rungs = [
        (-limit.value if limit.sense is Sense.AT_LEAST else limit.value, limit.then.rank)
        for limit in PLUGINS[kind].limits
        if limit.governs
        and limit.kind is LimitKind.CONDITION
        and limit.quantity == quantity
        and not limit.between
        and tuple(sorted(limit.applies.items())) == applies
    ]
    assert [rank for _, rank in sorted(rungs)] == sorted(rank for _, rank in rungs)


def test_what_stops_a_boat_can_be_looked_up() -> None:
    """Every broken-wire limit that decides cites a text that was read, and says what it was written for."""
    broken = [
        limit
        for plugin in PLUGINS.values()
        for limit in plugin.limits
        if limit.governs and limit.then is Grade.STOP and "broken" in limit.quantity
    ]
    assert len(broken) >= 8
    for limit in broken:
        assert limit.source.status is SourceStatus.READ, limit.id
        assert limit.source.title == "FAA AC 43.13-1B", limit.id
        assert "aircraft" in limit.written_for, limit.id


def test_a_source_names_a_text_or_says_that_it_is_practice() -> None:
    """No "trade page", which nobody can look up: common practice by that name, in its own words."""
    vague = ("trade", "page", "published", "guide to", "handbook", "practice of", "quoted")
    for plugin in PLUGINS.values():
        for limit in plugin.limits:
            source = limit.source
            if source.title == "common practice":
                assert source.basis == "practice", limit.id
                assert source.clause, limit.id
            elif source.basis != "maker" and "DIN 766" not in source.title and "unsigned" not in source.title:
                assert not any(word in source.title for word in vague), (limit.id, source.title)


@pytest.mark.parametrize("kind", ["standing_wire", "rod"])
def test_twenty_six_years_do_not_read_like_eleven(kind: str) -> None:
    """Surveyors: over 10 years, change within the next 2 to 3; the words of the age and of what to do go on with it."""
    plugin = PLUGINS[kind]

    def told(fitted: str) -> tuple[set[str], set[str]]:
        part = graded(plugin, known(plugin, facts={"installed": fact(date=fitted)}, observed=best(plugin)))
        ages = {
            check.said for check in part.checks if check.kind is LimitKind.AGE and check.grade is Grade.PLAN
        }
        return ages, {action.what for action in part.actions}

    (eleven, soon), (old, now) = told("2015-01"), told("2000-01")
    assert any("change within the next 2 to 3" in said and "11" in said for said in eleven)
    assert any("26" in said for said in old)
    assert any("over 25 years old" in what for what in now)
    assert not any("over 25 years old" in what for what in soon)
