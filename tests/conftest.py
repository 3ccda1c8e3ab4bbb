"""How the property tests run: never against the clock; with the same examples each time, or from a seed that is given."""

from __future__ import annotations

import pytest
from hypothesis import settings

settings.register_profile("gate", deadline=None, derandomize=True)
settings.register_profile(
    "explore", deadline=None, derandomize=False
)  # said, since under CI the default differs


def pytest_configure(config: pytest.Config) -> None:
    """`--hypothesis-seed=N` looks for new examples and, given again, repeats them; the gate prints its N."""
    seeded = config.getoption("--hypothesis-seed", default=None) is not None
    settings.load_profile("explore" if seeded else "gate")
