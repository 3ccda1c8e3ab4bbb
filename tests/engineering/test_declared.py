"""Every public function of the trade's arithmetic is declared, cited and printed as it is reckoned.

The printed formula is put to the test itself: its text is read with the numbers of the `Working` and must give the
result of the `Working`, so that nobody who checks a report with a pocket calculator finds another figure.
"""

from __future__ import annotations

import importlib
import inspect
import math
import pkgutil
import re
from statistics import NormalDist
from typing import Any

import pytest

import reporter.engineering
from reporter.engineering import Formula, table, units, verdict, work
from reporter.engineering.reference import Row
from reporter.model.assessment import Term
from reporter.model.terms import Dimension
from tests.keyed.holding import TABLES

MACHINERY = {
    "constants",
    "declaration",
    "domain",
    "figures",
    "reference",
    "rows",
    "trend",
    "verdict",
    "units",
}
"""Modules that hold no arithmetic of the trade."""

SAMPLES: dict[str, dict[str, float]] = {
    "chain.length_by_rollers": {"inside": 0.09528, "outside": 0.11112},
    "rigloads.hole_over_pin": {"hole": 0.0105, "pin": 0.01},
    "rigloads.hole_oversize": {"hole": 0.0105, "pin": 0.01},
    "rigloads.slack_hole_loss": {"hole": 0.0105, "pin": 0.01},
    "rigloads.net_section": {"thickness": 0.006, "width": 0.04, "hole": 0.0127},
    "rigloads.tear_out": {"thickness": 0.006, "edge": 0.02, "hole": 0.0127, "shear": 3e8},
    "strand.strength_between": {
        "diameter": 0.005,
        "smaller": 0.004,
        "smaller_strength": 12_600,
        "larger": 0.006,
        "larger_strength": 27_000,
    },
    "tackle.working_load": {"design_factor": 4},
    "tackle.knotted_load": {"design_factor": 4},
    "verdict.conformity_between": {"value": 13.6, "u": 1.8, "low": 12.5, "high": 16.3},
}
"""Inputs where the general sample would lie outside the domain."""

GENERAL: dict[Dimension, float] = {
    Dimension.LENGTH: 0.25,
    Dimension.AREA: 0.45,
    Dimension.FORCE: 900.0,
    Dimension.MASS: 40.0,
    Dimension.TORQUE: 120.0,
    Dimension.PRESSURE: 1.57e9,
    Dimension.SPEED: 4.2,
    Dimension.ANGLE: 0.4,
    Dimension.COUNT: 13.0,
    Dimension.RATIO: 0.6,
    Dimension.VOLTAGE: -0.55,
}


def modules() -> list[Any]:
    """Every module of the package that holds arithmetic."""
    names = [found.name for found in pkgutil.iter_modules(reporter.engineering.__path__)]
    return [
        importlib.import_module(f"reporter.engineering.{name}") for name in names if name not in MACHINERY
    ]


def public(module: Any) -> dict[str, Any]:
    """What a module itself defines for others: formulas and functions."""
    return {
        name: member
        for name, member in vars(module).items()
        if not name.startswith("_")
        and (isinstance(member, Formula) or inspect.isfunction(member))
        and member.__module__ == module.__name__
    }


FORMULAS = {
    f"{module.__name__.rpartition('.')[2]}.{name}": member
    for module in (*modules(), verdict)
    for name, member in public(module).items()
    if isinstance(member, Formula)
}


def test_there_is_something_to_test() -> None:
    """The collection below is not empty by accident."""
    assert len(FORMULAS) > 60
    assert "chain.elongation" in FORMULAS


@pytest.mark.parametrize("module", modules(), ids=lambda module: module.__name__.rpartition(".")[2])
def test_every_public_function_is_declared(module: Any) -> None:
    """A public function is a declared formula, or marked with the table that it reads."""
    for name, member in public(module).items():
        reads = getattr(member, "reads", None)
        assert isinstance(member, Formula) or (isinstance(reads, type) and issubclass(reads, Row)), name
        assert inspect.getdoc(member), name


