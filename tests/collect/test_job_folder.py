"""A good folder becomes the Job that it says; what is coped with is coped with."""

from __future__ import annotations

import os
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest

from reporter.collect import collect
from reporter.errors import ExitCode, JobError


def test_a_good_folder_is_read_as_it_is_written(folder: Any, installed: Any, photos: Any) -> None:
    """Facts, readings, limits and photos stand in the Job in base units, as written."""
    job: Any = collect(folder(), installed, photos=photos)
    assert [each.id for each in job.components] == ["port-belt", "cloth"]
    facts = job.facts["port-belt"]
    assert facts["pitch"].value.value == pytest.approx(0.0127)
    assert facts["pitch"].value.written == "12.7 mm"
    assert (facts["material"].choice, facts["material"].basis) == ("steel", "stamped")
    assert str(facts["fitted"].date) == "2016"
    assert [each.line for each in job.readings] == [2, 3, 4]
    assert [each.value.value for each in job.readings] == pytest.approx([0.2545, 0.254, 20])
    first = job.readings[0]
    assert (first.value.u, first.resolution) == (pytest.approx(0.00025), pytest.approx(0.0005))
    assert set(job.limits) == {"belt.stretch", "belt.stretch_early", "rope.stretch"}
    assert job.components[0].photos[0].file == job.photos[0].name == "photos/belt.jpg"
    assert job.photo(job.components[0].photos[0].file) is not None
    assert job.sheet.vessel.beam.value == pytest.approx(3.65)


def test_a_changed_limit_keeps_what_it_replaces(folder: Any, installed: Any, photos: Any, good: Any) -> None:
    """The override holds the published value, the reason and the name."""
    change = "limits:\n  - {id: belt.stretch, value: 2.0, reason: rough sea, by: A. Tester}\n"
    job = collect(folder({"job.yaml": good["job.yaml"] + change}), installed, photos=photos)
    limit: Any = job.limits["belt.stretch"]
    assert (limit.value, limit.override.original, limit.override.by) == (2.0, 3.0, "A. Tester")
    assert job.limits["belt.stretch_early"].override is None


LEFT = "port-belt,span,top,left,,254.0,mm,,,\n"


def test_as_left_is_read_where_work_is_told(folder: Any, installed: Any, photos: Any, good: Any) -> None:
    told = good["findings.yaml"].replace(
        "    proved:", "    done: [{what: tightened, remedy: tighten}]\n    proved:"
    )
    told = told.replace("          at: upper end", "          at: upper end\n          state: left")
    changed = {"findings.yaml": told, "measurements.csv": good["measurements.csv"] + LEFT}
    assert collect(folder(changed), installed, photos=photos).readings[-1].state == "left"


@pytest.mark.parametrize(
    ("plausible", "published", "refused"),
    [((0, 40), 3.0, True), ((-5, 5), 3.0, False), ((-5, 5), -1.0, False)],
)
def test_a_limit_is_refused_a_minus_that_its_quantity_cannot_have(
    plausible: tuple[float, float],
    published: float,
    refused: bool,
    folder: Any,
    installed: Any,
    photos: Any,
    good: Any,
) -> None:
    belt = installed.plugins["belt"]
    slack = next(each for each in belt.readings if each.id == "slack").model_copy(
        update={"plausible": plausible}
    )
    limit = belt.limits[0].model_copy(
        update={"id": "belt.slack", "quantity": "slack", "unit": "mm", "value": published}
    )
    kind = belt.model_copy(update={"readings": (*belt.readings[:2], slack), "limits": (*belt.limits, limit)})
    kinds = SimpleNamespace(plugins={**installed.plugins, "belt": kind}, templates=installed.templates)
    change = "limits:\n  - {id: belt.slack, value: -2, reason: r, by: A. Tester}\n"
    root = folder({"job.yaml": good["job.yaml"] + change})
    if refused:
        with pytest.raises(JobError, match="never less than 0"):
            collect(root, kinds, photos=photos)
    else:
        assert collect(root, kinds, photos=photos).limits["belt.slack"].value == -2


