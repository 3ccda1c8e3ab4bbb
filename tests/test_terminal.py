"""The command line in German: every help text and every sentence has its words, and it is known which language is asked for."""

from __future__ import annotations

import os
import re
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
import yaml
from typer.main import get_command

from reporter import pipeline
from reporter.cli import app
from reporter.commands import in_language
from reporter.commands.about import with_log
from reporter.commands.in_language import asked_for, commands_of, told
from reporter.errors import JobError
from reporter.registry import find, load
from reporter.wording.sentences import sentences_table
from tests.collect.test_in_language import literals
from tests.outline.test_german import messages

ROOT = Path(__file__).parents[1]
ROOMS = ("archive", "begin", "commands", "disclose", "machine", "proving", "seal", "typeset")
CODE = [
    *(file for room in ROOMS for file in (ROOT / "reporter" / room).glob("*.py")),
    *(ROOT / "reporter" / f"{name}.py" for name in ("cli", "pipeline", "registry", "visiting", "finishing")),
    ROOT / "reporter/outputs/installed.py",
    ROOT / "reporter/desk/serving.py",
]
COMPOSED = {"1: 1.", "There is no 1 called '1'."}
"""Put together of what is tried by itself."""


def gudgeon(*arguments: str | Path, **environment: str) -> str:
    """What a command says, both streams."""
    command = [str(Path(sys.executable).with_name("gudgeon")), *map(str, arguments)]
    env = {**os.environ, **environment}
    return subprocess.run(command, env=env, capture_output=True, text=True, check=False).stderr


def _program() -> Any:
    return with_log(get_command(app))


def _help_texts() -> Iterator[str]:
    for each in commands_of(_program()):
        texts = (each.help or "").split("\n\n")
        texts += [getattr(param, "help", None) or "" for param in each.get_params(each.context_class(each))]
        yield from (" ".join(text.split()) for text in texts if text)


def test_every_help_text_has_its_german_and_no_other_stands_in_the_table() -> None:
    assert set(sentences_table("terminal.de")["help"]) == set(_help_texts())
    assert len(set(_help_texts())) > 80


def test_help_is_german_all_through(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(in_language, "language", lambda: "de")
    table = sentences_table("terminal.de")
    for each in commands_of(in_language.with_help(_program())):
        shown = each.get_help(each.context_class(each, info_name=each.name))
        assert [word for word in table["frame"] if word in shown] == []
        flat = " ".join(shown.split())
        assert [text for text in table["help"] if text in flat] == []
        assert "Optionen: " in flat


def test_every_sentence_has_its_german() -> None:
    found = {text.strip() for file in CODE for text in literals(file)}
    found = {re.sub(r"^1(?=[A-Z])", "", text) for text in found}
    helped = set(sentences_table("terminal.de")["help"])
    said = {text for text in found if re.fullmatch(r"['A-Z1`].* .*[.?]", text)} - helped - COMPOSED
    assert len(said) > 100
    assert sorted(text for text in said if told(text, "de") == text) == []


def test_german_keeps_what_is_put_in() -> None:
    for english, german in sentences_table("terminal.de")["say"].items():
        assert sorted(re.findall(r"\{\d\}", english)) == sorted(re.findall(r"\{\d\}", german)), english


def test_option_folder_and_computer_say_the_language_in_this_order(tmp_path: Path) -> None:
    (tmp_path / "job.yaml").write_text("format: 1\nlang: de\n", "utf-8")
    computer = {"LANG": "de_AT.UTF-8"}
    assert asked_for(["check", str(tmp_path), "--lang", "en"], computer) == "en"
    assert asked_for(["check", "--lang=fr"], computer) == "fr"
    assert asked_for(["check", str(tmp_path), "--fail-on"], {"LANG": "en_GB.UTF-8"}) == "de"
    assert asked_for(["plugins"], computer) == "de"
    assert asked_for(["plugins"], {**computer, "LC_ALL": "C"}) == ""
    assert asked_for(["plugins"], {**computer, "LC_ALL": "C", "GUDGEON_LANG": "de"}) == "de"
    assert asked_for([], {}) == ""


def test_a_slip_in_a_command_is_told_in_the_language_of_the_folder(tmp_path: Path) -> None:
    (tmp_path / "job.yaml").write_text("format: 1\nlang: de\n", "utf-8")
    assert gudgeon("check", tmp_path, "--fail-on", "bad").startswith(
        "Unbekannt (Grad): 'bad'.\n    → Grade: "
    )
    assert gudgeon("check", tmp_path, "--nothing") == (
        "Eine Option --nothing gibt es nicht.\n    → gudgeon check --help sagt, was gebraucht wird.\n"
    )
    assert gudgeon("check", tmp_path, "--nothing", "--lang", "en") == (
        "No such option: --nothing\n    → gudgeon check --help tells what it takes.\n"
    )
    assert gudgeon("check", tmp_path, "all.pdf", "too") == (
        "Zu viel angegeben: all.pdf too\n    → gudgeon check --help sagt, was gebraucht wird.\n"
    )
    assert (
        gudgeon("report", tmp_path, "all.pdf").splitlines()[1]
        == "    → Wie heißt, was geschrieben wird, steht hinter -o."
    )
    assert "→" not in gudgeon()


def test_a_folder_begun_in_german_is_german_and_reads(tmp_path: Path) -> None:
    said = gudgeon("new", tmp_path / "job", "--boat", "Marram", "--photos", ROOT / "demo_job/photos", GUDGEON_LANG="de")  # fmt: skip
    assert said.startswith("Fotos zu Teilen vorgeschlagen: ")
    texts = {name: (tmp_path / "job" / name).read_text("utf-8") for name in ("job.yaml", "findings.yaml")}
    assert yaml.safe_load(texts["job.yaml"])["lang"] == "de"
    head = texts["findings.yaml"].partition("format:")[0].replace("\n# ", " ")
    said = f"{head}{texts['job.yaml']}{texts['findings.yaml']}"
    english, german = (messages(lang) for lang in ("en", "de"))
    notes = {ident for ident in english if ident.startswith("begin.") and "{" not in english[ident]}
    assert len(notes) > 20
    assert [ident for ident in notes if english[ident] in said] == []
    assert {"begin.notes", "begin.take_up", "begin.by_name"} <= {i for i in notes if german[i] in said}


def test_work_without_permission_is_told_in_the_language_of_the_job() -> None:
    """Grading has no words of its own, so this refusal is put into the language where the folder's own are."""
    registry = load(find())
    job = pipeline.collect(ROOT / "demo_job", registry, "de")
    done = job.components[0].model_copy(update={"done": job.components[0].done or ("x",)})
    job = job.model_copy(update={"components": (done,)})
    with pytest.raises(JobError, match="wurde gearbeitet, und eine Erlaubnis") as refused:
        pipeline.grade(job, registry, registry.template("pre_purchase"))
    assert "Ein solcher Bericht zeigt den vorgefundenen Zustand." in str(refused.value)
