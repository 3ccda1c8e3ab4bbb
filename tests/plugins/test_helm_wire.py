"""Steering wire: one broken wire condemns; what other rules would say is for information; strength is of the undamaged wire.

C1 to C21, D8 and F10 are cases of the project's reference file for steering gear (`../shared`), recomputed there.
"""

from __future__ import annotations

import pytest

from reporter.engineering.broken_wires import condemning_count
from reporter.model.evidence import Evidence, MeasurementPoint
from reporter.model.findings import Fact
from reporter.model.terms import Basis, Grade, Verdict
from tests.plugins.evidence import REGISTRY, best, check_of, fact, graded, known, shown, spot

plugin = REGISTRY.plugin("steering_wire")
CLEAN = [spot("broken_wires", 0)]
WIRE_6 = {
    "diameter": fact(6, "mm"), "construction": fact(choice="7x19"), "grade_material": fact(choice="carbon"),
    "tensile_grade": fact(choice="1770"),
}  # fmt: skip
RULES = {
    "C1 lay": ("crane_lay", "crane.running.lay", 6, 6),
    "C1 strand": ("crane_strand", "crane.running.strand", 3, 3),
    "C2 lay": ("sling_lay", "sling.lay", 10, 10),
    "C2 strand": ("sling_strand", "sling.strand", 5, 5),
    "C3": ("construction_8d_{}", "construction.8d", 14, 5),
    "C4": ("mine_lay_{}", "mine.lay", 7, 3),
    "C5": ("mine_strand_{}", "mine.strand", 3, 2),
    "C6 6d": ("crane_iso_6d_{}", "crane_iso.6d", 5, 2),
    "C6 30d": ("crane_iso_30d_{}", "crane_iso.30d", 10, 4),
    "C8": ("mine_end", "mine.attachment", 2, 2),
    "C9 end": ("crane_standing_end", "crane.standing.end", 2, 2),
    "C9 free": ("crane_standing_lay", "crane.standing.lay", 3, 3),
}


def wire(*spots: MeasurementPoint, **facts: Fact) -> Evidence:
    """A 6 mm wire of 7x19 with everything looked at and nothing found by eye."""
    return known(plugin, facts=WIRE_6 | facts, spots=spots, observed=best(plugin))


@pytest.mark.parametrize("case", RULES)
@pytest.mark.parametrize("construction", ["7x19", "7x7"])
def test_smallest_count_that_condemns(case: str, construction: str) -> None:
    """The limits file against the reference figures, and against the table of rules with its arithmetic."""
    name, rule, of_7x19, of_7x7 = RULES[case]
    limit = next(
        each for each in plugin.limits if each.id == f"steering_wire.broken.{name.format(construction)}"
    )
    assert limit.value + 1 == (of_7x19 if construction == "7x19" else of_7x7)
    assert limit.value + 1 == condemning_count(rule, construction)
    assert not limit.governs
    assert not limit.applies or limit.applies == {"construction": (construction,)}


def test_one_broken_wire_stops_whatever_the_crane_rules_keep() -> None:
    """One break in 36 mm at a sheave: no crane, sling or mine rule condemns, AC 43.13-1B (C7) and the grade do."""
    at = "last sheave"
    part = graded(plugin, wire(spot("broken_wires", 1, at=at), spot("counted_over", 36, "mm", at=at)))
    said = {
        check.id.split("@")[0].removeprefix("steering_wire.broken."): check
        for check in part.checks
        if ".broken." in check.id
    }
    for name in (
        "crane_lay",
        "crane_strand",
        "sling_lay",
        "sling_strand",
        "mine_lay_7x19",
        "mine_strand_7x19",
        "crane_iso_6d_7x19",
    ):
        assert said[name].verdict is Verdict.WITHIN, name
        assert not said[name].governs
    assert said["any"].verdict is Verdict.BEYOND
    assert said["any"].governs
    assert part.grade is Grade.STOP
    assert part.score == 0
    assert [action.what for action in part.actions if action.grade is Grade.STOP] == [
        "Renew the wires of both sides with their ends"
    ]


