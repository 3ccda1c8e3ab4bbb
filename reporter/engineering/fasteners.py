"""Tightening torques of stainless fasteners.

The window that a source prints for a thread, with its conditions.

In: a thread and a torque in newton metres. Out: rows, or whether a torque is over every one of them. No
torque is recommended here: without the conditions (grade, share of yield, lubricant) a figure means nothing.
"""

from __future__ import annotations

from reporter.engineering import domain
from reporter.engineering.declaration import formula
from reporter.engineering.reference import lookup, table
from reporter.engineering.rows import Tightening
from reporter.engineering.units import to_base


@lookup(Tightening)
def tightening(thread: str) -> tuple[Tightening, ...]:
    """Every printed window for a thread ("M6", "1/4-20"). ValueError when there is none."""
    found = tuple(row for row in table(Tightening) if row.thread == thread)
    if not found:
        msg = f"no tightening torque printed for {thread}"
        raise ValueError(msg)
    return found


@lookup(Tightening)
def over_every_window(thread: str, torque: float) -> bool:
    """Whether a torque in newton metres is higher than every printed window of that thread allows."""
    domain.not_negative(torque=torque)
    return all(torque > to_base(row.high, row.unit) for row in tightening(thread))


@formula
def ends_apart(lower: float, upper: float) -> float:
    """How far the thread engaged at the two ends differs, in metres."""
    domain.not_negative(thread_at_the_lower_end=lower, thread_at_the_upper_end=upper)
    return abs(lower - upper)


@formula
def engagement(engaged: float, thread: float) -> float:
    """Thread engaged over thread diameter, both in metres."""
    domain.not_negative(thread_engaged=engaged)
    domain.positive(thread_diameter=thread)
    return engaged / thread
