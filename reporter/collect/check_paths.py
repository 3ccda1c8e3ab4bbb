"""What a folder says of parts together: which belongs to which, and which carry a load one after another; what it denies elsewhere.

In: the components that could be read, the load paths, the plugins, the sheet of job.yaml. Out: problems with their lines, and
remarks, each a question, since nobody can tell which of two statements is right. It corrects and grades nothing.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from reporter.collect.ledger import Ledger, listed, meant
from reporter.collect.yaml_file import Loc, YamlFile
from reporter.model.findings import Component, LoadPath
from reporter.model.plugin import Plugin
from reporter.model.sheet import JobSheet
from reporter.model.terms import Extent


def check_part_of(
    components: Mapping[int, Component], known: list[str], sheet: YamlFile, ledger: Ledger
) -> None:
    """What `part_of` names is another part of the folder (`known`: their ids), and no part is a part of its own parts."""
    wholes = {each.id: each.part_of for each in components.values() if each.part_of}
    for index, component in components.items():
        whole = component.part_of
        if not whole:
            continue
        if whole not in known:
            what = f"'{whole}' is no component of this file."
            do = meant(whole, known, f"There are: {listed(known)}.")
        elif _comes_back(component.id, wholes):
            what = f"'{component.id}' would be a part of itself."
            do = "Name the larger part that it belongs to, or take the line out."
        else:
            continue
        sheet.tell(ledger, ("components", index, "part_of"), what, do)


def _comes_back(ident: str, wholes: Mapping[str, str]) -> bool:
    seen: set[str] = set()
    here: str | None = wholes.get(ident)
    while here and here not in seen:
        if here == ident:
            return True
        seen.add(here)
        here = wholes.get(here)
    return False


def check_paths(
    paths: tuple[LoadPath, ...],
    kinds: Mapping[str, str],
    plugins: Mapping[str, Plugin],
    sheet: YamlFile,
    ledger: Ledger,
) -> None:
    """Every path has an id of its own and parts of one system that carry load (`kinds`: component id -> kind)."""
    seen: set[str] = set()
    for number, path in enumerate(paths):
        for place, what, do in _faults(path, seen, kinds, plugins):
            sheet.tell(ledger, ("paths", number, *place), what, do)
        seen.add(path.id)


def _faults(
    path: LoadPath, seen: set[str], kinds: Mapping[str, str], plugins: Mapping[str, Plugin]
) -> Iterator[tuple[Loc, str, str]]:
    if path.id in seen:
        yield ("id",), f"Two load paths are called '{path.id}'.", "Give every path an id of its own."
    systems: dict[str, str] = {}
    for place, ident in enumerate(path.parts):
        here: Loc = ("parts", place)
        if ident not in kinds:
            do = meant(ident, kinds, f"There are: {listed(sorted(kinds))}.")
            yield here, f"'{ident}' is no component of this file.", do
        elif ident in path.parts[:place]:
            yield here, f"'{ident}' stands twice in this path.", "Keep it once."
        elif plugin := plugins.get(kinds[ident]):
            systems[plugin.system] = ident
            if not plugin.load_path:
                what = f"'{ident}' carries none of the load ({plugin.title.lower()})."
                yield here, what, "Take it out of this path."
    if len(systems) > 1:
        what = f"This path runs through several systems: {listed(sorted(systems))}."
        yield ("parts",), what, "Make a path for each system."


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
