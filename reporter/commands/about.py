"""`--version` and `--log`: what is installed, and what a run did, for somebody who is to help."""

from __future__ import annotations

import platform
import re
from collections import Counter
from collections.abc import Iterator
from copy import copy
from importlib import metadata
from pathlib import Path
from typing import Annotated, Any

import typer

from reporter.commands.in_language import commands_of
from reporter.commands.options import echo
from reporter.machine import log

OURS = "gudgeon"
_NEEDED = re.compile(r"[\w.-]+")
_WIDTH = 78


def about() -> str:
    """The program, Python and the system, who brings kinds, systems and templates, the libraries, the languages."""
    return "\n".join(
        [
            f"gudgeon {metadata.version(OURS)}",
            f"Python {platform.python_version()} on {platform.system()} {platform.machine()}",
            *_listed("plugins", _plugins()),
            *_listed("libraries", _libraries()),
            *_listed("languages", _languages()),
        ]
    )


def _plugins() -> Iterator[str]:
    from reporter.registry import GROUPS, find

    counted = Counter((each.distribution, each.version, each.group) for each in find())
    brought = sorted(
        {(name, version) for name, version, _ in counted}, key=lambda each: (each[0] != OURS, each)
    )
    for name, version in brought:
        parts = [f"{counted[name, version, group]} {group.partition('.')[2]}" for group in GROUPS]
        what = " and ".join(part.replace("plugins", "kinds") for part in parts if not part.startswith("0 "))
        yield f"{name} {version} ({what})"


def _libraries() -> Iterator[str]:
    for needed in sorted(set(metadata.requires(OURS) or ())):
        name, extra = _NEEDED.match(needed), "extra ==" in needed
        if name is None or "'test'" in needed or '"test"' in needed:
            continue
        try:
            yield f"{name[0]} {metadata.version(name[0])}"
        except metadata.PackageNotFoundError:
            if not extra:
                yield f"{name[0]} MISSING"


def _languages() -> Iterator[str]:
    from reporter.wording import completeness, languages

    yield "en"
    for lang in languages()[1:]:
        have, all_ = completeness(lang)
        yield lang if have == all_ else f"{lang} ({have} of {all_} messages)"


def _listed(title: str, entries: Iterator[str]) -> Iterator[str]:
    """`title: one, two …` in lines of a terminal's width; entries are not parted."""
    line = f"{title}:"
    for number, each in enumerate(entries):
        comma = "," * bool(number)
        if len(line) + len(comma) + 1 + len(each) > _WIDTH:
            yield line + comma
            line = f"    {each}"
        else:
            line = f"{line}{comma} {each}"
    yield line


def _show_version(value: bool) -> None:
    if value:
        echo(about())
        raise typer.Exit


def _begin_log(file: Path | None) -> Path | None:
    if file is not None:
        log.open_log(file, about())
    return file


Version = Annotated[
    bool,
    typer.Option(
        "--version",
        callback=_show_version,
        is_eager=True,
        help="Tell the versions of the program, its plugins and libraries, and its languages.",
    ),
]
LogFile = Annotated[
    Path | None,
    typer.Option(
        "--log",
        callback=_begin_log,
        is_eager=True,
        metavar="FILE",
        help="Write what the run does and when to a file; nothing of the job stands in it.",
    ),
]


def ahead(_version: Version = False, _log_file: LogFile = None) -> None:
    """Turns the photos, findings and measurements of a job folder into a condition report."""


def with_log(command: Any) -> Any:
    """The program with `--log` understood after each command's name as well, where people write it."""
    own = copy(next(each for each in command.params if "--log" in each.opts))
    # It has done its work when it is read; the commands' functions know nothing of it.
    own.expose_value = False
    for each in commands_of(command):
        if each is not command:
            each.params.append(own)
    return command
