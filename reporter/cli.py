"""The command line: with `reporter.commands` the only place that prints, and the one that turns errors into exit codes.

Every command imports what it needs when it runs, so that `gudgeon --help` stays quick.
"""

from __future__ import annotations

import gc
import json
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Literal, NoReturn

import typer
from typer.main import get_command

from reporter.commands import register
from reporter.commands.ending import run_to_the_end
from reporter.commands.in_language import with_help
from reporter.commands.options import Audience, JobFolder, Lang, OwnLang, echo, echo_data
from reporter.commands.options import registry as _registry
from reporter.commands.options import tell as _tell
from reporter.commands.progress import Quiet, Verbose, progress
from reporter.errors import JobError, PhotosLostError, PluginError, UsageError
from reporter.machine import interrupts

if TYPE_CHECKING:
    from collections.abc import Sequence
    from datetime import date

    from reporter.model.assessment import Assessments
    from reporter.model.job import Job
    from reporter.model.template import Template
    from reporter.registry import Registry

app = typer.Typer(
    name="gudgeon",
    no_args_is_help=True,
    pretty_exceptions_enable=False,
    rich_markup_mode=None,
    help="Turns the photos, findings and measurements of a job folder into a condition report.",
)

YOUNG = 30_000
"""New objects between two looks for garbage. A run makes hundreds of thousands that all stay: looking is a sixth of it."""

KeepGoing = Annotated[
    bool,
    typer.Option("--keep-going", help="Print what fails as not graded or not shown; the exit code stays."),
]
AsJson = Annotated[bool, typer.Option("--json", help="Print JSON for a script.")]
TemplateFile = Annotated[
    Path | None, typer.Option("--template", help="A template file of your own instead of the job's purpose.")
]


def main() -> NoReturn:
    """Runs the command line and exits with a documented code."""
    from reporter.commands.about import with_log

    gc.set_threshold(YOUNG)
    interrupts.arm()
    run_to_the_end(lambda: with_help(with_log(get_command(app))))


def _template(file: Path | None) -> Template | None:
    from reporter.outputs.installed import template_in

    return template_in(file) if file else None


@app.command()
def report(
    job: JobFolder,
    output: Annotated[
        Path | None,
        typer.Option("-o", "--output", help="Where to write, .pdf or .html; default: the job's PDF, here."),
    ] = None,
    template: TemplateFile = None,
    lang: Lang = "",
    keep_going: KeepGoing = False,
    audience: Audience = "",
    no_cache: Annotated[
        bool, typer.Option("--no-cache", help="Make every picture anew, and keep none for the next time.")
    ] = False,
    quiet: Quiet = False,
    verbose: Verbose = False,
) -> None:
    """Write the report of a job folder as a PDF, or as HTML with its pictures in it."""
    from reporter import pipeline

    target = output or Path.cwd() / f"{job.resolve().name}{f'-{audience}' * bool(audience)}.pdf"
    chosen, lost = _template(template), list[JobError]()
    with progress(lang, target, quiet=quiet, verbose=verbose) as seen:
        graded = pipeline.report(
            job,
            target,
            _registry(),
            chosen,
            lang=lang,
            audience=audience,
            miss=lost.append if keep_going else None,
            keep=not no_cache,
            tell=seen.step,
            told=seen.photos,
        )
    if not quiet:
        echo(f"{target}")
    _fail_as_kept_going(graded, lost)


def _fail_as_kept_going(graded: Assessments, lost: Sequence[JobError]) -> None:
    """What --keep-going went past, each by name, with the exit code that it has without."""
    failed = [part.failed for part in graded.components if part.failed]
    if failed or lost:
        told = "\n".join(dict.fromkeys([*map(str, lost), *failed]))
        raise PhotosLostError(told) if lost else PluginError(told)


