"""Screws, chainplates, terminals and spars through their plugins: cases W7 to W9, W11, W34, W35 of the reference file.

Sources: trade pages on chainplates, clevis pins and the galvanic series; boat handbook p. 181; FAA AC 43.13-1B 7-179.
Also what is said when a part aloft was looked at from deck.
"""

from __future__ import annotations

import pytest

from reporter.grade.component import judge
from reporter.model.evidence import Evidence
from reporter.model.findings import Done, Examined, Fact, Observed
from reporter.model.plugin import Plugin
from reporter.model.terms import Extent, Grade, SourceStatus, Verdict
from tests.plugins.evidence import REGISTRY, TEMPLATE, best, check_of, fact, graded, known, shown, spot

backstay, bobstay, boom, chainplate, mast = (
    REGISTRY.plugin(kind) for kind in ("backstay", "bobstay", "boom", "chainplate", "mast")
)
screw, running_backs, spreader, terminal = (
    REGISTRY.plugin(kind) for kind in ("rigging_screw", "running_backs", "spreader", "terminal")
)
RIG = [plugin for plugin in REGISTRY.plugins.values() if plugin.system == "rig"]
ALOFT = [plugin for plugin in RIG if plugin.observation("looked")]
STEEL = {"plate_material": fact(choice="stainless_300")}


def plate(thickness: float, width: float, hole: float, *more: tuple[str, float]) -> Evidence:
    """A chainplate with its sizes in inches."""
    sizes = (("plate_thickness", thickness), ("plate_width", width), ("hole_diameter", hole), *more)
    return known(chainplate, facts=STEEL, spots=[spot(name, size, "in") for name, size in sizes])


def strength(evidence: Evidence, name: str) -> float:
    """One of the sums in pounds-force."""
    return shown(check_of(chainplate, evidence, f"chainplate.{name}.worked"), "lbf")


def test_net_section() -> None:
    """W7: 0.38 × (1.5 − 0.688) = 0.3086 in²; 9,257 lbf to yield, 23,142 lbf to break (the page rounds to 9,200)."""
    evidence = plate(0.38, 1.5, 0.688)
    assert shown(check_of(chainplate, evidence, "chainplate.net_section.worked"), "in²") == pytest.approx(
        0.3086, abs=1e-4
    )
    assert strength(evidence, "net_yield") == pytest.approx(9257, abs=1)
    assert strength(evidence, "net_ultimate") == pytest.approx(23_142, abs=1)


def test_drilling_the_hole_out() -> None:
    """W7: 0.375 in² (11,250 lbf) falls by 19 % to 9,141 lbf. The text says 5/8 in, but its 0.305 in² belong to 11/16 in."""
    before, after = (
        strength(plate(0.375, 1.5, 0.5), "net_yield"),
        strength(plate(0.375, 1.5, 0.6875), "net_yield"),
    )
    assert before == pytest.approx(11_250, abs=1)
    assert 1 - after / before == pytest.approx(0.1875, abs=0.001)
    assert after == pytest.approx(9141, abs=1)


def test_handbook_row_for_quarter_inch_wire() -> None:
    """W8: 16,406 lbf = 2.00 × 8,200 is over 1.5; tear-out 12,656; pins 17,672 and 9,940; bearing 65.6 ksi."""
    evidence = plate(0.25, 1.375, 0.5, ("edge_distance", 0.8125), ("pin_diameter", 0.5))
    evidence = evidence.model_copy(update={"facts": {**STEEL, "wire_strength": fact(8200, "lbf")}})
    assert strength(evidence, "net_ultimate") == pytest.approx(16_406, abs=1)
    assert strength(evidence, "net_yield") == pytest.approx(6563, abs=1)
    assert strength(evidence, "tear_out") == pytest.approx(12_656, abs=1)
    assert strength(evidence, "pin_shear") == pytest.approx(17_672, abs=2)
    assert shown(check_of(chainplate, evidence, "chainplate.pin_pressure.worked"), "psi") == pytest.approx(
        65_600, abs=10
    )
    over = check_of(chainplate, evidence, "chainplate.over_wire.handbook")
    assert over.notes == ("the weakest: strength against tearing out of the end",)
    assert shown(over, "1") == pytest.approx(12_656 / 8200, abs=1e-3)
    assert over.verdict is Verdict.WITHIN
    thin = plate(0.25, 1.375, 0.5, ("pin_diameter", 0.375))
    assert strength(thin, "pin_shear") == pytest.approx(9940, abs=1)


