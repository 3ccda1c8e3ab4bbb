"""A component kind's page of the documentation, made from its declaration alone: Markdown for screen, print or web."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from reporter.model.citation import Limit
from reporter.model.plugin import DetailField, Observation, Plugin, Quantity, Task, Together
from reporter.model.terms import Sense
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
    if plugin.consequence:
        yield f"\n{words('kind_page.consequence', consequence=plugin.consequence)}"
    yield from _bullets(words("head.cautions"), plugin.cautions)
    yield from _bullets(words("kind_page.bring"), (*plugin.tools, *plugin.supplies))
    yield from _bullets(
        words("kind_page.examination"), [f"{each.words} (`{each.id}`)" for each in plugin.examination]
    )
    yield from _bullets(words("kind_page.details"), [_detail(each, words) for each in plugin.details])
    for group in plugin.together:
        yield from _group(group, plugin, words)
    held = {ident for group in plugin.together for ident in group.holds}
    asked: list[Observation | Quantity] = [*plugin.observations, *plugin.readings]
    for question in asked:
        if question.id not in held:
            yield from _question(question, plugin, words)
    yield from _bullets(words("kind_page.proof"), [f"{each.words} (`{each.id}`)" for each in plugin.proof])
    tasks = [_task(each, words) for each in plugin.tasks]
    yield from _bullets(words("kind_page.tasks"), tasks)
    decide = [_limit(limit, words) for limit in plugin.limits if limit.governs]
    yield from _bullets(words("kind_page.limits"), decide)
    inform = [_limit(limit, words) for limit in plugin.limits if not limit.governs]
    yield from _bullets(words("head.yardsticks"), inform)


def _bullets(title: str, items: Sequence[str]) -> Iterator[str]:
    if items:
        yield f"\n## {title}\n"
        yield from (f"- {item}" for item in items)


def _group(group: Together, plugin: Plugin, words: Catalogue) -> Iterator[str]:
    """What is gone through in one go, with which tools; each question with how to look."""
    tools = f" ({', '.join(group.tools)})" if group.tools else ""
    yield f"\n## {group.words}{tools}"
    for ident in group.holds:
        if question := plugin.observation(ident) or plugin.quantity(ident):
            yield from _question(question, plugin, words)


def _question(asked: Observation | Quantity, plugin: Plugin, words: Catalogue) -> Iterator[str]:
    taken = words(f"kind_page.{asked.required if asked.asked == 'usual' else 'on_request'}")
    yield f"\n### {asked.title} (`{asked.id}`, {taken})\n"
    if asked.help:
        yield f"{asked.help}\n"
    if isinstance(asked, Observation):
        yield from (f"- {line}" for line in _choices(asked, plugin, words))
    else:
        yield f"- {_reading(asked, words)}"
    yield from (f"- {line}" for line in _asides(asked, plugin, words))


def _asides(asked: Observation | Quantity, plugin: Plugin, words: Catalogue) -> Iterator[str]:
    """Where, how often, under which condition, and with which photo."""
    if asked.places:
        yield words("kind_page.places", places=", ".join(asked.places))
    if isinstance(asked, Quantity) and asked.repeats > 1:
        yield words("kind_page.repeats", count=asked.repeats)
    if asked.only_if:
        yield words("kind_page.only_if", conditions=_conditions(asked.only_if, plugin))
    if asked.photo:
        yield words(f"kind_page.photo_{asked.photo}")


def _conditions(only_if: Mapping[str, tuple[str, ...]], plugin: Plugin) -> str:
    told = []
    for ident, choices in only_if.items():
        detail = plugin.detail(ident)
        named = [detail.choices.get(each, each) if detail else each for each in choices]
        told.append(f"{detail.title if detail else ident}: {', '.join(named)}")
    return "; ".join(told)


def _choices(observation: Observation, plugin: Plugin, words: Catalogue) -> list[str]:
    return [
        f"`{each.id}`: {each.words} → **{words(f'grade.{each.grade}')}**{f'; {task.words}' if (task := plugin.task(each.task)) else ''}"
        for each in observation.choices
    ]


def _task(task: Task, words: Catalogue) -> str:
    told = (words(f"remedy.{task.remedy}"), words(f"access.{task.access}"), words(f"effort.{task.effort}"))
    return f"{task.words} (`{task.id}`): {'; '.join(filter(None, (*told, *task.parts)))}"


def _detail(field: DetailField, words: Catalogue) -> str:
    choices = "; ".join(f"`{ident}` {text}" for ident, text in field.choices.items())
    held = words(f"kind_page.holds_{field.holds}")
    holds = choices or (f"{held}, {field.unit}" if field.unit else held)
    return f"{field.title} (`{field.id}`): {holds}.{f' {field.help}' if field.help else ''}"


def _reading(quantity: Quantity, words: Catalogue) -> str:
    low, high = (exact(end) for end in quantity.plausible)
    unit = quantity.unit or words("kind_page.holds_count")
    return words("kind_page.reading", unit=unit, method=quantity.method, low=low, high=high)


def bound(limit: Limit, words: Catalogue) -> str:
    """The figure of a limit: "at most 1.5 %", "30 to 40°"."""
    if limit.sense is Sense.WINDOW and limit.upper is not None:
        return words("check.window", low=exact(limit.value), high=with_unit(exact(limit.upper), limit.unit))
    return words(f"check.{limit.sense}", value=with_unit(exact(limit.value), limit.unit))


def _limit(limit: Limit, words: Catalogue) -> str:
    source = ", ".join(
        words.cited(text) for text in (limit.source.title, limit.source.clause, limit.source.edition) if text
    )
    status = words(f"status.{limit.source.status}")
    told = [f"`{limit.id}`: {bound(limit, words)}"]
    if limit.between:
        told.append(words("sides.limit_relative" if limit.relative else "sides.limit"))
    told += [f"→ **{words(f'grade.{limit.then}')}** ({words(f'listing.kind_{limit.kind}')})."]
    told += [f"{source}{f', {status}' if status else ''}."]
    told += [words("kind_page.written_for", what=limit.written_for)] if limit.written_for else []
    return " ".join([*told, limit.note]).rstrip()
