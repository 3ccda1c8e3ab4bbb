"""Finds, loads and checks plugins, systems and templates, in three separate steps.

`find` reads installed metadata and imports nothing; `load` imports, but for the built-in kinds, which are read when first asked
for; `check` holds the contract. Everything is sorted, so that neither installation order nor the file system changes a
report. No folder is ever scanned.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from difflib import get_close_matches
from functools import cache
from importlib import metadata, resources
from types import MappingProxyType
from typing import TYPE_CHECKING, TypeVar

import tomli
from pydantic import ValidationError

from reporter.errors import NoSuchError, PluginError
from reporter.kinds import faults, read_kind
from reporter.model.plugin import Plugin, System
from reporter.model.template import Template

if TYPE_CHECKING:
    from reporter.wording import Catalogue

T = TypeVar("T")
Key = tuple[str, str]
GROUPS = {
    "gudgeon.plugins": "The component kind",
    "gudgeon.systems": "The system",
    "gudgeon.templates": "The template",
}
"""Groups of entry points, and what is said of one of them."""
OURS = "gudgeon"
"""The distribution that brings what is built in."""
LONGEST = 300
"""Characters of a reason: more would hide what else is said on the terminal."""


@dataclass(frozen=True, order=True)
class Found:
    """An installed entry point, not yet imported: its group and name, where it points, and who brings it."""

    group: str
    name: str
    target: str
    distribution: str
    version: str


class InstalledKinds(Mapping[str, Plugin]):
    """Kinds by name, each read when it is first asked for: a job has some of them, and only those cost anything."""

    def __init__(self, names: Iterable[str], read: Callable[[str], Plugin]) -> None:
        self._names = dict.fromkeys(names)
        self._read = cache(read)

    def __getitem__(self, name: str) -> Plugin:
        if name not in self._names:
            raise KeyError(name)
        return self._read(name)

    def __contains__(self, name: object) -> bool:
        return name in self._names

    def __iter__(self) -> Iterator[str]:
        return iter(self._names)

    def __len__(self) -> int:
        return len(self._names)


@dataclass(frozen=True)
class Registry:
    """Everything loaded: kind -> Plugin, id -> System, name -> Template, and what was found for each.

    `broken` holds what was left out, by group and name, as the error for whoever needs it.
    """

    plugins: Mapping[str, Plugin]
    systems: Mapping[str, System]
    templates: Mapping[str, Template]
    found: tuple[Found, ...]
    broken: Mapping[Key, PluginError] = field(default_factory=dict)

    def in_language(self, lang: str) -> Registry:
        """The same kinds and systems in another language's words, English where a word is missing."""
        if lang == "en":
            return self
        from reporter.wording import catalogue

        words = catalogue(lang)
        files = {
            each.name: each
            for each in self.found
            if each.group == "gudgeon.plugins" and ":" not in each.target
        }
        foreign = [each for each in files.values() if each.distribution != OURS]
        broken = dict(self.broken)
        told = _made(foreign, "gudgeon.plugins", lambda each: read_kind(each.target, each.name, lang), broken)

        def read(name: str) -> Plugin:
            ours = name in files and files[name].distribution == OURS
            return read_kind(files[name].target, name, lang) if ours else told.get(name, self.plugins[name])

        systems = MappingProxyType({name: _worded(system, words) for name, system in self.systems.items()})
        return replace(
            self, plugins=InstalledKinds(self.plugins, read), systems=systems, broken=MappingProxyType(broken)
        )

    def plugin(self, kind: str) -> Plugin:
        """The plugin of one kind; PluginError where it was left out, NoSuchError names the installed ones."""
        self.refuse_left_out("gudgeon.plugins", kind)
        return _get(self.plugins, kind, "component kind")

    def template(self, name: str) -> Template:
        """The template of one name; PluginError where it was left out, NoSuchError names the installed ones."""
        self.refuse_left_out("gudgeon.templates", name)
        template = _get(self.templates, name, "template")
        known_words(template, f"{name}.toml")
        return template

    def refuse_left_out(self, group: str, name: str) -> None:
        """PluginError where what is needed was left out, as it could not be loaded."""
        loaded: Mapping[str, object] = self.plugins if group == "gudgeon.plugins" else self.templates
        fault = self.broken.get((group, name))
        if fault and name not in loaded:
            raise fault


def _worded(system: System, words: Catalogue) -> System:
    stations = tuple(
        each.model_copy(update={"title": words.either(f"station.{system.id}.{each.id}", each.title)})
        for each in system.stations
    )
    title = words.either(f"system.{system.id}", system.title)
    return system.model_copy(update={"title": title, "stations": stations})


