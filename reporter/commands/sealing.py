"""`gudgeon key new`, `seal`, `sign` and `verify`: a person's key, signatures on a report, and what a received one is worth.

Passwords are asked for at the terminal and nowhere else: an option would stand in the shell's history and in the list of running
processes.
"""

from __future__ import annotations

import re
import sys
from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from reporter.commands.in_language import told
from reporter.commands.options import OwnLang, echo, echo_data, say
from reporter.errors import ExitCode, UsageError

if TYPE_CHECKING:
    from reporter.seal.keys import Key

KeyFile = Annotated[
    Path, typer.Option("--key", help="Your key file, made by 'gudgeon key new'.", metavar="FILE")
]
InkFile = Annotated[
    Path | None,
    typer.Option(
        "--ink", help="Your signature as you drew it, saved as SVG; it proves nothing.", metavar="SVG"
    ),
]
Sealed = Annotated[Path, typer.Argument(help="A sealed report.", metavar="SEALED")]
_WORTH = (
    "Give the fingerprint to whoever receives your reports, by another way than the report: by it they know you again. "
    "The key shows that its owner signed and that nothing changed since. "
    "It does not show that the name is true, for nobody but you vouches for it, nor when you signed. "
    "It makes no qualified signature; local law decides what it is worth. "
    "Keep the file off the boat's computer and out of job folders. "
    "Nobody can open it without its password, and nobody can make it again."
)


def register(app: typer.Typer) -> None:
    """Put these commands on the program's command line."""
    key = typer.Typer(no_args_is_help=True, help="Make the key that you sign with.", rich_markup_mode=None)
    key.command("new")(new_key)
    app.add_typer(key, name="key")
    app.command()(seal)
    app.command()(sign)
    app.command()(verify)


def new_key(
    file: Annotated[Path, typer.Argument(help="The key file to make, such as me.p12.", metavar="FILE")],
    name: Annotated[str, typer.Option("--name", help="Your name, as it stands in reports.")] = "",
) -> None:
    """Make a key of your own: only who has the file and its password can sign with it."""
    from datetime import UTC, datetime

    from reporter.model.sealed import grouped
    from reporter.outputs.screen import wrapped
    from reporter.seal import make_key, require

    require()
    name = name or typer.prompt(told("Your name, as it stands in reports"))
    key = make_key(file, name, password(twice=True), datetime.now(UTC).replace(microsecond=0))
    echo(f"{file}")
    say(f"The fingerprint of {key.name}: {grouped(key.fingerprint)}")
    echo("\n".join(wrapped(told(_WORTH), 0)))


def seal(
    report: Annotated[Path, typer.Argument(help="A report that this program wrote.", metavar="REPORT")],
    key: KeyFile,
    ink: InkFile = None,
    output: Annotated[
        Path | None,
        typer.Option("-o", "--output", help="Default: NAME-sealed.pdf beside it.", metavar="FILE"),
    ] = None,
) -> None:
    """Seal a report as its author: nothing can change unseen any more, only the other named parties can sign."""
    target = output or report.with_name(f"{report.stem}-sealed.pdf")
    _signed(report, target, "", key, ink)


def sign(
    sealed: Sealed,
    field: Annotated[
        str, typer.Option("--field", help="Which field: received, witness, handed_over.", metavar="NAME")
    ],
    key: KeyFile,
    ink: InkFile = None,
    output: Annotated[
        Path | None, typer.Option("-o", "--output", help="Default: the same file.", metavar="FILE")
    ] = None,
) -> None:
    """Sign a sealed report as a party that is named on it, in a field that is still empty."""
    from reporter.model.sealed import ProofOutcome
    from reporter.proving import prove

    if prove(sealed).outcome not in {ProofOutcome.VERIFIED, ProofOutcome.LIMITED}:
        msg = f"{sealed} is not as it was sealed, or not sealed at all."
        raise UsageError(msg, f"See what is wrong: gudgeon verify {sealed}")
    target = output or sealed
    _signed(sealed, target, field, key, ink)


