"""The guides in docs: the made ones are as the program makes them and leave nothing out; the written ones tell what is so."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path
from typing import get_args

import pytest
from pydantic import BaseModel
from typer.testing import CliRunner

from reporter.cli import app
from reporter.engineering import units
from reporter.engineering.declaration import Formula
from reporter.engineering.verdict import grade_reached
from reporter.grade.scoring import FLOORS, NODES
from reporter.model.findings import FindingsSheet
from reporter.model.job import COLUMNS
from reporter.model.plugin import System
from reporter.model.sheet import JobSheet
from reporter.model.terms import Dimension, Grade, LimitKind, Verdict
from reporter.outputs.guide import job_folder, kind_file, pages
from reporter.registry import find, load
from reporter.wording import catalogue

ROOT = Path(__file__).parents[2]
DOCS = ROOT / "docs"
REGISTRY = load(find())


def text_of(name: str) -> str:
    """One page of docs."""
    return (DOCS / name).read_text("utf-8")


def test_the_made_pages_are_as_the_program_makes_them() -> None:
    """To renew them: gudgeon describe --all -o docs."""
    assert text_of("job_folder.md") == job_folder(REGISTRY, catalogue(), "en")
    assert text_of("kind_file.md") == kind_file(REGISTRY)


def nouns(model: type[BaseModel], seen: set[type[BaseModel]]) -> Iterator[type[BaseModel]]:
    """The model and every one that its fields hold, however wrapped; what is typed as one text has no keys."""
    if model in seen or model.__name__ in {"Value", "PartialDate"}:
        return
    seen.add(model)
    yield model
    for field in model.model_fields.values():
        waiting = [field.annotation]
        while waiting:
            each = waiting.pop()
            waiting += get_args(each)
            if isinstance(each, type) and issubclass(each, BaseModel):
                yield from nouns(each, seen)


def test_the_guide_to_the_folder_leaves_nothing_out() -> None:
    """Held against the model itself: every key in a row of its own, every grade, mark, unit, column, kind and reading."""
    told = text_of("job_folder.md")
    seen: set[type[BaseModel]] = set()
    models = [*nouns(JobSheet, seen), *nouns(FindingsSheet, seen)]
    assert len(models) > 30
    keys = {key for model in models for key in model.model_fields} | set(COLUMNS)
    assert {key for key in keys if f"\n| `{key}` | " not in told} == set()
    wanted = {grade.value for grade in Grade} | {
        each for dimension in Dimension for each in units.names(dimension)
    }
    wanted |= {"ring", "box", "arrow", "line", "label", "blur", "inset"} | set(REGISTRY.plugins)
    for plugin in REGISTRY.plugins.values():
        for group in (plugin.readings, plugin.observations, plugin.details):
            wanted |= {each.id for each in group}
    assert {each for each in wanted if f"`{each}`" not in told} == set()


def test_every_page_is_written_into_a_folder_in_another_language_too(tmp_path: Path) -> None:
    done = CliRunner().invoke(app, ["describe", "--all", "-o", str(tmp_path), "--lang", "de"])
    assert done.exit_code == 0, done.output
    assert {each.stem for each in (tmp_path / "kinds").iterdir()} == set(REGISTRY.plugins)
    assert "# Der Auftragsordner" in (tmp_path / "job_folder.md").read_text("utf-8")
    for words in (["describe"], ["describe", "--all"], ["describe", "chain", "--all", "-o", str(tmp_path)]):
        assert CliRunner().invoke(app, words).exit_code != 0


def test_no_page_is_missing() -> None:
    """Each link of README, DEVELOPERS, CONTRIBUTING and the pages themselves leads to a file that is there."""
    made = {f"docs/{name}" for name in pages(REGISTRY, catalogue(), "en")}
    for file in (*ROOT.glob("*.md"), *DOCS.glob("*.md")):
        for link in re.findall(r"\]\(([^)#:]+)(?:#[^)]*)?\)", file.read_text("utf-8")):
            target = (file.parent / link).resolve().relative_to(ROOT).as_posix()
            assert target in made or (ROOT / target).exists(), (file.name, link)


def test_grades_are_made_as_the_page_tells() -> None:
    """The table of verdicts and that of scores, row by row."""
    told = text_of("grades.md")
    rows = re.findall(r"(?m)^\| .* \| `(within|close|doubtful|beyond)` \| `(\w+)` \| `(\w+)` \|$", told)
    assert [verdict for verdict, _, _ in rows] == ["within", "close", "doubtful", "beyond"]
    for verdict, *grades in rows:
        for path, grade in zip((False, True), grades, strict=True):
            reached = grade_reached(Verdict(verdict), Grade.FIRST, LimitKind.CONDITION, load_path=path)
            assert reached == grade, (verdict, path)
    scores = {row[0]: row[1:] for row in re.findall(r"(?m)^\| `(\w+)` \| (\d+) \| (\d+) \|$", told)}
    assert scores == {
        grade.value: (f"{NODES[grade]:g}", f"{FLOORS[grade]:g}") for grade in Grade if grade in NODES
    }


def block(page: str, sign: str, language: str) -> str:
    """The code block of a page that holds `sign`."""
    found: list[str] = re.findall(rf"```{language}\n(.*?)```", text_of(page), re.DOTALL)
    return next(each for each in found if sign in each)


def test_the_system_that_is_shown_is_one() -> None:
    made: dict[str, object] = {}
    exec(block("plugins.md", "System(", "python"), made)  # noqa: S102 - our own page
    assert isinstance(made["system"], System)
    assert [each.id for each in made["system"].stations] == ["engine_room", "heads"]


def test_the_formula_that_is_shown_is_printed_with_its_source(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    package = tmp_path / "strange_hinges"
    package.mkdir()
    (package / "__init__.py").write_text("")
    (package / "formulas.toml").write_text(block("plugins.md", "[module.pin_wear]", "text"))
    (package / "module.py").write_text(
        "from reporter.engineering import formula\n\n\n@formula\n"
        "def pin_wear(bore: float, pin: float) -> float:\n    return (bore - pin) / bore\n"
    )
    monkeypatch.syspath_prepend(str(tmp_path))
    from importlib import import_module

    declared: Formula[...] = import_module("strange_hinges.module").pin_wear
    assert (declared.title, declared.source.title) == ("Wear of the pin", "handbook of locker hinges")
    assert declared.symbols["pin"].meaning == "pin"