@pytest.mark.parametrize(
    ("wire", "verdict", "grade"),
    [(10_900, Verdict.WITHIN, Grade.CLEAR), (11_000, Verdict.BEYOND, Grade.PLAN)],
)
def test_chainplate_over_wire_is_design(wire: float, verdict: Verdict, grade: Grade) -> None:
    """16,406 / 1.5 = 10,937 lbf of wire is where the handbook's 1.5 is met."""
    evidence = plate(0.25, 1.375, 0.5)
    observed = {name: (Observed(choice=choice),) for name, choice in best(chainplate).items()}
    component = evidence.component.model_copy(update={"observed": observed})
    evidence = evidence.model_copy(
        update={
            "facts": {**STEEL, "wire_strength": fact(wire, "lbf")},
            "observed": observed,
            "component": component,
        }
    )
    assert check_of(chainplate, evidence, "chainplate.over_wire.handbook").verdict is verdict
    assert graded(chainplate, evidence).grade is grade


def test_plate_strength_is_withheld_once_damaged_and_never_asked_of_anybody() -> None:
    evidence = plate(0.25, 1.375, 0.5).model_copy(update={"damaged": True})
    part = graded(chainplate, evidence)
    assert [check.said for check in part.checks if check.id.startswith("chainplate.over_wire")] == [
        "not applicable: damaged"
    ]
    assert not [check for check in part.checks if check.subject == "net_yield"]
    assert not [
        each
        for each in graded(chainplate, known(chainplate)).missing
        if each.id in {"over_wire", "wire_strength"}
    ]


def test_slack_hole() -> None:
    """W9: hole 3/8 in on a pin of 5/16 in is 20 % over: 14.3 % of the strength lost, past 30 CFR 56.19024(h)."""
    evidence = known(
        chainplate, spots=[spot("hole_diameter", 0.375, "in"), spot("pin_diameter", 0.3125, "in")]
    )
    check = check_of(chainplate, evidence, "chainplate.slack_loss.mine")
    assert shown(check, "%") == pytest.approx(14.3, abs=0.05)
    assert check.grade is Grade.FIRST


@pytest.mark.parametrize(("hole", "verdict"), [(0.515, Verdict.WITHIN), (0.517, Verdict.BEYOND)])
def test_hole_over_pin(hole: float, verdict: Verdict) -> None:
    """1/64 in over the pin is the wider end of the published fit."""
    evidence = known(chainplate, spots=[spot("hole_diameter", hole, "in"), spot("pin_diameter", 0.5, "in")])
    assert check_of(chainplate, evidence, "chainplate.hole_over_pin.fit").verdict is verdict


def test_a_hole_smaller_than_its_pin_is_a_question() -> None:
    evidence = known(chainplate, spots=[spot("hole_diameter", 12, "mm"), spot("pin_diameter", 12.7, "mm")])
    assert "mismeasured" in next(
        each.why for each in graded(chainplate, evidence).missing if each.id == "hole_over_pin"
    )


@pytest.mark.parametrize(("threads", "verdict"), [(3, Verdict.WITHIN), (4, Verdict.BEYOND)])
def test_threads_showing(threads: float, verdict: Verdict) -> None:
    """W11: three are accepted, four are not, at either end; written for aircraft and for information."""
    spots = [spot("threads_visible", 1, at="upper"), spot("threads_visible", threads, at="lower")]
    evidence = known(screw, spots=spots, observed=best(screw))
    checks = [check for check in graded(screw, evidence).checks if check.subject == "threads_visible"]
    assert max(checks, key=lambda check: check.verdict is Verdict.BEYOND).verdict is verdict
    assert not any(check.governs for check in checks)


@pytest.mark.parametrize(("engaged", "grade"), [(19, Grade.CLEAR), (18, Grade.CLEAR), (17, Grade.FIRST)])
def test_thread_engaged(engaged: float, grade: Grade) -> None:
    """One and a half diameters of 12 mm are 18 mm: customary, from memory, and said to be so."""
    spots = [
        spot("thread_engaged", 30, "mm", at="cap port, upper"),
        spot("thread_engaged", engaged, "mm", at="cap port, lower"),
    ]
    evidence = known(screw, facts={"thread": fact(12, "mm")}, spots=spots, observed=best(screw))
    part = graded(screw, evidence)
    assert part.grade is grade
    worst = [check for check in part.checks if check.subject == "engaged_ratio"]
    assert all(check.limit and check.limit.source.status is SourceStatus.MEMORY for check in worst)
    apart = next(check for check in part.checks if check.subject == "end_difference")
    assert shown(apart, "mm") == pytest.approx(30 - engaged)
    assert apart.at == "cap port"


