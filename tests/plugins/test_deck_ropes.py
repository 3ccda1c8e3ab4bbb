"""Fibre ropes through the kinds that hold them: halyards, sheets, rope rodes, and blocks that they run over.

Sources: trade page on rope (retirement figures, working load); figures of a cordage makers' institute quoted in a trade
text (knots); trade table of block loads and of sheet loads; boat handbook p. 56 (sheaves); WAC 296-24-29429 (splices).
"""

from __future__ import annotations

import pytest

from reporter.model.plugin import Plugin
from reporter.model.terms import Basis, Grade, LimitKind, Verdict
from tests.plugins.evidence import REGISTRY, best, check_of, fact, graded, known, shown, spot

block = REGISTRY.plugin("block")
halyard = REGISTRY.plugin("halyard")
rode = REGISTRY.plugin("rode")
sheet = REGISTRY.plugin("sheet")

ROPES = [halyard, sheet, rode]
each_rope = pytest.mark.parametrize("plugin", ROPES, ids=lambda plugin: plugin.kind)


@each_rope
@pytest.mark.parametrize(
    ("now", "grade"), [(10.8, Grade.CLEAR), (10.7, Grade.PLAN), (9.6, Grade.PLAN), (9.5, Grade.FIRST)]
)
def test_diameter_loss_of_a_single_braid(plugin: Plugin, now: float, grade: Grade) -> None:
    """Trade page: under 10 % keep, 11 to 20 % downgrade, over 20 % retire; 12 mm when new."""
    facts = {"construction": fact(choice="single_braid"), "diameter": fact(12, "mm")}
    part = graded(
        plugin, known(plugin, facts=facts, spots=[spot("rope_diameter", now, "mm")], observed=best(plugin))
    )
    assert part.grade is grade


@pytest.mark.parametrize(("now", "grade"), [(11, Grade.CLEAR), (10, Grade.PLAN), (9, Grade.FIRST)])
@each_rope
def test_diameter_loss_of_a_double_braid(plugin: Plugin, now: float, grade: Grade) -> None:
    """8, 17 and 25 % of 12 mm: 10 and 20 % of single braids by analogy; the ship mooring guideline's 5 % does not govern."""
    facts = {"construction": fact(choice="double_braid"), "diameter": fact(12, "mm")}
    spots = [spot("rope_diameter", now, "mm")]
    part = graded(plugin, known(plugin, facts=facts, spots=spots, observed=best(plugin)))
    assert part.grade is grade
    governing = {check.limit.id for check in part.checks if check.limit and check.governs}
    assert governing == {f"{plugin.kind}.diameter_loss.{name}" for name in ("other", "other_retire")}


@each_rope
def test_a_guessed_size_with_a_near_neighbour_is_asked_about(plugin: Plugin) -> None:
    """8 mm and 5/16 in differ by 0.8 %."""
    facts = {"construction": fact(choice="single_braid"), "diameter": fact(8, "mm", basis=Basis.TOLD)}
    part = graded(
        plugin, known(plugin, facts=facts, spots=[spot("rope_diameter", 6, "mm")], observed=best(plugin))
    )
    assert not any(check.subject == "diameter_loss" for check in part.checks)
    assert f"{plugin.kind}.nominal_size" in {action.id for action in part.actions}
    assert "5/16 in" in next(each.why for each in part.missing if each.id == "nominal_size")


@each_rope
def test_w22_working_load_and_its_knot(plugin: Plugin) -> None:
    """W22: 4,132 daN, a quarter 1,033 daN; a knot that leaves 20 %: 5 % of the original, 207 daN."""
    facts = {"breaking_load": fact(4132, "daN"), "end_kept": fact(20, "%")}
    evidence = known(plugin, facts=facts)
    assert shown(check_of(plugin, evidence, f"{plugin.kind}.working_load.worked"), "daN") == pytest.approx(
        1033, abs=1
    )
    knotted = check_of(plugin, evidence, f"{plugin.kind}.knotted_load.worked")
    assert shown(knotted, "daN") == pytest.approx(207, abs=1)
    assert shown(knotted, "daN") / 4132 == pytest.approx(0.05)
    assert not knotted.governs


