"""The last stage: laid-out pages become a PDF/A-3a and PDF/UA-1 file; such files are checked and unpacked.

`archive` writes, `verify` reads back, `extract` takes the attached data out again. pikepdf is used here and
in no other stage, and loaded only when one of the three is called. Nothing here decides what a report says
or where it stands on a page.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Mapping
    from pathlib import Path

    from reporter.archive.identity import Origin
    from reporter.model.form import FilledForm
    from reporter.model.pages import Pages
    from reporter.model.report import Report

__all__ = [
    "archive",
    "data_of",
    "extract",
    "maker",
    "may_write",
    "origin",
    "read_form",
    "verify",
    "write_finished",
    "write_folder",
    "write_text",
]


def archive(report: Report, pages: Pages, target: Path) -> None:
    """Write `pages` to `target` as PDF/A-3a (ISO 19005-3) and PDF/UA-1 (ISO 14289-1), checked first.

    The same report and pages give the same bytes. Raises CannotWriteError when `target` cannot be written or
    replaced, and VerificationError when the result does not pass `verify`; what was at `target` is then
    unchanged. GudgeonError: an attachment's name is not in `attached.ATTACHED`.
    """
    from reporter.archive.archiving import archive

    archive(report, pages, target)


def verify(path: Path) -> list[str]:
    """Tell in plain sentences what is wrong with the PDF at `path` as one of our reports: [] when in order.

    Looks at marks, structure tree, ParentTree, annotations, fonts, metadata, colours and attached files: what
    PDF/A-3a (ISO 19005-3) and PDF/UA-1 (ISO 14289-1) ask of the things this program writes. It is not a full
    validator, and says nothing about who wrote the file. Raises UsageError when there is no such file.
    """
    from reporter.archive.verifying import find_faults

    return find_faults(path)


def extract(path: Path, folder: Path) -> list[Path]:
    """Write the files attached to the report at `path` into `folder`, made when missing; return their paths.

    All or nothing: an attached name outside `attached.ATTACHED`, a file over 64 MiB or an encoding other than our own
    is a VerificationError, a name that exists in the folder already a CannotWriteError, a missing report a
    UsageError.
    """
    from reporter.archive.attached import take_out

    return take_out(path, folder)


def data_of(path: Path) -> dict[str, bytes]:
    """The attached files by name, refused as `extract` refuses them."""
    from reporter.archive.attached import contents

    return contents(path)


def origin(path: Path) -> Origin:
    """What the file at `path` says of its making; VerificationError when it cannot be read."""
    from reporter.archive.identity import read_origin

    return read_origin(path)


def maker() -> str:
    """This program with its version, as it names itself in every file."""
    from reporter.archive.identity import tool

    return tool()


def may_write(target: Path, job: Path | None = None) -> None:
    """CannotWriteError unless `target` is a new name, or a file that this program wrote and nobody has changed since.

    Asked before the work begins; every function here that writes asks again. `job` is the folder whose photos and documents
    nothing is written among.
    """
    from reporter.archive.replacing import may_write

    may_write(target, job)


def write_finished(content: bytes, target: Path, over: Path | None = None) -> None:
    """Write a report that was finished elsewhere beside its target, check it as `archive` does, then rename it.

    `over` is the file that `content` is the next version of: it may be replaced. CannotWriteError and VerificationError as there.
    """
    from reporter.archive.archiving import write_checked

    write_checked(content, target, over)


def read_form(path: Path) -> FilledForm:
    """What stands in the fields of a filled sheet, and what it belongs to.

    UsageError when there is no such file, VerificationError when it is none of our sheets or has no fields any more.
    """
    from reporter.archive.filled import read_form as read

    return read(path)


def write_text(text: str, target: Path) -> None:
    """Write a text file the way a report is written: beside its target, then renamed. CannotWriteError as there."""
    from reporter.archive.beside import beside

    with beside(target) as (file, _draft):
        file.write(text.encode("utf-8"))


def write_folder(texts: Mapping[str, str], folder: Path) -> None:
    """Text files by their names into a folder, made when missing; all are looked at before the first is written."""
    from reporter.archive.replacing import may_write
    from reporter.machine.shortage import unwritable

    try:
        for parent in sorted({(folder / name).parent for name in texts}):
            parent.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise unwritable(folder, error) from error
    for name in texts:
        may_write(folder / name)
    for name, text in texts.items():
        write_text(text, folder / name)
