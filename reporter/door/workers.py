"""Long-lived worker processes that every photo is opened in: a photo can hang, crash or blow up a reader.

Comes in: a function of a module of this program and its arguments, one set for each photo. Goes out: one
answer for each, in order, either the function's result or a `Refusal`. The parent never opens a photo itself.

Three things make the answer independent of how busy the machine is: the limit that counts is on computing
time, not on the clock (where the system has one); what fails is tried once more, alone and in a fresh worker;
and whatever fails twice is an answer like any other.
"""

from __future__ import annotations

import os
import signal
import threading
from collections import deque
from collections.abc import Callable, Iterable, Iterator, Sequence
from contextlib import suppress
from pathlib import Path
from queue import SimpleQueue
from typing import Any

from reporter.door.refusal import LostTask, Refusal, ShortOfRoom
from reporter.door.serving import MEMORY_BYTES, OUT_OF_MEMORY
from reporter.door.spawning import Worker, WorkerGoneError
from reporter.errors import MachineError
from reporter.machine.interrupts import at_last
from reporter.machine.shortage import CLOSE, MEMORY

COMPUTING_SECONDS = 60
"""Processor time that one photo may take. The slowest ordinary one takes 2 s, 200 megapixels about 15 s."""
WAITING_SECONDS = 300
"""Time by the clock after which a worker is given up: it waits for a disk that does not answer."""
MOST_WORKERS = 4
_M_ARENA_MAX = -8
"""Of glibc's malloc.h."""

Progress = Callable[[int, int], None]
"""Is called with how many photos are done, and of how many."""
_Task = tuple[Any, ...]
_Waiting = deque[tuple[int, _Task]]


def run(
    function: Callable[..., Any],
    tasks: Sequence[_Task],
    *,
    workers: int = MOST_WORKERS,
    told: Progress | None = None,
) -> list[Any]:
    """Calls `function(*task)` in a worker for every task; answers in the order of the tasks.

    `function` must stand at the top of a module. A task that raises `Refusal`, or anything else, that crashes
    its worker, hangs or takes too much memory is answered by a `Refusal`. Workers start with the first call
    and stay until `close`.
    """
    size = min(workers, len(tasks), MOST_WORKERS, _processors())
    _share_one_heap()
    answers: dict[int, Any] = {}
    try:
        for place, answer in _crew.answers(function, tasks, size):
            answers[place] = answer
            if told:
                told(len(answers), len(tasks))
    except BaseException:
        close()  # interrupted: nobody waits for what the workers are doing
        raise
    for place, task in enumerate(tasks):
        if isinstance(answers[place], LostTask):
            # The second and last try: alone, so that what another photo did to its worker cannot count.
            answers[place] = _crew.ask(function, task, fresh=True)
    return [_of_photo(answers[place]) for place in range(len(tasks))]


def run_on_files(
    function: Callable[[str, str], Any],
    files: Iterable[Path],
    folder: Path,
    *,
    workers: int = MOST_WORKERS,
    told: Progress | None = None,
) -> list[Any]:
    """Calls `function(path, root)` for every file, as `run` does; `folder` is what the files must lie in."""
    root = str(folder.absolute())
    return run(function, [(str(file.absolute()), root) for file in files], workers=workers, told=told)


def close() -> None:
    """Ends the workers, if any run. The next `run` starts new ones."""
    _crew.close()


def _of_photo(answer: Any) -> Any:
    """The answer, if it tells of the photo; MachineError where the computer is to blame."""
    if isinstance(answer, ShortOfRoom):
        raise MachineError(answer.what, answer.do)
    return answer