def test_engagement_without_a_thread_is_a_question() -> None:
    part = graded(screw, known(screw, spots=[spot("thread_engaged", 10, "mm")]))
    assert "engaged_ratio" in {each.id for each in part.missing}


def test_less_thread_is_never_better() -> None:
    ranks = [
        graded(
            screw,
            known(
                screw,
                facts={"thread": fact(12, "mm")},
                spots=[spot("thread_engaged", engaged, "mm", 1)],
                observed=best(screw),
            ),
        ).grade.rank
        for engaged in range(30, 5, -1)
    ]
    assert ranks == sorted(ranks)


@pytest.mark.parametrize(
    ("spar", "fitting", "millivolts", "suffers"),
    [
        ("aluminium", "mild_steel", 30, ""), ("aluminium", "stainless", 270, "aluminium wastes"),
        ("aluminium", "brass", 370, "aluminium wastes"), ("mild_steel", "bronze", 530, "mild or galvanised steel wastes"),
    ],
)  # fmt: skip
@pytest.mark.parametrize("plugin", [mast, boom, spreader], ids=lambda plugin: plugin.kind)
def test_two_metals_are_a_caution(
    plugin: Plugin, spar: str, fitting: str, millivolts: float, suffers: str
) -> None:
    """W34: −820 against −790, −550, −450 mV; from 200 mV on the less noble one suffers. Never a grade."""
    facts = {"spar_metal": fact(choice=spar), "fitting_metal": fact(choice=fitting)}
    observed = best(plugin, looked="aloft") if plugin.observation("looked") else best(plugin)
    part = graded(plugin, known(plugin, facts=facts, observed=observed))
    assert shown(
        next(check for check in part.checks if check.subject == "metal_pair"), "mV"
    ) == pytest.approx(millivolts)
    assert part.grade is Grade.CLEAR
    assert suffers in part.remarks[0] if suffers else "less than the 200\u00a0mV" in part.remarks[0]


def test_one_metal_or_laminate_is_no_pair() -> None:
    for spar in ("stainless", "carbon"):
        facts = {"spar_metal": fact(choice=spar), "fitting_metal": fact(choice="stainless")}
        assert graded(mast, known(mast, facts=facts)).remarks == ()


@pytest.mark.parametrize(
    ("torque", "word"),
    [(5.3, "not more than the widest"), (8.8, "not more than the widest"), (9, "more than every one")],
)
def test_bolt_torque_keeps_its_conditions(torque: float, word: str) -> None:
    """W35: M6 A4-70 5.3 N·m at 80 % lubricated, 5.9 to 8.8 N·m at 90 %; 9 N·m is over every one of them."""
    evidence = known(
        chainplate, facts={"bolt_thread": fact(choice="m6")}, spots=[spot("bolt_torque", torque, "N·m")]
    )
    remark = graded(chainplate, evidence).remarks[0]
    assert f": {word} of the published" in remark
    assert "80 % of yield, lubricated" in remark
    assert "friction 0.1 to 0.2" in remark


@pytest.mark.parametrize(
    "kind", ["mast", "spreader", "terminal", "furler", "rod", "running_backs", "standing_wire", "backstay"]
)
def test_from_deck_is_part_seen(kind: str) -> None:
    """A part aloft that was looked at from deck is never clear, and the report asks for somebody to go up."""
    plugin = REGISTRY.plugins[kind]
    assert plugin in ALOFT
    spots = [spot("broken_wires", 0)] if plugin.quantity("broken_wires") else []
    facts: dict[str, Fact] = {"pendant": fact(choice="wire")} if kind == "running_backs" else {}
    others = {"cover": "bare"} if kind == "standing_wire" else {}
    far = graded(
        plugin, known(plugin, facts=facts, spots=spots, observed=best(plugin, looked="from_deck", **others))
    )
    assert far.grade is Grade.UNSEEN
    assert "aloft or with the mast down" in far.capped[0]
    assert any("from close by" in action.what for action in far.actions)
    for near in ("aloft", "mast_down"):
        part = graded(
            plugin, known(plugin, facts=facts, spots=spots, observed=best(plugin, looked=near, **others))
        )
        assert part.grade is Grade.CLEAR, near


def test_every_rig_part_with_an_upper_end_asks_from_where() -> None:
    assert {plugin.kind for plugin in RIG} - {plugin.kind for plugin in ALOFT} == {
        "rigging_screw", "chainplate", "mast_foot", "boom", "bobstay",
    }  # fmt: skip
    assert all(
        observation.required == "needed" for plugin in ALOFT if (observation := plugin.observation("looked"))
    )


