"""A mark of what a kind asks: whether a sheet that comes back was printed by the same questions."""

from __future__ import annotations

import json
from hashlib import sha256

from reporter.model.plugin import Plugin


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