@app.command()
def check(
    job: JobFolder,
    as_json: AsJson = False,
    fail_on: Annotated[
        str,
        typer.Option("--fail-on", help="Exit with 10 when a part has this grade or worse.", metavar="GRADE"),
    ] = "",
    template: TemplateFile = None,
    lang: Lang = "",
    keep_going: KeepGoing = False,
    photos: Annotated[
        bool, typer.Option("--photos", help="Decode every photo as well, as a report would.")
    ] = False,
) -> None:
    """Read and grade a job folder without writing anything."""
    from reporter import pipeline
    from reporter.errors import GradeMetError
    from reporter.model.terms import Grade
    from reporter.outline.speaking import speaker
    from reporter.outputs.grades import met_told
    from reporter.wording import speaking

    if fail_on and fail_on not in {grade.value for grade in Grade}:
        raise UsageError(f"'{fail_on}' is no grade.", f"Grades are: {', '.join(Grade)}.")
    registry = _registry()
    folder, wrong = pipeline.collect_parts(job, registry, lang, keep_going=keep_going)
    lost = pipeline.not_shown(job, folder, decode=photos)
    if not keep_going:
        wrong, lost = pipeline.with_lost(wrong, lost, folder, registry), []
    chosen = _template(template) or registry.template(folder.sheet.purpose)
    graded = pipeline.grade(folder, registry, chosen, keep_going=keep_going)
    with speaking(folder.sheet.lang):
        kinds = registry.in_language(folder.sheet.lang)
        _print_grades(graded, folder, chosen, kinds, as_json=as_json)
        say = speaker(folder, kinds)
        bad = [part for part in graded.components if fail_on and _meets(part.grade, Grade(fail_on))]
        met = [say(part.title) for part in bad]
    if wrong:
        raise wrong
    _fail_as_kept_going(graded, [pipeline.photos_lost(lost, folder, registry)] if lost else [])
    if met:
        raise GradeMetError(met_told(met, fail_on, folder.sheet))


def _meets(grade: str, wanted: str) -> bool:
    from reporter.model.terms import Grade

    if Grade(wanted) is Grade.UNSEEN:
        return grade == wanted
    return Grade(grade).rank >= Grade(wanted).rank


def _print_grades(
    graded: Assessments, job: Job, template: Template, kinds: Registry, *, as_json: bool
) -> None:
    """What matters first, within 80 columns, or all of it as JSON."""
    from reporter.outputs.grades import summary
    from reporter.outputs.screen import on_screen
    from reporter.wording import catalogue

    words = catalogue(job.sheet.lang, job.sheet.terms)
    if as_json:
        from reporter.outline.attached import assessed
        from reporter.outline.speaking import spoken

        echo_data(words.terms(assessed(spoken(graded, job, kinds))))
        return
    echo("\n".join(summary(job, graded, template, kinds)))
    for remark in job.remarks:
        echo(on_screen(words("check_told.note", what=remark)), err=True)


@app.command()
def work(
    job: JobFolder,
    output: Annotated[
        Path | None,
        typer.Option("-o", "--output", help="Where to write; a name that ends in .csv gives CSV."),
    ] = None,
    lang: Lang = "",
) -> None:
    """Write the yard's work list: what to do, where, on which part, with what."""
    from reporter import pipeline

    target = output or Path.cwd() / f"{job.resolve().name}-work.pdf"
    pipeline.work(job, target, _registry(), lang=lang, tell=_tell)
    echo(f"{target}")


@app.command()
def compare(
    earlier: Annotated[Path, typer.Argument(help="The job folder of the earlier visit.", metavar="EARLIER")],
    later: Annotated[Path, typer.Argument(help="The job folder of the later visit.", metavar="LATER")],
    everything: Annotated[bool, typer.Option("--all", help="Tell everything, not one screen.")] = False,
    lang: Lang = "",
) -> None:
    """Tell what differs between two visits to one boat: parts, readings, recommendations."""
    from reporter import pipeline

    echo("\n".join(pipeline.compare(earlier, later, _registry(), lang, everything=everything)))


@app.command()
def due(
    jobs: Annotated[list[Path], typer.Argument(help="One job folder or more.", metavar="JOB...")],
    as_of: Annotated[
        str,
        typer.Option(
            "--as-of", help="The day to count from; default: the latest inspection.", metavar="DATE"
        ),
    ] = "",
    by: Annotated[Literal["date", "place", "supply"], typer.Option("--by", help="In which order.")] = "date",
    ics: Annotated[
        Path | None, typer.Option("--ics", help="Write a calendar file as well.", metavar="FILE")
    ] = None,
    lang: Lang = "",
) -> None:
    """List what is due and when: by date, by place aboard, or by supply to buy."""
    from reporter import pipeline

    for line in pipeline.due(jobs, _registry(), as_of=_day(as_of), by=by, calendar=ics, lang=lang):
        echo(line)
    if ics:
        echo(f"{ics}")


