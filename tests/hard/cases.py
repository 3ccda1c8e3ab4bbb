"""The classes of cases: each spoils a fresh copy of the base in its own way and says which commands are tried on it."""

from __future__ import annotations

import random
import shutil
from collections.abc import Callable
from pathlib import Path
from typing import NamedTuple

from tests.hard import documents, photos, sheets, spoiling
from tests.hard.faults import FAULTS
from tests.hard.making import Made, old_target
from tests.hard.running import Step

Maker = Callable[[random.Random, Path], Made]
JOB = "../job"


class Class(NamedTuple):
    """How often a class is drawn among all, and what makes its cases."""

    weight: int
    make: Maker


def _commands(chance: random.Random, folder: Path, *words: str) -> list[Step]:
    """`check`, a report, and one of the other commands that read a folder."""
    lang = ("--lang", "de") if chance.random() < 0.15 else ()
    check = Step(("check", JOB, *words, *lang, *(("--json",) if chance.random() < 0.2 else ())))
    return [check, _report(chance, folder, *lang), chance.choice(_OTHERS)(chance, folder)]


def _report(chance: random.Random, folder: Path, *words: str) -> Step:
    name = chance.choice(("r.pdf", "r.pdf", "r.html"))
    old_target(chance, folder, name)
    going = ("--keep-going",) if chance.random() < 0.2 else ()
    readers = ("--for", chance.choice(("buyer", "public"))) if chance.random() < 0.1 else ()
    return Step(("report", JOB, "-o", name, "-q", *going, *readers, *words), name)


def _written(command: str, *names: str) -> Callable[[random.Random, Path], Step]:
    def make(chance: random.Random, folder: Path) -> Step:
        name = chance.choice(names)
        if not name:
            return Step((command, JOB))
        old_target(chance, folder, name)
        return Step((command, JOB, "-o", name), name)

    return make


def _due(chance: random.Random, _folder: Path) -> Step:
    calendar = ("--ics", "d.ics") if chance.random() < 0.6 else ()
    day = ("--as-of", chance.choice((*spoiling.NASTY[42:50], "2027-01-01"))) if chance.random() < 0.2 else ()
    return Step(
        ("due", JOB, "--by", chance.choice(("date", "place", "supply")), *day, *calendar),
        calendar[-1] if calendar else "",
    )


def _compare(chance: random.Random, _folder: Path) -> Step:
    return Step(("compare", f"{JOB}/outgoing", JOB, *chance.choice(((), ("--all",)))))


def _take(chance: random.Random, _folder: Path) -> Step:
    return Step(("take", JOB, "../given/sheet.pdf", *chance.choice(((), ("--replace",)))))


def _verify(_chance: random.Random, _folder: Path) -> Step:
    return Step(("verify", "../given/sealed.pdf", JOB))


_OTHERS = (
    _written("work", "w.pdf", "w.csv", "w.csv", "w.html"), _written("plan", "", "", "p.pdf", "p.html"),
    _written("sheet", "s.pdf"), _due, _due, _compare, _take, _verify,
)  # fmt: skip


def _text(name: str) -> Maker:
    def make(chance: random.Random, folder: Path) -> Made:
        place = folder / "job" / chance.choice((name, name, name, name, f"outgoing/{name}"))
        place.write_bytes(spoiling.text(chance, place.read_bytes()))
        return Made(_commands(chance, folder))

    return make


def _photos(chance: random.Random, folder: Path) -> Made:
    """One to three photos spoilt, one of them perhaps called otherwise."""
    found = sorted((folder / "job/photos").iterdir())
    for place in chance.sample(found, chance.choice((1, 1, 2, 3))):
        place.write_bytes(photos.spoilt(chance, place.read_bytes()))
        if chance.random() < 0.2:
            ending = chance.choice((".png", ".HEIC", ".tiff", ".JPEG", ".webp", ".mp4", ""))
            _called(folder, place, place.with_suffix(ending))
    return Made(_commands(chance, folder, "--photos"))


def _called(folder: Path, old: Path, new: Path) -> None:
    old.rename(new)
    findings = folder / "job/findings.yaml"
    findings.write_text(findings.read_text("utf-8").replace(old.name, new.name), "utf-8")


def _template(chance: random.Random, folder: Path) -> Made:
    place = folder / "given/mine.toml"
    place.write_bytes(spoiling.text(chance, place.read_bytes()))
    words = (JOB, "--template", "../given/mine.toml")
    return Made([Step(("check", *words)), Step(("report", *words, "-o", "r.pdf"), "r.pdf")])


