"""`gudgeon new`: a job folder begun, with what is known of the boat; asked for at a terminal, else taken from options."""

from __future__ import annotations

import sys
from collections.abc import Mapping
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from reporter.commands.in_language import told
from reporter.commands.options import OwnLang, echo, registry, say
from reporter.errors import UsageError

if TYPE_CHECKING:
    from reporter.begin import Answers, Begun
    from reporter.registry import Registry
    from reporter.wording import Catalogue

Folder = Annotated[
    Path, typer.Argument(help="The job folder to make; it must not exist yet.", metavar="FOLDER")
]
Photos = Annotated[
    Path | None,
    typer.Option("--photos", help="A folder of photos, as they came off the phone.", metavar="DIR"),
]
Boat = Annotated[str, typer.Option("--boat", help="Her name.", metavar="NAME")]
Author = Annotated[str, typer.Option("--author", help="Who writes the report.", metavar="NAME")]
Place = Annotated[str, typer.Option("--place", help="Where she lies while you look at her.")]
Purpose = Annotated[
    str,
    typer.Option(
        "--purpose", help="What the report is for: pre_purchase, handover, insurance.", metavar="TEMPLATE"
    ),
]
Steering = Annotated[
    str,
    typer.Option("--steering", help="Her steering gear: chain_and_wire, hydraulic, direct (a tiller), ..."),
]
Systems = Annotated[
    str,
    typer.Option(
        "--systems", help="What you will look at, with commas between; default: what the purpose expects."
    ),
]


def new(
    folder: Folder,
    photos: Photos = None,
    boat: Boat = "",
    author: Author = "",
    place: Place = "",
    purpose: Purpose = "",
    steering: Steering = "",
    systems: Systems = "",
    lang: OwnLang = "",
) -> None:
    """Begin a job folder: the boat, the parts she should have, and a heap of photos proposed to them.

    Asks for what it needs at a terminal where no option but --photos is given. What nobody told stays empty, and `check`
    names it.
    """
    from reporter.begin import begin, refuse_if_taken
    from reporter.pipeline import translator
    from reporter.wording import catalogue, languages

    refuse_if_taken(folder, photos)
    installed = registry()
    given = {
        "boat": boat,
        "author": author,
        "place": place,
        "purpose": purpose,
        "steering": steering,
        "systems": systems,
    }
    if _at_terminal() and not any(given.values()):
        given = _asked(installed, lang)
    answers = _answers({**given, "lang": lang}, installed)
    # The folder's own language leads.
    spoken = sorted(languages(), key=lambda each: each != lang)
    kinds = [installed.in_language(each) for each in spoken]
    speak = translator(lang, installed).text if lang != "en" else str
    made = begin(folder, photos, answers, kinds, installed.template(answers.purpose), told=speak)
    _tell(made, folder, catalogue(lang), proposed=bool(photos))


def _tell(made: Begun, folder: Path, words: Catalogue, *, proposed: bool) -> None:
    """The folder's name for a script; for a person what is amiss with photos, and what comes next."""
    for remark in made.remarks:
        echo(words("check_told.note", what=remark), err=True)
    echo(f"{folder}")
    if proposed:
        say(f"Photos proposed to parts: {made.proposed}; still to be placed: {made.waiting}.", err=True)
    file = folder / "findings.yaml"
    say(f"Next: take up parts in {file}, or open it with gudgeon desk {folder}.", err=True)
    say(f"What is missing, gudgeon check {folder} names.", err=True)


def _at_terminal() -> bool:
    return sys.stdin.isatty()


def _answers(given: Mapping[str, str], installed: Registry) -> Answers:
    """The answers, each of its choices known; UsageError, with the choices, for any other."""
    from reporter.begin import Answers
    from reporter.begin.answers import GEARS

    clean = {key: " ".join(_printable(text).split()) for key, text in given.items()}
    purpose = clean.pop("purpose") or Answers.purpose
    systems = tuple(each.strip() for each in clean.pop("systems").split(",") if each.strip())
    _refuse_unknown([purpose], installed.templates, "purpose", "Purposes")
    _refuse_unknown([clean["steering"]] if clean["steering"] else [], GEARS, "steering gear", "Gears")
    _refuse_unknown(systems, installed.systems, "system", "Systems")
    return Answers(**clean, purpose=purpose, systems=systems)


def _printable(text: str) -> str:
    return "".join(each if each.isprintable() else " " for each in text)


_USUAL_WORDS = {
    "tiller": "direct",
    "cable": "push_pull",
    "purchase": "pre_purchase",
    "survey": "pre_purchase",
    "mast": "rig",
    "rigging": "rig",
}
"""What people say, and what is meant by it."""


def _refuse_unknown(given: tuple[str, ...] | list[str], known: object, noun: str, plural: str) -> None:
    names = list(known)  # type: ignore[call-overload]
    for each in given:
        if each not in names:
            near = _USUAL_WORDS.get(each.casefold(), "")
            hint = f"Did you mean '{near}'? " if near in names else ""
            raise UsageError(f"'{each}' is no {noun} here.", f"{hint}{plural} are: {', '.join(names)}.")


def _asked(installed: Registry, lang: str) -> dict[str, str]:
    """What is needed, asked in turn; an empty answer leaves it open."""
    from reporter.begin import Answers, systems_of
    from reporter.begin.answers import GEARS
    from reporter.wording import catalogue

    words, systems = catalogue(lang), installed.in_language(lang).systems
    say("A few questions. Enter alone leaves one open, to be filled in later.")
    given = {
        key: _line(text)
        for key, text in (("boat", "Her name"), ("author", "Your name"), ("place", "Where she lies"))
    }
    purposes = {name: words(each.title_id) for name, each in sorted(installed.templates.items())}
    given["purpose"] = _choice("What is the report for?", purposes, Answers.purpose)
    gears = {gear: words(f"steering.{gear}") for gear in GEARS}
    gears["direct"] = f"{gears['direct']}: {told('a tiller on the stock')}"
    given["steering"] = _choice("How is she steered?", gears, "")
    usual = ",".join(systems_of(installed.template(given["purpose"])))
    titles = {ident: each.title for ident, each in systems.items()}
    given["systems"] = _choice("What will you look at? Several with commas between.", titles, usual)
    return given


def _line(question: str) -> str:
    return str(typer.prompt(told(question), default="", show_default=False))


def _choice(question: str, choices: Mapping[str, str], usual: str) -> str:
    """One of the choices, or several with commas; asked again until each is one of them."""
    say(question)
    for ident, text in choices.items():
        echo(f"  {ident:<16}{text}")
    while True:
        said = str(typer.prompt(f"  {told('Which')}", default=usual, show_default=bool(usual))).split(",")
        found = {each.strip(): _meant(each.strip(), choices) for each in said if each.strip()}
        if all(found.values()):
            return ",".join(found.values())
        say(f"'{next(each for each, ident in found.items() if not ident)}' is none of them.")


def _meant(said: str, choices: Mapping[str, str]) -> str:
    """The choice of that id, else the only one in whose id or words it stands; nothing where that is not plain."""
    held = [ident for ident, text in choices.items() if said.casefold() in f"{ident} {text}".casefold()]
    return said if said in choices else held[0] if len(held) == 1 else ""
