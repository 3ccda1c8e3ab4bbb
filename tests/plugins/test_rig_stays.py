"""Standing wire and rod through their plugins: cases W1 to W5, W10 and W33 of the project's reference file on rigs.

Sources: trade pages on strand strength, stretch and the folding rule; 29 CFR 1926.1413; 30 CFR 56.19024 and 77.1437;
FAA AC 43.13-1B; published ages of standing rigging. Tolerance: one unit of the last printed figure unless said.
"""

from __future__ import annotations

import pytest

from reporter.engineering import table, units
from reporter.engineering.rows import GaugeSetting
from reporter.model.evidence import MeasurementPoint
from reporter.model.findings import Fact
from reporter.model.plugin import Plugin
from reporter.model.quantity import Value
from reporter.model.terms import Basis, Grade, LimitKind, SourceStatus, Verdict
from tests.plugins.evidence import REGISTRY, best, check_of, fact, graded, known, shown, spot, value

rod, wire = REGISTRY.plugin("rod"), REGISTRY.plugin("standing_wire")
Facts = dict[str, Fact]
Needed = dict[str, tuple[MeasurementPoint, ...] | Fact | Value]
GOOD = best(wire, looked="aloft", cover="bare")
QUARTER: Facts = {
    "construction": fact(choice="1x19"), "diameter": fact(0.25, "in"), "grade_material": fact(choice="302_304"),
    "marked_strength": fact(8200, "lbf"), "role": fact(choice="cap_shroud"),
}  # fmt: skip
SIX: Facts = {"construction": fact(choice="1x19"), "diameter": fact(6, "mm")}


def sized(share: float, factor: float) -> Facts:
    """The two details that ask for a sizing estimate."""
    return {"load_share": fact(share, "%"), "safety_factor": fact(factor, "1")}


def loads(moment: float, beam: float) -> Needed:
    """Righting moment in pound-force feet, beam in feet."""
    return {"righting_moment": value(moment, "lbf·ft"), "beam": value(beam, "ft")}


@pytest.mark.parametrize(
    ("construction", "growth", "per_cent"),
    [
        ("1x19", 3, 15),
        ("1x19", 1.5, 7.5),
        ("compact", 0.95, 5),
        ("1x19", 4, 20),
        ("1x19", 5, 25),
        ("1x19", 5.1, 25.5),
    ],
)
def test_folding_rule(construction: str, growth: float, per_cent: float) -> None:
    """W1: 1 mm over 2 m is 5 % for 1x19, 0.95 mm for compact strand, whatever the diameter."""
    facts = {"construction": fact(choice=construction), "role": fact(choice="cap_shroud")}
    check = check_of(
        wire,
        known(wire, facts=facts, spots=[spot("fold_growth", growth, "mm")]),
        "standing_wire.tension.most",
    )
    assert shown(check, "%") == pytest.approx(per_cent, abs=0.01)
    assert check.working[0].source.title == "trade page on the folding-rule method"


def test_top_of_the_published_band_is_allowed_and_over_it_is_not() -> None:
    """W1, edge: 5 mm is 25 %, the top of the band; 5.1 mm is over; 60 % harms a wire for good, 70 % is past what a class allows once."""
    for growth, verdict, grade in (
        (4.99, Verdict.WITHIN, Grade.CLEAR),
        (5.1, Verdict.BEYOND, Grade.PLAN),
        (12, Verdict.BEYOND, Grade.FIRST),
        (14, Verdict.BEYOND, Grade.STOP),
    ):
        evidence = known(
            wire,
            facts=QUARTER,
            spots=[spot("fold_growth", growth, "mm"), spot("broken_wires", 0)],
            observed=GOOD,
        )
        assert check_of(wire, evidence, "standing_wire.tension.most").verdict is verdict
        assert graded(wire, evidence).grade is grade


