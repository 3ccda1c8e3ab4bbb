"""The data that the report prints, written from the model through the template's disclosure list.

Private notes, positions and serials cannot get here: each file is written field by field from what may be told.
"""

from __future__ import annotations

import csv
import io
import json
import zlib
from collections.abc import Callable, Sequence
from typing import Literal

import yaml

from reporter.engineering import units
from reporter.model.assessment import Assessments, Graded
from reporter.model.base import Noun
from reporter.model.cell import inert
from reporter.model.job import Job
from reporter.model.quantity import PartialDate, Value
from reporter.model.report import Attachment
from reporter.model.template import Template
from reporter.outline.telling import in_units_told
from reporter.wording import catalogue

FORMAT = 2
"""Of assessments.json. In 1 a value stood in SI units beside the name of the unit that it was written in."""


FILES: dict[str, tuple[str, str, Literal["Source", "Data"]]] = {
    "job": ("job.yaml", "application/yaml", "Source"),
    "findings": ("findings.yaml", "application/yaml", "Source"),
    "measurements": ("measurements.csv", "text/csv", "Source"),
    "assessments": ("assessments.json", "application/json", "Data"),
    "photo_register": ("photo_register.csv", "text/csv", "Data"),
}
"""Data set -> the file that carries it, its type, and what it is to the report: what it was made from, or more about it."""


def attachments(job: Job, assessments: Assessments, template: Template) -> tuple[Attachment, ...]:
    """The files carried inside the PDF, under fixed names, in a fixed order."""
    words, allowed = catalogue(job.sheet.lang), disclosed(job, template)
    made: dict[str, Callable[[], str]] = {
        "job": lambda: _job(job),
        "findings": lambda: _findings(job),
        "measurements": lambda: _readings(job),
        "assessments": lambda: assessed(_printed(assessments, template)),
        "photo_register": lambda: _register(job),
    }
    return tuple(
        Attachment(
            name=name,
            media_type=media,
            description=words(f"attached.{ident}"),
            packed=zlib.compress(made[ident]().encode("utf-8")),
            relationship=relationship,
        )
        for ident, (name, media, relationship) in FILES.items()
        if ident in allowed
    )


def carries(job: Job) -> bool:
    """False where this version of the report leaves its data out."""
    return "data" not in job.left_out


def disclosed(job: Job, template: Template) -> tuple[str, ...]:
    """The data sets that the PDF carries: those that the template discloses, of them those that the job allows."""
    allowed = set(job.sheet.disclose or template.discloses)
    return tuple(name for name in template.discloses if name in allowed)


def _printed(assessments: Assessments, template: Template) -> Assessments:
    """Without what only sections tell that the template leaves out: earlier records, recommendations, the schedule."""
    history, told = assessments.history, set(template.sections)
    if "history" not in told:
        history = history.model_copy(update={"changes": (), "visits": (), "remarks": ()})
    if "completion" not in told:
        history = history.model_copy(update={"carried": ()})
    due = assessments.schedule if "schedule" in told else ()
    return assessments.model_copy(update={"history": history, "schedule": due})


def _plain(noun: object) -> object:
    """Values and dates as the inspector wrote them; empty things left out."""
    if isinstance(noun, Noun) and not isinstance(noun, Value | PartialDate):
        rows = ((key, _plain(getattr(noun, key))) for key in type(noun).model_fields if key not in HIDDEN)
        return {key: value for key, value in rows if value not in (None, "", [], {})}
    if isinstance(noun, dict):
        return {key: _plain(value) for key, value in noun.items()}
    if isinstance(noun, tuple | list):
        return [_plain(value) for value in noun]
    return None if noun is None else _scalar(noun)


def _scalar(value: object) -> str:
    if isinstance(value, bool):
        return "yes" if value else "no"
    return _written(value) if isinstance(value, Value) else str(value)


HIDDEN = frozenset({"private", "earlier", "contact", "address"})


def _written(value: Value) -> str:
    has_unit = any(char.isalpha() or char in "°%\"'" for char in value.written)
    return value.written if has_unit or not value.unit else f"{value.written} {value.unit}"


def _yaml(data: object) -> str:
    """Block YAML in which every scalar is a string, as the job folder is read."""
    # The dumper in C writes the same in a fifth of the time; an installation may lack it.
    dumper = getattr(yaml, "CSafeDumper", yaml.SafeDumper)
    return str(yaml.dump(data, Dumper=dumper, sort_keys=False, allow_unicode=True, width=100))


def _job(job: Job) -> str:
    return _yaml(_plain(job.sheet))


def _findings(job: Job) -> str:
    paths = {"paths": [_plain(path) for path in job.paths]} if job.paths else {}
    return _yaml({"format": 1, **paths, "components": [_plain(part) for part in job.components]})


def _readings(job: Job) -> str:
    names = (
        "component",
        "quantity",
        "at",
        "state",
        "side",
        "value",
        "unit",
        "uncertainty",
        "instrument",
        "note",
    )
    rows: list[tuple[str, ...]] = [
        (
            each.component,
            each.quantity,
            each.at,
            each.state.value,
            each.side,
            each.value.written,
            each.value.unit,
            f"{units.from_base(2 * each.value.u, each.value.unit):.6g}" if each.value.u else "",
            each.instrument,
            each.note,
        )
        for each in job.readings
    ]
    return _csv(names, rows)


def _register(job: Job) -> str:
    names = ("file", "taken", "offset_basis", "correction_s", "camera", "width", "height", "sha256")
    rows = []
    for file in job.photos:
        taken = file.taken
        when = taken.time.isoformat() if taken else ""
        basis, correction = (taken.offset_basis.value, f"{taken.correction:g}") if taken else ("", "")
        rows.append(
            (file.name, when, basis, correction, file.camera, str(file.width), str(file.height), file.sha256)
        )
    return _csv(names, rows)


def _csv(names: tuple[str, ...], rows: Sequence[tuple[str, ...]]) -> str:
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow(names)
    writer.writerows([inert(cell) for cell in row] for row in rows)
    return out.getvalue()


def assessed(assessments: Assessments) -> str:
    """Grades, checks and actions; the findings themselves are in findings.yaml. What is yet unspoken stands as ids.

    Every number stands in the unit beside it, with its expanded uncertainty `U` (k = 2) in that unit.
    """
    told = in_units_told({"format": FORMAT, **assessments.model_dump(mode="json", exclude={"components"})})
    return _json(told | {"components": assessments.components})


def _part(part: Graded) -> object:
    """One component as plain data, made when its turn comes: those of all take more room than what they are made of."""
    data = part.model_dump(mode="json", exclude={"component"})
    return in_units_told({**data, "id": part.component.id, "kind": part.component.kind})


def _json(data: object) -> str:
    """Text put down piece by piece: all pieces at once, most of a few characters, take ten times its room and more."""
    text = io.BytesIO()  # one for text would gather the pieces
    for piece in json.JSONEncoder(ensure_ascii=False, indent=1, sort_keys=True, default=_part).iterencode(
        data
    ):
        text.write(piece.encode())
    return text.getvalue().decode()
