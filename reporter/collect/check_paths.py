"""What findings.yaml says of parts together: which belongs to which, and which carry a load one after another.

In: the components that could be read, the load paths, the plugins. Out: problems with their lines. It grades nothing.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from reporter.collect.ledger import Ledger, listed, meant
from reporter.collect.yaml_file import Loc, YamlFile
from reporter.model.findings import Component, LoadPath
from reporter.model.plugin import Plugin


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