def _get(mapping: Mapping[str, T], key: str, what: str) -> T:
    if key not in mapping:
        msg = f"There is no {what} called '{key}'."
        near = get_close_matches(key, mapping, 1, 0.75)
        advice = f"Did you mean '{near[0]}'? " if near else ""
        raise NoSuchError(msg, f"{advice}Installed are: {', '.join(sorted(mapping))}.")
    return mapping[key]


def find() -> tuple[Found, ...]:
    """Every entry point of our groups, from metadata alone, sorted; those of one name all stand."""
    points = [point for group in GROUPS for point in metadata.entry_points(group=group)]
    # Name and version are read from a file each time they are asked for: once for each package is enough.
    dists = {id(point.dist): point.dist for point in points if point.dist}
    named = {key: (str(dist.name), str(dist.version)) for key, dist in dists.items()}
    found = {
        Found(point.group, point.name, point.value, *named.get(id(point.dist), ("", ""))) for point in points
    }
    return tuple(sorted(found))


def load(found: Iterable[Found]) -> Registry:
    """Imports what was found and holds it against the contract; what fails is left out, with the reason in `broken`.

    A built-in kind is read, and held against the contract, when it is first asked for; PluginError where it breaks it.
    """
    found = tuple(found)
    broken: dict[Key, PluginError] = {}
    kept = [each for each in found if each.distribution == OURS or not _clashes(each, found, broken)]
    kinds = {each.name: each for each in kept if each.group == "gudgeon.plugins"}
    foreign = [each for each in kinds.values() if each.distribution != OURS]
    plugins = _made(foreign, "gudgeon.plugins", _kind, broken)
    systems = _made(kept, "gudgeon.systems", _system, broken)
    templates = _made(kept, "gudgeon.templates", lambda each: read_template(each.target, each.name), broken)
    systems = dict(sorted(systems.items(), key=lambda pair: (pair[1].order, pair[0])))
    for each in foreign:
        part = plugins.get(each.name)
        if part and (fault := next(iter(_faults(each.name, part, systems)), "")):
            broken[each.group, each.name] = _left_out(each, fault)
            del plugins[each.name]

    def read(name: str) -> Plugin:
        if name in plugins:
            return plugins[name]
        plugin = _kind(kinds[name])
        check({name: plugin}, systems)
        return plugin

    names = [name for name, each in kinds.items() if each.distribution == OURS or name in plugins]
    whole = {"gudgeon.plugins": set(names), "gudgeon.systems": {*systems}, "gudgeon.templates": {*templates}}
    loaded = tuple(each for each in kept if each.name in whole[each.group])
    frozen = (InstalledKinds(names, read), MappingProxyType(systems), MappingProxyType(templates))
    return Registry(*frozen, found=loaded, broken=MappingProxyType(broken))


def _clashes(each: Found, found: Sequence[Found], broken: dict[Key, PluginError]) -> bool:
    """Whether another package brings the same name: nobody can say which is meant, but a built-in one stays."""
    key = (each.group, each.name)
    alike = [other for other in found if (other.group, other.name) == key]
    if len(alike) == 1:
        return False
    if not any(other.distribution == OURS for other in alike):
        owners = ", ".join(other.distribution or "a package without a name" for other in alike)
        broken[key] = _left_out(each, f"several packages bring it ({owners}); uninstall all but one")
    else:
        fault = "the program has one of this name; its own stays in use"
        broken[each.group, f"{each.name} of {each.distribution}"] = _left_out(each, fault)
    return True


def _made(
    found: Iterable[Found], group: str, make: Callable[[Found], T], broken: dict[Key, PluginError]
) -> dict[str, T]:
    """Everything of one group that could be made, by name."""
    made: dict[str, T] = {}
    for each in found:
        if each.group != group:
            continue
        try:
            made[each.name] = make(each)
        except MemoryError:
            raise
        except (Exception, SystemExit) as error:  # noqa: BLE001  (a stranger's code may fail in any way, or try to end us)
            fault = error.message if isinstance(error, PluginError) else f"{type(error).__name__}: {error}"
            broken[each.group, each.name] = _left_out(each, fault)
    return made


def _left_out(each: Found, fault: str) -> PluginError:
    """The error for whoever needs it: on one line what it is, who brings it, what is wrong."""
    owner = f"{each.distribution or 'a package without a name'} {each.version}".strip()
    reason = "; ".join(line.strip() for line in fault.splitlines() if line.strip())
    what = f"{GROUPS[each.group]} '{each.name}' of {owner} cannot be used: {reason}"
    shown = what if len(what) <= LONGEST else f"{what[: LONGEST - 2]} …"
    return PluginError(shown, f"Repair or uninstall {each.distribution or 'it'}; until then do without it.")