@pytest.mark.parametrize(
    ("fitted", "asked"),
    [("2003", True), ("2003-12-31", True), ("2004-01-01", False), ("2004", False), ("2016", False)],
)
def test_a_part_older_than_the_boat_is_asked_about(
    fitted: str, asked: bool, folder: Any, installed: Any, photos: Any, good: Any
) -> None:
    """A detail, the date of fitting and the rig's date, each at its line; the boat was built in 2004."""
    findings = good["findings.yaml"].replace("value: 2016", f"value: {fitted}")
    findings = findings.replace("    kind: rope\n", f"    kind: rope\n    installed: {fitted}\n")
    sheet = good["job.yaml"].replace("  built: 2004", f"  built: 2004\n  rig_installed: {fitted}")
    job = collect(folder({"findings.yaml": findings, "job.yaml": sheet}), installed, photos=photos)
    told = [each.split(":")[0] for each in job.remarks if "before the boat was built" in each]
    where = ["job.yaml, line 8", "findings.yaml, line 9", "findings.yaml, line 25"]
    assert told == (where if asked else [])


@pytest.mark.parametrize(
    "table",
    [
        "\ufeffComponent;Quantity;Value\r\nport-belt;span;254,5 mm\r\n",
        "sep=;\ncomponent;quantity;value;unit\nport-belt;span;254,5;mm\n",
        'unit,value,quantity,component\nmm,"254,5",span,port-belt\n',
        "component\tquantity\tvalue\tunit\n\nport-belt\tspan\t254.5\tmm\n\t\t\t\n",
        'component,quantity,value,note\nport-belt,span,254.5 mm,"two\nlines, one ""quoted"""\n',
    ],
)
def test_tables_as_spreadsheets_write_them(table: str, folder: Any, installed: Any, photos: Any) -> None:
    """Byte order mark, semicolons, decimal commas, quotes, tabs, blank lines and any order of columns are coped with."""
    (reading,) = collect(folder({"measurements.csv": table}), installed, photos=photos).readings
    assert reading.value.value == pytest.approx(0.2545)


def test_lines_count_as_an_editor_counts_them(folder: Any, installed: Any, photos: Any) -> None:
    """A cell with a line break does not shift the lines below it."""
    table = 'component,quantity,value,note\nport-belt,span,200 mm,"a\nb"\nport-belt,span,201 mm,\n'
    job = collect(folder({"measurements.csv": table}), installed, photos=photos)
    assert [each.line for each in job.readings] == [2, 4]


def test_kilograms_of_pull_are_told(folder: Any, installed: Any, photos: Any, good: Any) -> None:
    """A gauge in kg means kgf, in a reading as in a detail, and both say so."""
    changes = {
        "findings.yaml": good["findings.yaml"].replace("teeth: 13", "pull: 1000 kg"),
        "measurements.csv": "component,quantity,value\nport-belt,tension,20 kg\n",
    }
    job: Any = collect(folder(changes), installed, photos=photos)
    assert job.readings[0].value.value == pytest.approx(196.133)
    assert job.readings[0].value.note == "'kg' taken as kgf"
    assert job.facts["port-belt"]["pull"].value.value == pytest.approx(9806.65)
    assert job.remarks == (
        "findings.yaml, line 8: 'kg' taken as kgf.",
        "measurements.csv, line 2: 'kg' taken as kgf.",
    )


def test_what_phones_and_desktops_leave_is_passed_over(folder: Any, installed: Any, photos: Any) -> None:
    """System files, films and papers among the photos are remarked on and not read."""
    extra = [
        "photos/.DS_Store",
        "photos/Thumbs.db",
        "photos/._belt.jpg",
        "photos/clip.MOV",
        "photos/notes.txt",
    ]
    job = collect(folder(dict.fromkeys(extra, "x")), installed, photos=photos)
    assert [each.name for each in job.photos] == ["photos/belt.jpg"]
    told = " ".join(job.remarks)
    assert all(Path(name).name in told for name in extra)