def test_four_breaks_in_six_diameters() -> None:
    """The sample of part C: ISO 4309 no (4 < 5), 1926.1413 no (4 < 6), 56.19024 no (4 < 7), AC 43.13-1B yes."""
    evidence = wire(spot("broken_wires", 4), spot("counted_over", 36, "mm"))
    verdicts = {
        name: check_of(plugin, evidence, f"steering_wire.broken.{name}").verdict
        for name in ("crane_iso_6d_7x19", "crane_lay", "mine_lay_7x19", "any")
    }
    assert list(verdicts.values()) == [Verdict.WITHIN, Verdict.WITHIN, Verdict.WITHIN, Verdict.BEYOND]


def test_five_breaks_condemn_by_the_crane_rule_only_over_its_own_length() -> None:
    """5 in 6 d condemn (C6); 5 in 48 mm of a 6 mm wire may be fewer in any 36 mm, so nothing is said; nor without a length."""
    for over, told in ((36, True), (48, False), (None, False)):
        spots = [spot("broken_wires", 5), *([spot("counted_over", over, "mm")] if over else [])]
        part = graded(plugin, wire(*spots))
        found = [
            check.verdict for check in part.checks if check.id.startswith("steering_wire.broken.crane_iso_6d")
        ]
        assert found == ([Verdict.BEYOND] if told else []), over


def test_the_construction_chooses_the_rule() -> None:
    """2 breaks: a 7x7 wire is discarded by the crane rule, 7x19 is kept, and both are condemned here."""
    two = [spot("broken_wires", 2), spot("counted_over", 36, "mm")]
    for construction, verdict in (("7x19", Verdict.WITHIN), ("7x7", Verdict.BEYOND)):
        evidence = wire(*two, construction=fact(choice=construction))
        assert (
            check_of(plugin, evidence, f"steering_wire.broken.crane_iso_6d_{construction}").verdict is verdict
        )
        assert graded(plugin, evidence).grade is Grade.STOP


def test_no_broken_wire_is_clear_and_an_uncounted_one_is_unseen() -> None:
    assert graded(plugin, wire(*CLEAN)).grade is Grade.CLEAR
    part = graded(plugin, wire())
    assert part.grade is Grade.UNSEEN
    assert any(each.id == "broken_wires" and each.needed for each in part.missing)


def test_one_bad_place_among_good_ones_governs() -> None:
    places = [spot("broken_wires", 0, at=f"place {number}") for number in range(20)]
    assert graded(plugin, wire(*places, spot("broken_wires", 1, at="port swage"))).grade is Grade.STOP


@pytest.mark.parametrize(
    ("nominal", "measured", "percent", "crane", "iso"),
    [
        pytest.param(6.00, 5.75, 4.17, Verdict.WITHIN, Verdict.WITHIN, id="C10"),
        pytest.param(6.00, 5.60, 6.67, Verdict.BEYOND, Verdict.WITHIN, id="C11"),
        pytest.param(6.00, 5.50, 8.33, Verdict.BEYOND, Verdict.BEYOND, id="C12"),
        pytest.param(6.35, 6.00, 5.51, Verdict.BEYOND, Verdict.WITHIN, id="C13"),
    ],
)
def test_diameter_lost_of_nominal(
    nominal: float, measured: float, percent: float, crane: Verdict, iso: Verdict
) -> None:
    """5 % (Cal. Code Regs. tit. 8 § 5036(a)(2)(B)) decides, 7.5 % (ISO 4309, from memory) is for information."""
    evidence = wire(*CLEAN, spot("wire_diameter", measured, "mm"), diameter=fact(nominal, "mm"))
    check = check_of(plugin, evidence, "steering_wire.loss_of_nominal.crane")
    assert shown(check, "%") == pytest.approx(percent, abs=0.005)
    assert check.verdict is crane
    assert check.grade is (Grade.FIRST if crane is Verdict.BEYOND else Grade.CLEAR)
    assert check_of(plugin, evidence, "steering_wire.loss_of_nominal.crane_iso").verdict is iso
    assert graded(plugin, evidence).grade is check.grade


