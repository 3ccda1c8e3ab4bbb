"""How the property tests run: never against the clock; with the same examples each time, or from a seed that is given."""

from __future__ import annotations

import os
import signal
from collections.abc import Iterator

import pytest
from hypothesis import settings

from reporter.door import close

settings.register_profile("gate", deadline=None, derandomize=True)
settings.register_profile(
    "explore", deadline=None, derandomize=False
)  # said, since under CI the default differs


def pytest_configure(config: pytest.Config) -> None:
    """`--hypothesis-seed=N` looks for new examples and, given again, repeats them; the gate prints its N."""
    seeded = config.getoption("--hypothesis-seed", default=None) is not None
    settings.load_profile("explore" if seeded else "gate")


@pytest.fixture(autouse=True, scope="session")
def _own_cache(tmp_path_factory: pytest.TempPathFactory) -> None:
    """Pictures are kept for this run alone, never among those of whoever runs the tests."""
    os.environ["GUDGEON_CACHE"] = str(tmp_path_factory.mktemp("cache"))


@pytest.fixture(autouse=True, scope="module")
def _as_started() -> Iterator[None]:
    """Each module finds the process as a person starts it: no worker lives, and requests to end are heard."""
    _listen()
    yield
    close()


def _listen() -> None:
    """A run of the command line in this process, or the shell in whose background the tests run, may have had them ignored."""
    for name in ("SIGTERM", "SIGHUP"):
        if hasattr(signal, name):
            signal.signal(getattr(signal, name), signal.SIG_DFL)
    signal.signal(signal.SIGINT, signal.default_int_handler)
