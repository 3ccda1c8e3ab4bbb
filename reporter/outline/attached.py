"""The data that the report prints, written from the model through the template's disclosure list.

Private notes, positions and serials cannot get here: each file is written field by field from what may be told.
"""

from __future__ import annotations

import csv
import io
import json
import zlib
from collections.abc import Callable, Iterable, Sequence
from typing import Any, Literal

import yaml

from reporter.engineering import units
from reporter.model.assessment import Assessments, Graded
from reporter.model.base import Noun
from reporter.model.cell import inert
from reporter.model.job import Job, Reading
from reporter.model.quantity import PartialDate, Value
from reporter.model.report import Attachment
from reporter.model.template import Template
from reporter.model.terms import BASE_UNIT, Dimension
from reporter.wording import catalogue

VALUE = frozenset(Value.model_fields)
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
        "job": lambda: _yaml(_plain(job.sheet)),
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
    if isinstance(noun, bool):
        return "yes" if noun else "no"
    if isinstance(noun, Value):
        return _written(noun)
    return None if noun is None else str(noun)


HIDDEN = frozenset({"private", "earlier", "contact", "address"})


def _written(value: Value) -> str:
    has_unit = any(char.isalpha() or char in "°%\"'" for char in value.written)
    return value.written if has_unit or not value.unit else f"{value.written} {value.unit}"


def _yaml(data: object) -> str:
    """Block YAML in which every scalar is a string, as the job folder is read."""
    # The dumper in C writes the same in a fifth of the time; an installation may lack it.
    dumper = getattr(yaml, "CSafeDumper", yaml.SafeDumper)
    return str(yaml.dump(data, Dumper=dumper, sort_keys=False, allow_unicode=True, width=100))


def _findings(job: Job) -> str:
    paths = {"paths": [_plain(path) for path in job.paths]} if job.paths else {}
    return _yaml({"format": 1, **paths, "components": [_plain(part) for part in job.components]})


def _readings(job: Job) -> str:
    columns: dict[str, Callable[[Reading], str]] = {
        "component": lambda each: each.component,
        "quantity": lambda each: each.quantity,
        "at": lambda each: each.at,
        "state": lambda each: each.state.value,
        "side": lambda each: each.side,
        "value": lambda each: each.value.written,
        "unit": lambda each: each.value.unit,
        "uncertainty": lambda each: (
            f"{units.from_base(2 * each.value.u, each.value.unit):.6g}" if each.value.u else ""
        ),
        "instrument": lambda each: each.instrument,
        "note": lambda each: each.note,
    }
    return _csv(columns, ([told(each) for told in columns.values()] for each in job.readings))


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


def _csv(names: Iterable[str], rows: Iterable[Sequence[str]]) -> str:
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


def in_units_told(data: Any) -> Any:
    """What `model_dump(mode="json")` gives, every number in the unit beside it.

    Each `Value` comes out as value, `U` (expanded uncertainty, k = 2) and unit of one and the same scale; a spread of repeats
    stands in the unit of its value.
    """
    if isinstance(data, dict):
        if set(data) == VALUE:
            return _value(data)
        told = {key: in_units_told(each) for key, each in data.items() if key not in _worded(data)}
        if "spread" in data and isinstance(data.get("value"), dict):
            told["spread"] = _in(data["spread"], _unit(data["value"]))
        return told
    if isinstance(data, list):
        return [in_units_told(each) for each in data]
    return data


def _worded(data: dict[str, Any]) -> frozenset[str]:
    """Words of a limit, a sum or a symbol: they stand behind its id, in whatever language they are asked for."""
    if "sense" in data and "then" in data:
        return frozenset({"of", "note", "written_for"})
    if "formula" in data and "inputs" in data:
        return frozenset({"title"})
    return frozenset({"meaning"}) if "symbol" in data else frozenset()


def _value(data: dict[str, Any]) -> dict[str, Any]:
    unit = _unit(data)
    numbers = {"value": _in(data["value"], unit), "U": _in(2 * data["u"], unit), "unit": unit}
    return numbers | {"dimension": data["dimension"], "written": data["written"], "note": data["note"]}


def _unit(data: dict[str, Any]) -> str:
    """The unit that the value was written in, else that of its dimension."""
    return data["unit"] or BASE_UNIT[Dimension(data["dimension"])]


def _in(base: float, unit: str) -> float:
    # Twelve figures lose nothing that was measured, and none of the noise of a conversion stays (3.8000000000000003).
    return float(format(units.from_base(base, unit), ".12g"))
