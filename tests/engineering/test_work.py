"""`work`: uncertainty propagation against hand-reckoned cases and published examples, and what a Working says.

Sources: JCGM 100:2008 (GUM) 5.1.2, 5.2.2 and H.1; JCGM 101:2008 9.2.2; JCGM 106:2012 (arithmetic exact whatever the
text says); ILAC-G8:09/2019. The normal distribution is held against scipy.stats.
"""

from __future__ import annotations

import math
import re
import subprocess
import sys

import pytest
import scipy.stats
from uncertainties import ufloat, wrap

from reporter.engineering import Declaration, Formula, Symbol, chain, rigloads, strand, wire, work
from reporter.engineering.figures import deserved
from reporter.engineering.reference import UNVERIFIED, Row, cited
from reporter.engineering.verdict import (
    conformity,
    conformity_at_least,
    conformity_at_most,
    conformity_between,
    guarded,
)
from reporter.model.citation import Citation
from reporter.model.quantity import Value
from reporter.model.terms import Dimension, LimitBasis, Sense, SourceStatus, Verdict
from tests.formulas import every_formula


def length(value: float, u: float = 0.0) -> Value:
    """A length with its standard uncertainty, both in metres."""
    return Value(dimension=Dimension.LENGTH, value=value, u=u)


def test_a_working_prints_in_display_units() -> None:
    """B3: 258.0 ± 0.5 mm over 20 links of 12.7 mm; by hand u(e) = u(L) / (n·p) = 0.25 / 254."""
    value, working = work(
        chain.elongation, {"length": length(0.2580, 0.00025), "links": 20, "pitch": length(0.0127)}
    )
    assert value.dimension is Dimension.RATIO
    assert value.value == pytest.approx(0.0157480, abs=5e-8)
    assert value.u == pytest.approx(0.25 / 254)
    assert working.title == "Chain elongation"
    assert working.source.status is SourceStatus.READ
    assert [(term.symbol, term.unit) for term in working.inputs] == [("L", "mm"), ("n", ""), ("p", "mm")]
    assert [term.value for term in working.inputs] == pytest.approx([258.0, 20, 12.7])
    assert [term.expanded for term in working.inputs] == pytest.approx([0.5, 0, 0])
    assert working.result.unit == "%"
    assert working.result.value == pytest.approx(1.57480, abs=5e-6)
    assert working.result.expanded == pytest.approx(2 * 100 * 0.25 / 254)


def test_product_by_hand() -> None:
    """GUM 5.1.6: for d²·R·K relative variances add with the squares of the powers."""
    value, _ = work(
        wire.minimum_breaking_force,
        {
            "diameter": length(0.006, 0.00003),
            "grade": Value(dimension=Dimension.PRESSURE, value=1570e6, u=15e6),
            "factor": 0.362,
        },
    )
    relative = math.hypot(2 * 0.00003 / 0.006, 15 / 1570)
    assert value.u / value.value == pytest.approx(relative, rel=1e-8)


def test_quotient_by_hand() -> None:
    """GUM 5.1.6: for a quotient the relative variances of both add."""
    value, _ = work(
        strand.tension_share, {"tension": ufloat(2500.0, 75.0), "breaking": ufloat(12_600.0, 500.0)}
    )
    assert value.value == pytest.approx(2500 / 12_600)
    assert value.u / value.value == pytest.approx(math.hypot(75 / 2500, 500 / 12_600), rel=1e-8)


def test_loss_of_baseline_by_hand() -> None:
    """(b − d) / b: derivatives d/b² and −1/b."""
    base, now, u = 0.0067, 0.0063, 0.00002
    value, _ = work(wire.loss_of_baseline, {"baseline": length(base, u), "measured": length(now, u)})
    assert value.u == pytest.approx(u * math.hypot(now / base**2, 1 / base), rel=1e-8)


def _half_of_the_difference(inside: float, outside: float) -> float:
    return (outside - inside) / 2


