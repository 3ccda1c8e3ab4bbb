"""What a folder says of the boat in one place and denies in another: asked about, since nobody can tell which is right.

In: the sheet of job.yaml, the parts of findings.yaml. Out: remarks, each a question. Nothing is corrected, nothing graded.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from reporter.collect.ledger import Ledger, listed
from reporter.collect.yaml_file import Loc, YamlFile
from reporter.model.findings import Component
from reporter.model.sheet import JobSheet
from reporter.model.terms import Extent

LOOKED = {"mast_down": "down", "aloft": "up"}
"""Answer to how a part aloft was looked at -> where the mast must have been."""
WHEELED = frozenset({"wheel"})
WIRED = frozenset({"chain", "steering_wire"})


def ask_about_contradictions(
    job: JobSheet | None,
    components: Mapping[int, Component],
    sheet: YamlFile | None,
    findings: YamlFile,
    ledger: Ledger,
) -> None:
    """Remarks on how she lay and on her steering gear, each at the line of one of the two statements."""
    if job is None or sheet is None:
        return
    for loc, what in _of_visit(job):
        sheet.ask(ledger, loc, what)
    for index, what in _of_parts(job, components):
        findings.ask(ledger, ("components", index), what)


def _of_visit(job: JobSheet) -> Iterator[tuple[Loc, str]]:
    lay, here = job.inspection.conditions, ("inspection", "conditions")
    if lay.mast == "down" and lay.rig_tension == "on":
        yield (*here, "rig_tension"), "The mast is down, and the rig under tension: which is right?"
    if lay.under_way and lay.afloat in {"ashore", "slings"}:
        yield (*here, "under_way"), "She was under way, and never afloat: which is right?"


def _of_parts(job: JobSheet, components: Mapping[int, Component]) -> Iterator[tuple[int, str]]:
    mast, vessel = job.inspection.conditions.mast, job.vessel
    for index, part in components.items():
        was = {LOOKED[each.choice] for each in part.observed.get("looked", ()) if each.choice in LOOKED}
        if mast and was and was != {mast}:
            yield (
                index,
                f"'{part.id}' was looked at with the mast {listed(sorted(was))}, but job.yaml says 'mast: {mast}': which is right?",
            )
        if part.examined.extent in {Extent.SEEN, Extent.PART_SEEN} and (gear := _denied(vessel, part.kind)):
            yield index, f"'{part.id}' is there to be seen, but job.yaml says '{gear}': which is right?"


def _denied(vessel: object, kind: str) -> str:
    """The key and value of job.yaml that leaves no place for a part of this kind ("" where none does)."""
    pairs: Iterable[tuple[str, str, frozenset[str]]] = (
        ("steering", "tiller", WHEELED),
        ("steering_gear", "hydraulic", WIRED),
        ("steering_gear", "direct", WIRED | WHEELED),
    )
    return next(
        (f"{key}: {value}" for key, value, kinds in pairs if getattr(vessel, key) == value and kind in kinds),
        "",
    )
