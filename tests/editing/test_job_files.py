"""Edits on disk: nothing accepted is lost, undo across restarts, a whole folder whenever the run is cut off."""

from __future__ import annotations

import json
import shutil
import subprocess
import sys
import threading
from pathlib import Path

import pytest

from reporter.editing import ConflictError, Edit, EditError, JobFiles, accepting, texts
from reporter.editing.accepting import FILES
from reporter.editing.edit import Address, Plain

DEMO = Path(__file__).parents[2] / "demo_job"
WHEEL = ("components", {"id": "wheel"})
NAME = (*WHEEL, "name")


@pytest.fixture
def files(tmp_path: Path) -> JobFiles:
    """The text files of the demonstration job."""
    folder = tmp_path / "job"
    folder.mkdir()
    for name in ("job.yaml", "findings.yaml", "measurements.csv"):
        shutil.copy(DEMO / name, folder / name)
    return JobFiles(folder)


def set_name(files: JobFiles, name: str) -> None:
    """One accepted edit, on what stands there now."""
    files.accept(f"name {name}", [Edit("findings.yaml", NAME, files.value("findings.yaml", NAME), name)])


def test_all_edits_of_an_entry_or_none(files: JobFiles) -> None:
    before = files.text("findings.yaml")
    good = Edit("findings.yaml", NAME, "Wheel and shaft", "Wheel")
    bad = Edit("job.yaml", ("vessel", "name"), "another", "Third")
    with pytest.raises(ConflictError):
        files.accept("both", [good, bad])
    assert files.text("findings.yaml") == before
    assert files.accept("one", [good]) is not None
    assert files.accept("the same again", [good]) is None


def test_undo_and_redo_across_restarts(files: JobFiles) -> None:
    first = files.text("findings.yaml")
    set_name(files, "A")
    set_name(files, "B")
    row = {"component": "wheel", "quantity": "turns", "value": "2", "unit": "turns"}
    files.accept("a row", [Edit("measurements.csv", ({"row": ["wheel", "turns", "", 1]},), None, row)])
    anew = JobFiles(files.folder)
    assert [anew.undo().label, anew.undo().label] == ["a row", "name B"]
    assert anew.value("findings.yaml", NAME) == "A"
    assert JobFiles(files.folder).redo().label == "name B"
    assert files.value("findings.yaml", NAME) == "B"
    assert (files.undo().label, files.undo().label) == ("name B", "name A")
    assert files.text("findings.yaml") == first
    assert files.text("measurements.csv") == (DEMO / "measurements.csv").read_text("utf-8")
    assert files.can() == (None, "name A")
    with pytest.raises(EditError):
        files.undo()


def test_a_new_edit_ends_what_could_be_done_again(files: JobFiles) -> None:
    set_name(files, "A")
    files.undo()
    set_name(files, "B")
    assert files.can() == ("name B", None)


def test_marks_that_are_counted_come_back_in_their_places(files: JobFiles) -> None:
    marks = (*WHEEL, "photos", {"photo": "wheel_hub.jpg"}, "marks")
    before = files.value("findings.yaml", marks)
    files.accept("no ring", [Edit("findings.yaml", (*marks, 0), before[0], None)])
    assert files.value("findings.yaml", marks) == before[1:]
    files.undo()
    assert files.value("findings.yaml", marks) == before


@pytest.mark.parametrize("newline", ["\n", "\r\n"])
def test_a_part_taken_out_comes_back_at_its_place_with_its_comments(files: JobFiles, newline: str) -> None:
    path = files.folder / "findings.yaml"
    text = path.read_text("utf-8").replace(
        "\n  - id: wheel\n", "\n  # under the wheel's cover\n  - id: wheel # first\n"
    )
    assert "# first" in text
    path.write_bytes(b"\xef\xbb\xbf" + text.replace("\n", newline).encode())
    before = path.read_bytes()
    files.accept("no wheel", [Edit("findings.yaml", WHEEL, files.value("findings.yaml", WHEEL), None)])
    without = path.read_bytes()
    assert b"id: wheel #" not in without
    files.undo()
    assert path.read_bytes() == before
    JobFiles(files.folder).redo()
    assert path.read_bytes() == without


