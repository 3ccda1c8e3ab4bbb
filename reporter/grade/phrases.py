"""Says a check: the value with its uncertainty, the place, the limit; in no language, for outlining to put into words."""

from __future__ import annotations

from typing import cast

from reporter.engineering import units
from reporter.model.assessment import Check
from reporter.model.citation import Limit
from reporter.model.plugin import Plugin
from reporter.model.quantity import PartialDate
from reporter.model.saying import Amount, SourceFigure, Text, named, say
from reporter.model.terms import BASE_UNIT, Dimension, LimitBasis, LimitKind, Sense, State, Verdict

ROUGH = 0.1
"""Standard uncertainty in years above which an age is told in whole years."""


def said(check: Check, plugin: Plugin) -> Check:
    """The check with its title and its sentence; a sentence that it has already is left as it is."""
    title = check.title or title_of(check.subject, plugin)
    text = _sentence(check, title, plugin)
    whole = text if check.limit or not text else say("check.sentence", title=title, said=text)
    return check.model_copy(update={"title": title, "said": text, "sentence": whole or title})


def title_of(subject: str, plugin: Plugin) -> Text:
    """The declared title of what a check speaks of."""
    for table, found in (
        ("reading", plugin.quantity(subject)),
        ("derived", plugin.measure(subject)),
        ("observation", plugin.observation(subject)),
        ("detail", plugin.detail(subject)),
    ):
        if found is not None:
            return named(plugin.kind, table, subject, "title")
    return subject


def _sentence(check: Check, title: Text, plugin: Plugin) -> Text:
    if check.choice:
        return named(plugin.kind, "observation", check.subject, "choices", check.choice, "words")
    if check.verdict is Verdict.NOT_APPLICABLE:
        return check.said or say("check.not_applicable")
    if check.value is None or (check.said and check.limit):
        return check.said
    if check.limit is None:
        return say("check.worked_out", title=title, value=_amount(check, plugin), place=place(check))
    if check.kind is LimitKind.AGE:
        return _age(check, title, check.limit)
    return say(
        "check.too_coarse" if _too_coarse(check, check.limit) else f"check.{check.verdict}",
        title=title,
        value=_amount(check, plugin),
        place=place(check),
        limit=limit_text(check.limit, plugin),
        note=check.notes[-1] if check.notes else "",
    )


def _too_coarse(check: Check, limit: Limit) -> bool:
    """Whether the check is close only because no value, not even that of equal sides or a new part, could be told inside."""
    best = 0.0 if limit.between else limit.unworn
    if (
        check.verdict is not Verdict.CLOSE
        or check.value is None
        or best is None
        or limit.sense is Sense.WINDOW
    ):
        return False
    return 2 * check.value.u > abs(units.to_base(limit.value, limit.unit) - units.to_base(best, limit.unit))


def _amount(check: Check, plugin: Plugin) -> Amount | str:
    value = check.value
    if value is None:
        return ""
    metric, imperial = units_of(check.subject, plugin, check.limit)
    expanded = 0.0 if value.dimension is Dimension.COUNT else 2 * value.u
    metric = metric or value.unit or BASE_UNIT[value.dimension]
    return Amount(amount=value.value, unit=metric, imperial=imperial, expanded=expanded)


def units_of(subject: str, plugin: Plugin, limit: Limit | None) -> tuple[str, str]:
    """The units to print a value in: the declared ones of the quantity, else the limit's, else ""."""
    fallback = limit.unit if limit else ""
    measure = plugin.measure(subject) or plugin.detail(subject)
    if measure is None:
        return fallback, fallback
    return measure.unit or fallback, measure.imperial or measure.unit or fallback


def place(check: Check) -> Text:
    """Where on the part, which side, and whether as left: text to be put behind a value."""
    return say(
        "check.place",
        at=say("check.at", place=check.at) if check.at else "",
        side=say("check.side", side=say(f"side.{check.side}")) if check.side else "",
        left=say("check.left") if check.state is State.LEFT else "",
    )


def limit_text(limit: Limit, plugin: Plugin | None = None) -> Text:
    """The limit with its unit, as the source gives it; converted where the value is printed in another unit."""
    if limit.sense is Sense.WINDOW and limit.upper is not None:
        low, high = SourceFigure(figure=limit.value), SourceFigure(figure=limit.upper, unit=limit.unit)
        return say("check.window", low=low, high=high)
    shown = _figure(limit, plugin)
    return say("check.at_least", value=shown) if limit.sense is Sense.AT_LEAST else cast("Text", shown)


def _figure(limit: Limit, plugin: Plugin | None) -> SourceFigure:
    if plugin is None or limit.kind is LimitKind.AGE:
        return SourceFigure(figure=limit.value, unit=limit.unit)
    metric, imperial = units_of(limit.quantity, plugin, limit)
    return SourceFigure(figure=limit.value, unit=limit.unit, metric=metric, imperial=imperial)


def _age(check: Check, title: Text, limit: Limit) -> Text:
    if check.value is None:
        return ""
    years = check.value.value
    ident = {Verdict.WITHIN: "check.age_within", Verdict.BEYOND: "check.age"}.get(
        check.verdict, "check.age_close"
    )
    return say(
        ident,
        title=title,
        date=PartialDate.model_validate(check.value.written),
        value=Amount(amount=years, unit="years", decimals=0 if check.value.u > ROUGH else 1),
        limit=limit_text(limit),
        source=source_of(limit),
    )


def source_of(limit: Limit) -> Text:
    """Who gives an age: a practice in its own words, since its title names nobody; else the source's title."""
    source, kind = limit.source, limit.id.partition(".")[0]
    ident = limit.id.removeprefix(f"{kind}.")
    title = named(kind, "limit", ident, "source", "title")
    practice = source.basis is LimitBasis.PRACTICE and source.clause
    if not practice:
        return title
    return say("check.practice", title=title, clause=named(kind, "limit", ident, "source", "clause"))
