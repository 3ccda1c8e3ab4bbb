"""What the installed kinds declare of new parts and of the two sides: a miscount is unseen, an uneven pair is told.

Figures by hand beside each case. Sources: DIN 766 (eleven links of new chain), AC 43.13-1B Table 7-3 (new cable over its
nominal size), EN 12385 from memory; the limits between the sides are common practice.
"""

from __future__ import annotations

import pytest

from reporter.contract import Fact, Grade, Plugin, Remedy, Verdict
from reporter.model.assessment import Check, Graded
from reporter.model.evidence import MeasurementPoint
from reporter.model.findings import Component
from reporter.model.job import Reading
from tests.grade.cases import grades, job
from tests.plugins.evidence import REGISTRY, best, fact, graded, known, spot

Facts = dict[str, Fact]
CHAIN: Facts = {"size": fact(choice="08b_1")}
WIRE: Facts = {"diameter": fact(6, "mm"), "construction": fact(choice="7x19")}
BASELINE: Facts = {**WIRE, "baseline": fact(6.2, "mm")}
LINK: Facts = {"size": fact(10, "mm")}
CABLE: Facts = {**LINK, "standard": fact(choice="din_766")}
ROPE: Facts = {"diameter": fact(10, "mm"), "construction": fact(choice="single_braid")}


def spots(**told: tuple[float, str, float]) -> list[MeasurementPoint]:
    return [spot(ident, *each) for ident, each in told.items()]


def over(pitches: int) -> list[MeasurementPoint]:
    """262.9 mm over so many pitches of 12.7 mm."""
    return spots(span=(262.9, "mm", 0.5), pitches=(pitches, "", 0))


NEW = [
    # kind, of what, facts, readings, unseen, in per cent better than unworn ± U against the allowance
    ("chain", "elongation", CHAIN, over(21), True),  # 1 − 262.9/266.7 = 1.4 ± 0.2 against 0
    ("chain", "elongation", CHAIN, over(20), False),  # 3.5 % long
    ("steering_wire", "loss_of_nominal", WIRE, spots(wire_diameter=(7.5, "mm", 0.1)), True),  # 25 ± 1.7 against 10
    ("steering_wire", "loss_of_nominal", WIRE, spots(wire_diameter=(6.5, "mm", 0.1)), False),  # 8.3, as 3/16 in: 9.6
    ("steering_wire", "loss_of_baseline", BASELINE, spots(wire_diameter=(6.4, "mm", 0.1)), True),  # 3.2 ± 1.6 against 0
    ("steering_wire", "loss_of_baseline", BASELINE, spots(wire_diameter=(6.2, "mm", 0.1)), False),
    ("standing_wire", "loss_of_nominal", WIRE, spots(wire_diameter=(7.5, "mm", 0.1)), True),  # 25 ± 1.7 against 5
    ("standing_wire", "loss_of_nominal", WIRE, spots(wire_diameter=(6.3, "mm", 0.1)), False),  # 5
    ("standing_wire", "loss_of_baseline", BASELINE, spots(wire_diameter=(6.4, "mm", 0.1)), True),
    ("anchor_chain", "wear", LINK, spots(worn=(10.8, "mm", 0.1)), True),  # 8 ± 1 against 5
    ("anchor_chain", "wear", LINK, spots(worn=(10.5, "mm", 0.1)), False),
    ("anchor_chain", "stretch", CABLE, spots(eleven=(280, "mm", 1)), True),  # ten links of 28 counted as eleven: 9.1
    ("anchor_chain", "stretch", CABLE, spots(eleven=(308 - 1.9, "mm", 0)), False),  # DIN 766: new chain may be so short
    ("shackle", "wear", LINK, spots(worn=(11, "mm", 0.1)), True),
    ("shackle", "wear", LINK, spots(worn=(10.5, "mm", 0.1)), False),
    ("swivel", "wear", LINK, spots(worn=(11, "mm", 0.1)), True),
    ("bobstay", "wear", {"diameter": fact(10, "mm")}, spots(link_diameter=(11, "mm", 0.1)), True),
    ("bobstay", "wear", {"diameter": fact(10, "mm")}, spots(link_diameter=(10.5, "mm", 0.1)), False),
    ("halyard", "diameter_loss", ROPE, spots(rope_diameter=(11.8, "mm", 0.4)), True),  # 18 ± 4 against 10
    ("halyard", "diameter_loss", ROPE, spots(rope_diameter=(11.0, "mm", 0.4)), False),
    ("sheet", "diameter_loss", ROPE, spots(rope_diameter=(11.8, "mm", 0.4)), True),
    ("rode", "diameter_loss", ROPE, spots(rope_diameter=(11.8, "mm", 0.4)), True),
]  # fmt: skip


