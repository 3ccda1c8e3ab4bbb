"""Puts what grading says into words: every saying of the assessments becomes a sentence of the report's language.

Comes in: assessments, the job's language, terms and units, the installed kinds. Goes out: the same assessments with plain
strings. Nothing is judged here, and no order changes.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache, singledispatch
from typing import Any, TypeVar, get_args

from reporter.engineering import units
from reporter.model.assessment import Assessments, Working
from reporter.model.base import Noun
from reporter.model.citation import Citation, Limit
from reporter.model.evidence import MeasurementPoint
from reporter.model.findings import Component
from reporter.model.history import Edge, Forecast, TimeSeries
from reporter.model.job import Job
from reporter.model.plugin import Kinds
from reporter.model.quantity import PartialDate, Value
from reporter.model.saying import UNSPOKEN
from reporter.wording import Speaker, catalogue

N = TypeVar("N", bound=Noun)
SILENT = (Component, Limit, Citation, Value, PartialDate, MeasurementPoint)
"""Nouns that hold a person's own words or figures alone: nothing in them is left to be said."""


def spoken(assessments: Assessments, job: Job, kinds: Kinds) -> Assessments:
    """The assessments in words."""
    told = in_words(assessments, speaker(job, kinds))
    systems = tuple(
        each.model_copy(update={"title": kinds.systems[each.id].title}) if each.id in kinds.systems else each
        for each in told.systems
    )
    return told.model_copy(update={"systems": systems})


def speaker(job: Job, kinds: Kinds) -> Speaker:
    """Who says it: the language, terms and units that the job asks for."""
    sheet = job.sheet
    return Speaker(catalogue(sheet.lang, sheet.terms), kinds.plugins, imperial=sheet.units == "imperial")


def in_words(noun: N, say: Speaker) -> N:
    """A noun of grading with every saying in it put into words."""
    noun = _settled(noun, say)
    values = ((name, getattr(noun, name)) for name in _told_fields(type(noun)))
    changes = {name: told for name, value in values if (told := _told(value, say)) is not value}
    return noun.model_copy(update=changes) if changes else noun


@cache
def _told_fields(noun: type[Noun]) -> tuple[str, ...]:
    """The fields of a kind of noun in which something may be left to be said; most hold figures and ids."""
    fields = noun.model_fields.items()
    return tuple(name for name, field in fields if any(map(_may_be_told, _named_in(field.annotation))))


def _named_in(annotation: Any) -> Iterator[Any]:
    """The classes that an annotation names."""
    yield annotation
    for each in get_args(annotation):
        yield from _named_in(each)


def _may_be_told(kind: Any) -> bool:
    return isinstance(kind, type) and (kind in UNSPOKEN or issubclass(kind, Noun)) and kind not in SILENT


def _told(value: Any, say: Speaker) -> Any:
    if isinstance(value, UNSPOKEN):
        return say(value)
    if isinstance(value, tuple) and value:
        told = tuple(_told(each, say) for each in value)
        return told if any(new is not old for new, old in zip(told, value, strict=True)) else value
    if isinstance(value, Noun) and not isinstance(value, SILENT):
        return in_words(value, say)
    return value


@singledispatch
def _settled(noun: Any, say: Speaker) -> Any:  # noqa: ARG001
    """The noun in the report's units and words; most hold base units and ids, and are printed by whoever shows them."""
    return noun


@_settled.register
def _(working: Working, say: Speaker) -> Working:
    return say.working(working)


@_settled.register
def _(run: TimeSeries, say: Speaker) -> TimeSeries:
    return run.model_copy(update={"unit": run.imperial or run.unit}) if say.imperial else run


@_settled.register
def _(forecast: Forecast, say: Speaker) -> Forecast:
    """Rates and the band of the plot stand in the run's unit."""
    run = forecast.run
    if not say.imperial:
        return forecast
    by = units.to_base(1.0, run.unit) / units.to_base(1.0, run.imperial or run.unit)
    edges = tuple(
        Edge(x=each.x, low=each.low * by, middle=each.middle * by, high=each.high * by)
        for each in forecast.edges
    )
    update = {"rate": forecast.rate * by, "rate_expanded": forecast.rate_expanded * by, "edges": edges}
    return forecast.model_copy(update=update)
