"""What to bring for a job, in the part's own sizes: `{detail}` in a task's materials is what the details say.

Comes in: a task's materials and the facts of the part. Goes out: the same in words; a phrase between commas whose
detail is not known is left out.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping

from reporter.model.job import Fact
from reporter.model.plugin import Plugin

_BRACE = re.compile(r"\{(\w+)\}")


def materials(parts: tuple[str, ...], plugin: Plugin, facts: Mapping[str, Fact]) -> tuple[str, ...]:
    """Each of `parts` with its braces filled, or without the phrases that nobody can fill."""
    known = dict(_said(plugin, facts))
    filled = (", ".join(_phrases(part, known)) for part in parts)
    return tuple(part for part in filled if part)


def _said(plugin: Plugin, facts: Mapping[str, Fact]) -> Iterator[tuple[str, str]]:
    for field in plugin.details:
        if (fact := facts.get(field.id)) and fact.choice != "unknown":
            written = fact.value.written if fact.value else ""
            if words := field.choices.get(fact.choice, "") or written:
                yield field.id, words


def _phrases(part: str, known: Mapping[str, str]) -> Iterator[str]:
    for phrase in part.split(", "):
        if all(ident in known for ident in _BRACE.findall(phrase)):
            yield _BRACE.sub(lambda found: known[found[1]], phrase)