@pytest.mark.parametrize(("kind", "subject", "facts", "readings", "unseen"), NEW)
def test_better_than_new_is_unseen_and_to_be_taken_again(
    kind: str, subject: str, facts: Facts, readings: list[MeasurementPoint], unseen: bool
) -> None:
    plugin = REGISTRY.plugin(kind)
    found = graded(plugin, known(plugin, facts=facts, spots=readings, observed=best(plugin)))
    speaking = [each for each in found.checks if each.subject == subject and each.governs]
    assert speaking
    assert {each.verdict is Verdict.UNSEEN for each in speaking} == {unseen}
    measure = plugin.measure(subject)
    assert measure
    assert measure.recheck
    again = [each for each in found.actions if measure.recheck in each.what]
    assert [each.remedy for each in again] == [Remedy.TEST] * unseen
    if unseen:
        assert found.grade is not Grade.CLEAR


def part(kind: str, ident: str = "one", group: str = "") -> Component:
    plugin = REGISTRY.plugin(kind)
    observed = best(plugin)
    return Component.model_validate(
        {
            "id": ident,
            "kind": kind,
            "group": group,
            "examined": {"extent": "seen", "included": [each.id for each in plugin.examination]},
            "observed": {name: [{"choice": choice}] for name, choice in observed.items()},
        }
    )


def reading(
    quantity: str, number: float, unit: str, expanded: float, *, side: str = "", of: str = "one", at: str = ""
) -> Reading:
    value = spot(quantity, number, unit, expanded).value
    return Reading.model_validate(
        {"component": of, "quantity": quantity, "side": side, "at": at, "value": value}
    )


def compared(found: Graded) -> list[Check]:
    return [each for each in found.checks if each.limit and each.limit.between]


def both(kind: str, quantity: str, numbers: tuple[float, float], unit: str, expanded: float = 0) -> Graded:
    """One part that was read on both sides."""
    sides = zip(("port", "starboard"), numbers, strict=True)
    readings = tuple(reading(quantity, each, unit, expanded, side=side) for side, each in sides)
    return grades(job(part(kind), readings=readings), REGISTRY.plugin(kind)).components[0]


@pytest.mark.parametrize(
    ("kind", "quantity", "numbers", "unit", "expanded", "verdict", "grade"),
    [
        ("quadrant", "rudder_angle", (20, 36), "°", 1, Verdict.BEYOND, Grade.PLAN),  # 16 ± 1.4 against 3
        ("quadrant", "rudder_angle", (36, 20), "°", 1, Verdict.BEYOND, Grade.PLAN),
        ("quadrant", "rudder_angle", (35, 36), "°", 1, Verdict.WITHIN, Grade.CLEAR),  # 1 ± 1.4
        ("quadrant", "rudder_angle", (34, 36), "°", 1, Verdict.CLOSE, Grade.WATCH),  # 2 ± 1.4
        (
            "emergency_tiller",
            "angle_reached",
            (30, 21),
            "°",
            2,
            Verdict.BEYOND,
            Grade.WATCH,
        ),  # 9 ± 2.8 against 5
        ("emergency_tiller", "angle_reached", (30, 28), "°", 2, Verdict.WITHIN, Grade.CLEAR),
        ("chain", "links_left", (6, 8), "links", 0, Verdict.BEYOND, Grade.WATCH),  # 2 against 1
        ("chain", "links_left", (6, 7), "links", 0, Verdict.WITHIN, Grade.CLEAR),
        ("steering_wire", "take_up", (34, 21), "mm", 1, Verdict.BEYOND, Grade.WATCH),  # 13 ± 1.4 against 10
        ("steering_wire", "take_up", (34, 27), "mm", 1, Verdict.WITHIN, Grade.CLEAR),
    ],
)
def test_port_against_starboard_of_one_part(
    kind: str,
    quantity: str,
    numbers: tuple[float, float],
    unit: str,
    expanded: float,
    verdict: Verdict,
    grade: Grade,
) -> None:
    found = both(kind, quantity, numbers, unit, expanded)
    (check,) = compared(found)
    assert (check.verdict, check.grade) == (verdict, grade)
    if grade is not Grade.CLEAR:
        assert found.grade.rank >= grade.rank


