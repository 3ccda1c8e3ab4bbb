"""The photo register: time and its basis, camera without serial, size, hash, where used; unused photos by name."""

from __future__ import annotations

from reporter.model.photo import PhotoFile
from reporter.model.report import Block, Cell, Column, Paragraph, Table, plain
from reporter.outline.blocks import cell, heading, note
from reporter.outline.desk import Desk
from reporter.outline.earlier_photos import old_photos
from reporter.outline.photos import clock
from reporter.wording.numbers import number


def write(desk: Desk) -> list[Block]:
    """One row per file used, in plate order; then the files not used."""
    words = desk.words
    uses: dict[str, list[tuple[int, str]]] = {}
    for part in desk.assessments.components:
        for place, use in enumerate(part.component.photos):
            if file := desk.job.photo(use.file):
                uses.setdefault(file.name, []).append((desk.plates[part.component.id, place], part.title))
    used = [file for file in desk.job.photos if file.name in uses]
    used.sort(key=lambda file: uses[file.name][0])
    blocks: list[Block] = [heading(desk, "photo_register")]
    if not used:
        return [*blocks, Paragraph(text=plain(words("photo.none")))]
    columns = tuple(
        Column(title=words(f"photo.register_{title}"), share=share)
        for title, share in (
            ("number", 0.5),
            ("file", 1.6),
            ("time", 1.7),
            ("camera", 1.1),
            ("size", 1.2),
            ("hash", 2.4),
        )
    )
    rows = [_row(desk, file, uses[file.name]) for file in used]
    for old in (each for row in old_photos(desk).values() for each in row):
        number, *rest = _row(desk, old.file, [(old.plate, old.title)])
        rows.append((number, cell(f"{old.job.sheet.report.number}: {_bare(old.file)}"), *rest[1:]))
    blocks += [note(words("photo.register_note")), Table(columns=columns, rows=tuple(rows))]
    if unused := [file.name.removeprefix("photos/") for file in desk.job.photos if file.name not in uses]:
        blocks.append(note(words("photo.unused", names=words.listed(unused))))
    return blocks


def _row(desk: Desk, file: PhotoFile, uses: list[tuple[int, str]]) -> tuple[Cell, ...]:
    words = desk.words
    time = words("photo.no_time")
    if file.taken:
        basis = words(f"photo.basis_{file.taken.offset_basis}")
        if file.taken.correction:
            basis += f"; {words('photo.corrected', seconds=number(file.taken.correction, decimals=0))}"
        time = f"{clock(file.taken)} ({basis})"
    return (
        Cell(text=plain(", ".join(str(plate) for plate, _ in uses)), head=True),
        cell(_bare(file)),
        cell(time),
        cell(file.camera or words("photo.unknown_camera")),
        cell(words("photo.pixels", width=file.width, height=file.height)),
        cell(file.sha256),
    )


def _bare(file: PhotoFile) -> str:
    return file.name.removeprefix("photos/")
