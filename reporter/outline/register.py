"""The photo register: time, and once for all how it is known, camera without serial, size, hash, where used; unused photos by name."""

from __future__ import annotations

from reporter.model.photo import PhotoFile
from reporter.model.report import Block, Cell, Paragraph, plain
from reporter.outline.blocks import cell, heading, note, table
from reporter.outline.context import BOAT, Context
from reporter.outline.earlier_photos import old_photos
from reporter.outline.photos import known_by, taken_at
from reporter.wording import joined


def write(context: Context) -> list[Block]:
    """One row per file used, in plate order; then the files not used."""
    words = context.words
    uses: dict[str, list[tuple[int, str]]] = {}
    for place, name in enumerate(context.job.sheet.vessel.photos.values()):
        if file := context.job.photo(name):
            uses.setdefault(file.name, []).append((context.plates[BOAT, place], ""))
    for part in context.assessments.components:
        for place, use in enumerate(part.component.photos):
            if file := context.job.photo(use.file):
                uses.setdefault(file.name, []).append((context.plates[part.component.id, place], part.title))
    used = [file for file in context.job.photos if file.name in uses]
    used.sort(key=lambda file: uses[file.name][0])
    blocks: list[Block] = [heading(context, "photo_register")]
    if not used:
        return [*blocks, Paragraph(text=plain(words("photo.none")))]
    rows = [_row(context, file, uses[file.name]) for file in used]
    rows += [
        _row(context, old.file, [(old.plate, old.title)], old.job.sheet.report.number)
        for row in old_photos(context).values()
        for old in row
    ]
    files = [(uses[file.name][0][0], file) for file in used]
    files += [(old.plate, old.file) for row in old_photos(context).values() for old in row]
    said = joined(" ", words("photo.register_note"), known_by(context, files))
    blocks += [note(said), table(words, "register", rows, number=0.4, file=2.0, time=1.7, hash=3.2)]
    if unused := [file.name.removeprefix("photos/") for file in context.job.photos if file.name not in uses]:
        blocks.append(note(words("photo.unused", names=words.listed(unused))))
    return blocks


def _row(
    context: Context, file: PhotoFile, uses: list[tuple[int, str]], report: str = ""
) -> tuple[Cell, ...]:
    """One file; `report` is the number of the earlier report that it belongs to."""
    words = context.words
    name = f"{report}: {_bare(file)}" if report else _bare(file)
    pixels = words("photo.pixels", width=file.width, height=file.height)
    return (
        Cell(text=plain(", ".join(str(plate) for plate, _ in uses)), head=True),
        cell(", ".join((name, file.camera or words("photo.unknown_camera"), pixels))),
        cell(taken_at(context, file)),
        cell(file.sha256),
    )


def _bare(file: PhotoFile) -> str:
    return file.name.removeprefix("photos/")
