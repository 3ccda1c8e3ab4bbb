"""Tension of a wire by pressing it aside: a known force in the middle of a known free span, and how far it gives.

Comes in: Evidence with the readings below beside that of the sag. Goes out: the tension while the wire is pressed, for
information; pressing stretches it, so that at rest it is a little less. Nothing is judged by it.
"""

from __future__ import annotations

from collections.abc import Iterator

from reporter.contract.given import beside
from reporter.contract.shown import worked_out
from reporter.engineering import work
from reporter.engineering.mechanics import pressed_tension
from reporter.model.assessment import Check
from reporter.model.evidence import Evidence
from reporter.model.saying import say


def pressed(evidence: Evidence, sag: str) -> Iterator[Check]:
    """Tension at each place where sag (the reading of that id), force and span were all read."""
    for spot in evidence.at(sag):
        force, span = beside(evidence, "pressed_with", spot), beside(evidence, "pressed_span", spot)
        if force and span and spot.value.value > 0:
            inputs = {"force": force.value, "span": span.value, "sag": spot.value}
            tension, sum_ = work(pressed_tension, inputs)
            kind = evidence.component.kind
            yield worked_out(kind, "pressed_tension", tension, (sum_,), like=spot, note=say("said.pressed"))
