"""Anchor chain through its kind: wear by two diameters, the figures at their own value, pitch, law, strength.

Sources: class naval survey guidance 12.1.1 and 12.1.2; class rules before and after unification; small-boat reckoning of
chain wear; Mich. Admin. Code R 408.14923 Table 1; ISO 4565 / DIN 766 as reproduced; ABYC H-40 trade copies.
"""

from __future__ import annotations

import tomllib
from pathlib import Path

import pytest

from reporter.engineering import units
from reporter.model.evidence import Evidence
from reporter.model.terms import Basis, Grade, Verdict
from tests.plugins.evidence import REGISTRY, best, check_of, fact, graded, known, shown, spot, value

plugin = REGISTRY.plugin("anchor_chain")


def worn(
    new: float, now: float, unit: str = "mm", expanded: float = 0.0, across: float | None = None
) -> Evidence:
    """A chain of one size, worn to so much at one place."""
    spots = [spot("worn", now, unit, expanded, at="first length")]
    spots += [] if across is None else [spot("worn_across", across, unit, expanded, at="first length")]
    return known(plugin, facts={"size": fact(new, unit)}, spots=spots, observed=best(plugin))


@pytest.mark.parametrize(
    ("new", "now", "unit", "per_cent", "grade"),
    [
        pytest.param(0.394, 0.350, "in", 11.2, Grade.PLAN, id="0.350 in kept"),
        pytest.param(0.394, 0.34672, "in", 12.0, Grade.FIRST, id="0.3467 in renewed"),
        pytest.param(0.394, 0.342, "in", 13.2, Grade.FIRST, id="0.342 in renewed"),
        pytest.param(8, 6.79, "mm", 15.1, Grade.STOP, id="8 to 6.79 mm taken out"),
        pytest.param(28, 20, "mm", 28.6, Grade.STOP, id="28 to 20 mm"),
        pytest.param(8, 7.21, "mm", 9.9, Grade.CLEAR, id="under a tenth"),
    ],
)
def test_w17_wear(new: float, now: float, unit: str, per_cent: float, grade: Grade) -> None:
    """W17."""
    evidence = worn(new, now, unit)
    check = check_of(plugin, evidence, "anchor_chain.wear.renew")
    assert shown(check, "%") == pytest.approx(per_cent, abs=0.05)
    assert graded(plugin, evidence).grade is grade


def test_w17_section_left() -> None:
    """28 to 20 mm leaves 51 % of the section."""
    assert shown(check_of(plugin, worn(28, 20), "anchor_chain.section_left.worked"), "%") == pytest.approx(
        51, abs=0.5
    )


def test_w17_the_two_texts_differ_at_twelve_per_cent() -> None:
    """100 to 88 mm: one renews at 12 % or more, the other accepts 88 mm; the stricter governs and tells of the other."""
    evidence = worn(100, 88)
    strict = check_of(plugin, evidence, "anchor_chain.wear.renew")
    assert strict.grade is Grade.FIRST
    assert strict.limit
    assert "texts differ" in strict.limit.note
    other = check_of(plugin, evidence, "anchor_chain.wear.unified")
    assert other.verdict is Verdict.WITHIN
    assert not other.governs
    assert graded(plugin, worn(100, 88.1)).grade is Grade.PLAN


def test_w17_fifteen_per_cent_is_over() -> None:
    """'greater than 15 per cent or more' leaves 15 % open: taken as over. 8 mm: 6.80 mm; 10 mm: 8.50 mm."""
    for new, now in ((8, 6.8), (10, 8.5)):
        evidence = worn(new, now)
        assert graded(plugin, evidence).grade is Grade.STOP
        limit = check_of(plugin, evidence, "anchor_chain.wear.remove").limit
        assert limit
        assert "leaves open" in limit.note
        assert graded(plugin, worn(new, now + 0.01)).grade is Grade.FIRST


@pytest.mark.parametrize(
    ("now", "grade"),
    [(7.20, Grade.WATCH), (7.10, Grade.PLAN), (7.04, Grade.FIRST), (7.00, Grade.FIRST), (6.90, Grade.FIRST)],
)
def test_a_guard_band_round_the_limit(now: float, grade: Grade) -> None:
    """8 mm chain with U = 0.10 mm: within the band above 12 % it is close, below it doubtful, which on a load path counts."""
    evidence = worn(8, now, expanded=0.10)
    verdicts = {
        7.20: Verdict.WITHIN,
        7.10: Verdict.CLOSE,
        7.04: Verdict.DOUBTFUL,
        7.00: Verdict.DOUBTFUL,
        6.90: Verdict.BEYOND,
    }
    assert check_of(plugin, evidence, "anchor_chain.wear.renew").verdict is verdicts[now]
    assert graded(plugin, evidence).grade is grade


