"""What every case begins with: a small job with its earlier visit, its filled sheet, its report, plain and sealed, a kind, a template."""

from __future__ import annotations

import datetime as dt
import re
import shutil
from pathlib import Path

import pikepdf
from pikepdf.form import CheckboxField, Form
from PIL import Image

from reporter import pipeline, visiting
from reporter.door import close
from reporter.registry import find, load
from reporter.seal import add_signature, make_key, open_key

ROOT = Path(__file__).parents[2]
PARTS = ("wheel-brake", "chain", "chainplate-starboard", "terminal-cap-starboard")
EARLIER = ("chain",)
WIDTH = 200
"""Pixels: a report then takes well under a second."""
_PASSWORD = "four words that differ"  # noqa: S105 - of a key that lives as long as the run


def make(folder: Path) -> Path:
    """Write everything into `folder`, which is new; two to three seconds."""
    job, given = folder / "job", folder / "given"
    given.mkdir(parents=True)
    _small(ROOT / "demo_job", job, PARTS)
    _small(ROOT / "demo_job/outgoing", job / "outgoing", EARLIER)
    shutil.copy(ROOT / "plugins/steering/wheel_brake.toml", given / "brake.toml")
    shutil.copy(ROOT / "templates/pre_purchase.toml", given / "mine.toml")
    registry = load(find())
    pipeline.report(job, given / "report.pdf", registry, tell=_nobody)
    visiting.sheet(job, given / "empty.pdf", registry, tell=_nobody)
    _fill(given / "empty.pdf", given / "sheet.pdf")
    _seal(given, folder / "me.p12")
    close()
    return folder


def _nobody(_step: str) -> None:
    """Progress is not told."""


def _small(source: Path, target: Path, parts: tuple[str, ...]) -> None:
    """The folder with these parts alone, and its photos reduced."""
    target.mkdir()
    for each in ("job.yaml", "documents"):
        (shutil.copytree if (source / each).is_dir() else shutil.copy)(source / each, target / each)
    pieces = re.split(
        r"(?m)^(?=  - id: )", (source / "findings.yaml").read_text("utf-8").split("components:")[1]
    )
    kept = "".join(piece for piece in pieces if _named(piece, "  - id: ") in parts)
    (target / "findings.yaml").write_text(f"format: 1\ncomponents:\n{kept}", "utf-8")
    head, *rows = (source / "measurements.csv").read_text("utf-8").splitlines(keepends=True)
    kept_rows = [row for row in rows if row.split(",")[0] in parts]
    (target / "measurements.csv").write_text("".join([head, *kept_rows]), "utf-8")
    (target / "photos").mkdir()
    for name in set(re.findall(r"\w+\.jpg", kept)):
        with Image.open(source / "photos" / name) as photo:
            small = photo.resize((WIDTH, WIDTH * photo.height // photo.width))
            small.save(target / "photos" / name, exif=photo.getexif())
    _without_lost_parts(target / "job.yaml")


def _named(piece: str, key: str) -> str:
    return piece.removeprefix(key).partition("\n")[0].strip()


def _without_lost_parts(sheet: Path) -> None:
    """What happened to parts that are not in the small folder would name nothing."""
    text = sheet.read_text("utf-8")
    sheet.write_text(re.sub(r"(?ms)^incidents:.*?(?=^\w|\Z)", "", text), "utf-8")


def _fill(sheet: Path, target: Path) -> None:
    """A tick or a word in every third field."""
    with pikepdf.open(sheet) as pdf:
        for number, field in enumerate(Form(pdf)):
            if number % 3 == 0 and isinstance(field, CheckboxField):
                field.checked = True
            elif number % 3 == 0 and hasattr(field, "default_value"):
                field.value = "254.5"  # type: ignore[union-attr]  # a text or a choice
        pdf.save(target)


def _seal(given: Path, key: Path) -> None:
    make_key(key, "Rowan Teale", _PASSWORD, dt.datetime.now(dt.UTC) - dt.timedelta(minutes=1))
    sealed = add_signature((given / "report.pdf").read_bytes(), open_key(key, _PASSWORD))
    (given / "sealed.pdf").write_bytes(sealed)
    key.unlink()
