"""Ctrl-C, a closed terminal and the system's request to end, at any moment of a run.

Comes in: signals. Goes out: `Interrupted`, raised wherever the run is, until the command line has taken it. Before `begin`
nothing can have been written, so the process ends on the spot. Signals reach the main thread alone.

Until `arm` is called Python answers Ctrl-C itself, with a traceback: so little is imported here, and the rest where it is used.
"""

from __future__ import annotations

import atexit
import os
import signal
import sys
from contextlib import contextmanager, suppress

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Callable, Iterator
    from types import FrameType
    from typing import Any

CODE = 130
"""128 and the number of SIGINT, as shells count; the same for every request to end."""
NOTHING = "Interrupted. Nothing was written."
AGAIN = 0.3
"""Seconds after which a request that was swallowed (a library's bare `except`, a destructor) is raised once more."""
_SOON, _MOST_WAITS = 0.02, 250
"""Seconds until a request that came while a library was loaded is looked at again, and how often that is done."""
_PATIENCE = 3
"""Seconds that an interrupted run waits for its workers, and for its libraries."""
_ASKING = [getattr(signal, name) for name in ("SIGINT", "SIGTERM", "SIGHUP") if hasattr(signal, name)]


class Interrupted(KeyboardInterrupt):
    """The run was asked to end."""


class _Run:
    def __init__(self) -> None:
        self.begun = self.asked = self.expected = self.over = False
        self.held = self.waits = 0
        self.last: list[Callable[[], None]] = []


_run = _Run()


def arm() -> None:
    """Listen; what the caller's shell has chosen to ignore (`nohup`, a job in the background) stays ignored."""
    for each in _ASKING:
        if signal.getsignal(each) is not signal.SIG_IGN:
            signal.signal(each, _asked)
    if hasattr(signal, "SIGALRM"):
        signal.signal(signal.SIGALRM, _asked)
    usual = sys.unraisablehook

    def quiet(told: Any) -> None:
        if not isinstance(told.exc_value, KeyboardInterrupt | MemoryError):
            usual(told)

    sys.unraisablehook = quiet


def begin() -> None:
    """From here on something may have to be tidied up: a request is raised, not obeyed on the spot."""
    _run.begun = True


def over() -> None:
    """The request has been taken, or the work is done: no further one is heard, also while Python takes itself down."""
    _run.over = True
    _alarm(0)
    for each in _ASKING:
        signal.signal(each, signal.SIG_IGN)


def at_last(function: Callable[[], None]) -> None:
    """Have `function` called when the run is interrupted, before what lies about is taken away."""
    if function not in _run.last:
        _run.last.append(function)


def wind_up() -> None:
    """Call what `at_last` was given; what fails or waits there must not keep the rest from being tidied up."""
    import threading

    # What libraries registered comes last: semaphores that nobody took down are complained of.
    for each in (*_run.last, atexit._run_exitfuncs):  # noqa: SLF001 - there is no other way to run them
        ending = threading.Thread(target=_quietly, args=(each,), daemon=True)
        ending.start()
        ending.join(_PATIENCE)


def _quietly(function: Callable[[], object]) -> None:
    with suppress(Exception):
        function()


@contextmanager
def held() -> Iterator[None]:
    """A request waits until this short piece of work is whole."""
    import threading

    if threading.current_thread() is not threading.main_thread():
        yield
        return
    _run.held += 1
    try:
        yield
    finally:
        _run.held -= 1
        if _run.asked and not _run.held:
            _raise()


@contextmanager
def expected() -> Iterator[None]:
    """What runs until it is interrupted: the first request ends it and is no failure."""
    _run.expected = True
    try:
        with suppress(KeyboardInterrupt):
            yield
    finally:
        _run.expected = _run.asked = False


def asked() -> bool:
    """Whether the run was asked to end: what it failed with since may be the request in another shape."""
    return _run.asked


def _asked(_number: int, frame: FrameType | None) -> None:
    if _run.over:
        return
    if not _run.begun:
        say(NOTHING)
        os._exit(CODE)
    _run.asked = True
    if _run.held:
        return
    if _run.waits < _MOST_WAITS and hasattr(signal, "setitimer") and _loading(frame):
        _run.waits += 1
        _alarm(_SOON)
        return
    _raise()


def _loading(frame: FrameType | None) -> bool:
    """True while a library is loaded: some that are not Python end the whole process when they are interrupted then."""
    while frame is not None:
        if frame.f_code.co_filename == "<frozen importlib._bootstrap>":
            return True
        frame = frame.f_back
    return False


def _raise() -> None:
    if _run.expected:
        _run.expected = False
    elif not _run.over:
        _alarm(AGAIN)
    raise Interrupted


def _alarm(seconds: float) -> None:
    if hasattr(signal, "setitimer"):
        signal.setitimer(signal.ITIMER_REAL, seconds)


def say(sentence: str) -> None:
    """A sentence for the person at the terminal, whatever has become of the terminal."""
    with suppress(OSError, ValueError, AttributeError):
        sys.stderr.write(f"{sentence}\n")
        sys.stderr.flush()
