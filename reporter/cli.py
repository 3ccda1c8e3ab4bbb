"""The command line: the only place that prints, and that turns errors into exit codes.

Every command imports what it needs when it runs, so that `gudgeon --help` stays quick.
"""

from __future__ import annotations

import json
import sys
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, NoReturn

import typer

from reporter.errors import ExitCode, GudgeonError, UsageError

if TYPE_CHECKING:
    from reporter.model.assessment import Assessments
    from reporter.model.template import Template
    from reporter.registry import Registry

app = typer.Typer(
    name="gudgeon",
    no_args_is_help=True,
    add_completion=False,
    pretty_exceptions_enable=False,
    rich_markup_mode=None,
    help="Turns the photos, findings and measurements of a job folder into a condition report.",
)

JobFolder = Annotated[Path, typer.Argument(help="The job folder: job.yaml, findings.yaml, measurements.csv, photos.", metavar="JOB")]
KeepGoing = Annotated[bool, typer.Option("--keep-going", help="Print what fails as not graded or not shown; the exit code stays.")]
AsJson = Annotated[bool, typer.Option("--json", help="Print JSON for a script.")]
TemplateFile = Annotated[Path | None, typer.Option("--template", help="A template file of your own instead of the job's purpose.")]


def main() -> NoReturn:
    """Runs the command line and exits with a documented code; a bug is told as one, without a traceback."""
    try:
        app(standalone_mode=False)
    except GudgeonError as error:
        _fail(str(error), error.exit_code)
    except (KeyboardInterrupt, typer.Abort):
        _fail("Interrupted. Nothing was written.", ExitCode.INTERRUPTED)
    except typer.TyperException as error:
        _fail(error.format_message(), ExitCode.USAGE)
    except Exception as error:  # noqa: BLE001  (the last door: whatever comes here is a fault of ours)
        _fail(f"This is a fault of the program, not of your job folder: {type(error).__name__}: {error}", ExitCode.BUG)
    raise SystemExit(ExitCode.DONE)


def _fail(message: str, code: ExitCode) -> NoReturn:
    typer.echo(message, err=True)
    raise SystemExit(int(code))


def _registry() -> Registry:
    from reporter.registry import find, load

    return load(find())


def _template(file: Path | None) -> Template | None:
    if file is None:
        return None
    from reporter.registry import parse_template

    try:
        return parse_template(file.read_text("utf-8"), file.stem)
    except (OSError, UnicodeDecodeError) as error:
        msg = f"The template file {file} cannot be read: {error}"
        raise UsageError(msg, "Give the path of a TOML file, such as a copy of an installed template.") from error


def _tell(step: str) -> None:
    """Progress for a person at a terminal; quiet when the output is piped."""
    if sys.stderr.isatty():
        typer.echo(f"  {step} …", err=True)


@app.command()
def report(
    job: JobFolder,
    output: Annotated[Path | None, typer.Option("-o", "--output", help="Where to write; default: the job's name in the current folder.")] = None,
    template: TemplateFile = None,
    keep_going: KeepGoing = False,
) -> None:
    """Write the report of a job folder as a PDF."""
    from reporter import pipeline

    target = output or Path.cwd() / f"{job.resolve().name}.pdf"
    graded = pipeline.report(job, target, _registry(), _template(template), keep_going=keep_going, tell=_tell)
    typer.echo(f"{target}")
    failed = [part for part in graded.components if part.failed]
    if failed:
        _fail("\n".join(part.failed for part in failed), ExitCode.PLUGIN_FAILED)


@app.command()
def check(
    job: JobFolder,
    as_json: AsJson = False,
    fail_on: Annotated[str, typer.Option("--fail-on", help="Exit with 10 when a part has this grade or worse.", metavar="GRADE")] = "",
    template: TemplateFile = None,
    keep_going: KeepGoing = False,
) -> None:
    """Read and grade a job folder without writing anything."""
    from reporter import pipeline
    from reporter.errors import GradeMetError
    from reporter.model.terms import Grade

    if fail_on and fail_on not in {grade.value for grade in Grade}:
        msg = f"'{fail_on}' is no grade."
        raise UsageError(msg, f"Grades are: {', '.join(Grade)}.")
    registry = _registry()
    folder = pipeline.read(job, registry)
    chosen = _template(template) or registry.template(folder.sheet.purpose)
    graded = pipeline.judge(folder, registry, chosen, keep_going=keep_going)
    if as_json:
        from reporter.outline.attached import assessed

        typer.echo(assessed(graded))
    else:
        _print_grades(graded, folder.remarks)
    if fail_on:
        met = [part for part in graded.components if _meets(part.grade, Grade(fail_on))]
        if met:
            msg = f"{len(met)} part{'s' if len(met) > 1 else ''} graded {fail_on} or worse: {', '.join(part.title for part in met)}"
            raise GradeMetError(msg)


