"""Finds, loads and checks plugins, systems and templates, in three separate steps.

`find` reads installed metadata and imports nothing; `load` imports; `check` holds the contract. Everything is
sorted, so that neither installation order nor the file system changes a report. No folder is ever scanned.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from difflib import get_close_matches
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
GROUPS = ("gudgeon.plugins", "gudgeon.systems", "gudgeon.templates")


@dataclass(frozen=True, order=True)
class Found:
    """An installed entry point, not yet imported: its group and name, where it points, and who brings it."""

    group: str
    name: str
    target: str
    distribution: str
    version: str


@dataclass(frozen=True)
class Registry:
    """Everything loaded: kind -> Plugin, id -> System, name -> Template, and what was found for each."""

    plugins: Mapping[str, Plugin]
    systems: Mapping[str, System]
    templates: Mapping[str, Template]
    found: tuple[Found, ...]

    def in_language(self, lang: str) -> Registry:
        """The same kinds and systems in another language's words, English where a word is missing."""
        if lang == "en":
            return self
        from reporter.wording import catalogue

        words = catalogue(lang)
        told = {each.name: each for each in self.found if each.group == "gudgeon.plugins"}
        plugins = {
            name: read_kind(told[name].target, name, lang) if ":" not in told[name].target else plugin
            for name, plugin in self.plugins.items()
        }
        systems = {name: _worded(system, words) for name, system in self.systems.items()}
        return replace(self, plugins=MappingProxyType(plugins), systems=MappingProxyType(systems))

    def plugin(self, kind: str) -> Plugin:
        """The plugin of one kind; NoSuchError names the installed ones."""
        return _get(self.plugins, kind, "component kind")

    def template(self, name: str) -> Template:
        """The template of one name; NoSuchError names the installed ones."""
        template = _get(self.templates, name, "template")
        known_words(template, f"{name}.toml")
        return template


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
        raise NoSuchError(msg, f"Installed are: {', '.join(sorted(mapping))}.")
    return mapping[key]


def find() -> tuple[Found, ...]:
    """Every entry point of our groups, from metadata alone, sorted; two of one name are an error."""
    points = [point for group in GROUPS for point in metadata.entry_points(group=group)]
    # Name and version are read from a file each time they are asked for: once for each package is enough.
    dists = {id(point.dist): point.dist for point in points if point.dist}
    named = {key: (dist.name, dist.version) for key, dist in dists.items()}
    found = sorted(
        {
            Found(point.group, point.name, point.value, *named.get(id(point.dist), ("", "")))
            for point in points
        }
    )
    counted = Counter((each.group, each.name) for each in found)
    doubled = [key for key, count in counted.items() if count > 1]
    if doubled:
        group, name = doubled[0]
        owners = ", ".join(each.distribution for each in found if (each.group, each.name) == (group, name))
        msg = f"Two installed packages provide '{name}' ({group}): {owners}."
        raise NoSuchError(msg, "Uninstall one of them.")
    return tuple(found)


def load(found: Iterable[Found]) -> Registry:
    """Imports what was found and checks it against the contract; PluginError names the culprit."""
    found = tuple(found)
    plugins = {each.name: _kind(each) for each in found if each.group == "gudgeon.plugins"}
    systems = {each.name: _value(each, System) for each in found if each.group == "gudgeon.systems"}
    templates = {
        each.name: read_template(each.target, each.name)
        for each in found
        if each.group == "gudgeon.templates"
    }
    systems = dict(sorted(systems.items(), key=lambda pair: (pair[1].order, pair[0])))
    check(plugins, systems)
    frozen = (MappingProxyType(plugins), MappingProxyType(systems), MappingProxyType(templates))
    return Registry(*frozen, found=found)


def _kind(found: Found) -> Plugin:
    """A kind is the file `<name>.toml` of the package named; a target with a colon is a `Plugin` made in Python."""
    return _value(found, Plugin) if ":" in found.target else read_kind(found.target, found.name)


def _value(found: Found, expected: type[T]) -> T:
    try:
        value = metadata.EntryPoint(found.name, found.target, found.group).load()
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
    except (tomli.TOMLDecodeError, ValidationError) as error:
        msg = f"The template '{name}' is not valid: {error}"
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
    for name, system in systems.items():
        if system.id != name:
            msg = f"The system '{system.id}' is registered as '{name}'."
            raise PluginError(msg, "Give its entry point the name of its id.")
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
