"""The process that makes a document, apart from the one that answers: `python -P -m reporter.desk.making FOLDER TARGET WHAT`.

It prints one line of JSON for each step, and last the outcome; nothing else.
"""

from __future__ import annotations

import json
import sys
from pathlib import Path

from reporter import pipeline, visiting
from reporter.errors import GudgeonError
from reporter.registry import find, load

STEPS = {"report": 6, "html": 5, "work": 3, "plan": 3, "sheet": 3}
"""How many steps a document takes."""


def main() -> int:
    """Make the document and say how it went."""
    folder, target, what = Path(sys.argv[1]), Path(sys.argv[2]), sys.argv[3]
    try:
        registry = load(find())
        if what == "work":
            pipeline.work(folder, target, registry, tell=_step)
        elif what == "sheet":
            visiting.sheet(folder, target, registry, tell=_step)
        elif what == "plan":
            visiting.print_plan(visiting.plan(folder, (), registry), folder, target, tell=_step)
        else:
            pipeline.report(folder, target, registry, keep=True, tell=_step)
    except GudgeonError as error:
        _say(error=str(error.message), do=_advice(error))
        return int(error.exit_code)
    _say(done=True)
    return 0


def _advice(error: GudgeonError) -> str:
    problems = getattr(error, "problems", [])
    return "\n".join(map(str, problems[:20])) or error.advice


def _step(step: str) -> None:
    _say(step=step)


def _say(**told: object) -> None:
    sys.stdout.write(json.dumps(told) + "\n")
    sys.stdout.flush()


if __name__ == "__main__":
    sys.exit(main())
