"""Long-lived worker processes that every photo is opened in: a photo can hang, crash or blow up a reader.

Comes in: a function of a module of this program and its arguments, one set for each photo. Goes out: one
answer for each, in order, either the function's result or a `Refusal`. The parent never opens a photo itself.

Three things make the answer independent of how busy the machine is: the limit that counts is on computing
time, not on the clock (where the system has one); what fails is tried once more, alone and in a fresh worker;
and whatever fails twice is an answer like any other.
"""

from __future__ import annotations

import os
import threading
from collections.abc import Callable, Iterator, Sequence
from contextlib import ExitStack, contextmanager, suppress
from typing import TYPE_CHECKING, Any

from reporter.door.refusal import Refusal, damaged

if TYPE_CHECKING:
    from pebble import ProcessPool

COMPUTING_SECONDS = 60
"""Processor time that one photo may take. The slowest ordinary one takes 2 s, 200 megapixels about 15 s."""
WAITING_SECONDS = 300
"""Time by the clock after which a worker is given up: it waits for a disk that does not answer."""
MOST_WORKERS = 4
MEMORY_BYTES = 3 * 1024**3
"""Address space of a worker. A photo of 210 megapixels needs about 1.5 GB while it is turned and reduced."""
OUT_OF_MEMORY = 77
"""Exit code of a worker that ran out of memory; the number has no meaning elsewhere."""

Progress = Callable[[int, int], None]
"""Is called with how many photos are done, and of how many."""


def run(
    function: Callable[..., Any],
    tasks: Sequence[tuple[Any, ...]],
    *,
    workers: int = MOST_WORKERS,
    told: Progress | None = None,
) -> list[Any]:
    """Calls `function(*task)` in a worker for every task; answers in the order of the tasks.

    `function` must stand at the top of a module. A task that raises `Refusal`, or anything else, that crashes
    its worker, hangs or takes too much memory is answered by a `Refusal`. Workers start with the first call
    and stay until `close`.
    """
    if not tasks:
        return []
    pool = _crew.at_least(min(workers, len(tasks), MOST_WORKERS, _processors()))
    answers: list[Any] = []
    futures = [_schedule(pool, function, task) for task in tasks]
    for number, future in enumerate(futures, start=1):
        answers.append(_outcome(future))
        if told:
            told(number, len(tasks))
    pairs = zip(tasks, answers, strict=True)
    return [_again(function, task, each) if isinstance(each, _Lost) else each for task, each in pairs]


def close() -> None:
    """Ends the workers, if any run. The next `run` starts new ones."""
    _crew.close()


class _Lost(Refusal):
    """A task whose worker went away; it gets a second try."""


class _Stranded(_Lost):
    """A task that was lost with the whole pool, nobody knows by whose fault."""


def _again(function: Callable[..., Any], task: tuple[Any, ...], lost: _Lost) -> Any:
    """The second and last try: alone, so that what another photo did to the workers cannot count."""
    if not isinstance(lost, _Stranded):
        _crew.close()
    return _outcome(_schedule(_crew.at_least(1), function, task))


def _schedule(pool: ProcessPool, function: Callable[..., Any], task: tuple[Any, ...]) -> Any:
    return pool.schedule(_guarded, args=(function, task, COMPUTING_SECONDS), timeout=WAITING_SECONDS)


def _outcome(future: Any) -> Any:
    from concurrent.futures import TimeoutError as TookTooLong
    from concurrent.futures.process import BrokenProcessPool

    from pebble import ProcessExpired

    try:
        return future.result()
    except TookTooLong:
        return _Lost(
            "it took too long to read", "copy it to this computer's own disk, or export it again as JPEG"
        )
    except ProcessExpired as expired:
        return _why_gone(expired.exitcode)
    except BrokenProcessPool:
        return _Stranded(
            "the process reading it ended", "try again; if it happens again, export the photo anew as JPEG"
        )