@pytest.mark.parametrize(
    ("measured", "percent", "verdict"),
    [
        pytest.param(5.75, 4.17, Verdict.WITHIN, id="C10"),
        pytest.param(5.60, 6.67, Verdict.BEYOND, id="C11"),
        pytest.param(5.50, 8.33, Verdict.BEYOND, id="C12"),
    ],
)
def test_diameter_lost_of_baseline(measured: float, percent: float, verdict: Verdict) -> None:
    """6 % of the baseline: 30 CFR 56.19024(g)."""
    evidence = wire(*CLEAN, spot("wire_diameter", measured, "mm"), baseline=fact(6, "mm"))
    check = check_of(plugin, evidence, "steering_wire.loss_of_baseline.mine")
    assert shown(check, "%") == pytest.approx(percent, abs=0.005)
    assert check.verdict is verdict


def test_per_cent_of_what() -> None:
    """C14: 6.35 nominal, 6.70 when new, 6.30 now: 0.79 % of nominal, 5.97 % of what it was, 0.03 short of the limit."""
    facts = {"diameter": fact(6.35, "mm"), "baseline": fact(6.70, "mm")}
    evidence = wire(*CLEAN, spot("wire_diameter", 6.30, "mm"), **facts)
    assert shown(check_of(plugin, evidence, "steering_wire.loss_of_nominal.crane"), "%") == pytest.approx(
        0.79, abs=0.005
    )
    of_new = check_of(plugin, evidence, "steering_wire.loss_of_baseline.mine")
    assert shown(of_new, "%") == pytest.approx(5.97, abs=0.005)
    assert of_new.verdict is Verdict.WITHIN
    # With a caliper's 0.05 mm the same reading is too near the limit to be called inside it.
    evidence = wire(*CLEAN, spot("wire_diameter", 6.30, "mm", 0.05), **facts)
    assert check_of(plugin, evidence, "steering_wire.loss_of_baseline.mine").verdict is Verdict.CLOSE


@pytest.mark.parametrize(("basis", "size", "asks"), [
    (Basis.TOLD, fact(4, "mm"), "5/32 in"),
    (Basis.ESTIMATE, fact(5 / 16, "in"), "8 mm"),
    (Basis.STAMPED, fact(4, "mm"), ""),
    (Basis.TOLD, fact(6, "mm"), ""),
])  # fmt: skip
def test_a_guessed_size_with_a_near_neighbour_asks(basis: Basis, size: Fact, asks: str) -> None:
    """design.md 5: 4 mm and 5/32 in differ by 0.8 %: a guess gives no verdict but a question."""
    told = size.model_copy(update={"basis": basis})
    part = graded(plugin, wire(*CLEAN, spot("wire_diameter", 3, "mm", 0.05), diameter=told))
    judged = [check for check in part.checks if check.subject == "loss_of_nominal"]
    questions = [action.what for action in part.actions if action.id == "steering_wire.nominal_size"]
    assert bool(judged) is not bool(asks)
    assert len(questions) == bool(asks)
    assert all(asks in what for what in questions)
    if not asks and basis.is_guess:
        assert any("told" in note for note in judged[0].notes)


def test_a_baseline_needs_no_nominal() -> None:
    told = fact(4, "mm", basis=Basis.TOLD)
    evidence = wire(*CLEAN, spot("wire_diameter", 3.5, "mm", 0.05), diameter=told, baseline=fact(4.05, "mm"))
    assert check_of(plugin, evidence, "steering_wire.loss_of_baseline.mine").verdict is Verdict.BEYOND


