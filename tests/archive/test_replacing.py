"""What may be written over: a new name, or what this program wrote and nobody has changed since; nothing else."""

from __future__ import annotations

import os
import sys
import tracemalloc
from pathlib import Path

import pikepdf
import pytest

from reporter.archive import may_write, replacing, write_folder, write_text
from reporter.archive.beside import beside
from reporter.errors import CannotWriteError, ExitCode
from reporter.outputs.due_list import icalendar_text
from reporter.outputs.yard_csv import CSV_COLUMNS

pytestmark = pytest.mark.skipif(sys.platform == "win32", reason="devices and links of POSIX")
TABLE = ",".join(CSV_COLUMNS) + "\n1,first,rig,aft,wire,,renew" + "," * (len(CSV_COLUMNS) - 7) + "\n"


@pytest.mark.parametrize(
    "content",
    [
        b"format: 1\n",
        b"component,quantity,at,state,side,value,unit\n",
        b"\xff\xd8\xff\xe0 a photo",
        b"%PDF-1.7 <pdf:Producer>another program</pdf:Producer>",
        b"<!DOCTYPE html><html><head></head></html>",
        b"",
    ],
)
def test_what_another_wrote_stays(tmp_path: Path, content: bytes) -> None:
    target = tmp_path / "x.pdf"
    target.write_bytes(content)
    with pytest.raises(CannotWriteError, match="this program did not write it") as caught:
        write_text("new", target)
    assert caught.value.exit_code == ExitCode.CANNOT_WRITE
    assert (target.read_bytes(), list(tmp_path.iterdir())) == (content, [target])


def test_links_folders_and_devices_stay(tmp_path: Path) -> None:
    (tmp_path / "link").symlink_to(tmp_path / "elsewhere")
    (tmp_path / "folder").mkdir()
    os.mkfifo(tmp_path / "pipe")
    for name, told in (("link", "is a link"), ("folder", "is a folder"), ("pipe", "no ordinary file")):
        with pytest.raises(CannotWriteError, match=told):
            may_write(tmp_path / name)
    with pytest.raises(CannotWriteError, match="no ordinary file"):
        may_write(Path("/dev/null"))


def test_nothing_is_written_among_photos_and_documents(tmp_path: Path) -> None:
    """Not even under a new name, nor round a corner: the next report would find it there."""
    for name in ("notes", "photos", "documents", "photos/deck"):
        (tmp_path / name).mkdir()
    for name in ("photos", "documents", "photos/deck"):
        for path in (tmp_path / name / "new.pdf", tmp_path / "notes" / ".." / name / "new.pdf"):
            with pytest.raises(CannotWriteError, match="of the job"):
                may_write(path, tmp_path)
    may_write(tmp_path / "new.pdf", tmp_path)
    may_write(tmp_path / "photos" / "new.pdf")