def _why_gone(code: int | None) -> Refusal:
    import signal

    if code == OUT_OF_MEMORY:
        return _Lost("it needs more memory than one photo may take", "export it again, as a smaller JPEG")
    if code == -getattr(signal, "SIGXCPU", 0) != 0:  # the same computing again would not be shorter
        return Refusal("it takes too much computing to read", "export it again as JPEG")
    return _Lost(
        "it brought the photo reader down; the file is damaged", "export it again as JPEG, or take it out"
    )


def _processors() -> int:
    return len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1


class _Crew:
    """The pool that is running, if any, and how many workers it has."""

    def __init__(self) -> None:
        self._lock = threading.RLock()
        self._pool: ProcessPool | None = None
        self._size = 0
        self._surroundings = ExitStack()

    def at_least(self, size: int) -> ProcessPool:
        """A usable pool of `size` workers or more."""
        with self._lock:
            if self._pool is None or not self._pool.active or self._size < size:
                self.close()
                self._start(size)
            assert self._pool is not None  # noqa: S101 - for the type checker
            return self._pool

    def _start(self, size: int) -> None:
        from pebble import ProcessPool

        from reporter.door.spawning import SafeContext, safe_path

        # Workers are replaced in the pool's own threads, so the variable stays set as long as the pool lives.
        self._surroundings.enter_context(safe_path())
        self._pool = ProcessPool(max_workers=size, initializer=_settle, context=SafeContext())
        self._size = size

    def close(self) -> None:
        with self._lock:
            pool, self._pool = self._pool, None
            if pool is not None:
                pool.stop()  # type: ignore[no-untyped-call]
                pool.join()
            self._surroundings.close()


_crew = _Crew()


def _settle() -> None:
    """What a worker does before its first photo: limits, silence, and an eye on its parent."""
    import warnings

    from reporter.door import formats

    _end_with_parent()
    formats.prepare()
    warnings.simplefilter("ignore")
    with suppress(ImportError, ValueError, OSError):
        import resource

        resource.setrlimit(resource.RLIMIT_CORE, (0, 0))
        resource.setrlimit(resource.RLIMIT_AS, (MEMORY_BYTES, resource.getrlimit(resource.RLIMIT_AS)[1]))
    nowhere = os.open(os.devnull, os.O_WRONLY)
    os.dup2(nowhere, 1)
    os.dup2(nowhere, 2)  # the C libraries of some formats write there about every damaged file


def _end_with_parent() -> None:
    """A parent that was killed cannot tidy up; its workers then leave by themselves."""
    from multiprocessing import parent_process

    def watch() -> None:
        parent = parent_process()
        if parent is not None:
            parent.join()
            os._exit(0)

    threading.Thread(target=watch, daemon=True).start()


@contextmanager
def _computing_limit(seconds: int) -> Iterator[None]:
    try:
        import resource
    except ImportError:
        yield
        return
    spent = resource.getrusage(resource.RUSAGE_SELF)
    until = int(spent.ru_utime + spent.ru_stime) + seconds + 1
    _, hard = resource.getrlimit(resource.RLIMIT_CPU)
    most = until if hard == resource.RLIM_INFINITY else min(until, hard)  # as after `ulimit -t`
    resource.setrlimit(resource.RLIMIT_CPU, (most, hard))
    try:
        yield
    finally:
        resource.setrlimit(resource.RLIMIT_CPU, (hard, hard))


def _guarded(function: Callable[..., Any], task: tuple[Any, ...], seconds: int) -> Any:
    """Runs in the worker: whatever a photo does, an answer comes back."""
    try:
        with _computing_limit(seconds):
            return function(*task)
    except Refusal as refusal:
        return refusal
    except MemoryError:
        # What is left of the memory depends on the photos before; a fresh worker always answers the same.
        os._exit(OUT_OF_MEMORY)
    except Exception as fault:  # noqa: BLE001 - readers of damaged files raise nearly everything
        return damaged(fault)