def _kind(found: Found) -> Plugin:
    """A kind is the file `<name>.toml` of the package named; a target with a colon is a `Plugin` made in Python."""
    return _value(found, Plugin) if ":" in found.target else read_kind(found.target, found.name)


def _system(found: Found) -> System:
    """A system is the file `<name>.toml` of the package named, or a `System` made in Python, which may draw itself."""
    system = _value(found, System) if ":" in found.target else read_system(found.target, found.name)
    if system.id != found.name:
        msg = f"The system '{system.id}' is registered as '{found.name}'."
        raise PluginError(msg, "Give its entry point the name of its id.")
    return system


def read_system(package: str, name: str) -> System:
    """The system `<name>.toml`: its title, order, and stations by id in walking order; it has no drawing."""
    data = tomli.loads(resources.files(package).joinpath(f"{name}.toml").read_text("utf-8"))
    stations = [{"id": ident, "title": title} for ident, title in data.pop("station", {}).items()]
    return System.model_validate({**data, "id": name, "stations": stations})


def _value(found: Found, expected: type[T]) -> T:
    try:
        value = metadata.EntryPoint(found.name, found.target, found.group).load()
    except MemoryError:
        raise
    except Exception as error:
        msg = f"The plugin '{found.name}' of {found.distribution} could not be loaded: {error}"
        raise PluginError(msg, f"Repair or uninstall {found.distribution}.") from error
    if not isinstance(value, expected):
        msg = (
            f"'{found.name}' of {found.distribution} is no {expected.__name__} but a {type(value).__name__}."
        )
        raise PluginError(msg, f"Its entry point must name a {expected.__name__} value.")
    return value


def read_template(package: str, name: str) -> Template:
    """The template `<name>.toml` in the data package `package`; PluginError when it is not as it should be."""
    try:
        text = resources.files(package).joinpath(f"{name}.toml").read_text("utf-8")
    except (OSError, ModuleNotFoundError) as error:
        msg = f"The template '{name}' could not be read: {error}"
        raise PluginError(msg, f"Repair or reinstall the package that brings '{name}'.") from error
    return parse_template(text, name)


def parse_template(text: str, name: str) -> Template:
    """A template from the text of its TOML file, its id being `name`; PluginError tells what is wrong."""
    try:
        return Template.model_validate({**tomli.loads(text), "id": name})
    except (tomli.TOMLDecodeError, ValidationError, RecursionError) as error:
        told = str(error)
        if isinstance(error, ValidationError):
            faults = error.errors(include_url=False)
            told = "; ".join(f"{'.'.join(map(str, each['loc']))}: {each['msg']}" for each in faults)
            told = told.replace("Value error, ", "")
        msg = f"The template '{name}' is not valid: {told}"
        raise PluginError(msg, "Compare it with one of the installed templates.") from error


def known_words(template: Template, file: str) -> None:
    """NoSuchError where the template names words that the program has not got, by file and key."""
    from reporter.wording import catalogue

    words = catalogue()
    named = {key: getattr(template, key) for key in ("title_id", "owner_title_id", "reader_id")}
    named |= {f"due.{grade}": ident for grade, ident in template.due.items()}
    for key, ident in named.items():
        if ident and not words.has(ident):
            near = get_close_matches(ident, words.ids, 1)
            advice = f"Did you mean '{near[0]}'? " if near else ""
            msg = f"{file}, {key}: there are no words called '{ident}'."
            raise NoSuchError(msg, f"{advice}Such ids stand in reporter/wording/en.toml.")


def check(plugins: Mapping[str, Plugin], systems: Mapping[str, System]) -> None:
    """Holds what no type can: names equal kinds, stations exist, needs name known kinds."""
    for name, plugin in plugins.items():
        for fault in _faults(name, plugin, systems):
            raise PluginError(
                f"The plugin '{name}': {fault}", "This is a fault of the plugin; tell its author."
            )


def _faults(name: str, plugin: Plugin, systems: Mapping[str, System]) -> Iterable[str]:
    if plugin.kind != name:
        yield f"its kind is '{plugin.kind}', but it is registered as '{name}'"
    if plugin.system not in systems:
        yield f"its system '{plugin.system}' is not installed"
    elif plugin.station not in {station.id for station in systems[plugin.system].stations}:
        yield f"the system '{plugin.system}' has no station '{plugin.station}'"
    yield from faults(plugin)