def pair(plugin: Plugin, facts: Facts, *readings: Reading) -> dict[str, list[Check]]:
    """The checks between the sides of two parts, port and starboard."""
    parts = [part(plugin.kind, ident, ident) for ident in ("port", "starboard")]
    told = {each.id: facts for each in parts}
    done = grades(job(*parts, readings=readings, facts=told), plugin)
    return {each.component.id: compared(each) for each in done.components}


@pytest.mark.parametrize(
    ("kind", "quantity", "limit", "figures", "unit", "verdict"),
    [
        # 20 % and 15 % of 40 kN: a quarter less, ± 5 %; 8.0 and 7.9 kN: 1.3 ± 3.5 % against 10
        ("standing_wire", "gauge_tension", "tension", (8.0, 6.0), "kN", Verdict.BEYOND),
        ("standing_wire", "gauge_tension", "tension", (8.0, 7.9), "kN", Verdict.WITHIN),
        ("rod", "gauge_tension", "tension", (8.0, 6.0), "kN", Verdict.BEYOND),
        # 6.0 and 5.6 mm: 6.7 ± 1.2 % against 3; 6.0 and 5.95 mm: 0.8 ± 1.2 %
        ("standing_wire", "wire_diameter", "wire_diameter", (6.0, 5.6), "mm", Verdict.BEYOND),
        ("steering_wire", "wire_diameter", "wire_diameter", (6.0, 5.6), "mm", Verdict.BEYOND),
        ("steering_wire", "wire_diameter", "wire_diameter", (6.0, 5.95), "mm", Verdict.WITHIN),
        ("steering_wire", "take_up", "take_up", (34, 21), "mm", Verdict.BEYOND),
    ],
)  # fmt: skip
def test_two_parts_that_are_opposite_numbers(
    kind: str, quantity: str, limit: str, figures: tuple[float, float], unit: str, verdict: Verdict
) -> None:
    plugin = REGISTRY.plugin(kind)
    facts = {"role": fact(choice="cap_shroud"), "diameter": fact(6, "mm"), "marked_strength": fact(40, "kN")}
    expanded = {"kN": 0.2, "mm": 0.05}[unit]
    # An adjuster is read by its side, as the kind asks; a wire by the part that it is.
    readings = [
        reading(quantity, each, unit, expanded, of=side, side=side if quantity == "take_up" else "")
        for side, each in zip(("port", "starboard"), figures, strict=True)
    ]
    found = pair(plugin, facts, *readings)
    for checks in found.values():
        (check,) = checks
        assert check.limit
        assert check.limit.id == f"{kind}.{limit}.sides"
        assert check.verdict is verdict


def test_a_part_read_on_both_sides_is_no_one_side_of_another() -> None:
    """Twin helms, each with both its adjusters: every helm is compared within itself, and with no other."""
    readings = [
        reading("take_up", number, "mm", 1, of=of, side=side)
        for of, side, number in (
            ("port", "port", 30),
            ("port", "starboard", 31),
            ("starboard", "port", 60),
            ("starboard", "starboard", 61),
        )
    ]
    found = pair(REGISTRY.plugin("steering_wire"), {"diameter": fact(6, "mm")}, *readings)
    assert [[check.verdict for check in checks] for checks in found.values()] == [[Verdict.WITHIN]] * 2


@pytest.mark.parametrize(("role", "told"), [("cap_shroud", 1), ("forestay", 0), ("other", 0)])
def test_only_stays_that_come_in_pairs_are_compared(role: str, told: int) -> None:
    """Two stays of the role "other" have nothing in common, and twin forestays are set up as the sail asks."""
    plugin = REGISTRY.plugin("standing_wire")
    facts = {"role": fact(choice=role), "diameter": fact(6, "mm"), "marked_strength": fact(40, "kN")}
    readings = [
        reading("gauge_tension", kn, "kN", 0.2, of=side) for side, kn in (("port", 8.0), ("starboard", 6.0))
    ]
    assert [len(checks) for checks in pair(plugin, facts, *readings).values()] == [told] * 2


