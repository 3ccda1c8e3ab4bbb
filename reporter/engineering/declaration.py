"""A sum of the trade as one declared function, and `work`, which runs it with its uncertainty.

In: plain floats in base units (or `Value`s, or numbers of the `uncertainties` library where inputs are
correlated). Out: the result as a `Value`, and the `Working` that a report prints. Nothing here judges, rounds
or knows a limit; the library is loaded only where it is handed a number of its own.
"""

from __future__ import annotations

import functools
import inspect
import math
import sys
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from importlib import resources
from typing import Generic, NamedTuple, ParamSpec, Protocol, TypeVar

import tomli

from reporter.engineering import figures
from reporter.engineering.units import dimension_of, from_base, to_base
from reporter.model.assessment import Term, Working
from reporter.model.citation import Citation
from reporter.model.quantity import Value
from reporter.model.terms import Dimension

P = ParamSpec("P")
R = TypeVar("R")

COVERAGE_FACTOR = 2.0
"""Expanded uncertainty is this many standard uncertainties (NIST Technical Note 1297, 6.2: about 95 %)."""

_RELATIVE_STEP = sys.float_info.epsilon ** (1 / 3)
"""Step of a central difference at which cutting and rounding errors are about equal."""


class UncertainNumber(Protocol):
    """What `work` needs of a number of the `uncertainties` library."""

    @property
    def nominal_value(self) -> float:
        """Best estimate, in the base unit."""

    @property
    def std_dev(self) -> float:
        """Standard uncertainty, in the base unit."""


Input = Value | UncertainNumber | float
"""What a sum is fed: a value, a number of the library that knows what it is correlated with, or an exact number."""


@dataclass(frozen=True)
class Symbol:
    """One letter of a formula: the sign that is printed, what it means, and the unit it is printed in."""

    sign: str
    meaning: str
    unit: str

    @property
    def dimension(self) -> Dimension:
        """What the symbol measures, as its unit tells."""
        return dimension_of(self.unit)


class Declaration(NamedTuple):
    """What a sum is called, how it is printed, what its letters mean by parameter, where it comes from.

    `text` holds for the numbers as printed, that is in the display units of `symbols`; `%` and degrees stand
    for the fraction and the angle themselves. `empirical` marks a formula whose constants hold in those units
    only.
    """

    title: str
    text: str
    symbols: Mapping[str, Symbol]
    result: Symbol
    source: Citation
    empirical: bool = False


class Formula(Generic[P]):
    """A function on plain floats in base units, with what a report needs to print its arithmetic."""

    def __init__(self, function: Callable[P, float], declared: Declaration) -> None:
        self.function = function
        self.title, self.text, self.symbols, self.result, self.source, self.empirical = declared
        functools.update_wrapper(self, function)
        self.parameters = inspect.signature(function).parameters
        # A symbol in another place would print a number under the wrong letter.
        if list(self.parameters) != list(self.symbols):
            msg = f"{self.name}: symbols must name the parameters, in their order"
            raise TypeError(msg)

    @property
    def name(self) -> str:
        """The function's own name."""
        return self.function.__name__

    def __call__(self, *args: P.args, **kwargs: P.kwargs) -> float:
        """The plain function: base units in, base unit out; ValueError outside its domain."""
        return self.function(*args, **kwargs)


def formula(function: Callable[P, float]) -> Formula[P]:
    """Declare a function: what a report prints of it stands in `formulas.toml` of its package, under module and name.

    KeyError names a function that the file does not hold.
    """
    package, _, module = function.__module__.rpartition(".")
    return Formula(function, _declared(package)[module, function.__name__])


@functools.cache
def _declared(package: str) -> dict[tuple[str, str], Declaration]:
    """The declarations of a package by module and function; `[source.<name>]` saves writing one source many times."""
    data = tomli.loads((resources.files(package) / "formulas.toml").read_text("utf-8"))
    sources = data.pop("source", {})
    return {
        (module, name): Declaration(
            each["title"],
            each["text"],
            {parameter: Symbol(*letter) for parameter, letter in each["symbols"].items()},
            Symbol(*each["result"]),
            Citation.model_validate(sources[source] if isinstance(source := each["source"], str) else source),
            each.get("empirical", False),
        )
        for module, entries in data.items()
        for name, each in entries.items()
    }


def work(
    function: Formula[...],
    inputs: Mapping[str, Input],
    *,
    units: Mapping[str, str] | None = None,
) -> tuple[Value, Working]:
    """Run a declared function and keep the arithmetic.

    `inputs` are keyed by parameter name: a `Value`, a plain float in the base unit (taken as exact), or a
    number of the `uncertainties` library in the base unit, which is how correlated inputs are told. A
    parameter with a default may be left out and is printed with its default. `units` replaces display units
    by parameter name, and under "result" that of the result; not for an empirical formula, whose constants
    would no longer hold.

    Returns the result (base unit, standard uncertainty by first-order propagation, GUM 5.1.2 and 5.2.2) and
    its `Working` in display units with expanded uncertainties (k = 2). Raises ValueError in plain words when
    an input is missing, unknown, of another dimension, not finite or outside the function's domain.
    """
    given = _complete(function, inputs)
    nominal, u = _propagated(function, list(given.values()))
    if not math.isfinite(nominal) or not math.isfinite(u):
        msg = f"{function.title}: these inputs give no finite result"
        raise ValueError(msg)
    shown = _display_units(function, units or {})
    terms = [_term(function.symbols[name], shown[name], *_split(each)) for name, each in given.items()]
    value = Value(dimension=function.result.dimension, value=nominal, u=u, unit=shown["result"])
    result = _term(function.result, shown["result"], nominal, u)
    printed, result = _with_figures(function, terms, result)
    return value, Working(
        id=function.name,
        title=function.title,
        formula=function.text,
        inputs=printed,
        result=result,
        source=function.source,
    )


