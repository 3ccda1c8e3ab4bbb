"""What keeps people aboard: its walking order, once round the deck from the bow."""

from __future__ import annotations

from reporter.contract import Station, System

from ..drawings import later

system = System(
    order=40,
    id="safety",
    title="Keeping people aboard",
    stations=(
        Station(id="ends", title="Bow and stern"),
        Station(id="side_decks", title="Along the side decks"),
    ),
    draw=later("deck_plan", "draw_safety"),
)
