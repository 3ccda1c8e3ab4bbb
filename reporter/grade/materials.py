"""What to bring for a job, in the part's own sizes: `{detail}` in a task's materials is what the details say.

Comes in: an action and the facts of the part. Goes out: its materials, to be put into words in the report's language; one of
which nothing is known is left out.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from typing import cast

from reporter.model.assessment import Action
from reporter.model.findings import Fact
from reporter.model.plugin import Plugin
from reporter.model.saying import Material, Part, Text, named

_BRACE = re.compile(r"\{(\w+)\}")


def materials(action: Action, plugin: Plugin, facts: Mapping[str, Fact]) -> tuple[Text, ...]:
    """What the action's task asks for, as far as the details tell; what an action asks for itself stays as it is."""
    task = plugin.task(action.task)
    if task is None or action.parts != task.parts:
        return action.parts
    known = dict(_said(plugin, facts))
    made = (
        Material(kind=plugin.kind, task=task.id, place=place, known=_of(part, known))
        for place, part in enumerate(task.parts)
        if any(set(_BRACE.findall(phrase)) <= known.keys() for phrase in part.split(", "))
    )
    return tuple(cast("Text", each) for each in made)


def _of(part: str, known: Mapping[str, Part]) -> dict[str, Part]:
    return {ident: known[ident] for ident in _BRACE.findall(part) if ident in known}


def _said(plugin: Plugin, facts: Mapping[str, Fact]) -> Iterator[tuple[str, Part]]:
    for field in plugin.details:
        fact = facts.get(field.id)
        if fact is None or fact.choice == "unknown":
            continue
        if field.choices.get(fact.choice):
            yield field.id, named(plugin.kind, "detail", field.id, "choices", fact.choice)
        elif fact.value and fact.value.written:
            yield field.id, fact.value.written


def tools(plugin: Plugin) -> tuple[Text, ...]:
    """What the kind says to have at hand."""
    return tuple(named(plugin.kind, "tools", str(place)) for place in range(len(plugin.tools)))


def supplies(plugin: Plugin) -> tuple[Text, ...]:
    """What the kind says to have ready for work on it."""
    return tuple(named(plugin.kind, "supplies", str(place)) for place in range(len(plugin.supplies)))