ROLLER = Formula(
    _half_of_the_difference,
    Declaration(
        title="Roller diameter",
        text="d = (o − i) / 2",
        symbols={
            "inside": Symbol("i", "inside of rollers", "mm"),
            "outside": Symbol("o", "outside of rollers", "mm"),
        },
        result=Symbol("d", "roller diameter", "mm"),
        source=Citation(title="geometry"),
    ),
)


def test_correlated_difference() -> None:
    """GUM 5.2.2: one caliper's zero error, shared by L1 and L2, leaves their difference and stays in their mean."""
    zero = ufloat(0.0, 0.0002)
    shared = {"inside": 0.09528 + zero, "outside": 0.11112 + zero}
    roller, _ = work(ROLLER, shared)
    mean, working = work(chain.length_by_rollers, shared)
    assert roller.u == pytest.approx(0.0, abs=1e-12)
    assert mean.u == pytest.approx(0.0002)
    assert [term.expanded for term in working.inputs] == pytest.approx([0.4, 0.4])
    apart = {"inside": length(0.09528, 0.0002), "outside": length(0.11112, 0.0002)}
    assert work(ROLLER, apart)[0].u == pytest.approx(0.0002 / math.sqrt(2))


def test_partly_correlated_inputs() -> None:
    """GUM 5.2.2 with a shared part of 0.2 mm and own parts of 0.1 mm each."""
    zero = ufloat(0.0, 0.0002)
    inputs = {"inside": ufloat(0.09528, 0.0001) + zero, "outside": ufloat(0.11112, 0.0001) + zero}
    assert work(ROLLER, inputs)[0].u == pytest.approx(0.0001 / math.sqrt(2))
    assert work(chain.length_by_rollers, inputs)[0].u == pytest.approx(
        math.hypot(0.0002, 0.0001 / math.sqrt(2))
    )


def test_sine_against_its_derivative() -> None:
    """Of p / sin(π/z): a worn pitch of 12.9 ± 0.05 mm carries straight into the diameter."""
    value, _ = work(chain.pitch_diameter, {"pitch": length(0.0129, 0.000025), "teeth": 13})
    assert value.u == pytest.approx(0.000025 / math.sin(math.pi / 13), rel=1e-8)


def gauge_block(
    standard: float, difference: float, expansion_gap: float, temperature: float, expansion: float, gap: float
) -> float:
    """GUM H.1: length of an end gauge in nanometres."""
    return standard + difference - standard * (expansion_gap * temperature + expansion * gap)


GAUGE_BLOCK = Formula(
    gauge_block,
    Declaration(
        title="End gauge",
        text="l = l_S + d − l_S·(δα·θ + α_S·δθ)",
        symbols={
            name: Symbol(name, name, "1")
            for name in ("standard", "difference", "expansion_gap", "temperature", "expansion", "gap")
        },
        result=Symbol("l", "length", "1"),
        source=Citation(title="JCGM 100:2008", clause="H.1"),
    ),
)
H1 = {
    "standard": ufloat(50_000_623.0, 25.0),
    "difference": ufloat(215.0, 9.7),
    "expansion_gap": ufloat(0.0, 0.58e-6),
    "temperature": ufloat(-0.1, 0.41),
    "expansion": ufloat(11.5e-6, 1.2e-6),
    "gap": ufloat(0.0, 0.029),
}


def test_gum_h1() -> None:
    """GUM H.1: l = 50,000,838 nm, combined standard uncertainty 32 nm (31.7 unrounded; W29)."""
    value, _ = work(GAUGE_BLOCK, H1)
    assert value.value == pytest.approx(50_000_838, abs=0.5)
    assert value.u == pytest.approx(31.7, abs=0.1)
    assert round(value.u) == 32
    for name, contribution in (("standard", 25), ("difference", 9.7), ("expansion_gap", 2.9), ("gap", 16.6)):
        alone = {key: number.nominal_value for key, number in H1.items()} | {name: H1[name]}
        assert work(GAUGE_BLOCK, alone)[0].u == pytest.approx(contribution, abs=0.1)


