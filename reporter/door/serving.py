"""The worker's side: takes one task after the other from its parent, and always answers.

Comes in: on standard input, pickled functions with their arguments. Goes out: on what was standard output, an answer each.
It must not import the model, which would cost more than the photos do.
"""

from __future__ import annotations

import os
import pickle
import sys
import threading
import warnings
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from queue import SimpleQueue
from typing import Any

from reporter.door.refusal import Refusal, ShortOfRoom, damaged
from reporter.machine.shortage import machines

MEMORY_BYTES = 3 * 1024**3
"""Address space of a worker. A photo of 210 megapixels needs about 1.5 GB while it is turned and reduced."""
OUT_OF_MEMORY = 77
"""Exit code of a worker that ran out of memory; the number has no meaning elsewhere."""
_Task = tuple[Callable[..., Any], tuple[Any, ...], int]


def serve() -> None:
    """Answers until the parent closes the pipe, or ends."""
    with os.fdopen(os.dup(1), "wb") as answers:
        _settle()
        tasks: SimpleQueue[_Task] = SimpleQueue()
        threading.Thread(target=_listen, args=(tasks,), daemon=True).start()
        while True:
            pickle.dump(_guarded(*tasks.get()), answers)
            answers.flush()


def _listen(tasks: SimpleQueue[_Task]) -> None:
    """Stands beside the work, so that a worker whose parent was killed leaves at once, whatever it is doing."""
    try:
        while True:
            tasks.put(pickle.load(sys.stdin.buffer))  # noqa: S301 - written by our own process
    finally:
        # No more to do, or a task that cannot be understood: then as well, else the parent would wait.
        os._exit(0)


def _settle() -> None:
    """What a worker does before its first photo: limits, and silence."""
    warnings.simplefilter("ignore")
    with suppress(ImportError, ValueError, OSError):
        import resource

        resource.setrlimit(resource.RLIMIT_CORE, (0, 0))
        resource.setrlimit(resource.RLIMIT_AS, (MEMORY_BYTES, resource.getrlimit(resource.RLIMIT_AS)[1]))
    # What a library prints must not stand among the answers.
    os.dup2(os.open(os.devnull, os.O_WRONLY), 1)


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
    """Whatever a photo does, an answer comes back."""
    try:
        with _computing_limit(seconds):
            return function(*task)
    except Refusal as refusal:
        return refusal
    except MemoryError:
        # What is left of the memory depends on the photos before; a fresh worker always answers the same.
        os._exit(OUT_OF_MEMORY)
    except Exception as fault:  # noqa: BLE001 - readers of damaged files raise nearly everything
        shortage = machines(fault)
        return ShortOfRoom(shortage.message, shortage.advice) if shortage else damaged(fault)