def _complete(function: Formula[...], inputs: Mapping[str, Input]) -> dict[str, Input]:
    """The inputs in the order of the parameters, defaults filled in, each of them in order."""
    unknown = sorted(set(inputs) - set(function.parameters))
    if unknown:
        msg = f"{function.title}: no such input: {', '.join(unknown)}"
        raise ValueError(msg)
    defaults = {name: each.default for name, each in function.parameters.items()}
    given = {name: inputs.get(name, default) for name, default in defaults.items()}
    for name, value in given.items():
        if value is inspect.Parameter.empty:
            msg = f"{function.title}: {function.symbols[name].meaning} is missing"
            raise ValueError(msg)
        _check(function.title, function.symbols[name], value)
    return given


def _check(title: str, symbol: Symbol, value: Input) -> None:
    if isinstance(value, Value) and value.dimension is not symbol.dimension:
        msg = f"{title}: {symbol.meaning} is a {symbol.dimension}, not a {value.dimension}"
        raise ValueError(msg)
    nominal, u = _split(value)
    if not math.isfinite(nominal) or not math.isfinite(u) or u < 0:
        msg = f"{title}: {symbol.meaning} is not a finite number with an uncertainty of 0 or more"
        raise ValueError(msg)


def _split(number: Input) -> tuple[float, float]:
    """Best estimate and standard uncertainty."""
    if isinstance(number, int | float):
        return float(number), 0.0
    if isinstance(number, Value):
        return number.value, number.u
    return float(number.nominal_value), float(number.std_dev)


def _propagated(function: Formula[...], inputs: Sequence[Input]) -> tuple[float, float]:
    """The result and its standard uncertainty; inputs are independent unless they are numbers of the library."""
    values = [_split(each) for each in inputs]
    numbers = [nominal for nominal, _ in values]
    slopes = [_slope(function.function, index) for index in range(len(numbers))]
    if all(isinstance(each, Value | int | float) for each in inputs):
        parts = [slope(*numbers) * u for slope, (_, u) in zip(slopes, values, strict=True) if u]
        return float(function.function(*numbers)), math.sqrt(sum(part**2 for part in parts))
    # Loaded only here: a number of the library knows itself what it is correlated with.
    from uncertainties import ufloat, wrap

    told = [
        ufloat(*value) if isinstance(each, Value) else each
        for each, value in zip(inputs, values, strict=True)
    ]
    return _split(wrap(function.function, slopes)(*told))


def _slope(function: Callable[..., float], index: int) -> Callable[..., float]:
    """Partial derivative by central difference, one-sided at the edge of the domain.

    The library's own differences step over the edge (a play of 0 mm becomes a negative play) and would raise.
    """

    def slope(*values: float) -> float:
        here = values[index]
        step = _RELATIVE_STEP * (abs(here) or 1.0)
        ends: list[tuple[float, float]] = []
        for moved in (here - step, here + step):
            try:
                ends.append((moved, function(*values[:index], moved, *values[index + 1 :])))
            # Outside the domain: stay here, so that the difference becomes one-sided.
            except ValueError:
                ends.append((here, function(*values)))
        (low, f_low), (high, f_high) = ends
        return (f_high - f_low) / (high - low)

    return slope


def _display_units(function: Formula[...], units: Mapping[str, str]) -> dict[str, str]:
    """The unit each term is printed in, by parameter name, and "result"."""
    shown = {name: symbol.unit for name, symbol in function.symbols.items()} | {
        "result": function.result.unit
    }
    for name, unit in units.items():
        if name not in shown:
            msg = f"{function.title}: no such input: {name}"
            raise ValueError(msg)
        if dimension_of(unit) is not dimension_of(shown[name]):
            msg = f"{function.title}: {unit} does not measure the same as {shown[name]}"
            raise ValueError(msg)
        if function.empirical and unit != shown[name]:
            msg = f"{function.title}: the constants of this formula hold for {shown[name]} only"
            raise ValueError(msg)
        shown[name] = unit
    return shown


def _with_figures(function: Formula[...], terms: list[Term], result: Term) -> tuple[tuple[Term, ...], Term]:
    """The terms with their decimals: the printed inputs give the printed result again."""

    def run(numbers: Sequence[float]) -> float:
        base = [to_base(number, term.unit) for number, term in zip(numbers, terms, strict=True)]
        return from_base(function.function(*base), result.unit)

    kept = figures.deserved(result.value, result.expanded)
    inputs = [term.value for term in terms], [term.expanded for term in terms]
    decimals = figures.for_inputs(*inputs, run, 10.0**-kept)
    told = [term.model_copy(update={"decimals": each}) for term, each in zip(terms, decimals, strict=True)]
    return tuple(told), result.model_copy(update={"decimals": kept})


def _term(symbol: Symbol, unit: str, nominal: float, u: float) -> Term:
    """One line of the sum in its display unit."""
    return Term(
        symbol=symbol.sign,
        meaning=symbol.meaning,
        value=from_base(nominal, unit),
        unit=unit,
        expanded=from_base(COVERAGE_FACTOR * u, unit),
    )