@pytest.mark.parametrize(
    ("facts", "kilonewtons"),
    [
        pytest.param(WIRE_6, 23.07, id="C15"),
        pytest.param(
            WIRE_6 | {"diameter": fact(5, "mm"), "tensile_grade": fact(choice="1570")}, 14.21, id="C16"
        ),
        pytest.param(WIRE_6 | {"construction": fact(choice="7x7")}, 24.72, id="C17"),
        pytest.param(
            WIRE_6 | {"diameter": fact(0.25, "in"), "grade_material": fact(choice="stainless")},
            28.47,
            id="C18",
        ),
        pytest.param(WIRE_6 | {"diameter": fact(6.35, "mm")}, 31.14, id="a quarter of an inch in mm, carbon"),
        pytest.param(WIRE_6 | {"diameter": fact(4, "mm")}, 10.25, id="4 mm is not 5/32 in"),
        pytest.param(WIRE_6 | {"marked_strength": fact(19.5, "kN")}, 19.5, id="marked"),
    ],
)
def test_breaking_force(facts: dict[str, Fact], kilonewtons: float) -> None:
    check = check_of(plugin, known(plugin, facts=facts, spots=CLEAN), "steering_wire.breaking_force.worked")
    assert shown(check, "kN") == pytest.approx(kilonewtons, abs=0.005)
    assert check.notes


@pytest.mark.parametrize(
    ("facts", "word"),
    [
        ({"grade_material": fact(choice="stainless")}, "Stainless"),
        ({"grade_material": fact(choice="unknown")}, "material"),
        ({"tensile_grade": fact(choice="unknown")}, "tensile grade"),
        ({"construction": fact(choice="1x19")}, "construction"),
    ],
)
def test_no_strength_without_a_source(facts: dict[str, Fact], word: str) -> None:
    """Stainless wire in a metric size has no published strength here, and a guess is not made."""
    part = graded(plugin, wire(*CLEAN, **facts))
    assert not any(check.subject == "breaking_force" for check in part.checks)
    missing = next(each for each in part.missing if each.id == "breaking_force")
    assert word in missing.why
    assert not missing.needed
    assert part.grade is Grade.CLEAR


@pytest.mark.parametrize(
    ("end", "kilonewtons", "verdict"), [("clips", 18.46, Verdict.WITHIN), ("swaged", 21.92, Verdict.WITHIN)]
)
def test_what_the_ends_keep(end: str, kilonewtons: float, verdict: Verdict) -> None:
    """C21: 80 % with clips, 95 % swaged, reckoned there from the rounded 23.07; 30 CFR 75.1435 asks for 80 %."""
    evidence = wire(*CLEAN, end=fact(choice=end))
    assert shown(check_of(plugin, evidence, "steering_wire.breaking_with_end.worked"), "kN") == pytest.approx(
        kilonewtons, abs=0.01
    )
    assert check_of(plugin, evidence, "steering_wire.end_kept.mine").verdict is verdict


def test_load_allowed() -> None:
    """C19: 25 % of C15 is 5.77 kN; C20: a fifth is 4.61 kN."""
    check = check_of(plugin, wire(*CLEAN), "steering_wire.load_allowed.worked")
    assert shown(check, "kN") == pytest.approx(5.77, abs=0.005)
    general = next(each for each in plugin.limits if each.id == "steering_wire.load_share.general")
    assert general.value / 100 * 23.066 == pytest.approx(4.61, abs=0.005)


def pulled(newtons: float, without: str = "") -> Evidence:
    """The wire of C15 with the wheel and chain of D1, one of its needs left out."""
    needed = {"wheel_diameter": fact(900, "mm"), "teeth": fact(13), "chain_pitch": fact(12.7, "mm")}
    needed.pop(without, None)
    spots = [*CLEAN, spot("rim_force", newtons, "N")]
    return known(plugin, facts=WIRE_6, spots=spots, observed=best(plugin), needed=needed)


