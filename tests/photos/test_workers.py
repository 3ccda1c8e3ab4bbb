"""The workers: a task that hangs, crashes or eats memory is one answer among others, and nothing is left behind."""

from __future__ import annotations

import math
import os
import pickle
import signal
import subprocess
import sys
import threading
import time
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest

from reporter import door
from reporter.door import Refusal, spawning, workers
from reporter.errors import MachineError
from tests.living import PATIENCE, alive, until

pytestmark = pytest.mark.skipif(sys.platform == "win32", reason="limits on computing and memory are POSIX's")


@pytest.fixture(autouse=True)
def _fresh() -> Iterator[None]:
    door.close()
    yield
    door.close()


def test_answers_come_in_order() -> None:
    assert door.run(math.sqrt, [(number * number,) for number in range(50)]) == list(range(50))


def test_no_tasks_start_no_process() -> None:
    assert door.read_photos([], Path(), time_zone="UTC") == []
    assert workers._crew.pids == []


def test_few_tasks_start_few_processes_which_later_tasks_use_again() -> None:
    door.run(math.sqrt, [(4,)])
    (first,) = workers._crew.pids
    door.run(math.sqrt, [(4,)] * 8, workers=1)
    assert workers._crew.pids == [first]
    door.run(time.sleep, [(0.2,)] * 8)
    assert len(workers._crew.pids) == min(workers.MOST_WORKERS, workers._processors())


def test_closing_leaves_no_process() -> None:
    door.run(math.sqrt, [(4,)] * 8)
    pids = workers._crew.pids
    assert pids
    assert all(map(alive, pids))
    door.close()
    assert not any(map(alive, pids))
    assert door.run(math.sqrt, [(9,)]) == [3]


def test_what_cannot_be_sent_is_a_fault_of_the_program() -> None:
    with pytest.raises((AttributeError, pickle.PicklingError)):
        door.run(lambda: 1, [()])