def _day(text: str) -> date | None:
    from datetime import date

    if not text:
        return None
    from reporter.collect.dates import in_iso

    try:
        return date.fromisoformat(in_iso(text))
    except ValueError as error:
        raise UsageError(f"'{text}' is no date.", "Write it as 2026-05-12.") from error


@app.command()
def extract(
    report: Annotated[Path, typer.Argument(help="A report that this program wrote.", metavar="REPORT")],
    output: Annotated[
        Path,
        typer.Option(
            "-o", "--output", help="The folder to write into; nothing in it is overwritten.", metavar="FOLDER"
        ),
    ],
) -> None:
    """Take the attached data out of a report again."""
    from reporter.archive import extract as take_out

    for path in take_out(report, output):
        echo(f"{path}")


@app.command()
def plugins(
    as_json: AsJson = False,
    check_file: Annotated[
        Path | None, typer.Option("--check", help="A kind's file of your own: tell what is wrong with it.")
    ] = None,
    lang: OwnLang = "",
) -> None:
    """List the installed component kinds, systems, templates and languages, and who brings them."""
    from reporter.outputs.installed import installed, whole

    registry = _registry()
    if check_file is not None:
        for line in whole(check_file, registry):
            echo(line)
        return
    if as_json:
        rows = [vars(each) for each in registry.found]
        rows += [
            {"group": group, "name": name, "left_out": each.message}
            for (group, name), each in registry.broken.items()
        ]
        echo_data(json.dumps(rows, indent=1))
        return
    echo("\n".join(installed(registry, lang)))


@app.command()
def describe(
    kind: Annotated[
        str, typer.Argument(help="A component kind, as 'gudgeon plugins' lists them.", metavar="KIND")
    ] = "",
    everything: Annotated[
        bool, typer.Option("--all", help="Every kind's page, and the guide to the job folder, with -o.")
    ] = False,
    output: Annotated[
        Path | None, typer.Option("-o", "--output", help="The folder for --all.", metavar="FOLDER")
    ] = None,
    terms: Annotated[Literal["uk", "us"], typer.Option("--terms", help="Whose trade terms.")] = "uk",
    lang: OwnLang = "",
) -> None:
    """Print a component kind's page of the documentation, made from its declaration (Markdown)."""
    from reporter.outputs.guide import pages
    from reporter.outputs.kind_page import kind_page
    from reporter.outputs.screen import on_screen
    from reporter.wording import catalogue, speaking

    if everything is (output is None) or everything is bool(kind):
        msg = "A page is printed of one kind, or all are written with --all and -o FOLDER."
        raise UsageError(msg, "Name one kind, or write --all -o FOLDER.")
    if output:
        from reporter.archive import write_folder

        with speaking(lang):
            write_folder(pages(_registry().in_language(lang), catalogue(lang, terms), lang), output)
        echo(f"{output}")
        return
    with speaking(lang):
        page = kind_page(_registry().in_language(lang).plugin(kind), catalogue(lang, terms))
    echo(on_screen(page).removesuffix("\n"))


@app.command()
def limits(
    kind: Annotated[
        str, typer.Argument(help="A component kind, as 'gudgeon plugins' lists them.", metavar="KIND")
    ],
    as_json: AsJson = False,
    lang: OwnLang = "",
) -> None:
    """Print every limit of a component kind with its source: those that decide, and those for information."""
    from reporter.outputs.installed import limits_told
    from reporter.wording import catalogue, speaking

    plugin, words = _registry().in_language(lang).plugin(kind), catalogue(lang)
    if as_json:
        rows = [limit.model_dump(mode="json") for limit in plugin.limits]
        echo_data(words.terms(json.dumps(rows, ensure_ascii=False, indent=1)))
        return
    with speaking(lang):
        echo("\n".join(line.replace("\u00a0", " ") for line in limits_told(plugin, words)))


register(app)
