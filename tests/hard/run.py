"""The fuzz and fault run: `python -m tests.hard.run [--seed N] [--minutes M | --seconds S | --cases C] [--only N] [--of CLASS]`.

A case follows from the seed and its own number alone. One that fails prints the command that repeats it, and its folder stays.
"""

from __future__ import annotations

import argparse
import gc
import importlib
import json
import math
import os
import pkgutil
import random
import resource
import shutil
import signal
import sys
import tempfile
import threading
import time
import traceback
from collections import Counter
from collections.abc import Iterator
from contextlib import suppress
from itertools import count, islice
from pathlib import Path
from typing import NamedTuple

from typer.main import get_command

from tests.hard import base
from tests.hard.cases import CLASSES, drawn
from tests.hard.making import fresh
from tests.hard.oracle import Seen, broken, disagreement, stood
from tests.hard.running import run

MINUTES = 10
WATCHED = 2000
"""Seconds after which a case is given up, whatever it is doing."""


class Result(NamedTuple):
    """What came of one case: the rules that broke, how often each command ran, why it was not tried."""

    number: int
    name: str
    wrong: list[str]
    commands: list[str]
    not_tried: str


def warm_up() -> None:
    """Import what the cases run, before the processes part; kinds are read once, and the commands made once."""
    import reporter
    from reporter import cli, registry

    for module in pkgutil.walk_packages(reporter.__path__, "reporter."):
        if not module.name.startswith(("reporter.desk", "reporter.__main__")):
            importlib.import_module(module.name)
    whole = registry.load(registry.find())
    dict(whole.plugins)  # each is else read when it is first asked for, which every case would do anew
    registry.load = lambda found: whole  # noqa: ARG005 - as it is called
    commands = get_command(cli.app)
    vars(cli)["get_command"] = lambda _app: commands


def tried(seed: int, number: int, home: Path) -> Result:
    """One case, from its copy of the base to its verdict; the folder goes where nothing is wrong."""
    name, chance = drawn(seed, number)
    folder = home / f"case-{number}"
    fresh(home / "base", folder)
    made = CLASSES[name].make(chance, folder)
    seen = []
    for step in made.steps:
        before = stood(folder)
        with made.meanwhile():
            each = Seen(folder, step, run(folder, step), before)
            seen.append((each, broken(each)))
    wrong = [f"{each.step.told}\n      {fault}" for each, faults in seen for fault in faults]
    wrong += disagreement([each for each, _ in seen])
    _keep_or_drop(folder, [each for each, _ in seen], wrong)
    return Result(number, name, wrong, [each.step.words[0] for each, _ in seen], made.not_tried)


def _keep_or_drop(folder: Path, seen: list[Seen], wrong: list[str]) -> None:
    if not wrong:
        shutil.rmtree(folder)
        return
    for place, each in enumerate(seen):
        outcome = each.outcome
        told = f"{each.step.told}\n{each.step.harm}\nexit code {outcome.code}\n".encode()
        (folder / f"said.{place}").write_bytes(told + outcome.out + b"\n---- stderr\n" + outcome.err)


def _started(seed: int, number: int, home: Path) -> int:
    sys.stdout.flush()
    pid = os.fork()
    if pid:
        return pid
    try:
        os.setpgid(0, 0)
        (home / f"result-{number}").write_text(json.dumps(_told(seed, number, home)), "utf-8")
    finally:
        os._exit(0)


def _told(seed: int, number: int, home: Path) -> Result:
    try:
        return tried(seed, number, home)
    except Exception:  # noqa: BLE001 - a slip of the run itself
        return Result(number, drawn(seed, number)[0], [traceback.format_exc()], [], "")


def results(seed: int, numbers: Iterator[int], until: float, home: Path, at_once: int) -> Iterator[Result]:
    """Cases, so many at once, until the time is over."""
    running: dict[int, tuple[int, float]] = {}
    waiting = iter(numbers)
    while True:
        while len(running) < at_once and time.monotonic() < until:
            number = next(waiting, None)
            if number is None:
                break
            running[_started(seed, number, home)] = (number, time.monotonic() + WATCHED)
        if not running:
            return
        time.sleep(0.01)
        for pid, (number, latest) in list(running.items()):
            if time.monotonic() > latest:
                with suppress(ProcessLookupError):
                    os.killpg(pid, signal.SIGKILL)
            if os.waitpid(pid, os.WNOHANG)[0]:
                del running[pid]
                yield _read(seed, number, home / f"result-{number}")