def test_a_table_that_somebody_wrote_into_stays(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A line added, or another word in a cell of ours; back as it was, it is ours again. One of another computer is trusted."""
    target = tmp_path / "work.csv"
    write_text(TABLE, target)
    write_text(TABLE, target)
    for theirs in (f"{TABLE}99,ask the rigger\n", TABLE.replace("wire", "both wires")):
        target.write_text(theirs)
        with pytest.raises(CannotWriteError, match="changed after it was written"):
            may_write(target)
        assert target.read_text() == theirs
    target.write_text(TABLE)
    may_write(target)
    target.write_text(f"{TABLE}99,ask the rigger\n")
    monkeypatch.setenv("GUDGEON_CACHE", str(tmp_path / "another"))
    may_write(target)


def test_where_no_checksum_can_be_kept_a_table_is_written_all_the_same(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "file").write_text("")
    monkeypatch.setenv("GUDGEON_CACHE", str(tmp_path / "file"))
    for _ in range(2):
        write_text(TABLE, tmp_path / "work.csv")
    assert (tmp_path / "work.csv").read_text() == TABLE


def test_own_documents_are_replaced_until_somebody_changes_them(good: Path, tmp_path: Path) -> None:
    """A signature, what was filled in, and what another program added end a PDF a second time (ISO 32000-1, 7.5.6)."""
    may_write(good)
    grown = tmp_path / "grown.pdf"
    grown.write_bytes(good.read_bytes() + b"\n1 0 obj\nnull\nendobj\nstartxref\n0\n%%EOF\n")
    with pytest.raises(CannotWriteError, match="filled in, signed or changed"):
        may_write(grown)
    replacing.may_write(grown, over=grown)
    with pytest.raises(CannotWriteError):
        replacing.may_write(grown, over=good)
    updated = tmp_path / "updated.pdf"
    updated.write_bytes(_with_update(good.read_bytes()))
    with pytest.raises(CannotWriteError, match="filled in, signed or changed"):
        may_write(updated)
    rewritten = tmp_path / "rewritten.pdf"
    with pikepdf.open(good) as pdf:
        with pdf.open_metadata(set_pikepdf_as_editor=False) as words:
            words["pdf:Producer"] = "another program"
        pdf.save(rewritten)
    with pytest.raises(CannotWriteError):
        may_write(rewritten)


def _with_update(content: bytes) -> bytes:
    """The file with an update as others write it: its table of objects leads on to the first."""
    first = content[content.rindex(b"startxref") :].split()[1]
    table = (
        b"999 0 obj\n<< /Type /XRef /Size 1 /W [1 2 1] /Index [0 0] /Prev %b /Length 0 >>\nstream\n\nendstream\nendobj\n"
        % first
    )
    return content + table + b"startxref\n%d\n%%%%EOF\n" % len(content)


def test_of_a_long_file_no_more_is_read_than_tells_of_it(good: Path, tmp_path: Path) -> None:
    """Of a report with photos the mark, which stands before them, and its table of objects."""
    content = good.read_bytes()
    start = content.rindex(b"startxref")
    table = int(content[start:].split()[1])
    long = tmp_path / "long.pdf"
    with long.open("wb") as file:
        file.write(content[:table])
        file.seek(200_000_000, os.SEEK_CUR)
        place = file.tell()
        file.write(content[table:start] + b"startxref\n%d\n%%%%EOF\n" % place)
    tracemalloc.start()
    try:
        may_write_as_it_is(long)
        most = tracemalloc.get_traced_memory()[1]
    finally:
        tracemalloc.stop()
    assert most < 8_000_000


def may_write_as_it_is(path: Path) -> None:
    """Asked about a file that no reader could open: only what stands in it counts."""
    with pytest.MonkeyPatch.context() as patched:
        patched.setattr(replacing, "_filled_form", lambda _path: False)
        may_write(path)


def test_the_yards_table_is_the_yards_once_they_fill_it_in(tmp_path: Path) -> None:
    assert tuple(CSV_COLUMNS[-4:]) == replacing.YARDS_OWN
    assert TABLE.startswith(replacing.YARDS_HEAD)
    target = tmp_path / "work.csv"
    target.write_text(TABLE, "utf-8")
    may_write(target)
    target.write_text(TABLE[:-2] + "K. Yard\n", "utf-8")
    with pytest.raises(CannotWriteError, match="filled in"):
        may_write(target)


def test_calendars_and_schemas_are_known_again(tmp_path: Path) -> None:
    import datetime as dt

    write_text(icalendar_text([], dt.date(2026, 5, 12)), tmp_path / "due.ics")
    may_write(tmp_path / "due.ics")
    texts = {"a.json": '{\n "$comment": "Written by gudgeon 0"}', "b.json": "{}"}
    write_folder(texts, tmp_path / "new" / "folder")
    with pytest.raises(CannotWriteError, match=r"b\.json is there already"):
        write_folder(texts | {"a.json": "changed"}, tmp_path / "new" / "folder")
    assert "Written by" in (tmp_path / "new" / "folder" / "a.json").read_text()


def test_what_is_written_meanwhile_is_not_lost(tmp_path: Path) -> None:
    """The target is looked at again when the work is done."""
    target = tmp_path / "x.pdf"
    may_write(target)
    target.write_text("somebody's own")
    with pytest.raises(CannotWriteError), beside(target):
        pass
    assert target.read_text() == "somebody's own"