def test_another_length_of_rule_is_reckoned_with() -> None:
    spots = [spot("fold_growth", 1.5, "mm", side="port"), spot("fold_length", 1000, "mm", side="port")]
    check = check_of(wire, known(wire, facts=QUARTER, spots=spots), "standing_wire.tension.most")
    assert shown(check, "%") == pytest.approx(15)


@pytest.mark.parametrize(("growth", "stretched"), [(3.0, 3.066), (1.0, 1.022), (4.0, 4.088)])
def test_two_independent_rules_agree(growth: float, stretched: float) -> None:
    """W2: E% = W·G/D² with G = 0.00000779 gives 3.066 mm where the folding rule has 3.0."""
    evidence = known(wire, facts=QUARTER, spots=[spot("fold_growth", growth, "mm")])
    check = check_of(wire, evidence, "standing_wire.expected_growth.worked")
    assert shown(check, "mm") == pytest.approx(stretched, abs=0.001)
    assert not check.governs


def test_the_modulus_is_never_that_of_solid_steel() -> None:
    """W3: 28·10⁶ psi on a strand would halve the stretch (0.000736 · 2000 = 1.47 mm)."""
    evidence = known(wire, facts=QUARTER, spots=[spot("fold_growth", 3, "mm")])
    check = check_of(wire, evidence, "standing_wire.expected_growth.worked")
    assert shown(check, "mm") > 1.9 * 0.000736 * 2000
    modulus = next(term for term in check.working[1].inputs if term.symbol == "E")
    assert modulus.value == pytest.approx(112_700, rel=1e-3)


@pytest.mark.parametrize("row", table(GaugeSetting), ids=lambda row: f"{row.diameter_mm:g} mm")
def test_gauge_rows_land_in_their_own_windows(row: GaugeSetting) -> None:
    """W4: shroud over breaking 10.0 to 11.6 %, forestay 14.5 to 17.0 %, to the printed figure."""
    for role, setting, ident in (
        ("cap_shroud", row.shroud_kgf, "gauge_shroud"),
        ("forestay", row.forestay_kgf, "gauge_forestay"),
    ):
        facts = {"role": fact(choice=role), "marked_strength": fact(row.breaking_kgf, "kgf")}
        check = check_of(
            wire,
            known(wire, facts=facts, spots=[spot("gauge_tension", setting, "kgf")]),
            f"standing_wire.tension.{ident}",
        )
        assert check.limit
        assert check.limit.upper
        assert check.limit.value - 0.06 <= shown(check, "%") <= check.limit.upper + 0.06
        assert not check.governs


def test_a_gauge_without_a_breaking_force_gives_no_share() -> None:
    part = graded(wire, known(wire, spots=[spot("gauge_tension", 2, "kN")]))
    assert "tension" in {each.id for each in part.missing}
    assert not [check for check in part.checks if check.subject == "tension"]


def test_the_printed_figure_for_rod_is_refused() -> None:
    """The page prints 0.07 mm, a misprint by ten: nothing is reckoned from it."""
    evidence = known(rod, facts={"construction": fact(choice="rod")}, spots=[spot("fold_growth", 0.7, "mm")])
    part = graded(rod, evidence)
    assert "misprint" in next(each.why for each in part.missing if each.id == "tension")
    assert not [check for check in part.checks if check.subject == "tension"]


def test_righting_moment_estimate() -> None:
    """W5a: 30,000 ft·lbf and 11 ft give 8,182 lbf; 45 % with 2.5 asks 9,205 lbf; 302 1/4 in of 8,200 lbf falls short."""
    evidence = known(
        wire,
        facts=QUARTER | sized(45, 2.5),
        needed=loads(30_000, 11),
        spots=[spot("broken_wires", 0)],
        observed=GOOD,
    )
    assert shown(check_of(wire, evidence, "standing_wire.side_load.worked"), "lbf") == pytest.approx(
        8182, abs=1
    )
    assert shown(check_of(wire, evidence, "standing_wire.asked_for.worked"), "lbf") == pytest.approx(
        9205, abs=1
    )
    over = check_of(wire, evidence, "standing_wire.over_asked.estimate")
    assert over.verdict is Verdict.BEYOND
    assert shown(over, "1") == pytest.approx(8200 / 9205, abs=1e-3)
    assert graded(wire, evidence).grade is Grade.CLEAR, "an estimate decides nothing"


