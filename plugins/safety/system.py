"""What keeps people aboard: its walking order, once round the deck from the bow."""

from __future__ import annotations

from ..drawings.built_in import built_in, later

system = built_in("safety", draw=later("deck_plan", "draw_safety"))
