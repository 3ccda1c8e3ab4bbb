"""README keeps what it promises: the ten lines lead where it says, the set-up stands, the shell completes."""

from __future__ import annotations

import re
import subprocess
import sys
from pathlib import Path

import yaml
from typer.testing import CliRunner

from reporter import pipeline
from reporter.begin import Answers, begin
from reporter.cli import app
from reporter.model.terms import Grade
from reporter.outline.speaking import spoken
from reporter.registry import find, load
from reporter.wording import catalogue

ROOT = Path(__file__).parents[2]
README = (ROOT / "README.md").read_text("utf-8")
REGISTRY = load(find())
GUDGEON = Path(sys.executable).with_name("gudgeon")


def rows(head: str) -> list[list[str]]:
    """The cells of the table with that first line, without their code marks."""
    found = re.search(rf"(?m)^{re.escape(head)}\n\|[-|]+\n((?:\|.*\n)+)", README)
    assert found
    return [
        [cell.strip().strip("`") for cell in line.strip("|").split(" | ")] for line in found[1].splitlines()
    ]


def test_the_ten_lines_lead_to_what_readme_tells(tmp_path: Path) -> None:
    answers = Answers(boat="Marram", author="R", place="P")
    template = REGISTRY.template(answers.purpose)
    begin(tmp_path / "job", None, answers, [REGISTRY], template)
    lines = re.search(r"```yaml\n(.*?)```", README, re.DOTALL)
    assert lines
    assert len(lines[1].splitlines()) == 10
    (tmp_path / "job" / "findings.yaml").write_text(lines[1], "utf-8")
    job = pipeline.collect(tmp_path / "job", REGISTRY)
    graded = spoken(pipeline.grade(job, REGISTRY, template), job, REGISTRY)
    words = catalogue()
    led = {}
    for part in graded.components:
        due = next(each for each in part.actions if each.grade is part.grade)
        led[part.component.id] = [
            part.grade.value,
            words.terms(part.sentence).rstrip("."),
            words.terms(due.what),
        ]
    assert led == {
        ident: [grade, why.rstrip("."), do]
        for ident, grade, why, do in rows("| part | grade | why | what to do |")
    }
    assert {grade for grade, _, _ in led.values()} == {grade.value for grade in Grade} - {"clear"}


def test_the_grades_are_told_as_a_report_tells_them() -> None:
    words = catalogue()
    assert rows("| grade | means |") == [[grade.value, words(f"grade_meaning.{grade}")] for grade in Grade]


def test_the_set_up_comes_first_and_is_the_gates_own() -> None:
    """Two blocks of code before all others: whoever has never been here begins with one of them."""
    blocks = re.findall(r"```(\w+)\n(.*?)```", README, re.DOTALL)
    assert [language for language, _ in blocks[:2]] == ["sh", "bat"]
    for _, block in blocks[:2]:
        assert "-m venv .venv &&" in block
        assert block.rstrip().endswith("gudgeon report demo_job")
    gate = (ROOT / ".ci/run").read_text("utf-8")
    assert all(each in gate for each in ('pip install -q -e ".[desk,test]"', "gudgeon report demo_job"))


def test_the_pythons_told_are_those_declared_and_tried() -> None:
    told = re.search(r"Python (3\.\d+), (3\.\d+) or (3\.\d+)", README)
    assert told
    declared = (ROOT / "pyproject.toml").read_text("utf-8")
    assert re.findall(r'"Programming Language :: Python :: (3\.\d+)"', declared) == list(told.groups())
    assert f'requires-python = ">={told[1]}"' in declared
    tried = (ROOT / ".ci/packaging.sh").read_text("utf-8")
    assert f"pythons=({told[1]} {told[3]})" in tried


def test_a_shell_completes_commands_and_options() -> None:
    """As bash asks: the words so far, and which of them the cursor is in."""
    for line, wanted in (("gudgeon des", {"describe", "desk"}), ("gudgeon check --fa", {"--fail-on"})):
        asked = {"COMP_WORDS": line, "COMP_CWORD": str(line.count(" ")), "_GUDGEON_COMPLETE": "complete_bash"}
        done = subprocess.run(
            [str(GUDGEON)], env={**asked, "PATH": "/usr/bin:/bin"}, capture_output=True, text=True, check=True
        )
        assert set(done.stdout.split()) == wanted
    shown = CliRunner().invoke(app, ["--help"]).output
    assert "--install-completion" in shown
    assert "--install-completion" in README


def test_the_hooks_run_what_is_there() -> None:
    """The project's own tools, and tests that exist; the gate runs them all."""
    hooks = yaml.safe_load((ROOT / ".pre-commit-config.yaml").read_text("utf-8"))["repos"][0]["hooks"]
    words = [hook["entry"].split() for hook in hooks]
    assert [tool for tool, *_ in words] == [
        f".venv/bin/{each}" for each in ("ruff", "ruff", "mypy", "pytest")
    ]
    assert all(Path(sys.executable).with_name(Path(tool).name).exists() for tool, *_ in words)
    assert all((ROOT / each).exists() for _, *more in words for each in more if "/" in each)