@pytest.mark.parametrize(
    ("kind", "size", "reading_of"),
    [("anchor_chain", "size", "worn"), ("bobstay", "diameter", "link_diameter")],
)
@pytest.mark.parametrize(("left", "grade"), [(88, Grade.FIRST), (85, Grade.STOP)])
def test_twelve_and_fifteen_per_cent_or_more_include_the_figure(
    kind: str, size: str, reading_of: str, left: float, grade: Grade
) -> None:
    """Class naval survey guidance 12.1.1 and 12.1.2, "or more": 10.0 mm worn to 8.8 mm is 12 %, to 8.5 mm 15 %."""
    plugin = REGISTRY.plugin(kind)
    given = known(
        plugin,
        facts={size: fact(10, "mm")},
        spots=[spot(reading_of, left / 10, "mm")],
        observed=best(plugin),
    )
    found = graded(plugin, given)
    assert found.grade is grade
    (limit,) = [
        each for each in plugin.limits if each.then is grade and each.quantity == "wear" and each.governs
    ]
    task = plugin.task(limit.task)
    assert task
    assert task.words in {each.what for each in found.actions}


def test_links_drawn_far_come_before_the_next_passage() -> None:
    """Over eleven links of 28 mm: 2 % is past what new chain may be over, 3.5 % past more than twice that."""
    plugin = REGISTRY.plugin("anchor_chain")
    for length, grade in ((308 * 1.02, Grade.PLAN), (308 * 1.035, Grade.FIRST)):
        given = known(plugin, facts=CABLE, spots=[spot("eleven", length, "mm")], observed=best(plugin))
        assert graded(plugin, given).grade is grade


@pytest.mark.parametrize(
    ("growth", "expanded", "verdict"),
    [(3, 0.3, Verdict.CLOSE), (3, 0.2, Verdict.WITHIN), (5, 0.3, Verdict.WITHIN)],
)
def test_equal_shrouds_by_a_coarse_rule_ask_for_a_finer_reading(
    growth: float, expanded: float, verdict: Verdict
) -> None:
    """Folding rule, U of the difference √2·U/growth (GUM, 5.1.2): 0.3 of 3 mm 14 %, 0.2 of 3 mm 9.4 %, 0.3 of 5 mm 8.5 %."""
    facts = {
        "role": fact(choice="cap_shroud"),
        "diameter": fact(6, "mm"),
        "construction": fact(choice="1x19"),
    }
    sides = ("port", "starboard")
    readings = [reading("fold_growth", growth, "mm", expanded, of=side) for side in sides]
    parts = [part("standing_wire", side, side) for side in sides]
    done = grades(
        job(*parts, readings=tuple(readings), facts=dict.fromkeys(sides, facts)),
        REGISTRY.plugin("standing_wire"),
    )
    for found in done.components:
        (check,) = compared(found)
        assert check.verdict is verdict
        assert ("a finer one is needed" in check.said) == (verdict is Verdict.CLOSE)
        asked = [each.what for each in found.actions if check.id in each.settles]
        again = "Measure both sides again, by a better method, until the difference is known to ±9\u00a0% or better"
        assert [each.partition(":")[0] for each in asked] == ([again] if verdict is Verdict.CLOSE else [])


@pytest.mark.parametrize(("names", "told"), [(("port", "starboard"), 1), (("port", "mizzen-starboard"), 0)])
def test_a_stay_of_the_mizzen_is_no_opposite_number_of_one_of_the_main_mast(
    names: tuple[str, str], told: int
) -> None:
    """As a rig is set up, port and starboard of one mast pull alike; the two masts do not."""
    plugin = REGISTRY.plugin("standing_wire")
    facts = {"role": fact(choice="cap_shroud"), "diameter": fact(6, "mm"), "marked_strength": fact(40, "kN")}
    parts = [
        part("standing_wire", ident, group).model_copy(update={"side": group})
        for ident, group in zip(names, ("port", "starboard"), strict=True)
    ]
    readings = tuple(
        reading("gauge_tension", kn, "kN", 0.2, of=ident) for ident, kn in zip(names, (8.0, 6.0), strict=True)
    )
    done = grades(job(*parts, readings=readings, facts={each.id: facts for each in parts}), plugin)
    assert [len(compared(each)) for each in done.components] == [told] * 2
