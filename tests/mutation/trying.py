"""One fault tried: a forked process that imports the module with the fault in it and runs the tests.

Comes in: a module, its tree or none, tests. Goes out: what came of it. No file is changed.
"""

from __future__ import annotations

import ast
import importlib
import os
import resource
import shutil
import signal
import sys
import tempfile
import time
from collections.abc import Iterable, Iterator
from contextlib import suppress
from importlib.machinery import SourceFileLoader
from pathlib import Path
from types import CodeType
from typing import Any, Literal, NamedTuple

Verdict = Literal["killed", "endless", "survived"]

COMPUTING_SECONDS = 50
"""Of one fault; the slowest set of tests takes a quarter of it."""
WAITING_SECONDS = 900
_NEEDED = (
    "PIL.Image", "hypothesis", "icalendar", "numpy", "pint", "pydantic", "pytest", "reportlab.pdfgen.canvas",
    "reportlab.pdfbase.ttfonts", "scipy.stats", "uncertainties", "yaml",
)  # fmt: skip
"""What the tests import beside the program: imported once, before the processes part."""


class Trial(NamedTuple):
    """What is to be run: the module that is exchanged, and the tests."""

    name: str
    path: Path | None
    tree: ast.Module | None
    tests: tuple[str, ...]


def warm_up() -> None:
    """Imports what no fault is put into."""
    for name in _NEEDED:
        with suppress(ImportError):
            importlib.import_module(name)


def tried(trials: Iterable[Trial], at_once: int) -> Iterator[tuple[Trial, Verdict]]:
    """What came of each, in the order of their ending."""
    running: dict[int, tuple[Trial, float]] = {}
    waiting = iter(trials)
    while True:
        while len(running) < at_once and (trial := next(waiting, None)) is not None:
            running[_started(trial)] = (trial, time.monotonic() + WAITING_SECONDS)
        if not running:
            return
        for pid, (trial, until) in list(running.items()):
            ended, status = os.waitpid(pid, os.WNOHANG)
            if not ended and time.monotonic() > until:
                os.killpg(pid, signal.SIGKILL)
                ended, status = os.waitpid(pid, 0)
            if ended:
                del running[pid]
                yield trial, _verdict(status)
        time.sleep(0.02)


def _verdict(status: int) -> Verdict:
    if os.WIFSIGNALED(status):
        return "endless" if os.WTERMSIG(status) in {signal.SIGXCPU, signal.SIGKILL} else "killed"
    return "killed" if os.WEXITSTATUS(status) else "survived"


def _started(trial: Trial) -> int:
    sys.stdout.flush()
    pid = os.fork()
    if pid:
        return pid
    code = 3
    try:
        os.setpgid(0, 0)
        code = _run(trial)
    finally:
        os._exit(code)


def _run(trial: Trial) -> int:
    import pytest

    # Only the soft limit: the program's own workers set theirs below the hard one.
    most = resource.getrlimit(resource.RLIMIT_CPU)[1]
    resource.setrlimit(resource.RLIMIT_CPU, (COMPUTING_SECONDS, most))
    nowhere = os.open(os.devnull, os.O_RDWR)
    for stream in (0, 1, 2):
        os.dup2(nowhere, stream)
    if trial.path is not None and trial.tree is not None:
        _exchange(trial.path, compile(trial.tree, str(trial.path), "exec", dont_inherit=True))
    folder = tempfile.mkdtemp()
    try:
        options = ["-x", "-q", "--assert=plain", "-p", "no:cacheprovider", f"--basetemp={folder}/t"]
        return int(pytest.main([*options, *trial.tests]))
    finally:
        shutil.rmtree(folder, ignore_errors=True)


def _exchange(path: Path, code: CodeType) -> None:
    """Whoever imports the module at `path` from now on gets `code`."""
    usual: Any = SourceFileLoader.get_code

    def get_code(loader: SourceFileLoader, name: str) -> CodeType | None:
        same = Path(loader.get_filename(name)).resolve() == path
        return code if same else usual(loader, name)

    SourceFileLoader.get_code = get_code  # type: ignore[method-assign, assignment]
