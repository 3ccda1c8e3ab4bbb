"""Stage 5: a `Report` laid out as tagged pages. ReportLab lives only here."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Mapping
    from pathlib import Path

    from reporter.model.pages import Pages, Picture
    from reporter.model.report import Report

__all__ = ["typeset"]


def typeset(report: Report, pictures: Mapping[str, Picture], target: Path) -> Pages:
    """Lay out `report` and write it to `target` (PDF with marked content, without document-level tagging).

    `pictures` holds the developed copy of every photo of the report by its file name. Returns where the file is, its
    structure tree, its signature fields, and the characters that the fonts lack. The same report and pictures give
    the same bytes. Raises LayoutError when something does not fit, CannotWriteError when the file cannot be written.
    """
    # ReportLab is loaded only when pages are made.
    from reporter.typeset.typesetting import typeset

    return typeset(report, pictures, target)