@pytest.mark.parametrize(("share", "asked"), [(45, 18_290), (32.5, 13_210)])
def test_second_estimate_with_its_own_beam(share: float, asked: float) -> None:
    """W5b, recomputed: 47,000 ft·lbf and 9.54 ft give 14,780 lbf; the printed 14,465 needs another beam."""
    evidence = known(wire, facts=QUARTER | sized(share, 2.75), needed=loads(47_000, 9.54))
    assert shown(check_of(wire, evidence, "standing_wire.side_load.worked"), "lbf") == pytest.approx(
        14_780, abs=1
    )
    assert shown(check_of(wire, evidence, "standing_wire.asked_for.worked"), "lbf") == pytest.approx(
        asked, abs=2
    )


def test_beam_at_the_chainplates_goes_before_the_vessels() -> None:
    facts = QUARTER | sized(45, 2.5) | {"chainplate_beam": fact(5.5, "ft")}
    evidence = known(wire, facts=facts, needed=loads(30_000, 11))
    assert shown(check_of(wire, evidence, "standing_wire.side_load.worked"), "lbf") == pytest.approx(
        2 * 8182, abs=2
    )


def test_nobody_who_did_not_ask_gets_an_estimate_or_a_gap() -> None:
    part = graded(wire, known(wire, facts=QUARTER, needed=loads(30_000, 11)))
    assert not {check.subject for check in part.checks} & {
        "side_load",
        "asked_for",
        "over_asked",
        "load_sailing",
    }
    for facts in ({}, SIX):
        part = graded(wire, known(wire, facts=facts))
        assert "breaking_force" not in {check.subject for check in part.checks}
    assert not {each.id for each in part.missing} & {"righting_moment", "beam", "miles", "breaking_force"}


def test_class_shares_of_a_breaking_force() -> None:
    """W33: 0.53 and 0.68 of 29.69 kN are 15.74 and 20.19 kN; that the table speaks of stress is said."""
    marked = {"marked_strength": fact(29.69, "kN")}
    evidence = known(wire, facts=SIX | marked | sized(45, 2.5), needed=loads(30_000, 11))
    assert shown(check_of(wire, evidence, "standing_wire.load_sailing.worked"), "kN") == pytest.approx(
        15.74, abs=0.01
    )
    survival = check_of(wire, evidence, "standing_wire.load_survival.worked")
    assert shown(survival, "kN") == pytest.approx(20.19, abs=0.01)
    assert "assumption" in survival.notes[0]


def test_every_breaking_force_stands_beside_its_source() -> None:
    """1/4 in: 6,900 lbf (316) and 8,200 lbf (302/304) are published, the lowest first: nothing is reckoned from other sizes."""
    facts = {name: QUARTER[name] for name in ("construction", "diameter")} | sized(45, 2.5)
    found = [
        check for check in graded(wire, known(wire, facts=facts)).checks if check.subject == "breaking_force"
    ]
    assert [round(shown(check, "lbf")) for check in found] == [6900, 8200]
    assert all(check.notes[0] for check in found)
    assert len(found) == 2
    only = graded(wire, known(wire, facts=facts | {"grade_material": fact(choice="316")})).checks
    assert round(shown(next(check for check in only if check.subject == "breaking_force"), "lbf")) == 6900


BROKEN = [
    (0, 0, "keep", "keep", "keep"),
    (1, 0, "keep", "remove", "keep"),
    (2, 0, "keep", "remove", "keep"),
    (3, 0, "remove", "remove", "keep"),
    (0, 1, "keep", "remove", "remove"),
    (0, 2, "remove", "remove", "remove"),
]