def test_margin_over_a_measured_pull() -> None:
    """D1: 100 N at the rim pull 1,695.9 N; D8: on C15 that is a factor of 13.6."""
    evidence = pulled(100)
    assert shown(check_of(plugin, evidence, "steering_wire.wire_pull.worked"), "N") == pytest.approx(
        1695.9, abs=0.05
    )
    assert shown(check_of(plugin, evidence, "steering_wire.factor.worked"), "1") == pytest.approx(
        13.6, abs=0.05
    )
    assert check_of(plugin, evidence, "steering_wire.load_share.steering").verdict is Verdict.WITHIN


@pytest.mark.parametrize(("newtons", "steering", "general", "grade"), [
    (270, Verdict.WITHIN, Verdict.WITHIN, Grade.CLEAR),
    (275, Verdict.WITHIN, Verdict.BEYOND, Grade.CLEAR),
    (339, Verdict.WITHIN, Verdict.BEYOND, Grade.CLEAR),
    (342, Verdict.BEYOND, Verdict.BEYOND, Grade.PLAN),
])  # fmt: skip
def test_both_sides_of_the_load_share(
    newtons: float, steering: Verdict, general: Verdict, grade: Grade
) -> None:
    """20 % of 23.07 kN is 4.61 kN, 272 N at the rim; 25 % is 5.77 kN, 340 N. A design check stops at `plan`."""
    evidence = pulled(newtons)
    assert check_of(plugin, evidence, "steering_wire.load_share.steering").verdict is steering
    assert check_of(plugin, evidence, "steering_wire.load_share.general").verdict is general
    assert graded(plugin, evidence).grade is grade


@pytest.mark.parametrize("missing", ["wheel_diameter", "teeth", "chain_pitch"])
def test_a_missing_need_names_its_input(missing: str) -> None:
    part = graded(plugin, pulled(100, without=missing))
    assert not any(check.subject == "load_share" for check in part.checks)
    assert any("pull in the wire" in text for text in part.unmet)


@pytest.mark.parametrize(("spots", "observed"), [
    ([spot("broken_wires", 1)], {}),
    ([*CLEAN, spot("outer_wear", 40, "%")], {}),
    ([*CLEAN, spot("wire_diameter", 5.5, "mm", 0.05)], {}),
    (CLEAN, {"shape": "kinked"}),
    (CLEAN, {"corrosion": "pitted"}),
    (CLEAN, {"ends": "slipped"}),
])  # fmt: skip
def test_damage_withholds_the_margin(spots: list[MeasurementPoint], observed: dict[str, str]) -> None:
    """design.md 5: a strength margin is for the undamaged part."""
    part = graded(plugin, known(plugin, facts=WIRE_6, spots=spots, observed=best(plugin, **observed)))
    withheld = [check for check in part.checks if check.subject == "breaking_force"]
    assert [(check.verdict, check.said, check.value) for check in withheld] == [
        (Verdict.NOT_APPLICABLE, "not applicable: damaged", None)
    ]
    assert not any(
        check.subject in {"load_allowed", "breaking_with_end", "load_share", "factor"}
        for check in part.checks
    )


@pytest.mark.parametrize(("percent", "verdict", "grade"), [
    (33, Verdict.WITHIN, Grade.CLEAR), (34, Verdict.BEYOND, Grade.FIRST), (45, Verdict.BEYOND, Grade.FIRST),
])  # fmt: skip
def test_outer_wear(percent: float, verdict: Verdict, grade: Grade) -> None:
    """One third of the wire: 30 CFR 56.19024(c); 40 to 50 % of AC 43.13-1B 7-149 g is for information."""
    evidence = wire(*CLEAN, spot("outer_wear", percent, "%"))
    assert check_of(plugin, evidence, "steering_wire.outer_wear.third").verdict is verdict
    assert graded(plugin, evidence).grade is grade