def test_a_part_taken_out_comes_back_by_value_where_the_file_has_moved_on(files: JobFiles) -> None:
    path = files.folder / "findings.yaml"
    wheel = files.value("findings.yaml", WHEEL)
    files.accept("no wheel", [Edit("findings.yaml", WHEEL, wheel, None)])
    path.write_text(path.read_text("utf-8") + "# a later word\n", "utf-8")
    files.undo()
    assert files.value("findings.yaml", WHEEL) == wheel
    assert "# a later word" in path.read_text("utf-8")


def test_an_undo_that_meets_anothers_value_says_so_once_and_is_passed_over(files: JobFiles) -> None:
    set_name(files, "A")
    set_name(files, "B")
    path = files.folder / "findings.yaml"
    path.write_text(path.read_text("utf-8").replace("name: B", "name: by hand"), "utf-8")
    with pytest.raises(ConflictError):
        files.undo()
    assert files.can() == ("name A", None)


def test_a_stale_editor_takes_edits_away_and_they_are_found_and_put_back(files: JobFiles) -> None:
    path = files.folder / "findings.yaml"
    set_name(files, "A")
    stale = path.read_bytes()
    set_name(files, "B")
    place = (*WHEEL, "place")
    files.accept("place", [Edit("findings.yaml", place, files.value("findings.yaml", place), "aft")])
    part = ("components", {"id": "extra"})
    files.accept("a part", [Edit("findings.yaml", part, None, {"kind": "chain", "examined": "seen"})])
    files.accept("its name", [Edit("findings.yaml", (*part, "name"), None, "Chain")])
    assert files.lost() == []
    path.write_bytes(stale + b"\n# a word of the editor's own\n")
    lost = JobFiles(files.folder).lost()
    assert [each.label for each in lost] == ["name B", "place", "a part"]
    files.put_back(each.entry for each in lost)
    assert files.lost() == []
    assert files.value("findings.yaml", NAME) == "B"
    assert files.value("findings.yaml", (*part, "name")) == "Chain"
    assert "# a word of the editor's own" in files.text("findings.yaml")


def test_a_later_word_by_hand_is_not_lost(files: JobFiles) -> None:
    set_name(files, "A")
    path = files.folder / "findings.yaml"
    path.write_text(path.read_text("utf-8").replace("name: A", "name: by hand"), "utf-8")
    assert files.lost() == []


def test_two_writers_lose_nothing(files: JobFiles) -> None:
    """Each adds its own; every edit is on the file as it is at that moment."""

    def write(key: str) -> None:
        own = JobFiles(files.folder)
        for number in range(10):
            own.accept(key, [Edit("findings.yaml", (*WHEEL, "details", f"{key}{number}"), None, "x")])

    threads = [threading.Thread(target=write, args=(key,)) for key in "ab"]
    for each in threads:
        each.start()
    for each in threads:
        each.join()
    details = files.value("findings.yaml", (*WHEEL, "details"))
    assert {f"{key}{number}" for key in "ab" for number in range(10)} <= set(details)
    entries = [each.entry for each in files.journal.entries()]
    assert entries == list(range(1, 21))


def test_a_journal_cut_short_keeps_what_was_whole(files: JobFiles) -> None:
    set_name(files, "A")
    with files.journal.file.open("ab") as file:
        file.write(b'{"entry": 2, "time": "20')
    set_name(files, "B")
    assert [each.label for each in files.journal.entries()] == ["name A", "name B"]


def test_no_other_file_can_be_named(files: JobFiles) -> None:
    for name in ("../job.yaml", "photos/a.jpg", ".gudgeon/journal.jsonl", ""):
        with pytest.raises(EditError):
            files.accept("x", [Edit(name, ("a",), None, "b")])
    (files.folder / "job.yaml").unlink()
    (files.folder / "job.yaml").symlink_to(DEMO / "job.yaml")
    with pytest.raises(EditError):
        files.accept("x", [Edit("job.yaml", ("a",), None, "b")])