def test_two_diameters_make_the_mean_and_the_least_counts_for_the_law() -> None:
    evidence = worn(0.375, 0.30, "in", across=0.34)
    assert shown(check_of(plugin, evidence, "anchor_chain.wear.renew"), "%") == pytest.approx(
        100 * (1 - 0.32 / 0.375)
    )
    assert (
        check_of(plugin, evidence, "anchor_chain.wear.renew").working[0].title
        == "Mean diameter of a worn link"
    )
    assert shown(check_of(plugin, evidence, "anchor_chain.sling_share.law"), "%") == pytest.approx(
        100 * 0.30 / 0.296875
    )


@pytest.mark.parametrize(("sixty_fourths", "verdict"), [(19, Verdict.WITHIN), (18.9, Verdict.BEYOND)])
def test_w18_the_law_is_milder_than_class(sixty_fourths: float, verdict: Verdict) -> None:
    """W18: 3/8 in down to 19/64 in, a loss of 20.8 % that class took out long before; for information."""
    evidence = worn(0.375, sixty_fourths / 64, "in")
    law = check_of(plugin, evidence, "anchor_chain.sling_share.law")
    assert law.verdict is verdict
    assert not law.governs
    assert graded(plugin, evidence).grade is Grade.STOP


def test_more_wear_is_never_better() -> None:
    parts = [graded(plugin, worn(8, 8 - step * 0.04, expanded=0.1)) for step in range(60)]
    ranks = [part.grade.rank for part in parts]
    scores = [part.score for part in parts if part.score is not None]
    assert ranks == sorted(ranks)
    assert scores == sorted(scores, reverse=True)
    assert {Grade.CLEAR, Grade.WATCH, Grade.PLAN, Grade.FIRST, Grade.STOP} == {part.grade for part in parts}


def test_the_worst_place_decides() -> None:
    spots = [spot("worn", now, "mm", at=at) for at, now in (("bow", 7.9), ("middle", 6.7), ("end", 7.9))]
    part = graded(plugin, known(plugin, facts={"size": fact(8, "mm")}, spots=spots, observed=best(plugin)))
    assert part.grade is Grade.STOP


def test_a_guessed_eight_millimetres_could_be_five_sixteenths() -> None:
    spots = [spot("worn", 6.5, "mm")]
    part = graded(
        plugin,
        known(
            plugin, facts={"size": fact(8, "mm", basis=Basis.ESTIMATE)}, spots=spots, observed=best(plugin)
        ),
    )
    assert not any(check.subject == "wear" for check in part.checks)
    assert "anchor_chain.nominal_size" in {action.id for action in part.actions}


def test_unmeasured_is_unseen() -> None:
    part = graded(plugin, known(plugin, facts={"size": fact(8, "mm")}, observed=best(plugin)))
    assert part.grade is Grade.UNSEEN


@pytest.mark.parametrize(
    ("size", "standard", "new", "upper"),
    [(8, "din_766", 264, 3.2), (10, "din_766", 308, 3.7), (10, "iso_4565", 330, 3.96)],
)
def test_eleven_links(size: float, standard: str, new: float, upper: float) -> None:
    """DIN 766: 264 mm +3.2 and 308 mm +3.7 over eleven links when new; 10 mm by ISO 4565 has a pitch of 30 mm."""
    facts = {"size": fact(size, "mm"), "standard": fact(choice=standard)}
    for length, grade in (
        (new, Grade.CLEAR),
        (new + upper * 0.98, Grade.CLEAR),
        (new + upper * 1.02, Grade.PLAN),
    ):
        spots = [spot("worn", size, "mm"), spot("eleven", length, "mm")]
        assert graded(plugin, known(plugin, facts=facts, spots=spots, observed=best(plugin))).grade is grade


def test_ten_millimetre_chain_of_no_known_standard_is_asked_about() -> None:
    """30 mm by ISO 4565 or 28 mm by DIN 766: eleven links of 309 mm say nothing, and the gypsy fits one of them."""
    spots = [spot("worn", 10, "mm"), spot("eleven", 309, "mm")]
    part = graded(plugin, known(plugin, facts={"size": fact(10, "mm")}, spots=spots, observed=best(plugin)))
    assert not any(check.subject == "stretch" for check in part.checks)
    why = next(each.why for each in part.missing if each.id == "pitch")
    why = why.replace("\u00a0", " ")
    assert "28 mm or 30 mm" in why
    assert "100.3 % of 308 mm, 93.6 % of 330 mm" in why
    assert "anchor_chain.pitch" in {action.id for action in part.actions}