@pytest.mark.parametrize(("lay", "end", "crane", "mine", "aircraft"), BROKEN)
def test_broken_wires_by_every_rule(lay: int, end: int, crane: str, mine: str, aircraft: str) -> None:
    """W10: each rule says what its text says; the grade condemns at the first broken wire all the same."""
    spots = [spot("broken_in_lay", lay), spot("broken_at_end", end), spot("broken_wires", lay + end)]
    part = graded(wire, known(wire, facts=SIX, spots=spots, observed=GOOD))
    told = {check.limit.id: check for check in part.checks if check.limit}

    def says(*rules: str) -> str:
        return (
            "remove"
            if any(told[f"standing_wire.{rule}"].verdict is Verdict.BEYOND for rule in rules)
            else "keep"
        )

    assert says("lay.crane_standing", "end.crane_standing") == crane
    assert says("lay.mine_1x19", "end.mine_1x19") == mine
    assert says("end.any") == aircraft
    assert says("broken.any") == ("remove" if lay + end else "keep")
    assert part.grade is (Grade.STOP if lay + end else Grade.CLEAR)
    assert all(
        not told[f"standing_wire.{rule}"].governs
        for rule in ("lay.crane_standing", "end.crane_standing", "lay.mine_1x19")
    )


def test_a_count_at_one_place_condemns_whatever_the_others_say() -> None:
    spots = [spot("broken_wires", 0, at="lower end"), spot("broken_wires", 1, at="spreader")]
    assert graded(wire, known(wire, spots=spots, observed=GOOD)).grade is Grade.STOP
    assert (
        graded(
            wire, known(wire, spots=[spot("broken_wires", 0), spot("broken_at_end", 1)], observed=GOOD)
        ).grade
        is Grade.STOP
    )


@pytest.mark.parametrize("how", ["counted", "seen"])
def test_no_strength_once_damage_is_recorded(how: str) -> None:
    spots = [
        spot("broken_wires", 1 if how == "counted" else 0),
        spot("gauge_tension", 3, "kN"),
        spot("fold_growth", 3, "mm"),
    ]
    observed = GOOD | ({"shape": "set"} if how == "seen" else {})
    part = graded(
        wire,
        known(wire, facts=QUARTER | sized(45, 2.5), needed=loads(30_000, 11), spots=spots, observed=observed),
    )
    strong = [
        check
        for check in part.checks
        if check.subject in {"breaking_force", "over_asked", "load_sailing", "tension_force"}
    ]
    assert [check.said for check in strong] == ["not applicable: damaged"]
    assert not any(check.id.endswith("/gauge") for check in part.checks)


@pytest.mark.parametrize(
    ("measured", "crane", "mine", "grade"),
    [
        (5.71, Verdict.WITHIN, Verdict.WITHIN, Grade.CLEAR),
        (5.69, Verdict.BEYOND, Verdict.WITHIN, Grade.FIRST),
        (5.63, Verdict.BEYOND, Verdict.BEYOND, Grade.FIRST),
        (5.39, Verdict.BEYOND, Verdict.BEYOND, Grade.STOP),
    ],
)
def test_diameter_lost_decides(measured: float, crane: Verdict, mine: Verdict, grade: Grade) -> None:
    """5 % of nominal 6 mm is 5.70 mm; 6 % of 6.0 mm when new is 5.64 mm; 10 % is 5.40 mm."""
    facts = SIX | {"baseline": fact(6.0, "mm")}
    evidence = known(
        wire,
        facts=facts,
        spots=[spot("wire_diameter", measured, "mm"), spot("broken_wires", 0)],
        observed=GOOD,
    )
    assert check_of(wire, evidence, "standing_wire.loss_of_nominal.crane").verdict is crane
    assert check_of(wire, evidence, "standing_wire.loss_of_baseline.mine").verdict is mine
    assert graded(wire, evidence).grade is grade


def test_a_guessed_size_gives_no_loss() -> None:
    facts = {"diameter": fact(6, "mm", basis=Basis.TOLD)}
    part = graded(wire, known(wire, facts=facts, spots=[spot("wire_diameter", 5.5, "mm")]))
    assert not [check for check in part.checks if check.subject == "loss_of_nominal"]