def _kind(chance: random.Random, folder: Path) -> Made:
    place = folder / "given/brake.toml"
    place.write_bytes(spoiling.text(chance, place.read_bytes()))
    return Made([Step(("plugins", "--check", "../given/brake.toml"))])


def _document(chance: random.Random, folder: Path) -> Made:
    """A PDF spoilt, and every command that reads one."""
    name = chance.choice(("report.pdf", "sealed.pdf", "sheet.pdf"))
    place = folder / "given" / name
    place.write_bytes(documents.spoilt(chance, place.read_bytes()))
    given = f"../given/{name}"
    steps = [Step(("extract", given, "-o", "data"), "data"),
             Step(("verify", given, *chance.choice(((), (JOB,), ("--json",), ("--lang", "de"))))),
             Step(("take", JOB, given))]  # fmt: skip
    over = shutil.copy(place, folder / "out/r.pdf") if chance.random() < 0.2 else ""
    return Made([*steps, Step(("plan", JOB, "-o", "r.pdf"), "?r.pdf")] if over else steps)


def _sheet(chance: random.Random, folder: Path) -> Made:
    """A sheet filled in at random and taken back: what the folder then holds is checked, reported and proved."""
    sheets.fill(chance, folder / "given/empty.pdf", folder / "given/sheet.pdf")
    return Made([_take(chance, folder), *_commands(chance, folder)])


def _words(chance: random.Random, _folder: Path) -> Made:
    """Words of the command line that nobody expects."""
    nasty = [each for each in spoiling.NASTY if "\0" not in each and len(each) < 1000]
    word = chance.choice(nasty)
    tried = (
        ("describe", "--", word), ("describe", "chain", "--terms", word), ("due", JOB, f"--as-of={word}"), ("check", "--", word),
        ("compare", "--", word, JOB), ("verify", "--", word), ("check", JOB, f"--lang={word}"), ("check", JOB, f"--fail-on={word}"),
        ("plan", f"--kinds={word}"), ("extract", "-o", "data", "--", word), ("take", "--", JOB, word), ("report", JOB, f"--for={word}"),
        ("check", JOB, f"--template={word}"),
    )  # fmt: skip
    return Made([Step(chance.choice(tried))])


def _target(chance: random.Random, folder: Path) -> Made:
    """What stands where one would write, and must stay."""
    (folder / "out/mine.txt").write_text("my own", "utf-8")
    (folder / "out/link.pdf").symlink_to("../given/report.pdf")
    (folder / "out/shelf").mkdir()
    places = ("../job/job.yaml", "../job/photos/brake.jpg", "../job/photos/new.pdf", "../job/documents/x.pdf", "mine.txt",
              "link.pdf", "shelf", "/dev/null", "/dev/full", "nowhere/x.pdf", "../given/sealed.pdf", "../given/sheet.pdf",
              "../given/brake.toml", "mine.txt/x.pdf")  # fmt: skip
    command, option = chance.choice(
        (("report", "-o"), ("work", "-o"), ("plan", "-o"), ("sheet", "-o"), ("due", "--ics"))
    )
    return Made([Step((command, JOB, option, chance.choice(places)), "!")])


def _new(chance: random.Random, folder: Path) -> Made:
    """A folder begun from a heap of spoilt photos, and checked."""
    heap = folder / "given/heap"
    shutil.copytree(folder / "job/photos", heap)
    for place in sorted(heap.iterdir()):
        if chance.random() < 0.4:
            place.write_bytes(photos.spoilt(chance, place.read_bytes()))
    options = [
        f"--{name}={chance.choice(spoiling.NASTY)}"
        for name in ("boat", "author", "place")
        if chance.random() < 0.6
    ]
    words = ("new", "begun", "--photos", "../given/heap", *(each for each in options if "\0" not in each))
    return Made([Step(words, "begun"), Step(("check", "begun"), "begun")])


CLASSES: dict[str, Class] = {
    "job.yaml": Class(22, _text("job.yaml")),
    "findings.yaml": Class(26, _text("findings.yaml")),
    "measurements.csv": Class(14, _text("measurements.csv")),
    "photos": Class(12, _photos),
    "template": Class(6, _template),
    "kind": Class(8, _kind),
    "documents": Class(14, _document),
    "sheets": Class(8, _sheet),
    "words": Class(5, _words),
    "targets": Class(3, _target),
    "new": Class(3, _new),
    **{name: Class(*each) for name, each in FAULTS.items()},
}


def drawn(seed: int, number: int) -> tuple[str, random.Random]:
    """The class of one case, and its own source of chance: both follow from seed and number alone."""
    chance = random.Random(f"{seed}:{number}")  # noqa: S311 - nothing secret
    return chance.choices(list(CLASSES), [each.weight for each in CLASSES.values()])[0], chance
