"""The text that tells of a fault: where it lies stands in it, nothing that is somebody's own."""

from __future__ import annotations

import stat
import sys
from pathlib import Path

import pytest
from pydantic import ValidationError

from reporter.errors import CannotWriteError
from reporter.machine import fault, log
from reporter.model.template import Template

PRIVATE = "Ingeborg at /home/ingeborg/boats/Seestern/photos/chain_7.jpg, 54.3215"


def fail() -> None:
    """As a bug would: the message holds a name, a file and a number of somebody's."""
    try:
        dict[str, str]()[PRIVATE]
    except KeyError as error:
        message = f"'NoneType' object has no attribute 'length' ({PRIVATE})"
        raise AttributeError(message) from error


def caught() -> BaseException:
    with pytest.raises(AttributeError) as told:
        fail()
    return told.value


def test_the_place_stands_in_it_and_nothing_private() -> None:
    text = fault.told(caught())
    assert "test_fault.py, line " in text
    assert "in fail" in text
    assert "raise AttributeError(message) from error" in text
    assert "'NoneType' object has no attribute 'length'" in text
    assert (
        text.index("builtins.KeyError") < text.index("which led to:") < text.index("builtins.AttributeError")
    )
    said = "\n".join(line for line in text.splitlines() if line.startswith("builtins."))
    for each in ("ngeborg", "home", "Seestern", "chain_7", "jpg", "54", "3215"):
        assert each not in said
    assert str(Path(__file__).parent) not in text


def test_a_library_that_repeats_what_was_written() -> None:
    """Pydantic tells the value that it was given."""
    with pytest.raises(ValidationError) as told:
        Template.model_validate({"id": "a", "title_id": "b", "sections": (PRIVATE,)})
    text = fault.told(told.value)
    assert "pydantic" in text
    assert "ngeborg" in str(told.value)
    assert "geborg" not in text


def test_it_is_kept_where_it_can_be_for_this_user_alone(tmp_path: Path) -> None:
    (tmp_path / "file").touch()
    kept = fault.keep(caught(), "gudgeon 1", (tmp_path / "file" / "no", tmp_path / "faults"))
    assert kept is not None
    assert kept.parent == tmp_path / "faults"
    assert kept.read_text("utf-8").startswith("gudgeon 1\n\n")
    assert sys.platform == "win32" or stat.S_IMODE(kept.stat().st_mode) == 0o600
    assert fault.keep(caught(), "", (tmp_path / "file" / "no",)) is None


def test_a_log_replaces_logs_alone(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(log, "_log", log._Log())
    file = tmp_path / "run.txt"
    for _ in range(2):
        log.open_log(file, "gudgeon 1")
        log.note("4 develop")
        assert log._log.file is not None
        log._log.file.close()
    lines = file.read_text("utf-8").splitlines()
    assert lines[:2] == ["gudgeon log", "gudgeon 1"]
    assert [line.split(maxsplit=1)[1] for line in lines[2:]] == ["4 develop"]
    log.note("closed long ago")
    file.write_text("format: 1\n")
    (tmp_path / "link").symlink_to(file)
    for each in (file, tmp_path / "link", tmp_path / "no" / "where"):
        with pytest.raises(CannotWriteError):
            log.open_log(each, "")
    assert file.read_text() == "format: 1\n"