def _why_gone(code: int | None) -> Refusal:
    if code is None:
        return LostTask(
            "it took too long to read", "copy it to this computer's own disk, or export it again as JPEG"
        )
    if code == -getattr(signal, "SIGKILL", 0) != 0 or (_scarce() and code != 0):
        # Nobody but the system ends a worker so, when it needs its memory for something else.
        return ShortOfRoom(MEMORY, CLOSE)
    if code == OUT_OF_MEMORY:
        return LostTask("it needs more memory than one photo may take", "export it again, as a smaller JPEG")
    if code == -getattr(signal, "SIGXCPU", 0) != 0:  # the same computing again would not be shorter
        return Refusal("it takes too much computing to read", "export it again as JPEG")
    return LostTask(
        "it brought the photo reader down; the file is damaged", "export it again as JPEG, or take it out"
    )


def _scarce() -> bool:
    """True where this user's processes may have less memory than a photo may take (`ulimit -v`)."""
    try:
        import resource
    except ImportError:
        return False
    most, _ = resource.getrlimit(resource.RLIMIT_AS)
    return most != resource.RLIM_INFINITY and most < MEMORY_BYTES


def _share_one_heap() -> None:
    """Where memory is counted out (`ulimit -v`), threads share the heap: glibc else takes 64 MB of addresses for each.

    A thread that gets none never ends, since Python 3.11 cannot make the number that it unwinds an exception with.
    """
    if _scarce():
        import ctypes

        with suppress(OSError, AttributeError):  # another C library
            ctypes.CDLL(None).mallopt(_M_ARENA_MAX, 1)


def _processors() -> int:
    return len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1


class _Crew:
    """The workers that run. Each is asked by a thread of its own while there is something to ask."""

    def __init__(self) -> None:
        self._lock = threading.Lock()
        self._places = threading.Semaphore(MOST_WORKERS)
        self._running: dict[Worker, bool] = {}

    @property
    def pids(self) -> list[int]:
        """The processes that run."""
        return [worker.pid for worker in self._running]

    def answers(
        self, function: Callable[..., Any], tasks: Sequence[_Task], size: int
    ) -> Iterator[tuple[int, Any]]:
        """The place of each task with its answer, as they come, from `size` workers."""
        waiting: _Waiting = deque(enumerate(tasks))
        answered: SimpleQueue[tuple[int, Any] | Exception] = SimpleQueue()
        try:
            for _ in range(size):
                # Nobody waits for a daemon when the program is interrupted.
                threading.Thread(target=self._work, args=(function, waiting, answered), daemon=True).start()
            for _ in tasks:
                answer = answered.get()
                if isinstance(answer, Exception):
                    raise answer
                yield answer
        finally:
            waiting.clear()

    def _work(self, function: Callable[..., Any], waiting: _Waiting, answered: SimpleQueue[Any]) -> None:
        """One worker's day. What the program itself did wrong goes to whoever waits for answers."""
        with self._places, suppress(IndexError):
            while True:
                place, task = waiting.popleft()
                try:
                    answered.put((place, self.ask(function, task)))
                except Exception as fault:  # noqa: BLE001 - raised again where it can be told
                    answered.put(fault)

    def ask(self, function: Callable[..., Any], task: _Task, *, fresh: bool = False) -> Any:
        """The answer to one task of a worker that is free, or of a new one."""
        worker = self._taken(fresh=fresh)
        try:
            answer = worker.ask(function, task, COMPUTING_SECONDS, WAITING_SECONDS)
        except BaseException as gone:
            self._end([worker])
            if isinstance(gone, WorkerGoneError):
                return _why_gone(gone.code)
            raise
        with self._lock:
            if worker in self._running:  # not closed meanwhile
                self._running[worker] = False
        return answer

    def _taken(self, *, fresh: bool) -> Worker:
        with self._lock:
            free = [worker for worker, busy in self._running.items() if not busy]
            at_last(close)
            worker = Worker() if fresh or not free else free[0]
            self._running[worker] = True
            return worker

    def _end(self, workers: Iterable[Worker]) -> None:
        for worker in workers:
            self._running.pop(worker, None)
            worker.end()

    def close(self) -> None:
        """Ends them all, whatever they are doing."""
        self._end(list(self._running))


_crew = _Crew()