def verify(
    file: Annotated[Path, typer.Argument(help="A report that you were given.", metavar="FILE")],
    job: Annotated[
        Path | None, typer.Argument(help="The job folder it was made from, if you have it.", metavar="[JOB]")
    ] = None,
    known: Annotated[
        list[str] | None,
        typer.Option(
            "--known", help="A fingerprint that you were given, or a file of them.", metavar="KNOWN"
        ),
    ] = None,
    signatures: Annotated[
        int | None, typer.Option("--signatures", help="How many signatures there should be.", metavar="N")
    ] = None,
    template: Annotated[
        Path | None, typer.Option("--template", help="The template file, if the report was made with one.")
    ] = None,
    as_json: Annotated[bool, typer.Option("--json", help="Print JSON for a script.")] = False,
    lang: OwnLang = "",
) -> None:
    """Tell whether a report is as it was sealed, by whom, and whether its grades follow from its data."""
    from reporter.proving import prove
    from reporter.wording import catalogue

    words = catalogue(lang)
    fingerprints = kept(known or [], Path(typer.get_app_dir("gudgeon")) / "known")
    proof = prove(file, job, known=fingerprints, expected=signatures, template=template)
    if as_json:
        echo_data(proof.model_dump_json(indent=1))
    else:
        echo(words(f"verify.outcome_{proof.outcome}"))
        for each in proof.remarks:
            echo(f"- {words(each.id, **each.words)}")
        echo(words("verify.caution"))
    raise SystemExit(int(_CODES[proof.outcome]))


_CODES = {
    "verified": ExitCode.DONE,
    "limited": ExitCode.VERIFIED_WITH_LIMITS,
    "changed": ExitCode.CHANGED,
    "unsealed": ExitCode.UNSEALED,
    "unreadable": ExitCode.UNREADABLE,
}


def _signed(source: Path, target: Path, field: str, key: Path, ink: Path | None) -> None:
    from reporter.archive import may_write, write_finished
    from reporter.seal import add_signature, require

    require()
    # Who signs may add to the sealed file itself; a seal always makes a new one.
    if target.exists() and not (field and target.samefile(source)):
        do = "A sealed report is never overwritten: choose another name with -o."
        raise UsageError(f"{target} exists already.", do)
    if target != source:
        may_write(target)
    document = _read(source)
    drawn = _read(ink).decode("utf-8", "replace") if ink else ""
    write_finished(add_signature(document, _opened(key), field, drawn), target, over=source)
    echo(f"{target}")


def _opened(file: Path) -> Key:
    from reporter.seal import open_key

    if not file.is_file():
        raise UsageError(f"There is no file {file}.", "Make a key with: gudgeon key new FILE")
    return open_key(file, password())


def _read(file: Path) -> bytes:
    try:
        return file.read_bytes()
    except OSError as error:
        raise UsageError(f"{file} cannot be read: {error.strerror or error}.") from error


def password(*, twice: bool = False) -> str:
    """The key's password, typed unseen at a terminal; UsageError where there is none."""
    if not sys.stdin.isatty():
        msg = "The password of a key is asked for at a terminal, and there is none."
        raise UsageError(msg, "Run this command yourself, in a terminal.")
    return str(typer.prompt(told("Password of the key"), hide_input=True, confirmation_prompt=twice))


_FINGERPRINT = re.compile(r"\s*((?:[0-9A-Fa-f]{2}[\s:]?){32})(?![0-9A-Fa-f])")


def kept(given: Iterable[str], folder: Path) -> frozenset[str]:
    """Every fingerprint that the reader keeps, in small letters without spaces.

    `given` are fingerprints or names of files; the files of `folder` are read where it exists. UsageError where one given is
    neither.
    """
    found: set[str] = set()
    for each in given:
        told = list(_fingerprints(each)) or (_of_file(Path(each)) if Path(each).is_file() else [])
        if not told:
            raise UsageError(
                f"'{each}' is no fingerprint, and no file of them.",
                "A fingerprint has 64 characters, 0 to 9 and a to f.",
            )
        found.update(told)
    for file in sorted(folder.glob("*")) if folder.is_dir() else []:
        found.update(_of_file(file) if file.is_file() else [])
    return frozenset(found)


def _of_file(file: Path) -> list[str]:
    try:
        lines = file.read_text("utf-8").splitlines()
    except (OSError, UnicodeDecodeError):
        return []
    return [each for line in lines for each in _fingerprints(line)]


def _fingerprints(line: str) -> Iterator[str]:
    if match := _FINGERPRINT.match(line):
        yield re.sub(r"[\s:]", "", match[1]).lower()
