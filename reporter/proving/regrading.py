"""The data inside a report, taken out and graded again: do the assessments follow from them.

Runs in a worker, since the data are a stranger's. History and schedule are left out of the comparison: they rest on earlier
folders, which a report does not carry, and stand in it as far as its template prints them.
"""

from __future__ import annotations

import json
from pathlib import Path

from reporter.archive import data_of, maker, origin
from reporter.errors import GudgeonError
from reporter.machine.scratch import scratch
from reporter.model.base import Noun
from reporter.model.sealed import Corroboration, data_hash, grouped, remark
from reporter.wording import languages

COMPARED = ("components", "systems", "sources", "yardsticks", "relaxed_limits", "format")
NEEDED = {"job.yaml", "findings.yaml", "measurements.csv", "assessments.json"}


class CarriedData(Noun):
    """What a report carries and what became of it; `comparable` where the same version of this program made it."""

    number: str = ""
    photos: bytes = b""
    lang: str = ""
    audience: str = ""
    comparable: bool = False
    evidence: Corroboration = Corroboration()


def carried(path: str, template: str = "") -> CarriedData:
    """The number of the data at `path`, and whether they give the assessments that stand beside them."""
    file = Path(path)
    try:
        data, made = data_of(file), origin(file)
    except GudgeonError as error:
        return CarriedData(evidence=_ungraded(error))
    number = data_hash(data) if data else ""
    told = [remark("verify.data", number=grouped(number))] if data else []
    comparable = made.maker == maker()
    other = remark("verify.version", maker=made.maker or "?", own=maker())
    graded = _graded(data, template) if comparable else Corroboration(remarks=(other,), limits=True)
    return CarriedData(
        number=number,
        photos=data.get("photo_register.csv", b""),
        lang=made.lang if made.lang in languages() else "",
        audience=made.audience,
        comparable=comparable,
        evidence=graded.model_copy(update={"remarks": (*told, *graded.remarks)}),
    )


def _graded(data: dict[str, bytes], template: str) -> Corroboration:
    if not set(data) >= NEEDED:
        return Corroboration(remarks=(remark("verify.no_data"),), limits=True)
    try:
        differing = _differing(data, template)
    except (GudgeonError, ValueError) as error:
        return _ungraded(error)
    parts = ", ".join(differing)
    told = remark("verify.regraded_not", parts=parts) if differing else remark("verify.regraded")
    return Corroboration(remarks=(told,), agrees=not differing)


def _ungraded(error: Exception) -> Corroboration:
    return Corroboration(remarks=(remark("verify.ungraded", why=str(error).partition("\n")[0]),), limits=True)


def _differing(data: dict[str, bytes], template: str) -> list[str]:
    """The parts of the assessments that grading gives otherwise."""
    from reporter import pipeline
    from reporter.outline.attached import assessed
    from reporter.outputs.installed import template_in
    from reporter.registry import find, load

    registry = load(find())
    with scratch() as place:
        for name, content in data.items():
            (place / name).write_bytes(content)
        job = pipeline.collect(place, registry)
    chosen = template_in(Path(template)) if template else registry.template(job.sheet.purpose)
    again = json.loads(assessed(pipeline.grade(job, registry, chosen)))
    there = json.loads(data["assessments.json"])
    return [name for name in COMPARED if again.get(name) != there.get(name)]
