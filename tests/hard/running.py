"""One command run and watched: in a child forked from a parent that has imported everything, or as the process that people start.

Comes in: a case's folder and a step. Goes out: how it ended, what it said, what it took, and who is still alive.
"""

from __future__ import annotations

import atexit
import os
import resource
import signal
import subprocess
import sys
import tempfile
import time
import traceback
from collections.abc import Callable
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from tests.living import living

GUDGEON = str(Path(sys.executable).with_name("gudgeon"))
LONGEST = 600
"""Seconds by the clock after which a run counts as endless."""
LEAVING = 60
"""Seconds that the processes of an ended run have to be gone."""
COMPUTING = 90
"""Seconds of processor time after which the system ends a forked run."""
MEMORY = 4 * 1024**3
"""Address space; photo workers set 3 GB for themselves."""
_TICKS = os.sysconf("SC_CLK_TCK")
_PR_CAPBSET_DROP, _CAPS = 24, (1, 2)
"""CAP_DAC_OVERRIDE and CAP_DAC_READ_SEARCH: numbers of linux/prctl.h and linux/capability.h."""


@dataclass(frozen=True)
class Harm:
    """What is done to a run. `after` is told in processor time of the process, so that it falls at the same place on a busy machine."""

    sent: int = 0
    after: float = 0.0
    to_all: bool = False
    limit: tuple[int, int] | None = None
    stdout: str = "pipe"
    ordinary: bool = False


@dataclass(frozen=True)
class Step:
    """The command's words, run in the case's folder `out`; the file or folder that it writes there; and what is done to it.

    A target "!" must be refused, one that begins with "?" may be.
    """

    words: tuple[str, ...]
    target: str = ""
    harm: Harm | None = None

    @property
    def told(self) -> str:
        """As one would type it."""
        return " ".join(
            ["gudgeon", *(repr(word) if not word or " " in word else word for word in self.words)]
        )


@dataclass(frozen=True)
class Outcome:
    """How a step ended. `heard`: the program was listening for signals when one was sent."""

    code: int
    out: bytes
    err: bytes
    computing: float = 0.0
    memory: int = 0
    living: tuple[str, ...] = ()
    sent: bool = False
    heard: bool = False
    endless: bool = False


def run(folder: Path, step: Step) -> Outcome:
    """The step, forked where nothing is done to it."""
    return _started(folder, step, step.harm) if step.harm else _forked(folder, step)


def surroundings(folder: Path) -> dict[str, str]:
    """Nothing of the person who runs the cases is seen or touched."""
    own = {"TMPDIR": "tmp", "GUDGEON_CACHE": "cache", "XDG_CONFIG_HOME": "config", "HOME": "home"}
    # A library that only the tests bring along would else end the process where memory is short.
    return {
        **os.environ,
        "OPENBLAS_NUM_THREADS": "1",
        **{name: str(folder / place) for name, place in own.items()},
    }


def _forked(folder: Path, step: Step) -> Outcome:
    said = [folder / name for name in ("said.out", "said.err")]
    pid = os.fork()
    if not pid:
        _child(folder, step, said)
    until = time.monotonic() + LONGEST
    ended, status, spent = 0, 0, None
    while not ended:
        time.sleep(0.005)
        ended, status, spent = os.wait4(pid, os.WNOHANG)
        if not ended and time.monotonic() > until:
            os.killpg(pid, signal.SIGKILL)
    assert spent is not None
    return Outcome(
        code=os.waitstatus_to_exitcode(status),
        out=said[0].read_bytes(),
        err=said[1].read_bytes(),
        computing=spent.ru_utime + spent.ru_stime,
        memory=spent.ru_maxrss * 1024,
        living=still_there(pid),
        endless=time.monotonic() > until or os.waitstatus_to_exitcode(status) == -signal.SIGXCPU,
    )


