"""The other last stage: a `Report` as one HTML file that asks nothing of the network.

It stands beside `typeset` and `archive`, and takes what they take. Nothing here decides what a report says.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Mapping

    from reporter.model.pages import Picture
    from reporter.model.report import Report

__all__ = ["figures", "web"]


def web(report: Report, pictures: Mapping[str, Picture]) -> str:
    """The whole report as one HTML document (HTML Living Standard), pictures and look inside it, without scripts.

    `pictures` holds the developed copy of every photo of the report by its file name. The same report and pictures
    give the same text. Raises LayoutError when a link leads nowhere or a photo was not developed.
    """
    from reporter.web.page import web

    return web(report, pictures)


def figures() -> str:
    """The style sheet of signs, marks, drawings and bars, for whoever else shows a report's figures in a browser."""
    from reporter.web.markup import style_sheet

    return style_sheet("figures.css")