@pytest.mark.parametrize(
    ("fitted", "waters", "grade"),
    [
        ("2020-01", "temperate", Grade.CLEAR), ("2018-01", "temperate", Grade.WATCH), ("2015-01", "temperate", Grade.PLAN),
        ("1990", "temperate", Grade.PLAN), ("2022-01", "tropics", Grade.CLEAR), ("2020-01", "tropics", Grade.WATCH), ("2017-06", "tropics", Grade.PLAN),
    ],
)  # fmt: skip
@pytest.mark.parametrize("kind", [wire, rod], ids=lambda kind: kind.kind)
def test_age_alone_is_never_worse_than_plan(kind: Plugin, fitted: str, waters: str, grade: Grade) -> None:
    """7 and 10 years in temperate water; 2 to 5 years less in the tropics; several sources, each named."""
    facts = {"installed": fact(date=fitted), "waters": fact(choice=waters)}
    observed = GOOD if kind is wire else best(rod, looked="aloft")
    spots = [spot("broken_wires", 0)] if kind is wire else []
    part = graded(kind, known(kind, facts=facts, spots=spots, observed=observed))
    assert part.grade is grade
    ages = [check for check in part.checks if check.kind is LimitKind.AGE and check.governs]
    assert len({check.limit.source.clause for check in ages if check.limit}) >= 4


@pytest.mark.parametrize(
    ("miles", "grade"), [(14_000, Grade.CLEAR), (15_000, Grade.CLEAR), (15_100, Grade.PLAN)]
)
def test_miles_of_the_rig(miles: float, grade: Grade) -> None:
    evidence = known(
        wire, facts={"rig_miles": fact(miles, "nmi")}, spots=[spot("broken_wires", 0)], observed=GOOD
    )
    assert graded(wire, evidence).grade is grade


def test_the_boats_own_log_decides_nothing_of_the_rig() -> None:
    evidence = known(
        wire, needed={"miles": value(60_000, "nmi")}, spots=[spot("broken_wires", 0)], observed=GOOD
    )
    check = check_of(wire, evidence, "standing_wire.rig_miles.insurer")
    assert check.verdict is Verdict.BEYOND
    assert not check.governs
    assert graded(wire, evidence).grade is Grade.CLEAR


def test_heads_of_rod_from_memory_decide_nothing() -> None:
    evidence = known(rod, facts={"heads_made": fact(date="2000")}, observed=best(rod, looked="aloft"))
    check = check_of(rod, evidence, "rod.heads_made.late")
    assert check.limit
    assert check.limit.source.status is SourceStatus.MEMORY
    assert graded(rod, evidence).grade is Grade.CLEAR


def test_a_wire_under_a_foil_is_not_clear() -> None:
    part = graded(wire, known(wire, spots=[spot("broken_wires", 0)], observed=GOOD | {"cover": "hidden"}))
    assert part.grade is Grade.UNSEEN
    assert "foil" in part.capped[0]


def test_more_wear_is_never_better() -> None:
    ranks, scores = [], []
    for count in range(5):
        part = graded(
            wire,
            known(
                wire,
                facts=SIX,
                spots=[spot("broken_wires", count), spot("broken_in_lay", count)],
                observed=GOOD,
            ),
        )
        ranks.append(part.grade.rank)
        scores.append(part.score if part.score is not None else -1)
    assert ranks == sorted(ranks)
    assert scores == sorted(scores, reverse=True)
    tensions = [
        graded(
            wire,
            known(
                wire,
                facts=QUARTER,
                spots=[
                    spot("fold_growth", units.from_base(step / 1e4, "mm"), "mm", 0.3),
                    spot("broken_wires", 0),
                ],
                observed=GOOD,
            ),
        ).grade.rank
        for step in range(30, 80, 5)
    ]
    assert tensions == sorted(tensions)
