"""The layering of the design, read from the imports: cli → pipeline → stages → model, and no way back."""

from __future__ import annotations

import ast
import re
from functools import cache
from graphlib import TopologicalSorter
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
STAGES = {"collect", "grade", "outline", "develop", "typeset", "archive", "web"}
BELOW = {"model", "errors", "wording", "engineering", "contract", "asking", "machine"}
LOWER = {
    "model": {"model"},
    "engineering": {"model", "engineering"},
    "wording": {"model", "engineering", "wording"},
    # Grading knows no words: it says things by id, and outlining puts them into a language.
    "grade": {"model", "engineering", "errors", "contract", "grade"},
    "errors": set(),
    "machine": {"errors", "machine"},
    "contract": {"model", "engineering", "errors", "contract"},
    "door": {"model", "errors", "machine", "door"},
    "kinds": {"model", "errors", "kinds"},
    "asking": {"model", "engineering", "wording", "asking"},
    "editing": {"errors", "model", "editing"},
    "begin": {"model", "errors", "machine", "wording", "asking", "door", "begin"},
    # Beside the command line: it calls the same steps, and shows what the report's own pages show.
    "desk": {
        "desk",
        "begin",
        "machine",
        "pipeline",
        "visiting",
        "registry",
        "model",
        "errors",
        "wording",
        "engineering",
        "asking",
        "collect",
        "editing",
        "door",
        "develop",
        "outline",
        "outputs",
        "web",
    },
    "web": {"model", "errors", "wording", "web", "typeset"},
    "registry": {"model", "errors", "kinds", "wording"},
    "outputs": {
        "errors",
        "kinds",
        "model",
        "registry",
        "engineering",
        "wording",
        "collect",
        "outline",
        "outputs",
    },
    "disclose": {"model", "errors", "wording", "disclose"},
    "seal": {"model", "errors", "machine", "seal"},
    "proving": {
        "model",
        "machine",
        "errors",
        "wording",
        "registry",
        "outputs",
        "pipeline",
        "archive",
        "door",
        "outline",
        "seal",
        "proving",
    },
    "commands": {
        "model",
        "machine",
        "errors",
        "wording",
        "registry",
        "outputs",
        "finishing",
        "pipeline",
        "visiting",
        "archive",
        "seal",
        "proving",
        "desk",
        "begin",
        "commands",
    },
    "taking": {"model", "errors", "engineering", "wording", "asking", "collect", "editing", "taking"},
    "visiting": {
        "pipeline",
        "finishing",
        "model",
        "machine",
        "registry",
        "wording",
        "outline",
        "archive",
        "editing",
        "taking",
    },
    "finishing": {"model", "machine", "door", "errors", "develop", "typeset", "archive", "web"},
    "pipeline": {
        "model",
        "machine",
        "finishing",
        "registry",
        "door",
        "errors",
        "wording",
        "outputs",
        "disclose",
        "editing",
        "taking",
        *STAGES,
    },
}
ONLY_IN = {
    "reportlab": {"typeset"},
    "pikepdf": {"archive"},
    "exifread": {"door"},
    "pi_heif": {"door"},
    "pint": set(),
    "uncertainties": {"engineering"},
    "typer": {"cli", "commands"},
    "pyhanko": {"seal"},
    "pyhanko_certvalidator": {"seal"},
    "asn1crypto": {"seal"},
    "cryptography": {"seal"},
    "segno": {"outline", "desk"},
    "icalendar": {"outputs"},
    "starlette": {"desk"},
    "uvicorn": {"desk"},
    "pypdfium2": {"desk"},
}


@cache
def tree_of(file: Path) -> ast.Module:
    """The file, read once."""
    return ast.parse(file.read_text("utf-8"))


@cache
def imports(file: Path, *, when_run: bool = False) -> frozenset[str]:
    """Every module named in an import of `file`, wherever it stands; `when_run` leaves out those for types alone."""
    found: set[str] = set()
    body = [node for node in tree_of(file).body if not (when_run and _for_types(node))]
    for node in (each for top in body for each in ast.walk(top)):
        if isinstance(node, ast.Import):
            found |= {alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom) and node.module and node.level == 0:
            found |= {f"{node.module}.{alias.name}" for alias in node.names}
    return frozenset(found)


def _for_types(node: ast.stmt) -> bool:
    return isinstance(node, ast.If) and ast.unparse(node.test) == "TYPE_CHECKING"


