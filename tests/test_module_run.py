"""`python -m reporter` in a folder that somebody else made: it runs nothing of the folder, and says what to call instead."""

from __future__ import annotations

import ast
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).parents[1]
BESIDE = {"yaml", "tomli", "pydantic", "typer", "click", "PIL", "babel", "sitecustomize"}


def test_nothing_of_the_folder_runs(tmp_path: Path) -> None:
    """A trap under the name of every module of the standard library, and of those that the program uses."""
    for name in sys.stdlib_module_names | BESIDE:
        (tmp_path / f"{name}.py").write_text("open('ran', 'a').write(__name__ + ' ')\n")
    done = subprocess.run(
        [sys.executable, "-m", "reporter", "check", "."],
        cwd=tmp_path, capture_output=True, text=True, check=False,
    )  # fmt: skip
    assert not (tmp_path / "ran").exists(), (tmp_path / "ran").read_text()
    assert done.returncode == 2
    assert "gudgeon" in done.stderr


def test_nothing_but_sys_is_imported_before_the_refusal() -> None:
    """`__future__` is a file as well, and is imported when a module begins with it."""
    tree = ast.parse((ROOT / "reporter/__main__.py").read_text("utf-8"))
    before = tree.body[: next(number for number, node in enumerate(tree.body) if isinstance(node, ast.If))]
    imports = [node for node in before if isinstance(node, ast.Import | ast.ImportFrom)]
    assert [ast.unparse(node) for node in imports] == ["import sys"]
    package = ast.parse((ROOT / "reporter/__init__.py").read_text("utf-8"))
    assert not [node for node in package.body if not isinstance(node, ast.Expr)]
