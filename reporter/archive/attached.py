"""The data files that a report carries: put in as associated files, taken out again under our own names only.

A PDF that came by mail is a stranger's file: what it calls its attachments is compared, never used as a path.
"""

from __future__ import annotations

import hashlib
import zlib
from collections.abc import Iterator
from contextlib import suppress
from itertools import islice
from pathlib import Path

import pikepdf
from pikepdf import Array, AttachedFileSpec, Dictionary, Name, Object, String

from reporter.archive.identity import pdf_date
from reporter.archive.unreadable import LOCKED, UNREADABLE, locked
from reporter.archive.wording import storable
from reporter.errors import CannotWriteError, GudgeonError, UsageError, VerificationError
from reporter.machine import leavings
from reporter.machine.interrupts import held
from reporter.machine.shortage import unwritable
from reporter.model.report import Attachment, Report

ATTACHED = (
    "job.yaml", "findings.yaml", "measurements.csv", "assessments.json", "photo_register.csv", "sheet.json",
)  # fmt: skip
"""Every name that an attached file can have."""
_MOST = 1000
"""Names that are looked at: one more than our own is refused, and a tree can be made to lead round in a circle."""
_LARGEST = 64 * 1024 * 1024


def attach(pdf: pikepdf.Pdf, report: Report) -> None:
    """Embed the report's data files and associate them with the document (ISO 19005-3, 6.8 and annex E).

    Raises GudgeonError for a name outside `ATTACHED`, since `take_out` would refuse it later, and for one
    that is used twice.
    """
    names = [attachment.name for attachment in report.attachments]
    for name in names:
        if name not in ATTACHED or names.count(name) > 1:
            raise GudgeonError(f"A file called {name!r} cannot be attached to a report.")
    associated = Array([])
    for attachment in report.attachments:
        pdf.attachments[attachment.name] = AttachedFileSpec(
            pdf,
            b"",
            description=storable(attachment.description),
            filename=attachment.name,
            mime_type=attachment.media_type,
            creation_date=pdf_date(report),
            mod_date=pdf_date(report),
            relationship=Name("/" + attachment.relationship),
        )
        specification = pdf.attachments[attachment.name].obj
        _fill(specification.EF.F, attachment)
        associated.append(specification)
    if names:
        pdf.Root.AF = associated


def _fill(stream: Object, attachment: Attachment) -> None:
    """Put the content in as it is packed, with its size and digest when unpacked (ISO 32000-1, 7.11.4)."""
    size, digest = 0, hashlib.md5(usedforsecurity=False)
    for piece in attachment.pieces():
        size += len(piece)
        digest.update(piece)
    stream.Params.Size = size
    stream.Params.CheckSum = String(digest.digest())
    stream.write(attachment.packed, filter=Name.FlateDecode)


def take_out(path: Path, folder: Path) -> list[Path]:
    """Do what `extract` promises: read everything first, then write all of it or none."""
    found = contents(path)
    if not found:
        raise VerificationError(
            f"{path} carries no data: it is a version for other readers, or no report of this program.",
            "Ask for the report that was made for its owner.",
        )
    paths = [folder / name for name in found]
    for each in paths:
        if each.exists() or each.is_symlink():
            raise CannotWriteError(f"{each} exists already.", "Choose an empty folder; nothing was written.")
    _write(folder, dict(zip(paths, found.values(), strict=True)))
    return paths


def attached_files(pdf: pikepdf.Pdf) -> Iterator[tuple[str, Object]]:
    """Each attached file's key in the name tree and its file specification, in the tree's order."""
    names = pdf.Root.get("/Names")
    tree = names.get("/EmbeddedFiles") if isinstance(names, Dictionary) else None
    if tree is not None:
        for name, specification in islice(pikepdf.NameTree(tree).items(), _MOST):
            yield str(name), specification


def _write(folder: Path, contents: dict[Path, bytes]) -> None:
    if folder.exists() and not folder.is_dir():
        raise CannotWriteError(f"{folder} is a file.", "Name a folder that is empty, or a new one.")
    begun: list[Path] = []
    made = [each for each in (folder, *folder.parents) if not each.exists()]
    try:
        # A few small files: an interruption waits for them, so that there are all or none.
        with held():
            folder.mkdir(parents=True, exist_ok=True)
            for path, content in contents.items():
                with path.open("xb") as file:
                    begun.append(path)
                    file.write(content)
            leavings.written += begun
    except OSError as error:
        for path in begun:
            path.unlink(missing_ok=True)
        with suppress(OSError):
            for each in made:
                each.rmdir()
        raise unwritable(folder, error) from error


def contents(path: Path) -> dict[str, bytes]:
    """Do what `data_of` promises: every attached file by its name, none unpacked beyond the largest size."""
    if not path.is_file():
        raise UsageError(f"There is no file {path}.")
    try:
        with pikepdf.open(path) as pdf:
            return {name: content_of(name, specification) for name, specification in attached_files(pdf)}
    except LOCKED as error:
        raise locked(path) from error
    except OSError as error:
        raise UsageError(f"{path} cannot be read: {error.strerror or error}.") from error
    except UNREADABLE as error:
        message = f"The attached files in {path} cannot be read."
        raise VerificationError(message, "Ask for the file again.") from error


def content_of(name: str, specification: Object) -> bytes:
    """The bytes of one attached file; VerificationError for a name, a size or an encoding that is not ours."""
    if name not in ATTACHED:
        raise VerificationError(
            f"The report carries a file called {name!r}, which is not one of ours.",
            "Nothing was written. Open it in a PDF reader if you trust where it came from.",
        )
    stream = specification.EF.F
    raw = stream.read_raw_bytes()
    if "/Filter" in stream:
        if stream.Filter != Name.FlateDecode or "/DecodeParms" in stream:
            raise VerificationError(f"The attached {name} is packed in a way this program does not use.")
        # Unpacked in one bounded step: a few kilobytes can hold gigabytes.
        raw = zlib.decompressobj().decompress(raw, _LARGEST + 1)
    if len(raw) > _LARGEST:
        raise VerificationError(f"The attached {name} is larger than 64 MiB.")
    return raw
