"""A budget of processor time and memory for reading what a photo says about itself.

Comes in: nothing. Goes out: a context that ends early. Runs in a worker, in its main thread; where the system knows no
such limits (Windows), and in other threads, the worker's own limits stand alone. Made for readers in Python: of sixty
thousand bytes one can make tables that take half a minute and a gigabyte to list.
"""

from __future__ import annotations

import signal
import threading
from collections.abc import Iterator
from contextlib import ExitStack, contextmanager, suppress
from pathlib import Path

SECONDS = 1.0
"""Processor time. Of 5,773 files, real ones and made ones, none took a reader more than 0.6 s, its start included."""
AGAIN = 0.1
"""After so much more it is asked for again: a destructor swallows what is raised in it."""
BYTES = 256 * 1024**2
"""Memory beyond what the worker holds already."""


class _TooMuch(BaseException):
    """The time is used up; no reader's own `except Exception` may hold it back."""


@contextmanager
def frugal() -> Iterator[None]:
    """What stands inside is left without a word once it has taken `SECONDS`; beyond `BYTES` it gets a MemoryError."""
    with ExitStack() as limits, suppress(_TooMuch, MemoryError):
        limits.enter_context(_little_memory())
        limits.enter_context(_little_time())
        yield


@contextmanager
def _little_time() -> Iterator[None]:
    if not hasattr(signal, "setitimer") or threading.current_thread() is not threading.main_thread():
        yield
        return
    before = signal.signal(signal.SIGPROF, _stop)
    try:
        signal.setitimer(signal.ITIMER_PROF, SECONDS, AGAIN)
        yield
    finally:
        _end()
        signal.signal(signal.SIGPROF, before)


def _end() -> None:
    """Whatever is asked for meanwhile comes too late."""
    while True:
        try:
            signal.setitimer(signal.ITIMER_PROF, 0)
        except _TooMuch:
            continue
        return


def _stop(*_: object) -> None:
    raise _TooMuch


@contextmanager
def _little_memory() -> Iterator[None]:
    try:
        import resource

        pages = int(Path("/proc/self/statm").read_text("ascii").split()[0])
    except (ImportError, OSError, ValueError):
        yield
        return
    soft, hard = resource.getrlimit(resource.RLIMIT_AS)
    most = pages * resource.getpagesize() + BYTES
    resource.setrlimit(
        resource.RLIMIT_AS, (most if soft == resource.RLIM_INFINITY else min(most, soft), hard)
    )
    try:
        yield
    finally:
        resource.setrlimit(resource.RLIMIT_AS, (soft, hard))
