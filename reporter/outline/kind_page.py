"""A component kind's page of the documentation, made from its declaration alone: Markdown for screen, print or web."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from reporter.model.citation import Limit
from reporter.model.plugin import DetailField, Observation, Plugin, Quantity
from reporter.wording import Catalogue, exact
from reporter.wording.numbers import with_unit


def kind_page(plugin: Plugin, words: Catalogue) -> str:
    """What to look at, what to measure and how, what each answer leads to, by which limits, with what and how warily."""
    return words.terms("\n".join(_page(plugin, words)).rstrip() + "\n")


def _page(plugin: Plugin, words: Catalogue) -> Iterator[str]:
    yield f"# {plugin.title} (`{plugin.kind}`)"
    if plugin.purpose:
        yield f"\n{words('kind_page.purpose', purpose=plugin.purpose)}"
    yield f"\n{words('kind_page.on_path' if plugin.load_path else 'kind_page.off_path')}"
    yield from _bullets(words("head.cautions"), plugin.cautions)
    yield from _bullets(words("kind_page.bring"), (*plugin.tools, *plugin.supplies))
    yield from _bullets(
        words("kind_page.examination"), [f"{each.words} (`{each.id}`)" for each in plugin.examination]
    )
    yield from _bullets(words("kind_page.details"), [_detail(each) for each in plugin.details])
    for each in plugin.observations:
        yield from _bullets(f"{each.title} (`{each.id}`, {_taken(each)})", _choices(each, plugin, words))
    yield from _bullets(words("kind_page.readings"), [_reading(each) for each in plugin.readings])
    yield from _bullets(words("kind_page.proof"), [f"{each.words} (`{each.id}`)" for each in plugin.proof])
    decide = [_limit(limit, words) for limit in plugin.limits if limit.governs]
    yield from _bullets(words("kind_page.limits"), decide)
    inform = [_limit(limit, words) for limit in plugin.limits if not limit.governs]
    yield from _bullets(words("head.yardsticks"), inform)


def _bullets(title: str, items: Sequence[str]) -> Iterator[str]:
    if items:
        yield f"\n## {title}\n"
        yield from (f"- {item}" for item in items)


def _taken(item: Observation | Quantity) -> str:
    return item.required if item.asked == "usual" else "on request"


def _choices(observation: Observation, plugin: Plugin, words: Catalogue) -> list[str]:
    return [
        f"`{each.id}`: {each.words} → **{words(f'grade.{each.grade}')}**{f'; {task.words}' if (task := plugin.task(each.task)) else ''}"
        for each in observation.choices
    ]


def _detail(field: DetailField) -> str:
    choices = "; ".join(f"`{ident}` {text}" for ident, text in field.choices.items())
    holds = choices or (f"{field.holds}, in {field.unit}" if field.unit else field.holds)
    return f"{field.title} (`{field.id}`): {holds}.{f' {field.help}' if field.help else ''}"


def _reading(quantity: Quantity) -> str:
    low, high = (exact(end) for end in quantity.plausible)
    unit = quantity.unit or "count"
    return (
        f"{quantity.title} (`{quantity.id}`, {_taken(quantity)}): {unit}; {quantity.method}; "
        f"{low} to {high} is plausible.{f' {quantity.help}' if quantity.help else ''}"
    )


def _limit(limit: Limit, words: Catalogue) -> str:
    source = ", ".join(
        text for text in (limit.source.title, limit.source.clause, limit.source.edition) if text
    )
    status = words(f"status.{limit.source.status}")
    told = [
        f"`{limit.id}`: {limit.sense.value.replace('_', ' ')} {with_unit(exact(limit.value), limit.unit)}"
    ]
    told += [f"to {with_unit(exact(limit.upper), limit.unit)}"] if limit.upper is not None else []
    if limit.between:
        told.append(words("sides.limit_relative" if limit.relative else "sides.limit"))
    told += [f"→ **{words(f'grade.{limit.then}')}** ({limit.kind})."]
    told += [f"{source}{f', {status}' if status else ''}."]
    told += [f"Written for {limit.written_for}."] if limit.written_for else []
    return " ".join([*told, limit.note]).rstrip()
