"""Puts small faults into the program, one at a time, and counts how many the tests notice: `python -m tests.mutation.run`.

Fails when less than the floor is noticed, or when a fault lives on that `survivors.toml` does not explain. Words after
the command narrow it to the modules that contain one of them; `--at-once N` says how many processes try.
"""

from __future__ import annotations

import argparse
import os
import resource
import sys
import tomllib
from collections import Counter
from pathlib import Path
from typing import NamedTuple

from tests.mutation.choosing import ROOT, chosen, mutant, noticed_by
from tests.mutation.operators import Fault
from tests.mutation.trying import Trial, Verdict, tried, warm_up

FLOOR = 0.85
EXPLAINED = Path(__file__).with_name("survivors.toml")
KINDS = {"equivalent", "not judged"}
Explained = dict[str, dict[str, str]]


class Told(NamedTuple):
    """The report's lines, and whether the gate holds."""

    lines: tuple[str, ...]
    holds: bool


def explained() -> Explained:
    """The faults that may live on, by key: `kind` and `because`."""
    listed: Explained = tomllib.loads(EXPLAINED.read_text("utf-8")).get("survivor", {})
    return listed


def told(found: dict[Fault, Verdict], known: Explained, *, whole: bool) -> Told:
    """What is said of a run; entries of the list that no longer fit are told where the `whole` choice was run."""
    alive = [fault for fault, verdict in found.items() if verdict == "survived"]
    new = [each for each in alive if each.key not in known]
    stale = sorted(set(known) - {each.key for each in alive}) if whole else []
    share = 1 - len(alive) / max(len(found), 1)
    lines = [
        *_counts(found),
        f"all: {len(found) - len(alive)} of {len(found)} noticed ({share:.1%}; floor {FLOOR:.0%})",
        *(f"explained, yet noticed or not chosen any more: {key}" for key in stale),
        *(f"LIVES ON, not explained: {each.key}" for each in new),
    ]
    return Told(tuple(lines), holds=not new and share >= FLOOR)


def _counts(found: dict[Fault, Verdict]) -> list[str]:
    counted: dict[str, Counter[str]] = {}
    for fault, verdict in found.items():
        counted.setdefault(str(Path(fault.module).parent), Counter())[verdict] += 1
    return [
        f"{package}: {each['killed']} noticed, {each['endless']} never ended, {each['survived']} live on"
        for package, each in counted.items()
    ]


def main(words: list[str]) -> int:
    """Runs the choice; 1 when the gate does not hold."""
    asked = _asked(words)
    picked = [
        each for each in chosen() if not asked.words or any(word in each.module for word in asked.words)
    ]
    warm_up()
    sets = sorted({noticed_by(each.module) for each in picked})
    failing = [
        trial.tests
        for trial, verdict in tried((Trial("", None, None, tests) for tests in sets), asked.at_once)
        if verdict != "survived"
    ]
    if failing:
        print("Without any fault these fail:", *failing, sep="\n  ")
        return 1
    by_key = {each.key: each for each in picked}
    trials = (
        Trial(each.key, ROOT / each.module, mutant(each.module, each.key), noticed_by(each.module))
        for each in picked
    )
    verdicts: dict[Fault, Verdict] = {}
    for trial, verdict in tried(trials, asked.at_once):
        verdicts[by_key[trial.name]] = verdict
        if verdict == "survived":
            print("lives on:", trial.name, flush=True)
    report = told({each: verdicts[each] for each in picked}, explained(), whole=not asked.words)
    spent = resource.getrusage(resource.RUSAGE_CHILDREN)
    print(*report.lines, f"{spent.ru_utime + spent.ru_stime:.0f} s of processor time", sep="\n")
    return 0 if report.holds else 1


def _asked(words: list[str]) -> argparse.Namespace:
    parser = argparse.ArgumentParser(prog="python -m tests.mutation.run", description=__doc__)
    parser.add_argument("words", nargs="*", help="of a module's name")
    parser.add_argument("--at-once", type=int, default=len(os.sched_getaffinity(0)))
    return parser.parse_args(words)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