def test_a_broken_photo_that_nobody_uses_is_only_remarked_on(
    folder: Any, installed: Any, photos: Any
) -> None:
    """An unused photo that cannot be shown does not stop the report."""
    job = collect(folder({"photos/broken.jpg": "x"}), installed, photos=photos)
    assert any("photos/broken.jpg" in each for each in job.remarks)


def test_who_names_the_folder_of_job_folders_is_told_which_lie_there(
    folder: Any, installed: Any, photos: Any
) -> None:
    above = folder(name="boats/one").parent
    with pytest.raises(JobError) as caught:
        collect(above, installed, photos=photos)
    assert {(each.file, each.do) for each in caught.value.problems} == {
        (name, "Name a job folder; in this one lie: one.") for name in ("findings.yaml", "job.yaml")
    }
    with pytest.raises(JobError, match="lies in a job folder: name that one"):
        collect(above / "one" / "photos", installed, photos=photos)
    (above / "job.yaml").write_bytes((above / "one" / "job.yaml").read_bytes())
    with pytest.raises(JobError, match="Put it into the job folder"):
        collect(above, installed, photos=photos)


def test_copies_of_a_sheet_are_remarked_since_nobody_reads_them(
    folder: Any, installed: Any, photos: Any
) -> None:
    copies = ("findings (conflicted copy).yaml", "Copy of Measurements.csv", "measurements.xlsx")
    others = ("notes.yaml", "findings.yaml~", "work.csv")
    job = collect(folder(dict.fromkeys((*copies, *others), b"x")), installed, photos=photos)
    told = [each for each in job.remarks if "not read" in each]
    assert [each.split(": ")[0] for each in told] == sorted(copies)
    assert told[-1].endswith("what counts stands in measurements.csv.")


def test_a_photo_that_cannot_be_shown_is_told_once_wherever_it_is_named(
    folder: Any, good: Any, installed: Any, photos: Any
) -> None:
    def unreadable(files: list[Path], folder: Path, *, time_zone: str, clocks: Any = ()) -> list[Any]:
        return [
            each.model_copy(update={"problem": "it is empty: copy it again"})
            for each in photos(files, folder, time_zone=time_zone, clocks=clocks)
        ]

    text = good["findings.yaml"].replace(
        "      - belt.jpg",
        "      - belt.jpg\n      - {file: belt.jpg, caption: again}\n      - gone.jpg\n      - gone.jpg",
    )
    with pytest.raises(JobError) as caught:
        collect(folder({"findings.yaml": text}), installed, photos=unreadable)
    assert sum("cannot be shown" in each.what for each in caught.value.problems) == 1
    assert sum("gone.jpg" in each.what for each in caught.value.problems) == 2, "each has to be put right"


def test_names_match_across_systems(folder: Any, installed: Any, photos: Any, good: Any) -> None:
    """A name with an accent matches however the system stores it; photos/ before it is allowed."""
    findings = good["findings.yaml"].replace("- belt.jpg", "- photos/caf\u00e9.jpg")
    job = collect(folder({"findings.yaml": findings, "photos/cafe\u0301.jpg": "x"}), installed, photos=photos)
    assert job.components[0].photos[0].file == "photos/cafe\u0301.jpg"


def test_earlier_visits_are_read_one_level_deep(folder: Any, installed: Any, photos: Any, good: Any) -> None:
    """An earlier folder lies outside; its own earlier folder is not read."""
    before = good["job.yaml"].replace("2026-05-11, 2026-05-12", "2024-05-01") + "earlier: [../gone]\n"
    folder({"job.yaml": before}, name="old")
    changes = {
        "job.yaml": good["job.yaml"] + "earlier: [../old]\n",
        "findings.yaml": good["findings.yaml"].replace("kind: rope", "kind: rope\n    was: port-belt"),
    }
    job = collect(folder(changes), installed, photos=photos)
    assert [each.sheet.inspection.last_day.year for each in job.earlier] == [2024]
    assert job.earlier[0].earlier == ()
    assert len(job.earlier[0].readings) == 3


