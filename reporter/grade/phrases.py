"""Says a check in one sentence: the value with its uncertainty, the place, the limit."""

from __future__ import annotations

from reporter.engineering import units
from reporter.model.assessment import Check
from reporter.model.citation import Limit
from reporter.model.plugin import Plugin
from reporter.model.quantity import PartialDate
from reporter.model.terms import BASE_UNIT, Dimension, LimitBasis, LimitKind, Sense, State, Verdict
from reporter.wording import Catalogue, date, exact, quantity
from reporter.wording.numbers import number, with_unit


def said(check: Check, plugin: Plugin, words: Catalogue, *, imperial: bool) -> Check:
    """The check with its sentence; checks that already have one (observations) are left as they are."""
    if check.value is not None and check.limit is None:
        return check.model_copy(update={"said": _worked_out(check, plugin, words, imperial=imperial)})
    if check.said or check.limit is None or check.value is None:
        return check
    sentence = _age(check, check.limit, words) if check.kind is LimitKind.AGE else ""
    if not sentence:
        unit = unit_of(check.subject, plugin, check.limit, imperial=imperial)
        expanded = 0.0 if check.value.dimension is Dimension.COUNT else 2 * check.value.u
        sentence = words(
            f"check.{check.verdict}",
            title=check.title,
            value=quantity(check.value.value, unit, expanded=expanded),
            place=place(check, words),
            limit=limit_words(check.limit, words, unit),
            note="; ".join(check.notes),
        )
    return check.model_copy(update={"said": sentence})


def _worked_out(check: Check, plugin: Plugin, words: Catalogue, *, imperial: bool) -> str:
    """A value that no limit speaks of: printed, not graded."""
    if check.value is None:
        return check.said
    unit = (
        unit_of(check.subject, plugin, None, imperial=imperial)
        or check.value.unit
        or BASE_UNIT[check.value.dimension]
    )
    expanded = 0.0 if check.value.dimension is Dimension.COUNT else 2 * check.value.u
    shown = quantity(check.value.value, unit, expanded=expanded)
    return words("check.worked_out", title=check.title, value=shown, place=place(check, words))


def unit_of(subject: str, plugin: Plugin, limit: Limit | None, *, imperial: bool) -> str:
    """The unit to print a value in: the declared one of the quantity, else the limit's, else ""."""
    fallback = limit.unit if limit else ""
    if limit and limit.between:
        if limit.relative:
            return fallback
        subject = limit.quantity
    measure = plugin.measure(subject) or plugin.detail(subject)
    if measure is None:
        return fallback
    return (measure.imperial if imperial else "") or measure.unit or fallback


def place(check: Check, words: Catalogue) -> str:
    """Where on the part, which side, and whether as left: text to be put behind a value."""
    parts = [words("check.at", place=check.at)] if check.at else []
    parts += [words("check.side", side=check.side)] if check.side else []
    parts += [words("check.left")] if check.state is State.LEFT else []
    return "".join(parts)


def limit_words(limit: Limit, words: Catalogue, unit: str = "") -> str:
    """The limit with its unit, as the source gives it: "3 %", "4 to 6 mm"; converted where the value has another unit."""
    if limit.sense is Sense.WINDOW and limit.upper is not None:
        window = words("check.window", low=exact(limit.value), high=exact(limit.upper))
        return with_unit(window, limit.unit)
    shown = with_unit(exact(limit.value), limit.unit)
    if unit and unit != limit.unit and limit.kind is not LimitKind.AGE:
        shown += f" ({quantity(units.to_base(limit.value, limit.unit), unit)})"
    return words("check.at_least", value=shown) if limit.sense is Sense.AT_LEAST else shown


def _age(check: Check, limit: Limit, words: Catalogue) -> str:
    if check.value is None:
        return ""
    years = check.value.value
    ago = with_unit(number(years, decimals=0 if check.value.u > 0.1 else 1), "years")  # noqa: PLR2004
    ident = {Verdict.WITHIN: "check.age_within", Verdict.BEYOND: "check.age"}.get(
        check.verdict, "check.age_close"
    )
    fitted = date(PartialDate.model_validate(check.value.written))
    return words(
        ident,
        title=check.title,
        date=fitted,
        value=ago,
        limit=limit_words(limit, words),
        source=_told_by(limit),
    )


def _told_by(limit: Limit) -> str:
    """Who gives an age: a practice in its own words, since its title names nobody; else the source's title."""
    source = limit.source
    practice = source.basis is LimitBasis.PRACTICE and source.clause
    return f"{source.title}, {source.clause}" if practice else source.title
