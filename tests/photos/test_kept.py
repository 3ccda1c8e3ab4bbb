"""Pictures kept from run to run: the same bytes with them and without, nobody else's, none that is not what it was."""

from __future__ import annotations

import os
import shutil
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest

from reporter.develop import develop, kept, kept_pictures
from reporter.develop.copying import InsetOrder, Order
from reporter.errors import JobError
from reporter.model.pages import Picture
from reporter.model.photo import Blur, Inset, Mark

from .conftest import ReportOf
from .scenes import scene

MARKS: tuple[Mark, ...] = (Blur(corner=(0.1, 0.1), opposite=(0.3, 0.3)), Inset(at=(0.5, 0.5)))
Run = Callable[..., dict[str, Picture]]


@pytest.fixture
def run(tmp_path: Path, report_of: ReportOf) -> Run:
    """Develops three photos into a new scratch folder, the first with marks, and tells which were counted."""
    for number in range(3):
        scene(500, 400, number).save(tmp_path / f"{number}.jpg")
    uses = [(f"{number}.jpg", "half", MARKS if number == 0 else ()) for number in range(3)]
    report = report_of(tmp_path, *uses)

    def runs(folder: Path | None, told: Callable[[int, int], None] | None = None) -> dict[str, Picture]:
        scratch = tmp_path / "scratch"
        shutil.rmtree(scratch, ignore_errors=True)
        scratch.mkdir()
        return develop(report, tmp_path, scratch, kept=folder, told=told)

    return runs


def _bytes(pictures: dict[str, Picture]) -> list[list[bytes]]:
    return [[file.read_bytes() for file in (each.file, *each.insets)] for each in pictures.values()]


def test_the_same_with_and_without_cold_and_warm(
    tmp_path: Path, run: Run, monkeypatch: pytest.MonkeyPatch
) -> None:
    folder, seen = tmp_path / "kept", list[tuple[int, int]]()
    pictures = [run(each) for each in (None, folder)]
    made = [(pictures[0], _bytes(run(None))), (pictures[1], _bytes(run(folder)))]
    monkeypatch.setattr("reporter.door.run", lambda _function, tasks, **_how: [*tasks])
    warm = run(folder, lambda done, count: seen.append((done, count)))
    assert made == [(warm, _bytes(warm))] * 2
    assert seen == [(3, 3)]
    assert {each.stat().st_mode & 0o777 for each in folder.iterdir()} == {0o600}
    assert folder.stat().st_mode & 0o777 == 0o700


def test_what_was_hidden_is_nowhere_among_what_is_kept(tmp_path: Path, run: Run) -> None:
    """The blurred corner of the photo is red; of what is kept of it, the corner of the copy is what the copy shows."""
    folder = tmp_path / "kept"
    shown = _bytes(run(folder))
    pieces = b"".join(each.read_bytes() for each in folder.iterdir())
    assert sum(len(piece) for each in shown for piece in each) < len(pieces)
    rest = pieces
    for piece in (piece for each in shown for piece in each):
        rest = rest.replace(piece, b"")
    assert b"\xff\xd8" not in rest, "a picture is kept that no page shows"
    assert len(rest) < 3 * 400


def _pipe(file: Path) -> None:
    file.unlink()
    os.mkfifo(file)


@pytest.mark.parametrize(
    "spoil",
    [
        lambda file: file.write_bytes(b""),
        lambda file: file.write_bytes(file.read_bytes()[:-1]),
        lambda file: file.write_bytes(file.read_bytes()[:-9] + b"x" + file.read_bytes()[-8:]),
        lambda file: file.write_bytes(file.read_bytes().replace(b'"size": [500', b'"size": [501')),
        lambda file: file.write_bytes(b"gudgeon picture\n"),
        lambda file: (file.rename(file.with_suffix(".away")), file.symlink_to(file.with_suffix(".away"))),
        lambda file: (file.unlink(), file.mkdir()),
        _pipe,
    ],
    ids=["empty", "cut short", "one byte", "another size", "beginning", "link", "folder", "pipe"],
)
def test_a_damaged_entry_is_made_anew(spoil: Callable[[Path], object], tmp_path: Path, run: Run) -> None:
    folder = tmp_path / "kept"
    right = run(folder)
    content = _bytes(right)
    for file in list(folder.iterdir()):
        spoil(file)
    again = run(folder)
    assert (again, _bytes(again)) == (right, content)
    assert not any(each.is_symlink() for each in folder.iterdir())