def _read(seed: int, number: int, file: Path) -> Result:
    if not file.exists():
        return Result(number, drawn(seed, number)[0], ["the case itself broke off"], [], "")
    found = Result(*json.loads(file.read_text("utf-8")))
    file.unlink()
    return found


def main(words: list[str]) -> int:
    """Runs cases until the time is over; 1 when one of them failed."""
    asked = _asked(words)
    home = Path(tempfile.mkdtemp(prefix="gudgeon-hard-"))
    os.environ["GUDGEON_CACHE"] = str(home / "cache")
    print(f"seed {asked.seed}", flush=True)
    warm_up()
    base.make(home / "base")
    assert threading.active_count() == 1, "a process with threads cannot be parted"
    gc.freeze()
    begun = time.monotonic()
    until = math.inf if asked.cases else begun + (asked.seconds or asked.minutes * 60)
    numbers = iter(dict.fromkeys(asked.only)) if asked.only else _of(asked.seed, asked.of)
    found = []
    for each in results(asked.seed, islice(numbers, asked.cases), until, home, asked.at_once):
        found.append(each)
        _tell(each, asked.seed, home)
    failed = sum(bool(each.wrong) for each in found)
    print(*_table(found, time.monotonic() - begun), sep="\n")
    if not failed:
        shutil.rmtree(home)
    untried = sum(bool(each.not_tried) for each in found)
    print(f"{len(found) - failed - untried} passed, {failed} failed")
    return 1 if failed else 0


def _of(seed: int, names: list[str] | None) -> Iterator[int]:
    return (number for number in count(1) if not names or drawn(seed, number)[0] in names)


def _asked(words: list[str]) -> argparse.Namespace:
    parser = argparse.ArgumentParser(prog="python -m tests.hard.run", description=__doc__)
    parser.add_argument("--seed", type=int, default=random.SystemRandom().randrange(10**6))
    parser.add_argument("--minutes", type=float, default=MINUTES)
    parser.add_argument("--seconds", type=float, default=0)
    parser.add_argument("--cases", type=int, help="so many cases, however long they take")
    parser.add_argument(
        "--only", type=int, action="append", help="one case by its number; may be given again"
    )
    parser.add_argument("--of", action="append", choices=CLASSES, help="cases of one class alone")
    parser.add_argument("--at-once", type=int, default=len(os.sched_getaffinity(0)))
    return parser.parse_args(words)


def _tell(result: Result, seed: int, home: Path) -> None:
    if not result.wrong:
        return
    print(f"FAILED case {result.number} ({result.name})", *(f"   {each}" for each in result.wrong), sep="\n")
    print(f"   again: python -m tests.hard.run --seed {seed} --only {result.number}")
    print(f"   kept: {home / f'case-{result.number}'}", flush=True)


def _table(found: list[Result], seconds: float) -> Iterator[str]:
    """Cases and failures of each class, runs of each command, processor time."""
    yield f"{'class':<18}{'cases':>7}{'failed':>8}"
    for name in CLASSES:
        own = [each for each in found if each.name == name]
        why = Counter(each.not_tried for each in own if each.not_tried)
        told = "".join(f"   not tried: {times}, {reason}" for reason, times in why.items())
        yield f"{name:<18}{len(own):>7}{sum(bool(each.wrong) for each in own):>8}{told}"
    runs = Counter(command for each in found for command in each.commands)
    yield "runs: " + ", ".join(f"{command} {times}" for command, times in runs.most_common())
    spent = resource.getrusage(resource.RUSAGE_CHILDREN)
    yield f"{len(found)} cases in {seconds:.0f} s, {spent.ru_utime + spent.ru_stime:.0f} s of processor time"


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
