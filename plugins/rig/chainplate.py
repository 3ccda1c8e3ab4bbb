"""Chainplates with what is behind them: deck, fasteners, knees and bulkheads, tie rods, and the stem fitting.

Comes in: Evidence of one chainplate or of a like set. Goes out: the hole beside its pin, and on request the strength of
plate, hole and pin; and the torque of its bolts beside every published window of their thread, as a remark: none is
recommended, since a figure without grade, share of yield and lubricant means nothing. Limits stand in chainplate.toml.
"""

from __future__ import annotations

from collections.abc import Iterator

from reporter.contract import Assessment, Evidence, SourceFigure, Text, say, series
from reporter.engineering import units
from reporter.engineering.fasteners import over_every_window, tightening
from reporter.engineering.rows import Tightening

from .metals import pair
from .plate_strength import plate_strength

THREADS = {
    "m4": "M4", "m5": "M5", "m6": "M6", "m8": "M8", "m10": "M10", "m12": "M12",
    "1_4": "1/4-20", "5_16": "5/16-18", "3_8": "3/8-16",
}  # fmt: skip


def assess(evidence: Evidence) -> Assessment:
    """The hole, and what was asked for on request; a pair of metals becomes a caution."""
    plate, metals = plate_strength(evidence), pair(evidence)
    return Assessment(
        checks=(*plate.checks, *metals.checks),
        missing=plate.missing,
        remarks=(*metals.remarks, *torque_remarks(evidence)),
    )


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
