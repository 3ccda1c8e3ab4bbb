"""Ctrl-C at any moment of a process: before the program is loaded, in a library that swallows it, in a piece of work that is held."""

from __future__ import annotations

import signal
import subprocess
import sys
from pathlib import Path

import pytest

from tests.living import PATIENCE

pytestmark = pytest.mark.skipif(sys.platform == "win32", reason="signals of POSIX")
ARMED = """
import os, signal, sys, time
from reporter.machine import interrupts
interrupts.arm()
def ask(): os.kill(os.getpid(), signal.SIGINT)
"""


def child(code: str, **how: object) -> subprocess.CompletedProcess[str]:
    """The code in a process of its own that listens for interruptions."""
    command = [sys.executable, "-P", "-c", ARMED + code]
    return subprocess.run(command, capture_output=True, text=True, check=False, timeout=PATIENCE, **how)  # type: ignore[call-overload,no-any-return]


@pytest.mark.parametrize("asked", [signal.SIGINT, signal.SIGTERM, signal.SIGHUP])
def test_before_anything_is_loaded_it_ends_on_the_spot(asked: int) -> None:
    done = child(f"os.kill(os.getpid(), {int(asked)}); time.sleep(9)")
    assert (done.returncode, done.stderr) == (130, "Interrupted. Nothing was written.\n")


def test_what_listens_is_loaded_before_everything_else() -> None:
    """And it brings next to nothing of Python's own along: until it listens, Ctrl-C is answered with a traceback."""
    code = (
        "import contextlib, re, signal, sys; before = set(sys.modules)\n"  # `re` by the script that pip makes
        "import reporter.entry; print(*sorted(set(sys.modules) - before))"
    )
    command = [sys.executable, "-P", "-c", code]
    done = subprocess.run(command, capture_output=True, text=True, check=True)
    own = {"reporter", "reporter.entry", "reporter.machine", "reporter.machine.interrupts"}
    assert set(done.stdout.split()) <= {*own, "__future__", "atexit"}


def test_a_library_that_swallows_it_is_asked_again() -> None:
    """A bare `except`, and a destructor, from which nothing comes out."""
    done = child(
        "interrupts.begin(); interrupts.AGAIN = 0.05\n"
        "class Deaf:\n"
        "    def __del__(self): ask(); time.sleep(0)\n"
        "try:\n"
        "    try: ask(); time.sleep(9)\n"
        "    except: pass\n"
        "    Deaf(); time.sleep(9)\n"
        "    print('swallowed')\n"
        "except interrupts.Interrupted:\n"
        "    interrupts.over(); print('heard')\n"
    )
    assert (done.stdout, done.stderr) == ("heard\n", "")


def test_a_library_is_loaded_to_its_end_first(tmp_path: Path) -> None:
    """One that is not Python's own may end the whole process when it is interrupted in that."""
    (tmp_path / "slow_library.py").write_text(
        "import __main__, time\n__main__.ask()\ntime.sleep(0.1)\nprint('whole')\n"
    )
    done = child(
        f"interrupts.begin(); sys.path.append({str(tmp_path)!r})\n"
        "try:\n"
        "    import slow_library\n"
        "    time.sleep(9)\n"
        "except interrupts.Interrupted:\n"
        "    interrupts.over(); print('heard', interrupts.asked())\n"
    )
    assert done.stdout.split("\n") == ["whole", "heard True", ""]


def test_held_work_becomes_whole_first() -> None:
    done = child(
        "interrupts.begin()\n"
        "try:\n"
        "    with interrupts.held():\n"
        "        ask(); print('whole')\n"
        "    print('not reached')\n"
        "except KeyboardInterrupt:\n"
        "    interrupts.over(); ask(); signal.raise_signal(signal.SIGALRM); print('heard once')\n"
    )
    assert done.stdout.split("\n") == ["whole", "heard once", ""]


def test_what_runs_until_it_is_interrupted_ends_without_complaint() -> None:
    done = child(
        "interrupts.begin(); interrupts.AGAIN = 0.05\n"
        "with interrupts.expected():\n"
        "    ask(); print('not reached')\n"
        "time.sleep(2 * interrupts.AGAIN); print('closed')\n"
    )
    assert (done.stdout, done.returncode) == ("closed\n", 0)


def test_what_a_shell_ignores_stays_ignored() -> None:
    """As after `nohup`, or in the background of a script."""
    done = child(
        "os.kill(os.getpid(), signal.SIGHUP); print('still here')",
        preexec_fn=lambda: signal.signal(signal.SIGHUP, signal.SIG_IGN),
    )
    assert done.stdout == "still here\n"


def test_the_last_things_are_all_done() -> None:
    """One that fails keeps no other from its turn; nor does one that waits for ever."""
    done = child(
        "interrupts._PATIENCE = 2\n"
        "import atexit\n"
        "atexit.register(lambda: os.write(1, b'c'))\n"
        "for each in (lambda: 1 / 0, lambda: os.write(1, b'a'), lambda: time.sleep(99), lambda: os.write(1, b'b')):\n"
        "    interrupts.at_last(each)\n"
        "interrupts.wind_up(); os._exit(0)\n"
    )
    assert (done.stdout, done.stderr) == ("abc", "")
