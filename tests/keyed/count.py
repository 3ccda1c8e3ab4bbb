"""Counts how many checks of figures stand against what, and prints the table of DEVELOPERS.md.

In: the status of every row keyed a second time (`tables/*.csv`, `limits.csv`) and the kind of every test of a figure
(`standing.csv`), with as many cases as pytest collects. Out: a table. Run as `python -m tests.keyed.count`.
"""

from __future__ import annotations

import subprocess
import sys
from collections import Counter
from pathlib import Path

from reporter.engineering import table
from tests.keyed.holding import TABLES, held, keyed, plain

ROOT = Path(__file__).parents[2]
KINDS = {
    "printed": "printed answer or figure of a source",
    "quoted": "the same, quoted by a second text",
    "oracle": "independent oracle (scipy, numpy, `uncertainties`, pint)",
    "hand": "recomputation by hand",
    "relation": "relation (order, symmetry, a sum of the table itself)",
    "memory": "memory: against slips of the pen only",
    "form": "no figure: refusals, wording, declarations",
}
BY_STATUS = {"READ": "printed", "READ-2": "quoted", "DERIVED": "hand", "MEMORY": "memory"}
PLACES = ("cells of tables", "figures of limits", "cases of sums", "cases of judging")


def collected() -> Counter[str]:
    """Cases that pytest collects of every test in the files that `standing.csv` names."""
    files = sorted({line["test"].partition("::")[0] for line in keyed("standing")})
    done = subprocess.run(
        [sys.executable, "-m", "pytest", "--collect-only", "-q", *files],
        cwd=ROOT, capture_output=True, text=True, check=True,
    )  # fmt: skip
    return Counter(line.partition("[")[0] for line in done.stdout.splitlines() if "::" in line)


def counted() -> Counter[tuple[str, str]]:
    """Checks by kind and place."""
    found: Counter[tuple[str, str]] = Counter()
    for kind in TABLES:
        for row in table(kind):
            cells = [plain(getattr(row, field)) for field in held(type(row))]
            numbers = sum(isinstance(cell, float) for cell in cells)
            found[BY_STATUS[row.status], PLACES[0]] += numbers
    for line in keyed("limits"):
        found[BY_STATUS[line["status"]], PLACES[1]] += 2 if line["upper"] else 1
    cases = collected()
    for line in keyed("standing"):
        judging = line["test"].startswith(("tests/grade", "tests/history"))
        found[line["against"], PLACES[3 if judging else 2]] += cases[line["test"]]
    return found


def as_markdown(found: Counter[tuple[str, str]]) -> str:
    """The table as DEVELOPERS.md has it."""
    lines = [f"| stands against | {' | '.join(PLACES)} |", f"|---|{'---|' * len(PLACES)}"]
    for kind, words in KINDS.items():
        numbers = (str(found[kind, place] or "–") for place in PLACES)
        lines.append(f"| {words} | {' | '.join(numbers)} |")
    return "\n".join(lines)


if __name__ == "__main__":
    print(as_markdown(counted()))
