"""Messages of collecting in German: each sentence that the code makes has its own, and a broken folder is told in it."""

from __future__ import annotations

import ast
import os
import re
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

from reporter import pipeline
from reporter.collect.in_language import Translator, translator, written_language
from reporter.door.formats import _BEGINNINGS, _UNSCALED
from reporter.errors import JobError
from reporter.registry import find, load
from tests.living import PATIENCE
from tests.outline.test_german import english_only, words

ROOT = Path(__file__).parents[2]
CODE = [
    *(file for room in ("collect", "editing", "taking") for file in (ROOT / "reporter" / room).glob("*.py")),
    *(file for file in (ROOT / "reporter/desk").glob("*.py") if file.stem not in {"guards", "serving"}),
    *(ROOT / "reporter" / name for name in ("model/findings.py", "door/clocks.py")),
]
MESSAGES = sorted((ROOT / "tests/collect/messages").glob("*.txt"))


@pytest.fixture(scope="module")
def german() -> Translator:
    registry = load(find())
    return translator("de", registry.plugins, registry.in_language("de").plugins)


@pytest.fixture(scope="module")
def english() -> set[str]:
    """Words that only the program's English uses."""
    return english_only()


def literals(file: Path) -> Iterator[str]:
    """The sentences of a module as its code makes them, "1" standing for whatever is put in; docstrings are none."""
    tree = ast.parse(file.read_text("utf-8"))
    told = {id(node.value) for node in ast.walk(tree) if isinstance(node, ast.Expr)}
    told |= {id(part) for node in ast.walk(tree) if isinstance(node, ast.JoinedStr) for part in ast.walk(node)
             if part is not node}  # fmt: skip
    for node in ast.walk(tree):
        if id(node) in told:
            continue
        if isinstance(node, ast.JoinedStr):
            yield "".join(str(part.value) if isinstance(part, ast.Constant) else "1" for part in node.values)
        elif isinstance(node, ast.Constant) and isinstance(node.value, str):
            yield node.value


def sentences() -> set[str]:
    """Whole sentences: a capital, a number or a quoted word at the head, a full stop or a question mark at the end."""
    found = {text.strip() for file in CODE for text in literals(file)}
    # What begins with another sentence is told after it.
    found = {re.sub(r"^1(?=[A-Z])", "", text) for text in found}
    return {text for text in found if re.fullmatch(r"['A-Z1`].* .*[.?]", text) and text not in COMPOSED}


COMPOSED = {
    "1, line 1: 1.",
    "1: 1.",
    "1, in full.",
    "1, with its unit.",
    "1 (1, with its unit).",
    "Write 1-1.",
    "Did you mean 1?",
    "'1' 1.",
    "1: ...",
    "Connected: 1 from 1.",
    "Open the address that the terminal shows.",
    "This key or code does not hold.",
}
"""Put together of pieces that are sentences themselves, and tried with them below; or said on the terminal, and to who has
not entered: no job is open to them."""


def test_every_sentence_of_the_code_has_its_german(german: Translator) -> None:
    assert len(sentences()) > 150
    assert sorted(text for text in sentences() if german.text(text) == text) == []


DOOR = [
    *(ROOT / "reporter/door" / f"{name}.py" for name in ("formats", "reading", "refusal", "workers")),
    ROOT / "reporter/develop/copying.py",
]


def test_what_opening_a_photo_says_has_its_german(german: Translator, english: set[str]) -> None:
    """Alone, as a sentence that begins with a capital, and inside the sentence that names the photo."""
    said = {text for file in DOOR for text in literals(file) if re.match(r"(it|its|the end|you|copy|put|take it|rename|change its|export|leave) ", text)}  # fmt: skip
    parts = {part for text in said for part in text.split(": ")} | {f"it is {each}, not a photo" for _, _, each in _BEGINNINGS}  # fmt: skip
    parts = {part.replace("holds 1,", f"holds {each},") for part in parts for each in _UNSCALED.values()}
    parts -= {"it is 1, not a photo"}
    assert len(parts) > 50
    for part in parts:
        told = german.text(part.replace("(1)", "(1 x 1 = 1 megapixels)") if "render" in part else part)
        assert told != part
        assert not words(re.sub(r"\([^)]*\)|megapixels", "", told)) & (english - {"film", "in"}), told
        assert german.text(f"{part[0].upper()}{part[1:]}.")[1:-1] == told[1:] or "render" in part
    whole = german.text("'a.jpg' cannot be shown: it is a film, not a photo.")
    assert whole == "'a.jpg' lässt sich nicht zeigen: sie ist kein Foto (ein Film)."


