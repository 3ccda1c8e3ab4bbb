"""Every governing limit of deck gear, lifelines and ground tackle that a reading or an age is held against: both sides.

The figures are those of the limits files; what stands here is that each is reached where it says, and not before.
"""

from __future__ import annotations

import datetime as dt

import pytest

from reporter.model.citation import Limit
from reporter.model.evidence import Evidence
from reporter.model.plugin import Plugin
from reporter.model.terms import Grade, LimitKind, Sense, SourceStatus
from tests.plugins.evidence import REGISTRY, TODAY, best, fact, graded, known, spot

SYSTEMS = ("ground", "running", "safety")
PLUGINS = {kind: each for kind, each in REGISTRY.plugins.items() if each.system in SYSTEMS}
DIRECT = [
    (plugin, limit)
    for plugin in PLUGINS.values()
    for limit in plugin.limits
    if limit.governs and plugin.quantity(limit.quantity)
]
AGES = [
    (plugin, limit)
    for plugin in PLUGINS.values()
    for limit in plugin.limits
    if limit.governs and limit.kind is LimitKind.AGE
]


def with_reading(plugin: Plugin, limit: Limit, value: float) -> Evidence:
    """One reading, with the details that the limit was written for."""
    facts = {detail: fact(choice=choices[0]) for detail, choices in limit.applies.items()}
    return known(plugin, facts=facts, spots=[spot(limit.quantity, value, limit.unit)], observed=best(plugin))


def reached(plugin: Plugin, evidence: Evidence, limit: Limit) -> Grade:
    """The grade that this very limit leads to."""
    found = [check for check in graded(plugin, evidence).checks if check.limit and check.limit.id == limit.id]
    assert len(found) == 1, limit.id
    return found[0].grade


@pytest.mark.parametrize(("plugin", "limit"), DIRECT, ids=[limit.id for _, limit in DIRECT])
def test_a_limit_is_reached_beyond_its_figure_and_not_at_it(plugin: Plugin, limit: Limit) -> None:
    step = 1.0 if limit.unit in {"", "links"} else 0.01 * max(abs(limit.value), 1)
    ends = [(limit.value, -1 if limit.sense in {Sense.AT_LEAST, Sense.WINDOW} else 1)]
    ends += [(limit.upper, 1)] if limit.upper is not None else []
    for figure, way in ends:
        assert figure is not None
        assert reached(plugin, with_reading(plugin, limit, figure), limit) is Grade.CLEAR
        assert reached(plugin, with_reading(plugin, limit, figure + way * step), limit) is limit.then


@pytest.mark.parametrize(("plugin", "limit"), DIRECT, ids=[limit.id for _, limit in DIRECT])
def test_a_worse_reading_is_never_better(plugin: Plugin, limit: Limit) -> None:
    quantity = plugin.quantity(limit.quantity)
    assert quantity
    low, high = quantity.plausible
    # A window is worst at its ends: walk outwards from its upper one.
    start = limit.upper if limit.upper is not None else (high if limit.sense is Sense.AT_LEAST else low)
    end = low if limit.sense is Sense.AT_LEAST else high
    values = [
        round(start + (end - start) * step / 12) if limit.unit == "" else start + (end - start) * step / 12
        for step in range(13)
    ]
    parts = [graded(plugin, with_reading(plugin, limit, value)) for value in values]
    ranks = [part.grade.rank for part in parts]
    assert ranks == sorted(ranks), ranks
    scores = [part.score for part in parts if part.score is not None]
    assert scores == sorted(scores, reverse=True), scores


@pytest.mark.parametrize(("plugin", "limit"), AGES, ids=[limit.id for _, limit in AGES])
def test_an_age_leads_no_further_than_plan(plugin: Plugin, limit: Limit) -> None:
    facts = {detail: fact(choice=choices[0]) for detail, choices in limit.applies.items()}
    for years, grade in ((limit.value - 0.1, Grade.CLEAR), (limit.value + 0.1, limit.then)):
        day = TODAY - dt.timedelta(days=years * 365.25)
        evidence = known(
            plugin, facts={**facts, limit.quantity: fact(date=day.isoformat())}, observed=best(plugin)
        )
        assert reached(plugin, evidence, limit) is grade
    assert limit.then.rank <= Grade.PLAN.rank


def test_rules_for_racing_are_rules_and_say_so() -> None:
    """Offshore Special Regulations: written for racing yachts, never worse than `plan`."""
    racing = [
        limit
        for plugin in PLUGINS.values()
        for limit in plugin.limits
        if limit.source.title == "Offshore Special Regulations"
    ]
    assert len(racing) > 20
    for limit in racing:
        assert limit.kind is LimitKind.RULE, limit.id
        assert "racing" in limit.written_for, limit.id
        assert limit.then.rank <= Grade.PLAN.rank, limit.id
        assert limit.source.status is not SourceStatus.MEMORY, limit.id


def test_figures_from_memory_are_few_and_marked() -> None:
    """Ages that are customary, the tenth of ASME B30.26, and one pull of ISO 15085 which does not govern."""
    memory = {
        limit.id: limit.governs
        for plugin in PLUGINS.values()
        for limit in plugin.limits
        if limit.source.status is SourceStatus.MEMORY
    }
    assert memory == {
        "jackstay.installed.webbing": True, "winch.serviced.overdue": True, "windlass.serviced.overdue": True,
        "shackle.wear.tenth": True, "swivel.wear.tenth": True, "stanchion.test_pull.top": False,
    }  # fmt: skip