def test_an_entry_under_the_name_of_another_is_not_taken(tmp_path: Path, run: Run) -> None:
    folder = tmp_path / "kept"
    content = _bytes(run(folder))
    first, second, third = sorted(folder.iterdir())
    whole = [first.read_bytes(), second.read_bytes(), third.read_bytes()]
    for file, other in zip((first, second, third), whole[1:] + whole[:1], strict=True):
        file.write_bytes(other)
    assert _bytes(run(folder)) == content
    assert [each.read_bytes() for each in (first, second, third)] == whole, "the right ones are kept again"


def test_another_order_another_photo_another_program_is_another_entry(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    order = Order(
        "/x/a.jpg",
        "/x",
        "/s",
        "ab" * 32,
        (100, 80),
        ((0.1, 0.1, 0.2, 0.2),),
        (InsetOrder(0.5, 0.5, 0.1, 50),),
    )
    others = [
        replace(order, sha256="cd" * 32),
        replace(order, path="/x/a.dng"),
        replace(order, box=(101, 80)),
        replace(order, hidden=()),
        replace(order, hidden=((0.1, 0.1, 0.2, 0.21),)),
        replace(order, insets=()),
        replace(order, insets=(InsetOrder(0.5, 0.5, 0.1, 51),)),
    ]  # fmt: skip
    names = [kept.entry(each, tmp_path) for each in (order, *others)]
    assert len(set(names)) == len(names)
    assert kept.entry(replace(order, path="/y/b.JPG", root="/y", scratch="/t"), tmp_path) == names[0]
    assert kept.entry(replace(order, sha256=""), tmp_path) is None
    monkeypatch.setattr(kept, "_recipe", lambda: "another version")
    assert kept.entry(order, tmp_path) != names[0]


def test_the_recipe_follows_the_program_and_its_libraries(monkeypatch: pytest.MonkeyPatch) -> None:
    now = kept._recipe.__wrapped__()
    assert now == kept._recipe.__wrapped__()
    monkeypatch.setattr(kept, "version", lambda name: f"{name} of tomorrow")
    assert kept._recipe.__wrapped__() != now
    monkeypatch.undo()
    monkeypatch.setattr(kept, "_MAKERS", ("develop",))
    assert kept._recipe.__wrapped__() != now


def test_what_was_used_longest_ago_goes_first_and_nothing_of_others(tmp_path: Path, run: Run) -> None:
    folder = tmp_path / "kept"
    run(folder)
    (folder / "letter.txt").write_text("mine")
    old, middle, new = sorted(folder.glob("?" * 64))
    for age, file in ((300, old), (200, middle), (100, new)):
        os.utime(file, (1e9 - age, 1e9 - age))
    kept.make_room(folder, middle.stat().st_size + new.stat().st_size)
    assert set(folder.iterdir()) == {middle, new, folder / "letter.txt"}
    assert kept.find(middle, tmp_path)
    kept.make_room(folder, middle.stat().st_size)
    assert set(folder.iterdir()) == {middle, folder / "letter.txt"}


def test_a_photo_that_cannot_be_shown_is_told_again(tmp_path: Path, report_of: ReportOf) -> None:
    (tmp_path / "x.jpg").write_bytes(b"\xff\xd8 nothing")
    (tmp_path / "out").mkdir()
    for _ in range(2):
        with pytest.raises(JobError):
            develop(
                report_of(tmp_path, ("x.jpg", "half", ())), tmp_path, tmp_path / "out", kept=tmp_path / "kept"
            )


def test_a_folder_that_cannot_be_used_costs_nothing_but_time(tmp_path: Path, run: Run) -> None:
    (tmp_path / "kept").write_text("a file, not a folder")
    right = run(None)
    content = _bytes(right)
    again = run(tmp_path / "kept")
    assert (again, _bytes(again)) == (right, content)


def test_where_pictures_are_kept(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.setenv("GUDGEON_CACHE", str(tmp_path))
    assert kept_pictures() == tmp_path / "pictures"
    monkeypatch.delenv("GUDGEON_CACHE")
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "xdg"))
    if os.name == "posix" and os.uname().sysname == "Linux":
        assert kept_pictures() == tmp_path / "xdg" / "gudgeon" / "pictures"
