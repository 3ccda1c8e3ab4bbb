"""A received report held against the folder that it is said to be made from: its photos, and the report made again."""

from __future__ import annotations

import csv
from hashlib import sha256
from io import StringIO
from itertools import count
from pathlib import Path

from reporter.machine.scratch import scratch
from reporter.model.sealed import Corroboration, SealInspection, remark
from reporter.proving.regrading import CarriedData


def folder_evidence(
    file: Path, job: Path, found: SealInspection, data: CarriedData, template: Path | None
) -> Corroboration:
    """Photos by their SHA-256, and where the version is the same the report made again, byte for byte."""
    photos = _photos(job, data.photos)
    pages = _made_again(file, job, found, data, template) if data.comparable else Corroboration()
    return Corroboration(
        remarks=(*photos.remarks, *pages.remarks), agrees=photos.agrees and pages.agrees, limits=photos.limits
    )


def _photos(job: Path, register: bytes) -> Corroboration:
    """Every photo of the register is in the folder and the same; a name in it is compared, never opened."""
    if not register:
        return Corroboration()
    there = {
        path.relative_to(job).as_posix(): path
        for path in sorted((job / "photos").rglob("*"))
        if path.is_file()
    }
    rows = list(csv.DictReader(StringIO(register.decode("utf-8", "replace"))))
    other = [
        str(row.get("file"))
        for row in rows
        if (path := there.get(str(row.get("file")))) is None
        or sha256(path.read_bytes()).hexdigest() != row.get("sha256")
    ]
    if other:
        return Corroboration(remarks=(remark("verify.photos_not", names=", ".join(other)),), agrees=False)
    return Corroboration(remarks=(remark("verify.photos", count=len(rows)),))


def _made_again(
    file: Path, job: Path, found: SealInspection, data: CarriedData, template: Path | None
) -> Corroboration:
    from reporter import pipeline
    from reporter.outputs.installed import template_in
    from reporter.registry import find, load

    chosen = template_in(template) if template else None
    with scratch() as room:
        again = room / "again.pdf"
        pipeline.report(
            job, again, load(find()), chosen, lang=data.lang, audience=data.audience, tell=lambda _step: None
        )
        made = again.read_bytes()
    with file.open("rb") as received:
        sealed = received.read(found.report_bytes)
    if made == sealed:
        return Corroboration(remarks=(remark("verify.remade"),))
    first = next(at for at in count() if made[at : at + 1] != sealed[at : at + 1])
    return Corroboration(remarks=(remark("verify.remade_not", place=first),), agrees=False)