def _meets(grade: str, wanted: str) -> bool:
    from reporter.model.terms import Grade

    if Grade(wanted) is Grade.UNSEEN:
        return grade == wanted
    return Grade(grade).rank >= Grade(wanted).rank


def _print_grades(graded: Assessments, remarks: tuple[str, ...]) -> None:
    """Grades, what decides them, what is missing; within 80 columns."""
    from textwrap import fill

    from reporter.wording import catalogue

    words = catalogue()
    for system in graded.systems:
        typer.echo(f"{system.title}: {words(f'grade.{system.grade}')}")
        if system.withheld or system.weakest:
            typer.echo(f"  held down by {system.withheld or system.weakest}")
        for part in (each for each in graded.components if each.system == system.id):
            typer.echo(f"  {words(f'grade.{part.grade}'):<9} {part.title}")
            told = [part.sentence, *part.capped, *(each.title for each in part.missing if each.needed)]
            for text in dict.fromkeys(words.terms(text) for text in told if text):
                typer.echo(fill(text, 78, initial_indent=" " * 12, subsequent_indent=" " * 12))
    for remark in remarks:
        typer.echo(fill(f"note: {remark}", 78, subsequent_indent="      "), err=True)


@app.command()
def plugins(as_json: AsJson = False) -> None:
    """List the installed component kinds, systems and templates, and who brings them."""
    registry = _registry()
    if as_json:
        rows = [vars(each) for each in registry.found]
        typer.echo(json.dumps(rows, indent=1))
        return
    for each in registry.found:
        plugin = registry.plugins.get(each.name) if each.group == "gudgeon.plugins" else None
        title = f"  {plugin.title}" if plugin else ""
        typer.echo(f"{each.group.removeprefix('gudgeon.'):<10} {each.name:<16} {each.distribution} {each.version}{title}")


@app.command()
def limits(kind: Annotated[str, typer.Argument(help="A component kind, as 'gudgeon plugins' lists them.", metavar="KIND")], as_json: AsJson = False) -> None:
    """Print every limit of a component kind with its source: those that decide, and those for information."""
    from reporter.wording import catalogue

    plugin = _registry().plugin(kind)
    words = catalogue()
    if as_json:
        typer.echo(json.dumps([limit.model_dump(mode="json") for limit in plugin.limits], ensure_ascii=False, indent=1))
        return
    for limit in plugin.limits:
        role = "decides" if limit.governs else "for information"
        status = words(f"status.{limit.source.status}")
        source = ", ".join(text for text in (limit.source.title, limit.source.clause, limit.source.edition, status) if text)
        typer.echo(f"{limit.id}\n  {limit.sense.value.replace('_', ' ')} {limit.value:g} {limit.unit}, then {limit.then} ({limit.kind}, {role})")
        typer.echo(f"  {source}")
        for text in (limit.written_for and f"written for {limit.written_for}", limit.note):
            if text:
                typer.echo(f"  {text}")


@app.command()
def schema(
    output: Annotated[Path | None, typer.Option("-o", "--output", help="A folder to write one file per schema into; default: print.")] = None,
) -> None:
    """Print the JSON Schemas of the job folder's files, choices with their words."""
    from reporter.collect.schema import schemas
    from reporter.errors import CannotWriteError

    registry = _registry()
    made = schemas(registry.plugins, registry.templates)
    if output is None:
        typer.echo(json.dumps(made, ensure_ascii=False, indent=1))
        return
    try:
        output.mkdir(parents=True, exist_ok=True)
        for name, content in made.items():
            (output / f"{name}.schema.json").write_text(json.dumps(content, ensure_ascii=False, indent=1), "utf-8")
    except OSError as error:
        msg = f"The schemas cannot be written to {output}: {error.strerror}"
        raise CannotWriteError(msg, "Choose a folder that you may write to.") from error