def _child(folder: Path, step: Step, said: list[Path]) -> None:
    code: Any = 99
    try:
        os.setsid()
        for stream, place in ((0, Path(os.devnull)), (1, said[0]), (2, said[1])):
            os.dup2(os.open(place, os.O_RDWR | os.O_CREAT | os.O_TRUNC), stream)
        os.environ.update(surroundings(folder))
        tempfile.tempdir = None
        os.chdir(folder / "out")
        for limit, size in (
            (resource.RLIMIT_CPU, COMPUTING),
            (resource.RLIMIT_AS, MEMORY),
            (resource.RLIMIT_CORE, 0),
        ):
            resource.setrlimit(limit, (size, resource.getrlimit(limit)[1]))
        sys.argv = ["gudgeon", *step.words]
        code = _left(_main)
        sys.stderr.flush()
        atexit._run_exitfuncs()
    except BaseException:  # noqa: BLE001 - found in what was said
        traceback.print_exc()
    finally:
        os._exit(code if isinstance(code, int) else 0 if code is None else 1)


def _main() -> None:
    from reporter.cli import main

    main()


def _left(program: Callable[[], None]) -> Any:
    try:
        program()
    except SystemExit as left:
        return left.code
    return 0


def _started(folder: Path, step: Step, harm: Harm) -> Outcome:
    with subprocess.Popen(
        _command(step, harm),
        cwd=folder / "out",
        env=surroundings(folder),
        stdin=subprocess.DEVNULL,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        start_new_session=True,
        preexec_fn=lambda: _before(harm),  # noqa: PLW1509 - this process has one thread
    ) as process:
        sent, heard = _struck(process, harm)
        endless = False
        try:
            out, err = process.communicate(timeout=LONGEST)
        except subprocess.TimeoutExpired:
            endless = True
            os.killpg(process.pid, signal.SIGKILL)
            out, err = process.communicate()
    return Outcome(
        process.returncode, out, err, living=still_there(process.pid), sent=sent, heard=heard, endless=endless
    )


def _command(step: Step, harm: Harm) -> list[str]:
    to = {"pipe": "", "closed": " >&-", "full": " >/dev/full"}[harm.stdout]
    return ["sh", "-c", f'exec "$0" "$@"{to}', GUDGEON, *step.words]


def _before(harm: Harm) -> None:
    for number in (signal.SIGINT, signal.SIGTERM, signal.SIGHUP):
        signal.signal(
            number, signal.SIG_DFL
        )  # a shell's job in the background ignores them, and hands that on
    if harm.limit:
        resource.setrlimit(harm.limit[0], (harm.limit[1], harm.limit[1]))
    if harm.ordinary:
        import ctypes

        for right in _CAPS:
            ctypes.CDLL(None).prctl(_PR_CAPBSET_DROP, right, 0, 0, 0)


def _struck(process: subprocess.Popen[bytes], harm: Harm) -> tuple[bool, bool]:
    """Send the signal when the process has worked for so long; whether it was sent, and whether somebody listened then."""
    if not harm.sent:
        return False, False
    whole = int(harm.after * _TICKS)
    while process.poll() is None and _worked(process.pid) < whole:
        time.sleep(0.001)
    time.sleep(harm.after - whole / _TICKS)
    if process.poll() is not None:
        return False, False
    heard = _listens(process.pid, harm.sent)
    with suppress(ProcessLookupError):
        (os.killpg if harm.to_all else os.kill)(process.pid, harm.sent)
    return True, heard


def _worked(pid: int) -> int:
    """Clock ticks of processor time, those of its dead children left out (proc(5): utime, stime)."""
    try:
        fields = Path(f"/proc/{pid}/stat").read_text().rpartition(")")[2].split()
    except OSError:
        return 0
    return int(fields[11]) + int(fields[12])


def _listens(pid: int, number: int) -> bool:
    """True where the process has set SIGTERM to something of its own, which Python does not by itself (proc(5): SigCgt)."""
    with suppress(OSError, StopIteration):
        lines = Path(f"/proc/{pid}/status").read_text().splitlines()
        caught = next(line for line in lines if line.startswith("SigCgt"))
        return bool(int(caught.split()[1], 16) >> (signal.SIGTERM - 1) & 1) and number != signal.SIGKILL
    return False


def still_there(session: int) -> tuple[str, ...]:
    """Processes of the session that are alive although they were given time; they are ended."""
    until = time.monotonic() + LEAVING
    while found := living(session):
        if time.monotonic() > until:
            for pid in found:
                with suppress(ProcessLookupError):
                    os.kill(int(pid), signal.SIGKILL)
            return tuple(found)
        time.sleep(0.02)
    return ()
