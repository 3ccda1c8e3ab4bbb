"""Starting a worker so that nothing but this program's own modules can be imported in it.

A spawned Python process normally looks for modules in the folder it is started from, takes over its parent's
search path and runs the parent's main script again. In a job folder, which comes from somebody else, that
would execute a file called `signal.py`. Here the current folder is kept out of both, and no script is run
again.
"""

from __future__ import annotations

import os
import sys
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from multiprocessing import spawn
from multiprocessing.context import SpawnContext, SpawnProcess
from pathlib import Path
from typing import Any

_VARIABLE = "PYTHONSAFEPATH"
_HOME = str(Path(__file__).resolve().parents[2])
_starting = threading.RLock()


@contextmanager
def safe_path() -> Iterator[None]:
    """Sets PYTHONSAFEPATH=1 for every process started meanwhile, and puts back what was there."""
    before = os.environ.get(_VARIABLE)
    os.environ[_VARIABLE] = "1"
    try:
        yield
    finally:
        if before is None:
            os.environ.pop(_VARIABLE, None)
        else:
            os.environ[_VARIABLE] = before


class SafeProcess(SpawnProcess):
    """A spawned process that inherits neither the current folder for modules nor the main script."""

    @staticmethod
    def _Popen(process_obj: Any) -> Any:  # noqa: N802 - multiprocessing's own signature
        # There is no official door to these data; the test with a `signal.py` holds this.
        with _starting:
            usual = spawn.get_preparation_data
            spawn.get_preparation_data = lambda name: _bare(usual(name))
            try:
                return SpawnProcess._Popen(process_obj)  # noqa: SLF001
            finally:
                spawn.get_preparation_data = usual


class SafeContext(SpawnContext):
    """The way of starting processes that the worker pool uses."""

    Process = SafeProcess


def _bare(data: dict[str, Any]) -> dict[str, Any]:
    here = str(Path.cwd())
    paths = [each for each in data["sys_path"] if each]
    kept = [each for each in paths if each == _HOME or str(Path(each).absolute()) != here]
    dropped = {"init_main_from_path", "init_main_from_name", "sys_argv"}
    return {key: value for key, value in data.items() if key not in dropped} | {"sys_path": kept}


assert sys.version_info >= (3, 11), "PYTHONSAFEPATH is new in Python 3.11"  # noqa: S101