@pytest.mark.parametrize(("day", "wrong"), [("2026-05-12", 0), ("2026-05-13", 1)])
def test_what_was_fitted_on_the_last_day_was_there_to_be_seen(
    folder: Any, installed: Any, photos: Any, good: Any, day: str, wrong: int
) -> None:
    fitted = good["findings.yaml"].replace("kind: belt", f"kind: belt\n    installed: {day}")
    problems = []
    try:
        collect(folder({"findings.yaml": fitted}), installed, photos=photos)
    except JobError as error:
        problems = [each.what for each in error.problems]
    assert len(problems) == wrong
    assert all("lies after the inspection" in each for each in problems)


def test_earlier_visits_are_told_apart(folder: Any, installed: Any, photos: Any, good: Any) -> None:
    """What is wrong in an earlier folder names that folder; one that is later or names this one is refused."""
    older = good["job.yaml"].replace("2026-05-11, 2026-05-12", "2024-05-01")
    folder({"job.yaml": older.replace("purpose: trial", "purpose: trail")}, name="broken")
    folder({"job.yaml": older + "earlier: [../job]\n"}, name="loop")
    folder({"job.yaml": good["job.yaml"].replace("2026-05-12]", "2027-05-12]")}, name="later")
    changes = {
        "job.yaml": good["job.yaml"] + "earlier: [../broken, ../loop, ../later]\n",
        "findings.yaml": good["findings.yaml"].replace("kind: rope", "kind: rope\n    was: port-bell"),
    }
    with pytest.raises(JobError) as told:
        collect(folder(changes), installed, photos=photos)
    assert [(each.file, each.line, each.what) for each in told.value.problems] == [
        ("../broken/job.yaml", 2, "There is no template 'trail'."),
        ("findings.yaml", 25, "'port-bell' is no component of the earlier folders."),
        ("job.yaml", 21, "'../loop' names this job as its own earlier one."),
        ("job.yaml", 21, "The visit of '../later' (2027-05-12) lies after this one (2026-05-12)."),
    ]


def test_all_files_are_told_at_once_even_when_one_cannot_be_read(
    folder: Any, installed: Any, photos: Any, good: Any
) -> None:
    """A syntax error in one file hides nothing in the others, nor a fault of one entry those of the next."""
    changes = {
        "job.yaml": good["job.yaml"].replace("beam: 3.65 m", "beam: 3.65").replace("+01:00", "Nowhere/Atall"),
        "findings.yaml": good["findings.yaml"] + "  - {id: x, kind: belt, examined: [\n",
        "measurements.csv": "component,quantty,value\n",
        "photos/x.jpg/y": "z",
    }
    with pytest.raises(JobError) as told:
        collect(folder(changes), installed, photos=photos)
    assert [(each.file, each.key) for each in told.value.problems] == [
        ("findings.yaml", ""),
        ("job.yaml", "vessel › beam"),
        ("job.yaml", "inspection › time_zone"),
        ("measurements.csv", "quantity"),
        ("measurements.csv", "quantty"),
        ("photos/x.jpg", ""),
    ]


def test_papers_are_hashed_and_named(folder: Any, installed: Any, photos: Any, good: Any) -> None:
    """A document is found by its bare name; its hash is that of its bytes (SHA-256 of "abc": FIPS 180-2, B.1)."""
    job_text = good["job.yaml"] + "documents:\n  - {file: bill.pdf, shows: the invoice}\n"
    job = collect(folder({"job.yaml": job_text, "documents/bill.pdf": "abc"}), installed, photos=photos)
    assert job.sheet.documents[0].file == job.papers[0].name == "documents/bill.pdf"
    assert job.papers[0].sha256 == "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"


def test_empty_keys_count_as_not_given(folder: Any, installed: Any, photos: Any, good: Any) -> None:
    """A form filled in halfway is no error where the key may be left out."""
    job_text = good["job.yaml"].replace("built: 2004", "built:\n  flag: ''\n  draught: ~")
    job = collect(folder({"job.yaml": job_text}), installed, photos=photos)
    assert (job.sheet.vessel.built, job.sheet.vessel.flag, job.sheet.vessel.draught) == (None, "", None)


