"""Which faults are tried, and by which tests: chosen from the tree as it is, always the same for the same functions.

Comes in: the folder of the program. Goes out: faults. Each function has one lot for each kind of fault that it offers,
drawn from the lot's own name; no length, place or neighbour counts. So whoever changes one function moves the choice
inside it alone, and a new package brings its own share.
"""

from __future__ import annotations

import ast
import hashlib
from collections.abc import Iterable
from fnmatch import fnmatch
from pathlib import Path

from tests.mutation.operators import Fault, enums, faults

ROOT = Path(__file__).resolve().parents[2]
SHARE = 0.065
"""Of all lots, those that are drawn."""
SPARED = frozenset(
    {
        "archive",
        "asking",
        "begin",
        "commands",
        "contract",
        "desk",
        "develop",
        "disclose",
        "door",
        "editing",
        "kinds",
        "machine",
        "model",
        "outline",
        "outputs",
        "proving",
        "seal",
        "taking",
        "typeset",
        "web",
        "wording",
    }
)
"""Packages that reckon and judge nothing about a boat; any other takes part from its first day."""
MARKS = (
    "reporter/typeset/marking.py",
    "reporter/typeset/marks.py",
    "reporter/typeset/places.py",
    "reporter/typeset/pictures.py",
)
"""Where on a photo a mark and its label stand is reckoned as well."""


def _all(folder: str, names: str) -> tuple[str, ...]:
    return tuple(f"tests/{folder}/test_{each}.py" for each in names.split())


def _whole(folder: str, without: str = "") -> tuple[str, ...]:
    """All tests of a folder, new ones too, but for the slow ones."""
    names = sorted(path.stem.removeprefix("test_") for path in (ROOT / "tests" / folder).glob("test_*.py"))
    return _all(folder, " ".join(each for each in names if each not in without.split()))


_ENGINEERING = (
    *_whole("engineering"), "tests/keyed/test_keyed.py",
    *_all("plugins", "figures helm_wire helm_wheel helm_sheave rig_stays rig_fittings rudder_bearing_blade"),
    *_all("plugins", "ground_chain deck_ropes deck_lifelines"),
)  # fmt: skip
_GRADE = (
    *_whole("grade", "properties worn_never_clear"),
    *_all("history", "history schedule trend forecast"),
)
TESTS = (
    ("reporter/grade/forecast.py", _all("history", "forecast trend forecast_figures")),
    ("reporter/grade/schedule.py", _all("history", "schedule history")),
    ("reporter/grade/*.py", _GRADE),
    ("reporter/engineering/trend.py", _all("history", "trend forecast forecast_figures")),
    ("reporter/engineering/units.py", _all("collect", "units quantity_text")),
    ("reporter/engineering/*.py", _ENGINEERING),
    ("reporter/collect/*.py", _whole("collect", "any_bytes begun")),
    ("reporter/typeset/pictures.py", _all("typeset", "pictures blocks")),
    ("reporter/typeset/*.py", _all("typeset", "mark_geometry marks")),
)
"""By module, the first that fits: the tests that should notice a fault in it, no slow ones among them."""


def noticed_by(module: str) -> tuple[str, ...]:
    """The tests that should notice a fault in `module`; of a package not named above, those in the folder of its name."""
    own = (f"tests/{Path(module).parts[1]}",)
    return next((tests for pattern, tests in TESTS if fnmatch(module, pattern)), own)


def chosen(root: Path = ROOT) -> list[Fault]:
    """The faults of the whole run, by module."""
    members = enums((root / "reporter/model/terms.py").read_text("utf-8"))
    found: list[Fault] = []
    for module in sorted(_modules(root)):
        found += drawn(faults(module, ast.parse((root / module).read_text("utf-8")), members))
    return found


def _modules(root: Path) -> Iterable[str]:
    for path in root.glob("reporter/*/*.py"):
        if path.parent.name not in SPARED or path.relative_to(root).as_posix() in MARKS:
            yield path.relative_to(root).as_posix()


def drawn(offered: Iterable[Fault]) -> list[Fault]:
    """Of each function's lots those that are drawn, and of a lot the fault whose name gives the least number."""
    lots: dict[str, list[Fault]] = {}
    for each in offered:
        lots.setdefault(f"{each.module}::{each.function}::{each.operator}", []).append(each)
    return [
        min(lot, key=lambda each: _number(each.key)) for name, lot in lots.items() if _number(name) < SHARE
    ]


def _number(name: str) -> float:
    """From 0 up to 1, scattered evenly over names."""
    return int(hashlib.sha256(f"gudgeon:{name}".encode()).hexdigest()[:12], 16) / 16**12


def mutant(module: str, key: str, root: Path = ROOT) -> ast.Module:
    """The module's tree with that fault in it."""
    members = enums((root / "reporter/model/terms.py").read_text("utf-8"))
    tree = ast.parse((root / module).read_text("utf-8"))
    # All are listed before one is put in: the list walks the tree.
    next(each for each in list(faults(module, tree, members)) if each.key == key).put_in()
    return ast.fix_missing_locations(tree)
