"""Miles of a rig by the boat's log, where those of the rig itself are not known.

Comes in: Evidence of a stay with the vessel's miles. Goes out: a check for information: the rig may have seen fewer.
"""

from __future__ import annotations

from collections.abc import Iterator

from reporter.contract import Check, Evidence, Value, compare, say


def by_vessel(evidence: Evidence) -> Iterator[Check]:
    """The boat's miles against the rig's figure; nothing where the rig's own are known, which the core judges."""
    miles = evidence.needed.get("miles")
    if "rig_miles" in evidence.facts or not isinstance(miles, Value):
        return
    limit = evidence.limit(f"{evidence.component.kind}.rig_miles.insurer")
    check = compare(evidence, miles, limit, notes=(say("said.boats_log"),))
    yield check.model_copy(update={"governs": False})