def part_of(file: Path) -> str:
    """The package or module of `reporter` that a file belongs to."""
    return file.relative_to(ROOT / "reporter").parts[0].removesuffix(".py")


FILES = sorted((ROOT / "reporter").rglob("*.py"))


@pytest.mark.parametrize("file", FILES, ids=lambda file: str(file.relative_to(ROOT)))
def test_a_module_imports_only_what_lies_below_it(file: Path) -> None:
    part = part_of(file)
    if part in {"__init__", "__main__", "entry", "cli", "commands"}:
        return
    allowed = LOWER.get(part, {part, *BELOW, "door"} if part in {"collect", "develop"} else {part, *BELOW})
    ours = {name.split(".")[1] for name in imports(file) if name.startswith("reporter.")}
    assert ours <= allowed, f"{part} must not import {sorted(ours - allowed)}"


@pytest.mark.parametrize("file", FILES, ids=lambda file: str(file.relative_to(ROOT)))
def test_a_library_lives_only_where_it_belongs(file: Path) -> None:
    tops = {name.split(".")[0] for name in imports(file)}
    for library, parts in ONLY_IN.items():
        assert library not in tops or part_of(file) in parts, f"{library} belongs to {parts}"


@pytest.mark.parametrize("file", sorted((ROOT / "reporter/model").glob("*.py")), ids=lambda file: file.name)
def test_the_model_imports_nothing_but_pydantic_and_the_standard_library(file: Path) -> None:
    import sys

    tops = {name.split(".")[0] for name in imports(file)}
    assert tops <= {"reporter", "pydantic", *sys.stdlib_module_names}


@pytest.mark.parametrize("file", sorted((ROOT / "plugins").rglob("*.py")), ids=lambda file: file.name)
def test_a_plugin_imports_only_the_contract_and_engineering(file: Path) -> None:
    ours = {
        name for name in imports(file) if name.split(".")[0] in {"reporter", "plugins", "reporter_plugins"}
    }
    assert all(name.startswith(("reporter.contract", "reporter.engineering")) for name in ours)


@pytest.mark.parametrize("file", sorted((ROOT / "plugins").rglob("*.py")), ids=lambda file: file.name)
def test_a_kind_uses_nothing_that_a_stranger_has_not_got(file: Path) -> None:
    """Beside the contract and engineering only its own folder; a system's value also its drawing."""
    for node in ast.walk(tree_of(file)):
        if isinstance(node, ast.ImportFrom) and node.level > 1:
            assert (node.module or "").startswith("drawings"), f"{file}: {node.module}"


def test_no_circle_of_imports() -> None:
    """CycleError names one; an import inside a function counts as any other."""
    modules = {".".join(file.relative_to(ROOT).with_suffix("").parts): file for file in FILES}
    files = {name.removesuffix(".__init__"): file for name, file in modules.items()}

    def module_of(name: str) -> str:
        return name if name in files or "." not in name else module_of(name.rpartition(".")[0])

    graph = {
        name: {module_of(each) for each in imports(file, when_run=True)} & (files.keys() - {name})
        for name, file in files.items()
    }
    TopologicalSorter(graph).prepare()


def test_nobody_imports_the_source_folders_by_their_own_names() -> None:
    """`import plugins` would work from the root and give other class objects than the installed package."""
    files = [*FILES, *(ROOT / "plugins").rglob("*.py"), *(ROOT / "tests").rglob("*.py")]
    named = re.compile(r"(import|from)\s+(plugins|templates)\b")
    for file in (each for each in files if named.search(each.read_text("utf-8"))):
        assert not {"plugins", "templates"} & {name.split(".")[0] for name in imports(file)}, file


def test_modules_stay_short_enough_to_read() -> None:
    """House style: a hard look at 400 lines, no function over 43."""
    for file in [*FILES, *(ROOT / "plugins").rglob("*.py")]:
        text, tree = file.read_text("utf-8"), tree_of(file)
        if "/plugins/" not in file.as_posix():
            assert len(text.splitlines()) <= 400, file
        assert ast.get_docstring(tree), f"{file} has no docstring"
        for node in ast.walk(tree):
            if isinstance(node, ast.FunctionDef):
                assert (node.end_lineno or 0) - node.lineno < 43, f"{file}: {node.name}"