@pytest.mark.parametrize(
    ("size", "grade", "newtons", "tolerance", "printed"),
    [
        (10, "80", 125_664, 1, ""),
        (8, "40", 40_000, 1, "40 kN"),
        (6, "40", 20_000, 1, "20 kN"),
        (10, "40", 62_800, 50, "63 kN"),
        (8, "30", 30_200, 50, "32 kN"),
    ],
)
def test_w19_breaking_load(size: float, grade: str, newtons: float, tolerance: float, printed: str) -> None:
    """W19: grade times two sections, or the printed row where that is less: no chain is told stronger than its row."""
    facts = {"size": fact(size, "mm"), "grade": fact(choice=grade)}
    check = check_of(plugin, known(plugin, facts=facts), "anchor_chain.breaking_load.worked")
    assert shown(check, "N") == pytest.approx(newtons, abs=tolerance)
    assert printed in " ".join(check.notes).replace("\u00a0", " ")
    assert not check.governs


def test_an_inch_chain_tells_its_printed_working_load() -> None:
    """NACM table: 3/8 in G43: 5,400 lbf."""
    facts = {"size": fact(0.375, "in"), "grade": fact(choice="43")}
    notes = check_of(plugin, known(plugin, facts=facts), "anchor_chain.breaking_load.worked").notes
    assert "5400 lbf" in " ".join(notes).replace("\u00a0", " ")


def test_a_worn_chain_has_no_margin() -> None:
    facts = {"size": fact(8, "mm"), "grade": fact(choice="40")}
    part = graded(plugin, known(plugin, facts=facts, spots=[spot("worn", 6.5, "mm")], observed=best(plugin)))
    assert any(check.verdict is Verdict.NOT_APPLICABLE for check in part.checks)
    assert not any(check.id.startswith("anchor_chain.breaking_load.worked") for check in part.checks)


def test_w16_load_by_wind_and_length() -> None:
    """W16: 32 ft, 30 kn: 900 lbf, 4.0 kN, 408 kgf; 35 ft, 42 kn: 1,800 lbf; 20 ft, 42 kn: 720, not the shifted 500."""
    for feet, wind, pounds in ((32, "30", 900), (35, "42", 1800), (20, "42", 720), (20, "60", 1440)):
        facts = {"size": fact(10, "mm"), "grade": fact(choice="40"), "sizing_wind": fact(choice=wind)}
        evidence = known(
            plugin,
            facts=facts,
            needed={"length_overall": value(feet, "ft")},
            spots=[spot("worn", 10, "mm")],
            observed=best(plugin),
        )
        check = check_of(plugin, evidence, "anchor_chain.wind_load.worked")
        assert shown(check, "lbf") == pytest.approx(pounds)
        assert not check.governs
        share = check_of(plugin, evidence, "anchor_chain.wind_share.quarter")
        assert shown(share, "%") == pytest.approx(100 * units.to_base(pounds, "lbf") / 62832, rel=1e-4)
        assert not share.governs
        assert graded(plugin, evidence).grade is Grade.CLEAR


def test_no_wind_asked_about_no_load() -> None:
    facts = {"size": fact(10, "mm"), "grade": fact(choice="40")}
    part = graded(plugin, known(plugin, facts=facts, needed={"length_overall": value(32, "ft")}))
    assert not any(check.subject == "wind_load" for check in part.checks)


def test_the_pitch_is_the_opening_and_two_bars_come_off_the_outside_only() -> None:
    """DIN 766, 10 mm: eleven links of pitch 28 are 308 mm long inside, so one link is 28 mm inside and 48 mm outside."""
    german = Path(__file__).parents[2] / "plugins/ground/anchor_chain.de.toml"
    pitch = plugin.detail("pitch")
    assert pitch is not None
    for text, inside, outside in (
        (pitch.help, "opening", "over the outside, less two bars"),
        (
            tomllib.loads(german.read_text("utf-8"))["detail"]["pitch"]["help"],
            "lichte Länge",
            "außen gemessen, weniger zwei Stabdicken",
        ),
    ):
        assert inside in text
        assert outside in text
