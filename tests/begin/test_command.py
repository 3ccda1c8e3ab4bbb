"""`gudgeon new` at a terminal and in a script."""

from __future__ import annotations

import os
import re
import subprocess
import sys
from pathlib import Path

import pytest
from typer.testing import CliRunner, Result

from reporter import pipeline
from reporter.cli import app
from reporter.commands import beginning
from reporter.errors import UsageError
from reporter.registry import find, load
from tests.living import PATIENCE

GUDGEON = Path(sys.executable).with_name("gudgeon")
REGISTRY = load(find())
ANSWERS = "Marram\nRowan Teale\nSkerrow Haven\nsale\nhandover\ntiller\nsteering, hull\nsteering\n"


def new(*arguments: str | Path, typed: str = "") -> Result:
    """The command in this process, with what is typed at its questions."""
    return CliRunner().invoke(app, ["new", *map(str, arguments)], input=typed)


def test_who_gives_an_option_is_asked_nothing(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(beginning, "_at_terminal", lambda: True)
    made = new(tmp_path / "job", "--boat", "Marram", "--systems", "rig", "--purpose", "insurance")
    assert (made.exit_code, made.stdout) == (0, f"{tmp_path / 'job'}\n")
    text = (tmp_path / "job" / "findings.yaml").read_text("utf-8")
    assert "kind: mast_foot" in text
    assert "kind: chain " not in text


def test_a_person_is_asked_and_the_folder_then_checks(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A slip is asked again, one's own word is understood; after the last answer nothing is missing."""
    monkeypatch.setattr(beginning, "_at_terminal", lambda: True)
    made = new(tmp_path / "job", typed=ANSWERS)
    assert made.exit_code == 0, made.output
    assert "'sale' is none of them." in made.stdout
    assert "'hull' is none of them." in made.stdout
    assert max(len(line) for line in made.stdout.splitlines() if str(tmp_path) not in line) <= 80
    sheet = pipeline.collect(tmp_path / "job", REGISTRY).sheet
    vessel = sheet.vessel
    assert (sheet.purpose, vessel.name, vessel.steering, vessel.steering_gear) == (
        "handover", "Marram", "tiller", "direct",
    )  # fmt: skip
    text = (tmp_path / "job" / "findings.yaml").read_text("utf-8")
    assert re.findall(r"kind: (\w+)", text) == ["rudder_bearing"]


def test_giving_up_at_a_question_leaves_no_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(beginning, "_at_terminal", lambda: True)
    assert new(tmp_path / "job", typed="Marram\n").exit_code != 0
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize(
    ("option", "word", "known"),
    [
        ("--purpose", "sale", "insurance"),
        ("--steering", "wheel", "hydraulic"),
        ("--systems", "rig,deck", "ground"),
    ],
)
def test_a_word_that_is_no_choice_is_answered_with_the_choices(
    tmp_path: Path, option: str, word: str, known: str
) -> None:
    made = new(tmp_path / "job", option, word)
    assert isinstance(made.exception, UsageError)
    assert f"'{word.rsplit(',', maxsplit=1)[-1]}'" in str(made.exception)
    assert known in str(made.exception)
    assert list(tmp_path.iterdir()) == []


def test_a_folder_that_is_there_is_refused_before_anything_is_asked(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(beginning, "_at_terminal", lambda: True)
    (tmp_path / "job.yaml").write_text("x")
    assert "Her name" not in new(tmp_path, typed=ANSWERS).output


@pytest.mark.slow
def test_at_a_real_terminal(tmp_path: Path) -> None:
    """Through a pseudo-terminal, as a person types."""
    import pty

    ours, theirs = pty.openpty()
    command = [str(GUDGEON), "new", str(tmp_path / "job")]
    with subprocess.Popen(command, stdin=theirs, stdout=theirs, stderr=theirs) as running:
        os.write(ours, ANSWERS.encode())
        running.wait(PATIENCE)
    os.close(theirs)
    os.close(ours)
    assert running.returncode == 0
    assert pipeline.collect(tmp_path / "job", REGISTRY).sheet.vessel.name == "Marram"


@pytest.mark.parametrize(
    ("option", "word", "meant"),
    [
        ("--steering", "tiller", "direct"),
        ("--purpose", "Survey", "pre_purchase"),
        ("--systems", "mast", "rig"),
    ],
)
def test_what_people_say_is_answered_with_the_word_for_it(
    option: str, word: str, meant: str, tmp_path: Path
) -> None:
    done = new(tmp_path / "job", "--boat", "Invented", option, word)
    assert isinstance(done.exception, UsageError)
    assert f"Did you mean '{meant}'? " in str(done.exception)
    assert not (tmp_path / "job").exists()