def test_knots_keep_what_the_table_says_at_its_lower_end() -> None:
    """Bowline 67 to 75 %; in HMPE under 40 %; an eye splice with thimble about 90 %."""
    for end, fibre, share in (
        ("bowline", "polyester", 0.67),
        ("bowline", "hmpe", 0.40),
        ("thimble", "hmpe", 0.90),
    ):
        facts = {"breaking_load": fact(4000, "daN"), "end": fact(choice=end), "fibre": fact(choice=fibre)}
        check = check_of(halyard, known(halyard, facts=facts), "halyard.knotted_load.worked")
        assert shown(check, "daN") == pytest.approx(1000 * share)
        assert check.notes
    facts = {
        "breaking_load": fact(4000, "daN"),
        "end": fact(choice="other_knot"),
        "fibre": fact(choice="polyester"),
    }
    assert not any(
        check.subject == "knotted_load" for check in graded(halyard, known(halyard, facts=facts)).checks
    )


@pytest.mark.parametrize(("load", "verdict"), [(1000, Verdict.WITHIN), (1001, Verdict.BEYOND)])
def test_a_measured_load_against_a_quarter_of_the_breaking_load(load: float, verdict: Verdict) -> None:
    evidence = known(
        sheet,
        facts={"breaking_load": fact(4000, "daN")},
        spots=[spot("load", load, "daN")],
        observed=best(sheet),
    )
    check = check_of(sheet, evidence, "sheet.load_factor.working")
    assert check.verdict is verdict
    assert check.kind is LimitKind.DESIGN
    assert graded(sheet, evidence).grade is (Grade.CLEAR if verdict is Verdict.WITHIN else Grade.PLAN)


@pytest.mark.parametrize(("load", "grade"), [(100, Grade.CLEAR), (101, Grade.PLAN)])
def test_a_fifteenth_where_a_person_hangs_on_it(load: float, grade: Grade) -> None:
    """Trade page: life-critical, load not over 1/15 of the nominal strength."""
    facts = {"breaking_load": fact(1500, "daN"), "use": fact(choice="person")}
    assert (
        graded(
            halyard, known(halyard, facts=facts, spots=[spot("load", load, "daN")], observed=best(halyard))
        ).grade
        is grade
    )


@each_rope
def test_a_damaged_rope_has_no_margin(plugin: Plugin) -> None:
    """design.md 5: a strength margin is for the undamaged part."""
    facts = {"breaking_load": fact(4000, "daN"), "construction": fact(choice="double_braid")}
    for evidence in (
        known(plugin, facts=facts, observed=best(plugin, chafe="through")),
        known(plugin, facts=facts, observed=best(plugin), spots=[spot("abrasion", 60, "%")]),
    ):
        part = graded(plugin, evidence)
        assert any(check.verdict is Verdict.NOT_APPLICABLE for check in part.checks)
        assert not any(check.subject == "load_factor" for check in part.checks)


def test_one_broken_wire_stops_a_wire_halyard() -> None:
    assert (
        graded(halyard, known(halyard, observed=best(halyard), spots=[spot("broken_wires", 1)])).grade
        is Grade.STOP
    )


def test_w20_genoa_sheet() -> None:
    """W20: 28 m², 20 kn: 235.6 kgf; 300 ft²: 517.2 lbf. An estimate, never graded."""
    for area, unit, load, force in ((28, "m²", 235.6, "kgf"), (300, "ft²", 517.2, "lbf")):
        evidence = known(
            sheet, spots=[spot("sail_area", area, unit), spot("wind", 20, "kn")], observed=best(sheet)
        )
        check = check_of(sheet, evidence, "sheet.sheet_load.worked")
        assert shown(check, force) == pytest.approx(load, abs=0.6)
        assert not check.governs


