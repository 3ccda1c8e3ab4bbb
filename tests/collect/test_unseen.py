"""Characters that cannot be seen: told at collecting with their place, and made visible on a terminal."""

from __future__ import annotations

import json
import re
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from reporter.cli import main
from reporter.collect import collect
from reporter.commands.options import echo_data
from reporter.errors import JobError
from reporter.model.unseen_characters import visible
from reporter.outputs.screen import fitted

ROOT = Path(__file__).parents[2]
STEERING = ("\x1b", "\x07", "\x9b")
TURNING = ("\u202e", "\u2066", "\u2028")
WIDTHLESS = ("\u200b", "\u200d", "\ufeff", "\u061c")


def told(folder: Path, installed: Any, photos: Any) -> JobError:
    """What is wrong with a folder."""
    with pytest.raises(JobError) as refused:
        collect(folder, installed, photos=photos)
    return refused.value


@pytest.mark.parametrize("character", [*STEERING, *TURNING])
def test_what_steers_or_turns_is_refused_with_its_place(
    character: str, folder: Callable[..., Path], good: dict[str, str], installed: Any, photos: Any
) -> None:
    sheet = good["job.yaml"].replace("place: a berth", f'place: "a \\u{ord(character):04x} berth"')
    rows = good["measurements.csv"] + f"port-belt,span,top,found,,254,mm,,,a{character}b\n"
    job = folder({"job.yaml": sheet, "measurements.csv": rows, f"documents/a{character}b.pdf": ""})
    error = told(job, installed, photos)
    code = f"U+{ord(character):04X}"
    places = {(each.file, each.line, each.key) for each in error.problems if code in each.what}
    assert places == {
        ("job.yaml", 15, "inspection › place"),
        ("measurements.csv", 5, "note"),
        (f"documents/a<{code}>b.pdf", 0, ""),
    }
    assert character not in str(error)


@pytest.mark.parametrize("character", WIDTHLESS)
def test_what_has_no_width_is_asked_about(
    character: str, folder: Callable[..., Path], good: dict[str, str], installed: Any, photos: Any
) -> None:
    """Persian and pictures in text need some of them, so nothing is refused."""
    sheet = good["job.yaml"].replace("place: a berth", f'place: "a{character}berth"')
    job = collect(folder({"job.yaml": sheet}), installed, photos=photos)
    asked = [each for each in job.remarks if each.startswith("job.yaml, line 15: inspection › place")]
    assert len(asked) == 1
    assert f"U+{ord(character):04X}" in asked[0]


def test_ordinary_words_of_any_script_are_not_asked_about(
    folder: Callable[..., Path], good: dict[str, str], installed: Any, photos: Any
) -> None:
    sheet = good["job.yaml"].replace("place: a berth", "place: Ærø – ﺮﺻﺎﺻ, 船, ½ °, £")
    remarks = collect(folder({"job.yaml": sheet}), installed, photos=photos).remarks
    assert [each for each in remarks if "without width" in each] == []


def test_no_terminal_obeys_the_commands_words_or_a_files_name(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    hostile = "a\x1b[2J\u202eb\rc"
    for words in (
        ["check", str(tmp_path / hostile)],
        ["limits", hostile],
        [hostile],
        ["check", "--lang", hostile, "x"],
    ):
        monkeypatch.setattr(sys, "argv", ["gudgeon", *words])
        with pytest.raises(SystemExit) as ended:
            main()
        said = "".join(capsys.readouterr())
        assert ended.value.code in {2, 3, 4}
        assert not set(said) & {"\x1b", "\u202e", "\r"}, words
        assert "u202e" in said.casefold().replace("u+", "u"), words


def test_line_ends_and_other_scripts_stay() -> None:
    assert visible("a\tb\n½ Ærø 船\u00a0") == "a\tb\n½ Ærø 船\u00a0"


def test_json_says_the_same_without_them(capsys: pytest.CaptureFixture[str]) -> None:
    echo_data(json.dumps({"a": "b\u202e\x9bc"}, ensure_ascii=False))
    said = capsys.readouterr().out
    assert said.isascii()
    assert json.loads(said) == {"a": "b\u202e\x9bc"}


def test_only_one_place_prints() -> None:
    """Else a new command would print what a folder says as it stands there."""
    doors = [ROOT / "reporter/cli.py", *(ROOT / "reporter/commands").glob("*.py")]
    prints = re.compile(r"\btyper\.echo\(|(?<![.\w])print\(|\bsys\.stdout\.write\(")
    found = {each.relative_to(ROOT).as_posix() for each in doors if prints.search(each.read_text("utf-8"))}
    assert found == {"reporter/commands/options.py"}


def test_a_terminal_shows_whole_words_at_its_own_width() -> None:
    said = (
        "1 problem in the job folder:\nfindings.yaml, line 3 · a\n    There is none.\n    → "
        + "Kinds: bolt, nut, " * 9
    )
    for columns in (40, 80, 132):
        lines = fitted(said, columns).split("\n")
        assert max(map(len, lines)) <= columns
        assert lines[:3] == said.split("\n")[:3]
        assert all(line.startswith("      ") for line in lines[4:])
        assert fitted(said, columns).split() == said.split()
