"""Backstay gear: adjuster, bridle and insulators; the wire itself is listed as a standing wire.

Comes in: Evidence of the gear of one backstay. Goes out: what was not seen from close by. No published figure was read
for the pressure or load of an adjuster: its own papers give it.
"""

from __future__ import annotations

from reporter.contract import (
    Assessment,
    Evidence,
    Missing,
    not_close,
)


def assess(evidence: Evidence) -> Assessment:
    """Only an insulator stands aloft: without one nothing is out of reach."""
    answers = evidence.observed.get("insulators", ())
    none_aloft = bool(answers) and all(each.choice == "none" for each in answers)
    missing: tuple[Missing, ...] = () if none_aloft else tuple(not_close(evidence, "the upper insulator"))
    return Assessment(missing=missing)
