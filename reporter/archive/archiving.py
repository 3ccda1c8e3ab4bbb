"""Writes the finished file: all that a document needs beyond its pages, and a save that leaves no half file.

Comes in: the Report, the laid-out Pages and the path to write. Goes out: one file at that path, or the file
that was there before, whole. The laid-out file is only read.
"""

from __future__ import annotations

import os
from pathlib import Path
from typing import BinaryIO

import pikepdf

from reporter.archive.attached import attach
from reporter.archive.beside import beside
from reporter.archive.filling import complete
from reporter.archive.identity import identify
from reporter.archive.signing import add_fields
from reporter.archive.structure import plant
from reporter.archive.verifying import find_faults
from reporter.errors import VerificationError
from reporter.model.pages import Pages
from reporter.model.report import Report


def archive(report: Report, pages: Pages, target: Path) -> None:
    """Do what `archive` promises: finish the document beside the target, check it, then rename it."""
    with beside(target) as (file, draft):
        _finish(report, pages, file)
        _check(
            draft,
            "The report was laid out but its file is not in order, so it was not written",
            is_form=bool(pages.form),
        )


def write_checked(content: bytes, target: Path, over: Path | None = None) -> None:
    """Do what `write_finished` promises."""
    with beside(target, over) as (file, draft):
        file.write(content)
        file.flush()
        os.fsync(file.fileno())
        _check(draft, "The file is not in order, so it was not written")


def _check(draft: Path, what: str, *, is_form: bool = False) -> None:
    findings = find_faults(draft, is_form=is_form)
    if findings:
        shown = "\n".join(findings[:20])
        raise VerificationError(
            f"{what}:\n{shown}", "This is a fault of the program: please report it with these lines."
        )


def _finish(report: Report, pages: Pages, file: BinaryIO) -> None:
    with pikepdf.open(pages.file) as pdf:
        complete(pdf, pages)
        plant(pdf, add_fields(pdf, pages))
        attach(pdf, report)
        identify(pdf, report, is_form=bool(pages.form))
        pdf.save(
            file,
            deterministic_id=True,
            min_version="1.7",
            object_stream_mode=pikepdf.ObjectStreamMode.generate,
            fix_metadata_version=False,
        )
    file.flush()
    os.fsync(file.fileno())
