"""The limits in force: those of the kinds aboard, with what the job changes in them, and what may be changed to what.

In: plugins and the sheet of the job. Out: limits by id, each with what it replaced. No problem is told here.
"""

from __future__ import annotations

from collections.abc import Mapping

from reporter.model.citation import Limit, Override
from reporter.model.plugin import Plugin
from reporter.model.sheet import JobSheet
from reporter.model.terms import Dimension

SIGNED = frozenset({Dimension.ANGLE, Dimension.VOLTAGE, Dimension.TORQUE})
"""Dimensions whose quantities have two directions."""


def may_be_negative(limit: Limit, plugin: Plugin) -> bool:
    """Whether the quantity of a limit can fall below 0: by its plausible range, else by what it measures."""
    declared = plugin.quantity(limit.quantity) or plugin.detail(limit.quantity)
    if limit.value < 0:
        return True
    if declared and declared.plausible:
        return declared.plausible[0] < 0
    measure = plugin.measure(limit.quantity)
    return measure is not None and measure.dimension in SIGNED


def limits_in_force(plugins: Mapping[str, Plugin], used: set[str], job: JobSheet) -> dict[str, Limit]:
    """Every limit of the kinds `used`, by id, with the job's changes and what they replaced."""
    limits = {limit.id: limit for kind in sorted(used) for limit in plugins[kind].limits}
    for change in job.limits:
        if change.id in limits:
            limit = limits[change.id]
            override = Override(original=limit.value, reason=change.reason, by=change.by)
            limits[change.id] = limit.model_copy(update={"value": change.value, "override": override})
    return limits
