"""Names of a sheet's fields: what each one means, step by step, so that a filled sheet can be read without the page.

`chain/readings/span/@port run/-/2` is the second reading of the part `chain`, quantity `span`, at the place `port run`,
of no side. A full stop parts levels in PDF (ISO 32000-1, 12.7.3.2), so it is written otherwise inside a step.
"""

from __future__ import annotations

import json
from hashlib import sha256
from urllib.parse import unquote

from reporter.model.plugin import Plugin

NO_PLACE, NO_SIDE, WITH, WHERE, BASIS = "-", "-", "with", "at", "basis"
PLACE, FREE = "@", "+"
"""What leads a step that is a known place, and one whose place is written beside it."""
_WRITTEN = {"%": "%25", "/": "%2F", ".": "%2E"}


def field_name(*steps: object) -> str:
    """The name of the field with these steps."""
    return "/".join("".join(_WRITTEN.get(sign, sign) for sign in str(step)) for step in steps)


def steps_of(name: str) -> tuple[str, ...]:
    """The steps of a field's name."""
    return tuple(unquote(step) for step in name.split("/"))


def place_step(at: str) -> str:
    """The step of a place that is printed on the sheet."""
    return f"{PLACE}{at}" if at else NO_PLACE


def asking_version(plugin: Plugin) -> str:
    """A mark of what a kind asks and which answers it takes: another one means that its questions have changed."""
    asks = [each.model_dump(mode="json", include={"id", "unit", "dimension"}) for each in plugin.readings]
    asks += [
        {"id": each.id, "choices": sorted(choice.id for choice in each.choices)}
        for each in plugin.observations
    ]
    asks += [{"id": each.id, "holds": each.holds, "choices": sorted(each.choices)} for each in plugin.details]
    asks += [{"examination": sorted(each.id for each in plugin.examination)}]
    return sha256(json.dumps(asks, sort_keys=True).encode()).hexdigest()[:12]