def test_gum_h1_expanded() -> None:
    """GUM H.1.6: 16 effective degrees of freedom at 99 % give U = 93 nm."""
    contributions, freedom = (25.0, 9.7, 2.9, 16.6), (18, 25.6, 50, 2)
    u = work(GAUGE_BLOCK, H1)[0].u
    effective = u**4 / sum(part**4 / nu for part, nu in zip(contributions, freedom, strict=True))
    assert effective == pytest.approx(16.8, abs=0.15)
    assert scipy.stats.t.ppf(0.995, int(effective)) * u == pytest.approx(93, abs=0.7)


def test_jcgm_101_sum_of_four() -> None:
    """JCGM 101:2008 9.2.2: the sum of four N(0, 1) has u = 2."""

    def total(a: float, b: float, c: float, d: float) -> float:
        return a + b + c + d

    declared = Formula(total, Declaration(
        title="Sum", text="y = a + b + c + d", symbols={name: Symbol(name, name, "1") for name in "abcd"},
        result=Symbol("y", "sum", "1"), source=Citation(title="JCGM 101:2008", clause="9.2.2"),
    ))  # fmt: skip
    value, working = work(declared, {name: ufloat(0.0, 1.0) for name in "abcd"})
    assert value.u == pytest.approx(2.0)
    assert working.result.expanded == pytest.approx(4.0)


def test_the_edge_of_the_domain() -> None:
    """A growth of 0 mm has an uncertainty too: the difference is taken on the inner side only."""
    value, _ = work(
        strand.tension_by_growth, {"growth": length(0.0, 0.00025), "length": 2.0, "strain": 0.0005}
    )
    assert value.value == 0.0
    assert value.u == pytest.approx(0.05 * 0.00025 / (2.0 * 0.0005), rel=1e-6)


def test_agrees_with_the_library_alone() -> None:
    """Our differences against those of `uncertainties.wrap` on the same function."""
    plain = wrap(wire.minimum_breaking_force.function)(ufloat(0.006, 0.00003), ufloat(1.57e9, 1.5e7), 0.362)
    value, _ = work(
        wire.minimum_breaking_force,
        {"diameter": ufloat(0.006, 0.00003), "grade": ufloat(1.57e9, 1.5e7), "factor": 0.362},
    )
    assert value.value == pytest.approx(plain.nominal_value)
    assert value.u == pytest.approx(plain.std_dev, rel=1e-6)


def test_defaults_are_printed() -> None:
    """What a formula takes for granted stands among its inputs."""
    _, working = work(rigloads.transverse_load, {"righting_moment": 18.0, "beam": 3.0})
    assert [(term.symbol, round(term.value, 6)) for term in working.inputs] == [
        ("RM", 18),
        ("b", 3000),
        ("k", 1.5),
    ]


def test_imperial_display() -> None:
    """Display units may be replaced, except where the constants of a formula hold in its own only."""
    _, working = work(
        chain.elongation,
        {"length": 0.2580, "links": 20, "pitch": 0.0127},
        units={"length": "in", "pitch": "in", "result": "%"},
    )
    assert [term.unit for term in working.inputs] == ["in", "", "in"]
    assert working.inputs[1 - 1].value == pytest.approx(10.157480)
    with pytest.raises(ValueError, match="hold for in only"):
        work(wire.clips, {"diameter": 0.0254}, units={"diameter": "mm"})
    with pytest.raises(ValueError, match="does not measure the same"):
        work(chain.elongation, {"length": 0.258, "links": 20, "pitch": 0.0127}, units={"length": "kN"})
    with pytest.raises(ValueError, match="no such input: width"):
        work(chain.elongation, {"length": 0.258, "links": 20, "pitch": 0.0127}, units={"width": "mm"})


