"""Printed sums can be reckoned again: from the printed inputs comes the printed result, within its last figure.

Oracle: the declared function itself, fed with what a reader has before him, in every sum that the demonstration folders
print and in every declared formula with inputs of known and of no uncertainty.
"""

from __future__ import annotations

import importlib
import math
import pkgutil
from collections.abc import Iterator

import pytest
from uncertainties import ufloat

from reporter.engineering import Formula, units, work
from reporter.engineering.chain import elongation
from reporter.model.assessment import Term, Working
from reporter.outline.measures import figures_of
from reporter.wording import exact
from reporter.wording.numbers import MINUS, NO_BREAK, number, quantity, with_spread
from tests.demo.test_demo import FOLDERS, graded
from tests.engineering.test_declared import FORMULAS, sample
from tests.engineering.test_declared import read as by_text


def everywhere() -> dict[tuple[str, str], Formula[...]]:
    """Every declared formula of the program and its kinds, by title and text."""
    top = importlib.import_module("reporter_plugins").__path__
    kinds = [
        importlib.import_module(each.name) for each in pkgutil.walk_packages(top, prefix="reporter_plugins.")
    ]
    own = [each for module in kinds for each in vars(module).values() if isinstance(each, Formula)]
    return {(each.title, each.text): each for each in (*FORMULAS.values(), *own)}


DECLARED = everywhere()


def read(text: str) -> float:
    """The number that a reader takes from the page: without its unit and what stands behind ±."""
    plain = text.partition("±")[0].replace(MINUS, "-")
    figures = ""
    for place, char in enumerate(plain):
        inside = char == NO_BREAK and plain[place + 1 : place + 4].isdigit() and figures[-1:].isdigit()
        if char.isdigit() or char in "-.":
            figures += char
        elif not inside:
            break
    return float(figures)


def last_figure(term: Term) -> float:
    """One unit of the last figure that the term is printed with."""
    shown = figures_of(term).partition("±")[0]
    decimals = sum(char.isdigit() for char in shown.partition(".")[2].partition(NO_BREAK)[0])
    return 10.0 ** -(decimals or min(term.decimals or 0, 0))


def reckoned(function: Formula[...], working: Working) -> float:
    base = [units.to_base(read(figures_of(term)), term.unit) for term in working.inputs]
    return units.from_base(function.function(*base), working.result.unit)


def holds(function: Formula[...], working: Working) -> None:
    off = abs(reckoned(function, working) - read(figures_of(working.result)))
    told = [(term.symbol, term.value, figures_of(term)) for term in (*working.inputs, working.result)]
    assert off <= last_figure(working.result) * (1 + 1e-9), told


def printed(name: str) -> Iterator[Working]:
    for part in graded(name).components:
        for check in part.checks:
            yield from check.working


@pytest.mark.parametrize("folder", FOLDERS)
def test_every_sum_of_the_demonstration_folders(folder: str) -> None:
    sums = list(printed(folder))
    assert sums
    for working in sums:
        holds(DECLARED[working.title, working.formula], working)


@pytest.mark.parametrize("name", FORMULAS)
def test_every_declared_formula(name: str) -> None:
    """With exact inputs as a table gives them, with measured ones, and with what conversions leave of a number."""
    function = FORMULAS[name]
    for spread in (0.0, 0.002, 0.03):
        for ragged in (False, True):
            given = {
                key: value * (1 + 0.002 * math.sin(place + 1) if ragged else 1.0)
                for place, (key, value) in enumerate(sample(name).items())
            }
            inputs = {
                key: ufloat(value, spread * abs(value)) if spread and not counts(function, key) else value
                for key, value in given.items()
            }
            try:
                _, working = work(function, inputs)
            except ValueError:
                assert ragged or spread  # outside the domain: whole numbers, sizes of a table
                continue
            holds(function, working)
            if not function.empirical:
                terms = tuple(
                    term.model_copy(update={"value": read(figures_of(term))}) for term in working.inputs
                )
                worth = by_text(working.formula.partition(" = ")[2], terms)
                plain = working.result.unit in {"%", "°"}
                shown = units.from_base(worth, working.result.unit) if plain else worth
                off = abs(shown - read(figures_of(working.result)))
                assert off <= last_figure(working.result) * (1 + 1e-6), name


def counts(function: Formula[...], name: str) -> bool:
    return function.symbols[name].dimension.value == "count"


def test_a_pitch_of_five_eighths_of_an_inch_is_printed_in_full() -> None:
    """15.875 mm printed as 15.9 would turn 1.5 % of wear into 1.3 %."""
    _, working = work(elongation, {"length": ufloat(0.32225, 0.00025), "links": 20, "pitch": 0.015875})
    told = [figures_of(term).replace(NO_BREAK, " ") for term in (*working.inputs, working.result)]
    # 322.25 / 317.5 - 1 = 1.496 %, U = 2 · 0.25 / 317.5 = 0.157 %
    assert told[1:3] == ["20", "15.875 mm"]
    assert read(told[3]) == 1.50
    assert abs(100 * (read(told[0]) / (20 * 15.875) - 1) - 1.50) <= 0.01


@pytest.mark.parametrize(
    ("value", "expanded", "shown"),
    [
        # GUM 7.2.2 and 7.2.6 (100.021 47 g, U 0.000 79 -> one figure by our rule); the others by the same rule, by hand
        (100.02147, 0.00079, "100.0215 ± 0.0008"),
        (28345.0, 2000.0, "28 300 ± 2000"),
        (28345.0, 4000.0, "28 000 ± 4000"),
        (28345.0, 1200.0, "28 300 ± 1200"),
        (1234.0, 56.0, "1230 ± 60"),
        (254.3, 0.5, "254.3 ± 0.5"),
        (3.0, 0.16, "3.00 ± 0.16"),
        (-40.0, 300.0, "0 ± 300"),
    ],
)
def test_a_result_is_rounded_by_its_uncertainty(value: float, expanded: float, shown: str) -> None:
    assert with_spread(value, expanded).replace(NO_BREAK, " ") == shown


def test_an_exact_number_is_never_cut_short() -> None:
    assert [exact(each).replace(NO_BREAK, " ") for each in (15.875, 1234567.0, 12.7001, 0.0, 1e-5)] == [
        "15.875", "1 234 567", "12.7001", "0", "0.00001",
    ]  # fmt: skip
    assert exact(200 / 65) == "3.07692"


def test_the_sentence_and_the_sum_tell_the_same_figures() -> None:
    assert quantity(28345.0, "N", expanded=4000.0).replace(NO_BREAK, " ") == "28 000 ± 4000 N"
    assert number(12345.0) == f"12{NO_BREAK}345"
