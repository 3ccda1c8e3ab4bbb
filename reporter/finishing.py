"""Steps 4 to 6 of a run, the same for every document: photos, pages, a file.

Comes in: a composed Report, the job folder, the target. Goes out: one PDF or one page for a browser, whole or not at all.
"""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

from reporter.machine.scratch import refuse_without, scratch
from reporter.model.pages import Picture
from reporter.model.report import Report

if TYPE_CHECKING:
    from reporter.door.workers import Progress
    from reporter.errors import Problem

Tell = Callable[[str], None]
WEB = {".html", ".htm"}
"""Endings of a target that ask for a page for a browser."""


def write(
    document: Report,
    folder: Path,
    target: Path,
    *,
    dpi: int,
    keep_going: bool = False,
    keep: bool = False,
    tell: Tell,
    told: Progress | None = None,
    say: Callable[[str], str] = str,
) -> list[Problem]:
    """Steps 4 to 6: a Report to a page for a browser when `target` ends in .html, else to a PDF.

    Returns the photos that plates stand in for; there are none without `keep_going`. `say` puts why into their language.
    """
    from reporter.develop import develop, kept_pictures, reckon
    from reporter.door import close, named

    room = reckon(document, folder, dpi=dpi)
    refuse_without(room, target.parent, "Make room there, or choose another place.")
    # Beside the copies stand the pages, which hold them once more.
    with scratch(2 * room) as place:
        tell("4 develop")
        kept = kept_pictures() if keep else None
        pictures = develop(
            document, folder, place, dpi=dpi, keep_going=keep_going, told=told, kept=kept, say=say
        )
        # The workers' memory is not needed while pages are made.
        close()
        last = _web if target.suffix.lower() in WEB else _pdf
        last(document, pictures, place, target, tell)
    return named((name, picture.problem) for name, picture in pictures.items() if picture.problem)


def _pdf(document: Report, pictures: dict[str, Picture], scratch: Path, target: Path, tell: Tell) -> None:
    from reporter.archive import archive
    from reporter.typeset import typeset

    tell("5 typeset")
    pages = typeset(document, pictures, scratch / "pages.pdf")
    tell("6 archive")
    archive(document, pages, target)


def _web(document: Report, pictures: dict[str, Picture], _scratch: Path, target: Path, tell: Tell) -> None:
    from reporter.archive import write_text
    from reporter.web import web

    tell("5 web")
    write_text(web(document, pictures), target)