@pytest.mark.parametrize(
    ("inputs", "words"),
    [
        ({"length": 0.258, "links": 20}, "pitch is missing"),
        ({"length": 0.258, "links": 20, "pitch": 0.0127, "wear": 1}, "no such input: wear"),
        (
            {"length": Value(dimension=Dimension.FORCE, value=1), "links": 20, "pitch": 0.0127},
            "is a length, not a force",
        ),
        ({"length": math.nan, "links": 20, "pitch": 0.0127}, "not a finite number"),
        ({"length": length(0.258, math.inf), "links": 20, "pitch": 0.0127}, "not a finite number"),
        ({"length": length(0.258, -0.1), "links": 20, "pitch": 0.0127}, "uncertainty of 0 or more"),
        ({"length": -0.258, "links": 20, "pitch": 0.0127}, "must be above zero"),
    ],
)
def test_refusals(inputs: dict[str, Value | float], words: str) -> None:
    """Everything that cannot be meant is refused in plain words."""
    with pytest.raises(ValueError, match=words):
        work(chain.elongation, inputs)


def test_a_declaration_must_name_its_parameters() -> None:
    """Symbols in another order than the parameters would print numbers under the wrong letters."""
    with pytest.raises(TypeError, match="in their order"):
        Formula(lambda a, b: a + b, Declaration(
            title="x", text="y = a + b", symbols={"b": Symbol("b", "b", "1"), "a": Symbol("a", "a", "1")},
            result=Symbol("y", "y", "1"), source=Citation(title="x"),
        ))  # fmt: skip


def test_importing_stays_light() -> None:
    """The uncertainty library is not loaded before something is reckoned."""
    script = (
        "import sys, reporter.engineering, reporter.engineering.chain, reporter.engineering.rigloads;"
        "sys.exit(any(name in sys.modules for name in ('uncertainties', 'numpy')))"
    )
    assert subprocess.run([sys.executable, "-c", script], check=False).returncode == 0


@pytest.mark.parametrize(
    ("value", "u", "limit", "scipy_side"),
    [
        (-5.47, 0.05, -5.40, "most"),
        (509.7, 8.6, 490.0, "least"),
        (7.04, 0.05, 7.0, "most"),
        (0.0, 1.0, 4.5, "most"),
        (0.0, 1.0, -4.5, "most"),
    ],
)
def test_w30_conformity_against_scipy(value: float, u: float, limit: float, scipy_side: str) -> None:
    """Normal distribution by statistics.NormalDist and by scipy.stats."""
    if scipy_side == "most":
        assert conformity_at_most(value, u, limit) == pytest.approx(
            scipy.stats.norm.cdf(limit, value, u), abs=1e-12
        )
    else:
        assert conformity_at_least(value, u, limit) == pytest.approx(
            scipy.stats.norm.sf(limit, value, u), abs=1e-12
        )


def test_w30_recomputed_figures() -> None:
    """Φ(1.4) = 0.919, Φ(2.29) = 0.989, Φ(1.5) − Φ(−0.61) = 0.663: plain arithmetic, no clause claimed."""
    assert conformity_at_most(-5.47, 0.05, -5.40) == pytest.approx(0.919, abs=0.0005)
    assert conformity_at_least(509.7, 8.6, 490.0) == pytest.approx(0.989, abs=0.0005)
    window = conformity_between(13.6, 1.8, 12.5, 16.3)
    assert window == pytest.approx(0.663, abs=0.0005)
    assert window == pytest.approx(scipy.stats.norm.cdf(1.5) - scipy.stats.norm.cdf(-1.1 / 1.8), abs=1e-12)


def test_conformity_without_uncertainty() -> None:
    """An exact value conforms or does not; on the limit it does."""
    assert conformity_at_most(3.0, 0.0, 3.0) == 1.0
    assert conformity_at_most(3.1, 0.0, 3.0) == 0.0
    assert conformity_at_least(3.0, 0.0, 3.0) == 1.0
    assert conformity_between(3.0, 0.0, 2.0, 3.0) == 1.0
    with pytest.raises(ValueError, match="above the lower"):
        conformity_between(3.0, 0.1, 3.0, 2.0)