DYING = """
import os, sys
from pathlib import Path
from reporter.editing import Edit, JobFiles
left = int(sys.argv[2])
def mortal(real):
    def call(*given, **named):
        global left
        left -= 1
        if left < 0:
            os.kill(os.getpid(), 9)
        return real(*given, **named)
    return call
class Slow:
    # an open file of which a write may be the last thing that happens: half of it is then on the disk
    def __init__(self, file):
        self.file = file
    def write(self, data):
        global left
        left -= 1
        if left < 0:
            self.file.write(data[: len(data) // 2])
            self.file.flush()
            os.kill(os.getpid(), 9)
        return self.file.write(data)
    def __enter__(self):
        self.file.__enter__()
        return self
    def __exit__(self, *given):
        return self.file.__exit__(*given)
    def __getattr__(self, name):
        return getattr(self.file, name)
os.fsync = mortal(os.fsync)
os.replace = mortal(os.replace)
Path.replace = mortal(Path.replace)
opened = Path.open
Path.open = mortal(lambda path, *given, **named: Slow(opened(path, *given, **named)))
Path.chmod = mortal(Path.chmod)
files = JobFiles(Path(sys.argv[1]))
row = {"component": "wheel", "quantity": "turns", "value": "2", "unit": "turns"}
name = ("components", {"id": "wheel"}, "name")
files.accept("both", [Edit("findings.yaml", name, "Wheel and shaft", "Wheel"),
                      Edit("measurements.csv", ({"row": ["wheel", "turns", "", 1]},), None, row)])
print("done")
"""


@pytest.mark.slow
def test_killed_at_any_step_the_folder_is_whole_and_nothing_is_half_told(
    files: JobFiles, tmp_path: Path
) -> None:
    before = {name: (files.folder / name).read_bytes() for name in ("findings.yaml", "measurements.csv")}
    shutil.copytree(files.folder, tmp_path / "uncut")
    subprocess.run(
        [sys.executable, "-c", DYING, str(tmp_path / "uncut"), "1000"], check=True, capture_output=True
    )
    after = {name: (tmp_path / "uncut" / name).read_bytes() for name in before}
    outcomes = []
    for step in range(60):
        folder = tmp_path / f"job{step}"
        shutil.copytree(files.folder, folder)
        run = subprocess.run(
            [sys.executable, "-c", DYING, str(folder), str(step)], capture_output=True, check=False
        )
        if run.returncode == 0:
            break
        assert run.returncode == -9, run.stderr
        cut = JobFiles(folder)
        changed = [name for name, data in before.items() if (folder / name).read_bytes() != data]
        # Never a half: each file is the old one or the new one, byte by byte.
        assert all((folder / name).read_bytes() in {before[name], after[name]} for name in before)
        told = cut.journal.entries()
        assert not changed or told
        # What was written down and is not in the files is offered like anything else that was lost.
        assert len(changed) + len(cut.lost()) == (2 if told else 0)
        cut.put_back(each.entry for each in cut.lost())
        assert cut.value("findings.yaml", NAME) == ("Wheel" if told else "Wheel and shaft")
        outcomes.append((len(changed), len(told)))
    else:
        pytest.fail("the run never ended")
    assert {(0, 0), (0, 1), (1, 1), (2, 1)} <= set(outcomes)
    assert json.loads(json.dumps(outcomes))


def test_the_mode_of_a_file_is_kept(files: JobFiles) -> None:
    path = files.folder / "findings.yaml"
    path.chmod(0o640)
    set_name(files, "A")
    assert path.stat().st_mode & 0o777 == 0o640


def test_each_value_is_read_once_for_many_edits(files: JobFiles, monkeypatch: pytest.MonkeyPatch) -> None:
    """A long day: two thousand edits of two hundred values."""
    entries = [
        Edit("findings.yaml", (*WHEEL, "details", f"d{number % 200}"), str(number - 200), str(number))
        for number in range(2000)
    ]
    files.journal.file.parent.mkdir()
    lines = [
        {"entry": number, "time": "", "label": "x", "edits": [vars(edit)], "did": "edit", "of": 0}
        for number, edit in enumerate(entries, 1)
    ]
    files.journal.file.write_text("".join(json.dumps(line) + "\n" for line in lines))
    read: list[object] = []

    def value_in(text: str, address: Address, *, table: bool) -> Plain:
        read.append(address)
        return texts.value_in(text, address, table=table)

    monkeypatch.setattr(accepting, "value_in", value_in)
    assert files.lost() == []
    assert 200 <= len(read) <= 200 + len(FILES)
    set_name(files, "A")
    assert len(files.journal.entries()) == 2001


def test_a_journal_that_another_process_adds_to_is_read_on(files: JobFiles) -> None:
    other = JobFiles(files.folder)
    set_name(files, "A")
    assert other.can() == ("name A", None)
    set_name(files, "B")
    assert other.can() == ("name B", None)
    files.journal.file.unlink()
    assert other.can() == (None, None)