@pytest.mark.parametrize(("turn", "per_cent"), [(30, 52), (60, 100), (90, 141), (180, 200)])
def test_w20_block_load(turn: float, per_cent: float) -> None:
    """W20, trade table: 52, 100, 141 and 200 % of the line's load."""
    spots = [spot("line_load", 100, "daN"), spot("turn", turn, "°")]
    facts = {"marked_working_load": fact(per_cent + 1, "daN")}
    evidence = known(block, facts=facts, spots=spots, observed=best(block))
    assert shown(check_of(block, evidence, "block.block_load.worked"), "daN") == pytest.approx(
        per_cent, abs=0.5
    )
    assert graded(block, evidence).grade is Grade.CLEAR
    weaker = known(
        block, facts={"marked_working_load": fact(per_cent - 1, "daN")}, spots=spots, observed=best(block)
    )
    assert graded(block, weaker).grade is Grade.PLAN


def test_w21_wire_over_a_sheave() -> None:
    """W21: 1/2 in wire over a 10 in sheave: D/d 20, 91 % kept."""
    facts = {"tread_diameter": fact(10, "in"), "wire_diameter": fact(0.5, "in")}
    evidence = known(block, facts=facts, observed=best(block))
    assert shown(check_of(block, evidence, "block.ratio_wire.handbook"), "1") == pytest.approx(20)
    assert check_of(block, evidence, "block.ratio_wire.handbook").verdict is Verdict.WITHIN
    assert shown(check_of(block, evidence, "block.bent_kept.worked"), "%") == pytest.approx(91)
    smaller = known(block, facts={**facts, "tread_diameter": fact(9.9, "in")}, observed=best(block))
    assert graded(block, smaller).grade is Grade.PLAN


@pytest.mark.parametrize(
    ("tread", "grade"), [(60, Grade.CLEAR), (59, Grade.WATCH), (40, Grade.WATCH), (39, Grade.PLAN)]
)
def test_rope_over_a_sheave(tread: float, grade: Grade) -> None:
    """Boat handbook p. 56: 4 to 6 by the text, 6 to 8 recommended; 10 mm rope."""
    facts = {"tread_diameter": fact(tread, "mm"), "rope_diameter": fact(10, "mm")}
    assert graded(block, known(block, facts=facts, observed=best(block))).grade is grade


def test_a_clutch_has_to_be_tried() -> None:
    """What a type of fitting asks for is needed of that type and of no other."""
    answers = best(block)
    del answers["holding"], answers["car"]
    assert (
        graded(block, known(block, facts={"type": fact(choice="block")}, observed=answers)).grade
        is Grade.CLEAR
    )
    part = graded(block, known(block, facts={"type": fact(choice="clutch")}, observed=answers))
    assert part.grade is Grade.UNSEEN
    assert "Holding of a clutch or cleat" in {each.title for each in part.missing if each.needed}


@pytest.mark.parametrize(("fibre", "least"), [("polyamide", 4), ("natural", 3)])
def test_tucks_of_a_splice(fibre: str, least: int) -> None:
    """WAC 296-24-29429: four full tucks in synthetic rope, three in natural fibre."""
    facts = {"construction": fact(choice="three_strand"), "fibre": fact(choice=fibre)}
    for tucks, grade in ((least, Grade.CLEAR), (least - 1, Grade.PLAN)):
        assert (
            graded(rode, known(rode, facts=facts, spots=[spot("tucks", tucks)], observed=best(rode))).grade
            is grade
        )


@pytest.mark.parametrize(("tail", "grade"), [(84, Grade.CLEAR), (83, Grade.PLAN)])
def test_tails_of_a_splice(tail: float, grade: Grade) -> None:
    """The same: six diameters under 1 in; 14 mm rope."""
    evidence = known(
        rode, facts={"diameter": fact(14, "mm")}, spots=[spot("tail", tail, "mm")], observed=best(rode)
    )
    assert graded(rode, evidence).grade is grade