@pytest.mark.parametrize(("guard", "risk"), [(2.0, 0.023), (1.64, 0.051)])
def test_w31_risk_at_the_acceptance_limit(guard: float, risk: float) -> None:
    """ILAC-G8: at the acceptance limit the risk is 2.3 % with w = U, 5.1 % with w = 1.64 u."""
    assert 1 - conformity_at_most(3.0 - guard * 0.1, 0.1, 3.0) == pytest.approx(risk, abs=0.0005)


@pytest.mark.parametrize(
    ("diameter", "verdict"),
    [(7.20, Verdict.WITHIN), (7.10, Verdict.CLOSE), (7.00, Verdict.DOUBTFUL), (6.90, Verdict.BEYOND)],
)
def test_w31_four_ways(diameter: float, verdict: Verdict) -> None:
    """Guard band U = 0.10 mm about 7.04 mm (12 % of 8 mm chain): accept, grey inside, grey outside, reject."""
    found, _ = guarded(diameter, 0.10, 7.04, sense=Sense.AT_LEAST)
    assert found is verdict


def test_w31_published_numbers() -> None:
    """Limit ±0.003, U 0.001: acceptance ±0.002; 0.0017 conforms, 0.0025 is grey inside."""
    assert guarded(0.002, 0.001, 0.003, sense=Sense.AT_MOST)[0] is Verdict.WITHIN
    assert guarded(0.00201, 0.001, 0.003, sense=Sense.AT_MOST)[0] is Verdict.CLOSE
    assert guarded(0.0017, 0.001, 0.003, sense=Sense.AT_MOST)[0] is Verdict.WITHIN
    assert guarded(0.0025, 0.001, 0.003, sense=Sense.AT_MOST)[0] is Verdict.CLOSE


def test_memory_says_so() -> None:
    """A figure or formula from memory is cited as such, in words."""
    row = Row(source="some table", clause="3", status=SourceStatus.MEMORY)
    assert row.cited == "some table, 3, from memory, unverified"
    from_memory = Citation(title="some rule", status=SourceStatus.MEMORY)
    assert cited(from_memory).endswith(UNVERIFIED)
    assert "memory" not in Row(source="some table", status=SourceStatus.READ).cited
    assert "secondary" in Row(source="some table", status=SourceStatus.READ_2).cited


def test_a_number_without_uncertainty_deserves_three_figures() -> None:
    """0.0123 needs four decimals for them, 1.23 two, 123.4 none; a whole number needs none."""
    numbers = (0.0123, 0.456, 1.23, 12.3, 123.4, -0.0123, 7.0)
    assert [deserved(each, 0.0) for each in numbers] == [4, 3, 2, 1, 0, 4, 0]


def test_what_a_code_of_law_asks_for_is_cited_as_law() -> None:
    """The code for small commercial vessels, 20.5, is enforced by law, as 46 CFR and 30 CFR are."""
    laws = [
        each for each in every_formula() if re.search(r"commercial vessel code|\bCFR\b", each.source.title)
    ]
    assert len(laws) >= 2
    assert {each.source.basis for each in laws} == {LimitBasis.LAW}


def test_an_upper_end_counts_for_a_window_only() -> None:
    """Without a window it is not looked at; the normal distribution by scipy."""
    for sense, expected in (
        (Sense.AT_MOST, scipy.stats.norm.cdf(1.1, 1, 0.1)),
        (Sense.AT_LEAST, scipy.stats.norm.sf(1.1, 1, 0.1)),
        (Sense.WINDOW, scipy.stats.norm.cdf(1.2, 1, 0.1) - scipy.stats.norm.cdf(1.1, 1, 0.1)),
    ):
        assert conformity(1.0, 0.1, 1.1, sense, 1.2) == pytest.approx(expected, abs=1e-6)
