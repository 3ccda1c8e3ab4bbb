"""The language in which the program speaks with whoever runs it, and its help and sentences in that language.

It is that of `--lang`, else what the job folder named asks for, else the computer's own; English where none of them is one
that the program speaks. Sentences are written in English where they are said; `wording/terminal.<lang>.toml` translates them.
"""

from __future__ import annotations

import os
import re
import sys
from collections.abc import Callable, Iterator, Mapping, Sequence
from functools import partial
from pathlib import Path
from typing import Any

_ASKED = re.compile(r"--lang=(.+)")
_LOCALE = re.compile(r"([a-z]{2})(?![a-z])")
"""A locale's language, as in de_AT.UTF-8; C and POSIX name none."""
_COMPUTERS = ("GUDGEON_LANG", "LC_ALL", "LC_MESSAGES", "LANG")
"""The program's own variable, then those of POSIX (2024, 8.2), in their order: the first that says anything decides."""


def language() -> str:
    """The language of this run; English where what was asked for is none that the program speaks."""
    asked = asked_for(sys.argv[1:], os.environ)
    if asked in {"", "en"}:
        return "en"
    from reporter.wording import languages

    return asked if asked in languages() else "en"


def asked_for(words: Sequence[str], environment: Mapping[str, str]) -> str:
    """What the words of a command, the folders among them and the computer ask for; it may be no language at all."""
    for word, following in zip(words, [*words[1:], ""], strict=False):
        if word == "--lang":
            return following
        if found := _ASKED.fullmatch(word):
            return found[1]
    for word in words:
        if os.path.isfile(Path(word) / "job.yaml"):  # noqa: PTH113 - Path's asks for leave to look, and fails without
            from reporter.collect.in_language import written_language

            return written_language(Path(word))
    said = next((environment[name] for name in _COMPUTERS if environment.get(name)), "")
    found = _LOCALE.match(said)
    return found[1] if found else ""


def told(english: str, lang: str = "") -> str:
    """Lines of English in the language of this run, or in `lang`; a sentence without a translation stays as it is."""
    lang = lang or language()
    if lang == "en":
        return english
    from reporter.wording.sentences import Sentences, patterns, sentences_table

    name = f"terminal.{lang}"
    table = Sentences(sentences_table(name)["words"], patterns(name))
    return "\n".join(table.text(line) for line in english.split("\n"))


def with_help(command: Any) -> Any:
    """The command line's command with every help text, and the few words round them, in the language of this run."""
    lang = language()
    if lang != "en":
        from reporter.wording.sentences import sentences_table

        table = sentences_table(f"terminal.{lang}")
        for each in commands_of(command):
            each.help = helped(each.help, table["help"])
            each.get_help = partial(_help_of, each, each.get_help, table)
    return command


def commands_of(command: Any) -> Iterator[Any]:
    """A command and all that stand below it."""
    yield command
    for each in getattr(command, "commands", {}).values():
        yield from commands_of(each)


def helped(text: str | None, table: Mapping[str, str]) -> str:
    """A help text by its paragraphs."""
    paragraphs = [" ".join(each.split()) for each in (text or "").split("\n\n")]
    return "\n\n".join(table.get(each, each) for each in paragraphs)


def _help_of(command: Any, english: Callable[[Any], str], table: Mapping[str, Any], context: Any) -> str:
    for each in command.get_params(context):
        each.help = helped(each.help, table["help"])
    text = english(context)
    for word, said in table["frame"].items():
        text = text.replace(word, said)
    return text
