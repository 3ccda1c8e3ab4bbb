"""How the property tests run: never against the clock; in the gate with the same examples each time, else with new ones."""

from __future__ import annotations

import os

from hypothesis import settings

settings.register_profile("gate", deadline=None, derandomize=True)
settings.register_profile("explore", deadline=None)
settings.load_profile("gate" if os.environ.get("CI") else "explore")
