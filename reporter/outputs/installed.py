"""What is installed, told to whoever writes kinds or translates them, as lines for a terminal.

Comes in: the registry, or a kind's file. Goes out: lines. It prints nothing itself.
"""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from reporter.errors import UsageError
from reporter.kinds import parse_kind, unexplained, words_of_kind
from reporter.model.citation import Limit
from reporter.model.plugin import Plugin
from reporter.model.template import Template
from reporter.outputs.kind_page import bound
from reporter.outputs.screen import hanging, wrapped
from reporter.registry import OURS, Found, Registry, check, known_words, parse_template
from reporter.wording import Catalogue, catalogue, completeness, languages


def spoken_in(lang: str) -> str:
    """A language that the program speaks, or none told; UsageError for any other."""
    if lang and lang not in languages():
        raise UsageError(f"'{lang}' is no language here.", f"Languages are: {', '.join(languages())}.")
    return lang


def installed(registry: Registry, lang: str) -> list[str]:
    """The kinds by system with their titles, the templates with what they are for, the languages; who brings the strangers."""
    spoken, words = registry.in_language(lang or "en"), catalogue(lang or "en")
    foreign = {
        (each.group, each.name): f" ({words('listing.from', package=f'{each.distribution} {each.version}')})"
        for each in registry.found
        if each.distribution != OURS
    }
    lines = [f"{words('listing.kinds')} ({len(spoken.plugins)})"]
    for ident, system in spoken.systems.items():
        own = [plugin for plugin in spoken.plugins.values() if plugin.system == ident]
        lines += ["", *wrapped(f"{system.title}{foreign.get(('gudgeon.systems', ident), '')}", 0)]
        for each in own:
            title = f"{words.terms(each.title)}{foreign.get(('gudgeon.plugins', each.kind), '')}"
            lines += hanging(f"  {each.kind}", title)
    lines += ["", words("listing.templates")]
    for name, template in spoken.templates.items():
        title = words.either(template.title_id, template.title_id)
        lines += hanging(f"  {name}", f"{title}{foreign.get(('gudgeon.templates', name), '')}")
    return [*lines, "", words("listing.languages"), *languages_told(registry, words)]


def languages_told(registry: Registry, words: Catalogue) -> list[str]:
    """How complete each language is: the program's own messages, and the words of the installed kinds."""
    told = ["  en"]
    for lang in languages()[1:]:
        have, all_ = completeness(lang)
        kinds = [
            _worded(each, lang)
            for each in registry.found
            if each.group == "gudgeon.plugins" and ":" not in each.target
        ]
        worded, texts = (sum(each) for each in zip(*kinds, strict=True))
        whole_ = words("listing.complete")
        put = {"have": have, "all": all_, "worded": worded, "texts": texts}
        complete = (have, worded) == (all_, texts)
        told += hanging(f"  {lang}", whole_ if complete else words("listing.partly", **put))
    return told


def _worded(found: Found, lang: str) -> tuple[int, int]:
    """How many of a kind's texts a language has, and how many there are; a file of words that cannot be read has none."""
    try:
        return words_of_kind(found.target, found.name, lang)
    except (OSError, ValueError):
        return 0, words_of_kind(found.target, found.name, "en")[1]


def whole(file: Path, registry: Registry) -> list[str]:
    """What a kind's file holds, and what of it has no help yet; a fault of it is raised as a PluginError."""
    try:
        text = file.read_text("utf-8")
    except (OSError, UnicodeDecodeError) as error:
        msg = f"{file} cannot be read: {_reason(error)}."
        raise UsageError(msg, "Name a kind's file, written as UTF-8.") from error
    plugin = parse_kind(text, file.stem, "", str(file))
    check({file.stem: plugin}, registry.systems)
    counted = f"{len(plugin.readings)} readings, {len(plugin.observations)} observations, {len(plugin.limits)} limits"
    return [f"{file}: the kind '{plugin.kind}' is whole: {counted}.", *unexplained(plugin)]


def _reason(error: OSError | UnicodeDecodeError) -> str:
    """Why a file cannot be read, without the number and the name that the system puts round it."""
    said = error.strerror if isinstance(error, OSError) and error.strerror else str(error)
    return f"{said[:1].lower()}{said[1:]}"


def limits_told(plugin: Plugin, words: Catalogue) -> Iterator[str]:
    """Every limit of a kind with its source, those that decide first; lines as wide as the terminal."""
    for limit in sorted(plugin.limits, key=lambda each: not each.governs):
        yield limit.id
        cited, status = limit.source, words(f"status.{limit.source.status}")
        told = [
            _decision(limit, words),
            ", ".join(
                words.cited(text) for text in (cited.title, cited.clause, cited.edition, status) if text
            ),
            words("sides.limit_relative" if limit.relative else "sides.limit") if limit.between else "",
            words("kind_page.written_for", what=limit.written_for) if limit.written_for else "",
            words.terms(limit.note),
        ]
        for text in filter(None, told):
            yield from wrapped(text, 2)


def _decision(limit: Limit, words: Catalogue) -> str:
    """The figure, the grade that it leads to, and what it is worth: "at most 1.5 %, then plan (condition; decides)"."""
    return words(
        "listing.then", bound=bound(limit, words), grade=words(f"grade.{limit.then}"), kind=words(f"listing.kind_{limit.kind}"),
        role=words("listing.decides" if limit.governs else "listing.information"),
    )  # fmt: skip


def template_in(file: Path) -> Template:
    """A template of one's own, its id being the file's name; UsageError when the file cannot be read."""
    try:
        template = parse_template(file.read_text("utf-8"), file.stem)
    except (OSError, UnicodeDecodeError) as error:
        msg = f"The template file {file} cannot be read: {_reason(error)}."
        raise UsageError(
            msg, "Give the path of a TOML file, such as a copy of an installed template."
        ) from error
    known_words(template, str(file))
    return template
