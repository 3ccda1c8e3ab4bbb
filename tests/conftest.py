"""How the property tests run, and the small job that whoever needs a whole run takes.

Properties are never tried against the clock; with the same examples each time, or from a seed that is given. Either way
the examples follow from the test and the seed alone: not from what an earlier run kept, nor from which modules happen to be
imported, whose numbers and texts hypothesis would else mix in.
"""

from __future__ import annotations

import os
import re
import shutil
import signal
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, settings
from hypothesis.internal.conjecture import providers
from hypothesis.internal.constants_ast import Constants

from reporter.door import close

ROOT = Path(__file__).parents[1]
DEAR = "tests/documents/"
DEAREST = (
    DEAR, "tests/desk_page/test_whole.py", "tests/desk_page/test_views.py", "tests/sheet/test_form.py",
    "tests/seal/test_attacks.py", "tests/sheet/test_take.py", "tests/desk_page/test_nothing_lost.py",
)  # fmt: skip
"""Begun with, so that in the end no process waits for another."""
NO_CONSTANTS = Constants()

settings.register_profile(
    "patient", deadline=None, database=None, print_blob=True, suppress_health_check=[HealthCheck.too_slow]
)
settings.register_profile("gate", settings.get_profile("patient"), derandomize=True)
settings.register_profile("explore", settings.get_profile("patient"), derandomize=False)
"""Said, since under CI the default differs."""

vars(providers)["_get_local_constants"] = lambda: NO_CONSTANTS


def pytest_configure(config: pytest.Config) -> None:
    """`--hypothesis-seed=N` looks for other examples and, given again, repeats them."""
    seeded = config.getoption("--hypothesis-seed", default=None) is not None
    settings.load_profile("explore" if seeded else "gate")


@pytest.hookimpl(optionalhook=True)
def pytest_xdist_make_scheduler(config: pytest.Config, log: Any) -> Any:
    """With `--dist loadfile` a file stays in one process, and here so does the folder of the demo's documents; the dearest come first."""
    if config.getoption("dist") != "loadfile":
        return None
    from xdist.scheduler import LoadFileScheduling

    class Parted(LoadFileScheduling):  # type: ignore[misc]
        def _split_scope(self, nodeid: str) -> str:
            return DEAR if nodeid.startswith(DEAR) else str(super()._split_scope(nodeid))

        def _assign_work_unit(self, node: Any) -> None:
            if dearest := next((each for each in DEAREST if each in self.workqueue), None):
                self.workqueue.move_to_end(dearest, last=False)
            super()._assign_work_unit(node)

    return Parted(config, log)


@pytest.fixture(autouse=True, scope="session")
def _own_cache(tmp_path_factory: pytest.TempPathFactory) -> None:
    """Pictures are kept for this run alone, and words are English whatever whoever runs the tests speaks."""
    os.environ["GUDGEON_LANG"] = "en"
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


@pytest.fixture(scope="session")
def small_job(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """One part with one photo of the demo, for tests of the whole way; they copy it, or change nothing in it."""
    folder = tmp_path_factory.mktemp("small") / "job"
    shutil.copytree(ROOT / "demo_job", folder)
    parts = re.split(r"(?m)^(?=  - id: )", (folder / "findings.yaml").read_text("utf-8"))
    kept = next(part for part in parts if "swage_crack.jpg" in part)
    (folder / "findings.yaml").write_text(f"format: 1\ncomponents:\n{kept}", "utf-8")
    readings = folder / "measurements.csv"
    readings.write_text(readings.read_text("utf-8").partition("\n")[0] + "\n", "utf-8")
    sheet = (folder / "job.yaml").read_text("utf-8")
    (folder / "job.yaml").write_text(sheet.partition("\ndocuments:")[0] + "\n", "utf-8")
    return folder
