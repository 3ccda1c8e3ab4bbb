"""What is wrong in a kind although each entry is well formed: references that lead nowhere, and help that is missing.

Comes in: a `Plugin`. Goes out: sentences. It mends nothing.
"""

from __future__ import annotations

from collections.abc import Iterator

from reporter.model.plugin import Observation, Plugin, Quantity


def faults(plugin: Plugin) -> Iterator[str]:
    """Conditions on details, subjects of limits, members of groups: each must be declared by the kind itself."""
    details = {detail.id: detail for detail in plugin.details}
    conditions = [(detail.id, detail.only_if) for detail in plugin.details]
    conditions += [(each.id, each.only_if) for each in _asked(plugin)]
    conditions += [(limit.id, limit.applies) for limit in plugin.limits]
    for ident, condition in conditions:
        for detail, choices in condition.items():
            if detail not in details:
                yield f"'{ident}' depends on the detail '{detail}', which is not declared"
            elif unknown := sorted(set(choices) - set(details[detail].choices)):
                yield f"'{ident}' depends on {detail} being {', '.join(unknown)}, which is none of its choices"
    members = {each.id for each in _asked(plugin)}
    for group in plugin.together:
        for ident in sorted(set(group.holds) - members):
            yield f"the group '{group.id}' holds '{ident}', which is neither a reading nor an observation"


def unexplained(plugin: Plugin) -> list[str]:
    """Readings and observations without a help text, one line each."""
    return [f"{each.id} has no help: say how to look or measure." for each in _asked(plugin) if not each.help]


def _asked(plugin: Plugin) -> list[Quantity | Observation]:
    return [*plugin.readings, *plugin.observations]