def alone(sign: str) -> str:
    """Pattern of a sign that is no part of a longer one (a superscript may follow)."""
    letter = "[A-Za-z0-9_\u0370-\u03ff\u2080-\u2089]"
    return f"(?<!{letter}){re.escape(sign)}(?!{letter})"


@pytest.mark.parametrize("name", FORMULAS)
def test_the_formula_names_every_symbol(name: str) -> None:
    """Text, title, source and meanings are there, the signs are distinct, and the text uses every one of them."""
    declared = FORMULAS[name]
    signs = [symbol.sign for symbol in declared.symbols.values()] + [declared.result.sign]
    assert declared.title
    assert declared.source.title
    assert len(set(signs)) == len(signs)
    assert all(symbol.meaning for symbol in declared.symbols.values())
    left, _, right = declared.text.partition(" = ")
    assert left == declared.result.sign
    for symbol in declared.symbols.values():
        assert re.search(alone(symbol.sign), right), symbol.sign


@pytest.mark.parametrize("name", FORMULAS)
def test_every_unit_is_of_the_list(name: str) -> None:
    """Units come from the closed list (reporter.engineering.units), so that a report can convert them."""
    listed = {unit.name for unit in units.UNITS}
    declared = FORMULAS[name]
    for symbol in (*declared.symbols.values(), declared.result):
        assert symbol.unit in listed, symbol


def sample(name: str) -> dict[str, float]:
    """Inputs for a formula, no two of one dimension alike."""
    declared = FORMULAS[name]
    given = {
        parameter: GENERAL[symbol.dimension]
        * (1 if symbol.dimension is Dimension.COUNT else 1 + 0.17 * index)
        for index, (parameter, symbol) in enumerate(declared.symbols.items())
    }
    return {**given, **SAMPLES.get(name, {})}


def as_number(term: Term) -> float:
    """The number that stands for a term in the formula: percentages and angles stand for themselves."""
    plain = term.unit in {"%", "°"}
    return units.to_base(term.value, term.unit) if plain else term.value


def read(text: str, terms: tuple[Term, ...]) -> float:
    """The value of a printed formula."""
    names = {term.symbol: f"x{index}" for index, term in enumerate(terms)}
    for sign in sorted(names, key=len, reverse=True):
        text = re.sub(alone(sign), names[sign], text)
    for printed, python in {"·": "*", "−": "-", "²": "**2", "³": "**3", "⁴": "**4", "^": "**", "√": "sqrt", "°": "*deg",
                            "π": "pi", "Φ": "phi"}.items():  # fmt: skip
        text = text.replace(printed, python)
    text = re.sub(r"\|([^|]+)\|", r"abs(\1)", text)
    known = {names[term.symbol]: as_number(term) for term in terms}
    functions = {
        name: getattr(math, name) for name in ("sin", "cos", "tan", "asin", "atan", "sqrt", "ceil", "pi")
    } | {"min": min, "max": max, "abs": abs, "deg": math.radians(1), "phi": NormalDist().cdf}
    return float(eval(text, {"__builtins__": {}}, {**functions, **known}))  # noqa: S307 - our own texts only


@pytest.mark.parametrize("name", FORMULAS)
def test_the_printed_sum_gives_the_printed_result(name: str) -> None:
    """Formula text, printed inputs and printed result of a Working agree."""
    _, working = work(FORMULAS[name], sample(name))
    right = working.formula.partition(" = ")[2]
    assert read(right, working.inputs) == pytest.approx(as_number(working.result), rel=2e-6)


def test_every_table_has_a_type_and_every_row_a_source() -> None:
    """Each file of tables/ is read, has rows, and each row says where it comes from and how well it is known."""
    from importlib import resources

    files = {
        file.name.removesuffix(".toml")
        for file in (resources.files("reporter.engineering") / "tables").iterdir()
    }
    assert files == {kind.table_name for kind in TABLES}
    for kind in TABLES:
        rows = table(kind)
        assert rows, kind
        for row in rows:
            assert row.source, row
            assert row.status in {"READ", "READ-2", "DERIVED", "MEMORY"}, row
