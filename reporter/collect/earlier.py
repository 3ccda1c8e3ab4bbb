"""The folders of earlier visits that job.yaml names: the only paths that may leave the job folder.

In: what the sheets of a job say, the folder. Out: where the earlier folders are; whether what is said of them holds.
They are read one level deep: an earlier job's own earlier jobs are left alone.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from pathlib import Path

from reporter.collect.ledger import Ledger, listed, meant
from reporter.collect.text_file import LARGEST, Place
from reporter.collect.yaml_file import YamlFile
from reporter.model.findings import Component
from reporter.model.terms import Grade

MOST_EARLIER = 20


def earlier_places(
    place: Place, sheet: YamlFile, named: tuple[str, ...], ledger: Ledger
) -> list[tuple[Place, int]]:
    """The earlier folders that `sheet` names, each once, with the line; one that is this folder itself is told."""
    here = place.folder.resolve()
    found: dict[Path, tuple[Place, int]] = {}
    for index, written in enumerate(named[:MOST_EARLIER]):
        line = sheet.line(("earlier", index))
        folder = place.folder / written.replace("\\", "/")
        target = _resolved(folder)
        if target == here:
            what = f"'{written}' is this job folder itself."
            ledger.tell(sheet.file, line, "earlier", what, "Name the folder of the earlier visit.")
        elif target in found:
            ledger.tell(sheet.file, line, "earlier", f"'{written}' is named twice.", "Keep it once.")
        else:
            found[target] = Place(folder, written.rstrip("/")), line
    if len(named) > MOST_EARLIER:
        what = f"{len(named)} earlier folders are named; {MOST_EARLIER} is the most."
        ledger.tell(sheet.file, sheet.line(("earlier",)), "earlier", what, "Keep the latest ones.")
    return list(found.values())


def _resolved(folder: Path) -> Path:
    try:
        return folder.resolve()
    except (OSError, ValueError, RuntimeError):
        return folder


def names_back(earlier: Place, named: tuple[str, ...], here: Path) -> bool:
    """Whether an earlier job names the folder `here` as its own earlier one: neither can be before the other."""
    return any(_resolved(earlier.folder / each.replace("\\", "/")) == here.resolve() for each in named)


def issued_grades(place: Place, ledger: Ledger) -> dict[str, Grade]:
    """Component id -> the grade that a report was issued with, where the assessments.json taken out of it lies here.

    The file is a help and no part of the format: one that cannot be read is passed over with a remark.
    """
    file = place.folder / "assessments.json"
    if file.is_symlink() or not file.is_file():
        return {}
    try:
        text = file.read_bytes()[: 8 * LARGEST].decode("utf-8")
        return {str(row["id"]): Grade(row["grade"]) for row in json.loads(text)["components"]}
    except (OSError, ValueError, KeyError, TypeError, RecursionError):
        ledger.remark(f"{place.named('assessments.json')}: passed over, as no grades can be read from it.")
        return {}


def check_was(components: Mapping[int, Component], known: list[str], sheet: YamlFile, ledger: Ledger) -> None:
    """What `was:` names is a component of an earlier folder (`known`: their ids)."""
    for index, component in components.items():
        if component.was and component.was not in known:
            what = f"'{component.was}' is no component of the earlier folders."
            listing = (
                f"There: {listed(known)}."
                if known
                else "Name the earlier folder in job.yaml, or take this out."
            )
            sheet.tell(ledger, ("components", index, "was"), what, meant(component.was, known, listing))