def test_two_that_ask_at_once_get_their_own_answers() -> None:
    """As the desk does: each of its requests runs in a thread."""
    answers: dict[int, list[float]] = {}

    def ask(base: int) -> None:
        answers[base] = door.run(math.sqrt, [((base + number) ** 2,) for number in range(20)])

    threads = [threading.Thread(target=ask, args=(base,)) for base in (0, 100, 200)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join(timeout=PATIENCE)
    assert answers == {base: list(range(base, base + 20)) for base in (0, 100, 200)}
    assert len(workers._crew.pids) <= workers.MOST_WORKERS


def test_exceptions_are_answers() -> None:
    refusal, good = door.run(math.sqrt, [(-1,), (4,)])
    assert isinstance(refusal, Refusal)
    assert "damaged (ValueError)" in refusal.what
    assert good == 2


def test_crash_is_an_answer_and_spares_the_others() -> None:
    answers = door.run(os._exit, [(3,)])
    assert "brought the photo reader down" in answers[0].what
    answers = door.run(signal.raise_signal, [(signal.SIGSEGV,), (0,), (0,), (signal.SIGABRT,), (0,)])
    assert [isinstance(answer, Refusal) for answer in answers] == [True, False, False, True, False]


@pytest.mark.parametrize(
    ("function", "task", "told"),
    [
        (signal.raise_signal, (signal.SIGKILL,), "not enough memory"),
        (Path("/dev/full").write_bytes, (b"x",), "the disk is full"),
    ],
)
def test_what_the_computer_lacks_is_no_fault_of_a_photo(
    function: Callable[..., object], task: tuple[object, ...], told: str
) -> None:
    """Nobody but the system ends a worker by SIGKILL, when memory is short (Linux, `proc_pid_oom_score(5)`)."""
    with pytest.raises(MachineError, match=told):
        door.run(function, [task])


def test_hanging_is_an_answer(monkeypatch: pytest.MonkeyPatch) -> None:
    """Little patience with the one alone: a busy computer may take longer than that to start the other's worker."""
    real = spawning.Worker.ask

    def ask(
        worker: spawning.Worker, function: Any, task: tuple[Any, ...], computing: int, waiting: float
    ) -> Any:
        return real(worker, function, task, computing, 0.3 if task == (1000,) else waiting)

    monkeypatch.setattr(spawning.Worker, "ask", ask)
    slow, quick = door.run(time.sleep, [(1000,), (0,)])
    assert "took too long" in slow.what
    assert quick is None


@pytest.mark.slow
def test_endless_computing_is_an_answer(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(workers, "COMPUTING_SECONDS", 1)
    slow, quick = door.run(sum, [(range(10**14),), (range(3),)])
    assert "too much computing" in slow.what
    assert quick == 3


@pytest.mark.slow
def test_the_limit_counts_for_each_photo_not_for_all_together(monkeypatch: pytest.MonkeyPatch) -> None:
    """Each takes four tenths of a second of its worker, however fast that computes; the limit is one to two."""
    monkeypatch.setattr(workers, "COMPUTING_SECONDS", 1)
    busy = "import time\nend = time.process_time() + 0.4\nwhile time.process_time() < end: pass"
    answers = door.run(exec, [(busy,)] * 8, workers=1)
    assert not any(isinstance(answer, Refusal) for answer in answers)


@pytest.mark.skipif(sys.platform == "darwin", reason="that system does not keep the limit")
def test_a_limit_that_the_program_was_started_with_is_kept() -> None:
    """As with `ulimit -t 60`: no worker may ask for more, and an ordinary photo is read all the same."""
    script = (
        "import math, resource\n"
        "from reporter import door\n"
        "from reporter.door import workers\n"
        "if __name__ == '__main__':\n"
        f"    resource.setrlimit(resource.RLIMIT_CPU, ({workers.COMPUTING_SECONDS}, {workers.COMPUTING_SECONDS}))\n"
        "    print(door.run(math.sqrt, [(4.0,), (9.0,)]))\n"
        "    door.close()\n"
    )
    done = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[2.0, 3.0]"


def test_too_much_memory_is_an_answer() -> None:
    greedy, modest = door.run(bytearray, [(8 * 1024**3,), (10,)])
    assert "more memory" in greedy.what
    assert modest == bytearray(10)


_PARENT = """
import signal, sys, time
from reporter import door
from reporter.door import workers
signal.signal(signal.SIGINT, signal.default_int_handler)  # a run in the background hands it down as ignored
door.run(abs, [(1,)] * 8)
print(*workers._crew.pids, flush=True)
door.run(time.sleep, [(600,)] * 4)
"""


@pytest.mark.parametrize("how", [signal.SIGKILL, signal.SIGTERM, signal.SIGINT])
def test_workers_end_with_their_parent(how: signal.Signals, tmp_path: Path) -> None:
    (tmp_path / "parent.py").write_text(_PARENT)
    command = [sys.executable, str(tmp_path / "parent.py")]
    with subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, text=True) as parent:
        assert parent.stdout is not None
        children = [int(pid) for pid in parent.stdout.readline().split()]
        parent.send_signal(how)
        try:
            parent.wait(timeout=PATIENCE)
        finally:
            parent.kill()
    assert children
    assert until(lambda: not any(map(alive, children))), "a worker outlived its parent"


def test_a_script_without_a_main_guard_may_read_photos(tmp_path: Path) -> None:
    """The main script is not run again in the worker, as multiprocessing would do by itself."""
    (tmp_path / "script.py").write_text(
        "from reporter import door\nprint('once', door.run(abs, [(-5,)]), flush=True)\n"
    )
    done = subprocess.run(
        [sys.executable, tmp_path / "script.py"], capture_output=True, text=True, check=True, timeout=PATIENCE
    )
    assert (done.stdout, done.stderr) == ("once [5]\n", "")


def unknown_there() -> None:
    """Stands in a module that no worker can import."""


def test_a_task_that_a_worker_cannot_understand_is_an_answer() -> None:
    (answer,) = door.run(unknown_there, [()])
    assert isinstance(answer, Refusal)
