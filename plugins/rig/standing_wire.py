"""Standing wire: a stay or shroud of strand or rope, from the mouth of one end to the mouth of the other.

Comes in: Evidence of one wire, or of a pair of one kind. Goes out: wear beside the rules for other wires, tension,
strength for the undamaged wire. Limits stand in standing_wire.toml: any one broken wire condemns; age plans, no more.
"""

from __future__ import annotations

from reporter.contract import Assessment, Evidence, Missing, not_close, pressed, say

from .stay_strength import strength
from .stay_tension import tension
from .stay_wear import by_vessel, diameter_losses


def assess(evidence: Evidence) -> Assessment:
    """Wear, tension and strength in figures; what was seen from deck or lies under a cover is named as missing."""
    strong, taut = strength(evidence), tension(evidence)
    return Assessment(
        checks=(
            *diameter_losses(evidence),
            *taut.checks,
            *strong.checks,
            *pressed(evidence, "pressed_aside"),
            *by_vessel(evidence),
        ),
        missing=(
            *not_close(evidence),
            *_covered(evidence),
            *taut.missing,
            *strong.missing,
        ),
    )


def _covered(evidence: Evidence) -> tuple[Missing, ...]:
    """The wire under a foil or coat, which nobody saw."""
    if all(each.choice != "hidden" for each in evidence.observed.get("cover", ())):
        return ()
    return (
        Missing(
            id="under_cover",
            title=say("covered", kind="standing_wire"),
            needed=True,
            why=say("ends_only", kind="standing_wire"),
        ),
    )
