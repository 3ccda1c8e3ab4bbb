"""Classes of cases in which the folder is good and the run is not: cut off, or on a computer that lacks something."""

from __future__ import annotations

import os
import random
import resource
import shutil
import signal
import subprocess
from collections.abc import Iterator
from contextlib import contextmanager
from functools import partial
from pathlib import Path

from tests.hard.making import Made, old_target
from tests.hard.running import Harm, Step

JOB = "../job"
_WRITING = (
    (("report", JOB, "-o", "r.pdf"), "r.pdf", 2.0), (("report", JOB, "-o", "r.pdf", "--no-cache"), "r.pdf", 2.0),
    (("report", JOB, "-o", "r.html"), "r.html", 1.6), (("sheet", JOB, "-o", "s.pdf"), "s.pdf", 3.0),
    (("work", JOB, "-o", "w.pdf"), "w.pdf", 1.6), (("work", JOB, "-o", "w.csv"), "w.csv", 0.8),
    (("plan", JOB, "-o", "p.pdf"), "p.pdf", 1.6), (("due", JOB, "--ics", "d.ics"), "d.ics", 0.8),
)  # fmt: skip
"""Words, target, and the processor time within which a moment is drawn, in seconds: somewhat more than a whole run takes."""
_NEXT = Step(("plan", JOB, "-o", "next.html"), "next.html")
"""Sweeps what a killed run left."""
_TAKING = 0.25
"""Of the runs that are cut off, the share that writes into the job folder itself."""


def _struck(sent: int, *, to_all: bool, chance: random.Random, folder: Path) -> Made:
    if chance.random() < _TAKING:
        return _taking(folder, Harm(sent=sent, after=chance.uniform(0, 1.6), to_all=to_all), chance)
    words, target, most = chance.choice(_WRITING)
    old_target(chance, folder, target)
    step = Step(words, target, Harm(sent=sent, after=chance.uniform(0, most), to_all=to_all))
    return Made([step, _NEXT] if sent == signal.SIGKILL else [step])


def _taking(folder: Path, harm: Harm, chance: random.Random) -> Made:
    """A sheet taken back, cut off and taken again; a twin of the folder takes it undisturbed, to be held against."""
    shutil.copytree(folder / "job", folder / "twin")
    words = ("../given/sheet.pdf", *chance.choice(((), ("--replace",))))
    cut_off = Step(("take", JOB, *words), harm=harm)
    return Made([Step(("take", "../twin", *words)), cut_off, Step(cut_off.words)])


def _killed(chance: random.Random, folder: Path) -> Made:
    return _struck(signal.SIGKILL, to_all=False, chance=chance, folder=folder)


def _interrupted(chance: random.Random, folder: Path) -> Made:
    """As a terminal does it (all processes), or as the system does (one)."""
    sent, to_all = chance.choice(((signal.SIGINT, True), (signal.SIGTERM, False), (signal.SIGHUP, True)))
    return _struck(sent, to_all=to_all, chance=chance, folder=folder)


def _small_disk(chance: random.Random, folder: Path) -> Made:
    place = folder / chance.choice(("tmp", "out"))
    size = int(2 ** chance.uniform(12, 23))
    words, target, _ = chance.choice(_WRITING)
    if not _mounts():
        return Made([], not_tried="no disk can be mounted here")
    return Made([Step(words, target, Harm())], partial(_disk, place, size))


def _mounts() -> bool:
    """Root with the right to mount (capabilities(7): CAP_SYS_ADMIN, number 21)."""
    status = Path("/proc/self/status").read_text()
    held = int(next(line for line in status.splitlines() if line.startswith("CapEff")).split()[1], 16)
    return os.geteuid() == 0 and bool(held >> 21 & 1)


@contextmanager
def _disk(place: Path, size: int) -> Iterator[None]:
    subprocess.run(["mount", "-t", "tmpfs", "-o", f"size={size}", "tmpfs", str(place)], check=True)
    try:
        yield
    finally:
        subprocess.run(["umount", str(place)], check=True)


def _limits(chance: random.Random, folder: Path) -> Made:
    """As `ulimit -v`, `-f` and `-n` set them, from where Python itself can begin."""
    limit = chance.choice((
        (resource.RLIMIT_AS, int(chance.uniform(100, 700)) * 1024**2),
        (resource.RLIMIT_FSIZE, int(2 ** chance.uniform(0, 20))),
        (resource.RLIMIT_NOFILE, chance.randint(12, 40)),
    ))  # fmt: skip
    words, target, _ = chance.choice(_WRITING)
    old_target(chance, folder, target)
    return Made([Step(words, target, Harm(limit=limit))])


def _streams(chance: random.Random, _folder: Path) -> Made:
    words, target, _ = chance.choice((*_WRITING, (("check", JOB), "", 0), (("describe", "chain"), "", 0)))
    return Made([Step(words, target, Harm(stdout=chance.choice(("closed", "full"))))])


def _closed_folder(chance: random.Random, folder: Path) -> Made:
    """A user without rights, and a folder that may only be read."""
    if os.geteuid() != 0:
        return Made([], not_tried="only root can become a user without rights")
    place = chance.choice(("out", "tmp", "cache", "job"))
    (folder / place).chmod(0o555)
    words, target, _ = chance.choice(_WRITING)
    return Made([Step(words, target, Harm(ordinary=True))])


FAULTS = {
    "killed": (4, _killed),
    "interrupted": (6, _interrupted),
    "small disk": (3, _small_disk),
    "limits": (4, _limits),
    "streams": (2, _streams),
    "closed folder": (2, _closed_folder),
}
"""Each with its weight; they take a process of their own, and so two or three seconds each."""
