"""Evidence made by hand, so that a plugin is tested without a job folder; and the grade that comes of it.

In: a plugin and what is known of one part of its kind. Out: Evidence, or the part graded as a report would have it.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping, Sequence

from reporter.engineering import units
from reporter.grade.component import judge
from reporter.grade.evidence import is_damaged
from reporter.model.assessment import Check, Graded
from reporter.model.evidence import Evidence, MeasurementPoint
from reporter.model.findings import Component, Done, Examined, Fact, Judgement, Observed
from reporter.model.plugin import Plugin
from reporter.model.quantity import PartialDate, Value
from reporter.model.template import Template
from reporter.model.terms import Basis, Extent, State
from reporter.outline.speaking import in_words
from reporter.registry import find, load
from reporter.wording import Speaker, catalogue

REGISTRY = load(find())
SPEAKER = Speaker(catalogue(), REGISTRY.plugins, imperial=False)
TODAY = dt.date(2026, 5, 12)
TEMPLATE = Template(
    id="test", title_id="title.handover", reader_id="reader.handover", sections=("components",)
)


def value(number: float, unit: str, expanded: float = 0.0) -> Value:
    """A number as written in `unit`, with its expanded uncertainty (k = 2) in the same unit."""
    base = units.to_base(number, unit)
    return Value(
        dimension=units.dimension_of(unit),
        value=base,
        u=units.to_base(expanded, unit) / 2,
        written=f"{number:g} {unit}".strip(),
        unit=unit,
    )


def fact(
    number: float | None = None,
    unit: str = "",
    *,
    choice: str = "",
    date: str = "",
    basis: Basis = Basis.STAMPED,
) -> Fact:
    """A detail: a number with its unit, a choice, or a date."""
    return Fact(
        basis=basis,
        value=None if number is None else value(number, unit),
        choice=choice,
        date=PartialDate.model_validate(date) if date else None,
    )


def spot(
    quantity: str,
    number: float,
    unit: str = "",
    expanded: float = 0.0,
    *,
    at: str = "",
    side: str = "",
    state: State = State.FOUND,
) -> MeasurementPoint:
    """One reading, `expanded` being its expanded uncertainty in the same unit."""
    return MeasurementPoint(
        quantity=quantity, at=at, side=side, state=state, value=value(number, unit, expanded)
    )


def known(
    plugin: Plugin,
    *,
    facts: Mapping[str, Fact] | None = None,
    spots: Sequence[MeasurementPoint] = (),
    observed: Mapping[str, str] | None = None,
    needed: Mapping[str, tuple[MeasurementPoint, ...] | Fact | Value] | None = None,
    extent: Extent = Extent.SEEN,
    judgement: Judgement | None = None,
    done: tuple[Done, ...] = (),
    proved: tuple[str, ...] = (),
) -> Evidence:
    """What is known of one part: everything looked at unless said otherwise."""
    component = Component(
        id=plugin.kind,
        kind=plugin.kind,
        examined=Examined(extent=extent, included=("all",)),
        observed={ident: (Observed(choice=choice),) for ident, choice in (observed or {}).items()},
        judgement=judgement,
        done=done,
        proved=proved,
    )
    needed = dict(needed or {})
    return Evidence(
        component=component,
        load_path=plugin.load_path,
        today=TODAY,
        facts=dict(facts or {}),
        spots=tuple(spots),
        observed=component.observed,
        needed=needed,
        unmet={need.id: need.why for need in plugin.needs if need.id not in needed},
        limits={limit.id: limit for limit in plugin.limits if not limit.between},
        damaged=is_damaged(component, plugin),
    )


def best(plugin: Plugin, **other: str) -> dict[str, str]:
    """The first choice of every observation that tells no gap, but for those named."""
    first = {each.id: next(one.id for one in each.choices if not one.gap) for each in plugin.observations}
    return first | other


def graded(plugin: Plugin, evidence: Evidence) -> Graded:
    """The part as a report would grade it."""
    return in_words(judge(plugin, evidence, plugin.assess(evidence), TEMPLATE), SPEAKER)


def check_of(plugin: Plugin, evidence: Evidence, ident: str) -> Check:
    """The one check whose id begins with `ident`, the core's own among them."""
    found = [check for check in graded(plugin, evidence).checks if check.id.split("@")[0] == ident]
    assert len(found) == 1, f"{ident}: {[check.id for check in graded(plugin, evidence).checks]}"
    return found[0]


def shown(check: Check, unit: str) -> float:
    """The value of a check in `unit`."""
    assert check.value is not None
    return units.from_base(check.value.value, unit)
