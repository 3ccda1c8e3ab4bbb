"""The steering system: its walking order, from the rim of the wheel to the tip of the rudder."""

from __future__ import annotations

from reporter.contract import Station, System

from ..drawings import later

system = System(
    id="steering",
    order=10,
    title="Steering gear",
    stations=(
        Station(id="helm", title="At the helm"),
        Station(id="pedestal", title="In the pedestal top"),
        Station(id="under_cockpit", title="Under the cockpit"),
        Station(id="quadrant", title="Quadrant and pilot"),
        Station(id="stock", title="Gland and rudder stock"),
        Station(id="emergency", title="Emergency tiller"),
        Station(id="ashore", title="Ashore"),
        Station(id="under_way", title="Under way"),
    ),
    draw=later("steering_drawing"),
)