@pytest.mark.parametrize("file", MESSAGES, ids=lambda file: file.stem)
def test_every_message_is_told_whole(file: Path, german: Translator, english: set[str]) -> None:
    """What a person reads of a broken folder: no sentence stays English, what was written by hand stays as it was."""
    for line in file.read_text("utf-8").splitlines():
        if line.startswith("    "):
            said = line.strip().removeprefix("→ ")
            told = german.text(said)
            assert told != said
            left = words(re.sub(r"['`„][^'`“]*['`“]|\([^)]*\)|: .*", "", told)) & english
            assert left <= {"drive", "belt", "lisbon", "stainless"}, f"{said}\n{told}"


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="pipes of POSIX")
def test_a_pipe_in_place_of_the_sheet_is_not_waited_for(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "job.yaml")
    asked = "import sys; from pathlib import Path; from reporter.collect.in_language import written_language; print(written_language(Path(sys.argv[1])))"
    done = subprocess.run(
        [sys.executable, "-P", "-c", asked, tmp_path],
        capture_output=True,
        text=True,
        timeout=PATIENCE,
        check=True,
    )
    assert done.stdout == "en\n"


def test_a_broken_folder_is_told_in_the_language_that_it_asks_for(tmp_path: Path) -> None:
    registry = load(find())
    for name in ("job.yaml", "findings.yaml"):
        (tmp_path / name).write_text((ROOT / "demo_job" / name).read_text("utf-8"), "utf-8")
    sheet = (
        (tmp_path / "job.yaml").read_text("utf-8").replace("purpose: pre_purchase", "purpos: pre_purchase")
    )
    (tmp_path / "job.yaml").write_text(sheet, "utf-8")
    with pytest.raises(JobError, match="in the job folder") as english:
        pipeline.collect(tmp_path, registry)
    with pytest.raises(JobError, match="Fehler im Auftragsordner") as asked:
        pipeline.collect(tmp_path, registry, "de")
    (tmp_path / "job.yaml").write_text(f"lang: de\n{sheet}", "utf-8")
    assert written_language(tmp_path) == "de"
    with pytest.raises(JobError, match="Fehler im Auftragsordner") as written:
        pipeline.collect(tmp_path, registry)
    assert "There is no key 'purpos' here." in str(english.value)
    for told in (asked, written):
        assert "Einen Schlüssel 'purpos' gibt es hier nicht." in str(told.value)
        assert "job.yaml, Zeile" in str(told.value)
    assert len(asked.value.problems) == len(english.value.problems)


def test_answers_with_a_trade_term_are_told_as_well(german: Translator) -> None:
    said = "Answers: locked (pins fitted, locked and unworn); pin_cracked (a split pin cracked)."
    assert german.text(said).endswith("pin_cracked (ein Splint angerissen).")


def test_remarks_are_told_as_well(german: Translator) -> None:
    told = german.text("measurements.csv: not there; the report has no readings.")
    assert told == "measurements.csv: nicht vorhanden; der Bericht hat keine Messwerte."
    told = german.text(
        "findings.yaml, line 3: Fitted 2001 lies before the boat was built (2004): did it come from another boat, or is one date wrong?"
    )
    assert told.startswith("findings.yaml, Zeile 3: ")
    assert "liegt vor dem Bau des Boots (2004)" in told


def test_the_sentence_with_most_words_of_its_own_is_tried_first(german: Translator) -> None:
    """Else one that is nearly all gaps would take what another says word for word."""
    english = [re.sub(r"\(\?P<p[0-9]>\.\+\?\)", "", pattern.pattern) for pattern, _ in german.sentences]
    own = [len(re.sub(r"\\(.)", r"\1", each)) for each in english]
    assert len(own) > 150
    assert own == sorted(own, reverse=True)