def test_text_stays_as_it_was_written(folder: Any, installed: Any, photos: Any, good: Any) -> None:
    """1.10, no and 012 are text where text is due."""
    job_text = good["job.yaml"].replace("number: T-1", "number: 1.10").replace("name: A. Tester", "name: no")
    job = collect(folder({"job.yaml": job_text}), installed, photos=photos)
    assert (job.sheet.report.number, job.sheet.people[0].name) == ("1.10", "no")


def test_without_measurements_there_is_a_remark(folder: Any, installed: Any, photos: Any) -> None:
    """A job may have no readings."""
    job = collect(folder({"measurements.csv": None}), installed, photos=photos)
    assert job.readings == ()
    assert job.remarks == ("measurements.csv: not there; the report has no readings.",)


def test_code_in_a_job_folder_is_never_run(folder: Any, installed: Any, photos: Any) -> None:
    """A module named like one of the standard library lies there and stays unread."""
    trap = folder({"signal.py": "raise SystemExit('run')", "photos/signal.py": "raise SystemExit('run')"})
    assert collect(trap, installed, photos=photos).components


@pytest.mark.parametrize("name", ["job.yaml", "findings.yaml", "measurements.csv", "photos/belt.jpg"])
def test_a_pipe_in_place_of_a_file_is_refused_at_once(
    name: str, folder: Any, installed: Any, photos: Any
) -> None:
    """Opening a pipe would wait for ever."""
    root = folder({name: None, "photos/other.jpg": "x"})
    os.mkfifo(root / name)
    with pytest.raises(JobError) as told:
        collect(root, installed, photos=photos)
    assert any("This is a pipe or a device, not a file." in each.what for each in told.value.problems)


@pytest.mark.parametrize("name", ["job.yaml", "findings.yaml", "measurements.csv", "photos/belt.jpg"])
def test_a_link_is_refused(
    name: str, folder: Any, installed: Any, photos: Any, tmp_path: Path, good: Any
) -> None:
    """A link could lead out of the folder."""
    (tmp_path / "elsewhere").write_text(good[name])
    root = folder({name: None, "photos/other.jpg": "x"})
    (root / name).symlink_to(tmp_path / "elsewhere")
    with pytest.raises(JobError) as told:
        collect(root, installed, photos=photos)
    assert any("This is a link, not a file." in each.what for each in told.value.problems)


def test_a_folder_called_like_a_photo_is_refused(folder: Any, installed: Any, photos: Any) -> None:
    """A directory x.jpg is no photo."""
    with pytest.raises(JobError, match="This is a folder, not a file"):
        collect(folder({"photos/x.jpg/inside.jpg": "x"}), installed, photos=photos)


def test_the_exit_code_is_that_of_an_invalid_job(tmp_path: Path, installed: Any, photos: Any) -> None:
    """A folder that is not there exits with 3."""
    with pytest.raises(JobError, match="There is no such folder") as told:
        collect(tmp_path / "nowhere", installed, photos=photos)
    assert told.value.exit_code is ExitCode.JOB_INVALID


@pytest.mark.skipif(os.name != "posix" or os.geteuid() == 0, reason="root may read everything")
def test_a_file_that_may_not_be_read_is_told(folder: Any, installed: Any, photos: Any) -> None:
    """Missing permission is a problem of the folder, not of the program."""
    root = folder()
    (root / "job.yaml").chmod(0)
    with pytest.raises(JobError, match="cannot be opened"):
        collect(root, installed, photos=photos)


def test_refused_permission_is_told(
    folder: Any, installed: Any, photos: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The same where the tests run as root: the system's refusal is simulated."""
    root = folder()
    allowed = Path.read_bytes

    def refuse(path: Path) -> bytes:
        if path.name == "job.yaml":
            raise PermissionError(13, "Permission denied")
        return allowed(path)

    monkeypatch.setattr(Path, "read_bytes", refuse)
    with pytest.raises(JobError, match="cannot be opened: permission denied"):
        collect(root, installed, photos=photos)
