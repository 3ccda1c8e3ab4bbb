"""Anchors, with the roller that the main one lives on.

Comes in: Evidence of one anchor, with the vessel's lengths. Goes out: its mass beside the outfit tables, for
information. Limits stand in anchor.toml; what is bent, worn or not secured is an observation.
"""

from __future__ import annotations

from reporter.contract import Assessment, Dimension, Evidence, Value, chosen, stated
from reporter.engineering.rows import AnchorOutfit
from reporter.engineering.tackle import mass_share

from .outfit import beside_table


def assess(evidence: Evidence) -> Assessment:
    """Mass beside the table's row for the vessel's length; for the kedge its own column."""
    kedge = chosen(evidence, "use") == "kedge"

    def figure(row: AnchorOutfit) -> Value:
        return Value(dimension=Dimension.MASS, value=row.kedge_kg if kedge else row.main_kg, unit="kg")

    own = stated(evidence, "mass") if chosen(evidence, "use") in {"main", "kedge"} else None
    return Assessment(checks=tuple(beside_table(evidence, own, mass_share, figure)))