@pytest.mark.parametrize(("number", "adjuster", "grade"), [
    (3, "turnbuckle", Grade.CLEAR), (4, "turnbuckle", Grade.PLAN), (4, "eyebolts", Grade.CLEAR),
])  # fmt: skip
def test_threads_showing(number: int, adjuster: str, grade: Grade) -> None:
    """F10: three threads meet AC 43.13-1B 7-166, four do not; the rule speaks of turnbuckles only."""
    spots = [*CLEAN, spot("threads_showing", number, side="port")]
    assert graded(plugin, wire(*spots, adjuster=fact(choice=adjuster))).grade is grade


@pytest.mark.parametrize(("size", "clips", "grade"), [
    (fact(0.25, "in"), 2, Grade.CLEAR), (fact(0.25, "in"), 1, Grade.FIRST), (fact(0.375, "in"), 2, Grade.FIRST), (fact(0.375, "in"), 3, Grade.CLEAR),
])  # fmt: skip
def test_clips(size: Fact, clips: int, grade: Grade) -> None:
    """Next whole number of 3 D + 1: 1.75 gives 2 for 1/4 in, 2.125 gives 3 for 3/8 in."""
    spots = [*CLEAN, spot("clips", clips, at="port end")]
    assert graded(plugin, wire(*spots, diameter=size, end=fact(choice="clips"))).grade is grade


@pytest.mark.parametrize(
    ("fitted", "grade"), [("2021-05-13", Grade.CLEAR), ("2021-05-10", Grade.PLAN), ("2012", Grade.PLAN)]
)
def test_age(fitted: str, grade: Grade) -> None:
    """Life expectancy 5 years; age never grades worse than `plan`, and does not score."""
    part = graded(plugin, wire(*CLEAN, installed=fact(date=fitted)))
    assert part.grade is grade


def test_the_sides_are_a_pair() -> None:
    spots = [spot("take_up", 12, "mm", 1, side="port"), spot("take_up", 31, "mm", 1, side="starboard")]
    evidence = wire(*CLEAN, *spots)
    check = check_of(plugin, evidence, "steering_wire.take_up_difference.worked")
    assert shown(check, "mm") == pytest.approx(19)
    assert graded(plugin, evidence).grade is Grade.CLEAR
    one = wire(*CLEAN, spots[0])
    assert not any(each.subject == "take_up_difference" for each in graded(plugin, one).checks)


def test_more_wear_is_never_better() -> None:
    """Moving one reading towards its limit never improves grade or score."""
    for quantity, numbers, unit in (
        ("wire_diameter", (6.4, 6.0, 5.8, 5.72, 5.7, 5.66, 5.5, 5.0), "mm"),
        ("outer_wear", (0, 10, 28, 33, 36, 60), "%"),
        ("broken_wires", (0, 1, 2, 9), ""),
    ):
        expanded = {"mm": 0.05, "%": 5}.get(unit, 0)
        others = [] if quantity == "broken_wires" else CLEAN
        parts = [graded(plugin, wire(*others, spot(quantity, number, unit, expanded))) for number in numbers]
        ranks = [part.grade.rank for part in parts]
        scores = [part.score for part in parts if part.score is not None]
        assert ranks == sorted(ranks), quantity
        assert len(scores) == len(parts)
        assert scores == sorted(scores, reverse=True), quantity


def test_figures_from_memory_lead_no_further_than_plan() -> None:
    assert {each.id: each.governs for each in plugin.limits if each.source.status == "MEMORY"} == {
        "steering_wire.loss_of_nominal.crane_iso": False,
        "steering_wire.take_up.little": True,
        "steering_wire.take_up.sides": True,
        "steering_wire.wire_diameter.sides": True,
    }
    governing = {each.then for each in plugin.limits if each.source.status == "MEMORY" and each.governs}
    assert governing == {Grade.PLAN, Grade.WATCH}
