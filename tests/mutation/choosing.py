"""Which faults are tried, and by which tests: chosen from the tree as it is, always the same for the same functions.

Comes in: the folder of the program. Goes out: faults. A file's share depends on its own length alone, and the order
within a file on the faults' names: so a change to one function leaves the choice elsewhere as it was.
"""

from __future__ import annotations

import ast
import hashlib
from collections import Counter
from fnmatch import fnmatch
from pathlib import Path

from tests.mutation.operators import Fault, enums, faults

ROOT = Path(__file__).resolve().parents[2]
SEED = "gudgeon"
LINES = 75
"""One fault for so many lines of a file, and one at least."""
MODULES = (
    "reporter/grade/*.py", "reporter/engineering/*.py", "reporter/collect/*.py", "reporter/typeset/marks.py",
    "reporter/typeset/places.py", "reporter/typeset/pictures.py",
)  # fmt: skip
_COLLECT = (
    "tests/collect/test_edges.py", "tests/collect/test_messages.py", "tests/collect/test_job_folder.py", "tests/collect/test_quantity_text.py",
    "tests/collect/test_yaml_sheet.py", "tests/collect/test_units.py", "tests/collect/test_schema.py",
)  # fmt: skip
_PLUGINS = tuple(
    f"tests/plugins/test_{each}.py"
    for each in (
        "figures", "helm_wire", "helm_wheel", "helm_sheave", "rig_stays", "rig_fittings", "rudder_bearing_blade", "ground_chain",
        "deck_ropes", "deck_lifelines",
    )
)  # fmt: skip
_HISTORY = tuple(f"tests/history/test_{each}.py" for each in ("history", "schedule", "trend", "forecast"))
TESTS = (
    ("reporter/grade/forecast.py", ("tests/history/test_forecast.py", "tests/history/test_trend.py")),
    ("reporter/grade/schedule.py", ("tests/history/test_schedule.py", "tests/history/test_history.py")),
    ("reporter/grade/*.py", ("tests/grade", *_HISTORY)),
    ("reporter/engineering/trend.py", ("tests/history/test_trend.py", "tests/history/test_forecast.py")),
    ("reporter/engineering/units.py", ("tests/collect/test_units.py", "tests/collect/test_quantity_text.py")),
    ("reporter/engineering/*.py", ("tests/engineering", *_PLUGINS)),
    ("reporter/collect/*.py", _COLLECT),
    ("reporter/typeset/pictures.py", ("tests/typeset/test_pictures.py", "tests/typeset/test_blocks.py")),
    ("reporter/typeset/*.py", ("tests/typeset/test_mark_geometry.py", "tests/typeset/test_marks.py")),
)
"""By module, the first that fits: the tests that should notice a fault in it."""


def noticed_by(module: str) -> tuple[str, ...]:
    """The tests that should notice a fault in `module`."""
    return next(tests for pattern, tests in TESTS if fnmatch(module, pattern))


def chosen(root: Path = ROOT) -> list[Fault]:
    """The faults of the whole run, by module."""
    members = enums((root / "reporter/model/terms.py").read_text("utf-8"))
    paths = sorted(path for pattern in MODULES for path in root.glob(pattern))
    found: list[Fault] = []
    for path in paths:
        source = path.read_text("utf-8")
        all_of_it = faults(path.relative_to(root).as_posix(), ast.parse(source), members)
        found += _picked(list(all_of_it), max(1, round(source.count("\n") / LINES)))
    return found


def _picked(offered: list[Fault], share: int) -> list[Fault]:
    """So many, by a number drawn from each one's name; a second of a kind in one function only after all others."""
    turns: Counter[tuple[str, str]] = Counter()
    ranked = []
    for each in sorted(offered, key=_drawn):
        turns[each.function, each.operator] += 1
        ranked.append((turns[each.function, each.operator], _drawn(each), each))
    return [each for _, _, each in sorted(ranked, key=lambda rank: rank[:2])[:share]]


def _drawn(fault: Fault) -> str:
    return hashlib.sha256(f"{SEED}:{fault.key}".encode()).hexdigest()


def mutant(module: str, key: str, root: Path = ROOT) -> ast.Module:
    """The module's tree with that fault in it."""
    members = enums((root / "reporter/model/terms.py").read_text("utf-8"))
    tree = ast.parse((root / module).read_text("utf-8"))
    # All are listed before one is put in: the list walks the tree.
    next(each for each in list(faults(module, tree, members)) if each.key == key).put_in()
    return ast.fix_missing_locations(tree)
