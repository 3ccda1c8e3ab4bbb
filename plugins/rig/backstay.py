"""Backstay gear: adjuster, bridle and insulators; the wire itself is listed as a standing wire.

Comes in: Evidence of the gear of one backstay. Goes out: what was not seen from close by. No published figure was read
for the pressure or load of an adjuster: its own papers give it.
"""

from __future__ import annotations

from reporter.contract import Assessment, Evidence, Missing, not_close


def assess(evidence: Evidence) -> Assessment:
    """Only an insulator stands aloft: without one nothing is out of reach."""
    known = evidence.facts.get("insulators")
    answers = evidence.observed.get("insulators", ())
    told_none = known is not None and known.choice == "0"
    seen_none = bool(answers) and all(each.choice == "none" for each in answers)
    none_aloft = seen_none or (told_none and not answers)
    missing: tuple[Missing, ...] = () if none_aloft else tuple(not_close(evidence))
    return Assessment(missing=missing)