def test_the_lesser_of_two_statements_is_taken() -> None:
    """Said aloft, but examined from deck with binoculars: part seen."""
    evidence = known(mast, observed=best(mast, looked="aloft"))
    said = Examined(extent=Extent.SEEN, included=("all",), how=("from_deck", "binoculars"))
    evidence = evidence.model_copy(
        update={"component": evidence.component.model_copy(update={"examined": said})}
    )
    assert graded(mast, evidence).grade is Grade.UNSEEN


def test_a_terminal_within_reach_needs_nobody_aloft() -> None:
    assert (
        graded(terminal, known(terminal, observed=best(terminal, looked="within_reach"))).grade is Grade.CLEAR
    )


def test_a_backstay_without_insulators_has_nothing_aloft() -> None:
    """Known to have none, it is asked nothing aloft; not known, the question stays open, as it does with one."""
    gear = {"adjuster_seen": "works", "ends": "firm"}
    bare = {"insulators": fact(choice="0")}
    part = graded(backstay, known(backstay, facts=bare, observed=gear))
    assert (part.grade, [each.id for each in part.missing]) == (Grade.CLEAR, [])
    deck = gear | {"looked": "from_deck"}
    assert graded(backstay, known(backstay, facts=bare, observed=deck)).grade is Grade.CLEAR
    none_seen = graded(backstay, known(backstay, observed=deck | {"insulators": "none"}))
    assert [each.id for each in none_seen.missing] == ["looked"]
    one = {"insulators": fact(choice="1")}
    for facts in ({}, one):
        open_still = graded(backstay, known(backstay, facts=facts, observed=gear))
        assert {each.id for each in open_still.missing} == {"looked", "insulators"}
        assert open_still.grade is Grade.UNSEEN
    far = known(backstay, facts=one, observed=best(backstay, looked="from_deck"))
    assert graded(backstay, far).grade is Grade.UNSEEN


def test_a_bobstay_seen_from_deck_is_part_seen() -> None:
    assert graded(bobstay, known(bobstay, observed=best(bobstay, seen_from="dinghy"))).grade is Grade.CLEAR
    assert (
        graded(bobstay, known(bobstay, observed=best(bobstay, seen_from="from_deck"))).grade is Grade.UNSEEN
    )


@pytest.mark.parametrize(
    ("plugin", "detail", "choice"), [(running_backs, "pendant", "wire"), (bobstay, "made_of", "wire")]
)
def test_any_broken_wire_of_a_backstay_or_bobstay_stops(plugin: Plugin, detail: str, choice: str) -> None:
    for count, grade in ((0, Grade.CLEAR), (1, Grade.STOP), (2, Grade.STOP), (3, Grade.STOP)):
        near = {"looked": "aloft"} if plugin is running_backs else {"seen_from": "ashore"}
        part = graded(
            plugin,
            known(
                plugin,
                facts={detail: fact(choice=choice)},
                spots=[spot("broken_wires", count)],
                observed=best(plugin, **near),
            ),
        )
        assert part.grade is grade


@pytest.mark.parametrize(
    "plugin", [terminal, screw, chainplate, mast, spreader], ids=lambda plugin: plugin.kind
)
def test_any_crack_stops(plugin: Plugin) -> None:
    """Yacht handbook: a cracked swage is replaced; the same for what else holds a stay."""
    cracked = [
        (observation.id, choice.id)
        for observation in plugin.observations
        for choice in observation.choices
        if choice.id == "cracked" and "wood" not in choice.words
    ]
    assert cracked
    for ident, choice in cracked:
        part = graded(plugin, known(plugin, observed=best(plugin, **{ident: choice})))
        assert part.grade is Grade.STOP, ident


@pytest.mark.parametrize(
    "plugin", [plugin for plugin in RIG if plugin.load_path], ids=lambda plugin: plugin.kind
)
def test_work_done_is_not_clear_until_proved(plugin: Plugin) -> None:
    evidence = known(plugin, observed=best(plugin), done=(Done(what="taken apart"),))
    part = judge(plugin, evidence, plugin.assess(evidence), TEMPLATE)
    assert part.grade is Grade.FIRST


@pytest.mark.parametrize("plugin", RIG, ids=lambda plugin: plugin.kind)
def test_stations_are_the_systems_own(plugin: Plugin) -> None:
    assert plugin.station in {station.id for station in REGISTRY.systems["rig"].stations}
