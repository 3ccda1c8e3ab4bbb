"""A worker process as its parent sees it: started so that nothing but this program's own modules can be imported in it.

Comes in: a function of this program and its arguments. Goes out: the answer, or how the worker came to its end.

A Python process normally looks for modules in the folder it is started from. In a job folder, which comes from somebody
else, that would execute a file called `signal.py`. A worker is therefore started isolated (`-I`), with its parent's search
path but for the current folder. One pipe leads to it and one back, so what happens to one worker touches no other; and
neither pool nor server process has to be started beside it, which would cost three times what the worker does.
"""

from __future__ import annotations

import pickle
import signal
import subprocess
import sys
import threading
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import Any

_HOME = str(Path(__file__).resolve().parents[2])
_START = "import sys; sys.path[:] = sys.argv[1:]; from reporter.door.serving import serve; serve()"


class WorkerGoneError(Exception):
    """The worker ended before it answered: by itself with an exit code, or given up since it took too long (None)."""

    def __init__(self, code: int | None) -> None:
        super().__init__(code)
        self.code = code


@contextmanager
def _deaf() -> Iterator[None]:
    """A process started meanwhile never hears Ctrl-C, which a terminal sends to all: its parent ends it."""
    if not hasattr(signal, "pthread_sigmask"):
        yield
        return
    before = signal.pthread_sigmask(signal.SIG_BLOCK, {signal.SIGINT, signal.SIGHUP})
    try:
        yield
    finally:
        signal.pthread_sigmask(signal.SIG_SETMASK, before)


class Worker:
    """One process that is asked one thing at a time."""

    def __init__(self) -> None:
        command = [sys.executable, "-I", "-c", _START, *_search_path()]
        # It is silent: the C libraries of some formats write about every damaged file.
        with _deaf():
            self._process = subprocess.Popen(  # noqa: S603 - this program's own words
                command, stdin=subprocess.PIPE, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL
            )
        self._given_up = False

    @property
    def pid(self) -> int:
        """The number of the process."""
        return self._process.pid

    def ask(self, function: Callable[..., Any], task: tuple[Any, ...], computing: int, waiting: float) -> Any:
        """`function(*task)`, worked out in the process; WorkerGoneError when it ends over it.

        `computing` is the processor time that it may take, `waiting` the time by the clock after which it is given up, both
        in seconds.
        """
        assert self._process.stdin is not None and self._process.stdout is not None  # noqa: S101, PT018 - for mypy
        question = pickle.dumps((function, task, computing))
        watch = threading.Timer(waiting, self._give_up)
        watch.daemon = True
        watch.start()
        try:
            self._process.stdin.write(question)
            self._process.stdin.flush()
            return pickle.load(self._process.stdout)  # noqa: S301 - written by our own process
        except (OSError, EOFError, pickle.UnpicklingError):
            self._process.kill()
            code = self._process.wait()
            raise WorkerGoneError(None if self._given_up else code) from None
        finally:
            watch.cancel()

    def _give_up(self) -> None:
        self._given_up = True
        self._process.kill()

    def end(self) -> None:
        """Ends the process, whatever it is doing."""
        self._process.kill()
        self._process.wait()
        for pipe in (self._process.stdin, self._process.stdout):
            with suppress(OSError):  # what was still to be written has no reader any more
                if pipe:
                    pipe.close()


def _search_path() -> list[str]:
    """Where this process finds its modules, without the current folder."""
    here = str(Path.cwd())
    return [each for each in sys.path if each and (each == _HOME or str(Path(each).absolute()) != here)]
