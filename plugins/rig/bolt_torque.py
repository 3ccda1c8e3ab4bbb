"""Torque that bolts were tightened with, beside every published window of their thread: a remark, never a grade.

Comes in: Evidence with the detail `bolt_thread` and readings of `bolt_torque`. Goes out: sentences. No torque is
recommended: a figure without grade, share of yield and lubricant means nothing.
"""

from __future__ import annotations

from collections.abc import Iterator

from reporter.contract import Evidence, SourceFigure, Text, say, series
from reporter.engineering import units
from reporter.engineering.fasteners import over_every_window, tightening
from reporter.engineering.rows import Tightening

THREADS = {
    "m4": "M4", "m5": "M5", "m6": "M6", "m8": "M8", "m10": "M10", "m12": "M12",
    "1_4": "1/4-20", "5_16": "5/16-18", "3_8": "3/8-16",
}  # fmt: skip


def torque_remarks(evidence: Evidence) -> Iterator[Text]:
    """One sentence for each torque that was noted."""
    fact = evidence.facts.get("bolt_thread")
    thread = THREADS.get(fact.choice) if fact else None
    for spot in evidence.at("bolt_torque") if thread else ():
        figure = float(f"{units.from_base(spot.value.value, 'N·m'):.3g}")
        put = {
            "thread": thread, "torque": SourceFigure(figure=figure, unit="N·m"),
            "windows": series([_window(row) for row in tightening(str(thread))], by="; "),
        }  # fmt: skip
        over = over_every_window(str(thread), spot.value.value)
        yield say("torque_over" if over else "torque_in", kind="chainplate", **put)


def _window(row: Tightening) -> Text:
    low, high = SourceFigure(figure=row.low), SourceFigure(figure=row.high, unit=row.unit)
    span = high if row.low == row.high else say("span", kind="chainplate", low=low, high=high)
    return say("window", kind="chainplate", torque=span, conditions=row.conditions)
