"""Before going aboard and at the pedestal: the plan of a visit, the sheet to fill in, and the sheet taken back."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated, Literal

import typer

from reporter.commands.in_language import language
from reporter.commands.options import JobFolder, Lang, echo, registry, tell
from reporter.errors import ExitCode, UsageError


def plan(
    job: Annotated[
        Path | None, typer.Argument(help="The job folder; none where kinds are named.", metavar="[JOB]")
    ] = None,
    kinds: Annotated[
        str, typer.Option("--kinds", help="Kinds alone, with commas between them.", metavar="KIND,KIND")
    ] = "",
    output: Annotated[
        Path | None, typer.Option("-o", "--output", help="Write it, .pdf or .html; default: print lines.")
    ] = None,
    lang: Lang = "",
) -> None:
    """Plan a visit: what to look at, to ask for and to bring, and what last time left open."""
    from reporter import visiting
    from reporter.outputs.plan_lines import plan_lines
    from reporter.wording import speaking

    wanted = [each.strip() for each in kinds.split(",") if each.strip()]
    if (job is None) is not bool(wanted):
        raise UsageError(
            "A plan is made of a job folder, or of kinds.",
            "Name the folder, or kinds with --kinds, and not both.",
        )
    lang = lang or ("" if job else language())
    made = visiting.plan(job, wanted, registry(), lang)
    if output is None:
        with speaking(made.job.sheet.lang if made.job else lang):
            for line in plan_lines(made):
                echo(line)
        return
    visiting.print_plan(made, job or Path.cwd(), output, lang=lang, tell=tell)
    echo(f"{output}")


def sheet(
    job: JobFolder,
    output: Annotated[
        Path | None, typer.Option("-o", "--output", help="Where to write; default: JOB-sheet.pdf, here.")
    ] = None,
    page: Annotated[
        Literal["A4", "Letter", "A5"] | None, typer.Option("--page", help="Default: the job's own.")
    ] = None,
    everything: Annotated[
        bool, typer.Option("--all", help="Every question that the kinds know, not the usual ones alone.")
    ] = False,
    empty: Annotated[
        bool, typer.Option("--empty", help="Fill nothing in, whatever the folder says.")
    ] = False,
    lang: Lang = "",
) -> None:
    """Write the field sheet: a form in walking order, to be filled in by hand or on a screen."""
    from reporter import visiting

    target = output or Path.cwd() / f"{job.resolve().name}-sheet.pdf"
    visiting.sheet(
        job, target, registry(), page=page, everything=everything, empty=empty, lang=lang, tell=tell
    )
    echo(f"{target}")


def take(
    job: JobFolder,
    filled: Annotated[Path, typer.Argument(help="The sheet, filled in and saved.", metavar="SHEET")],
    replace: Annotated[
        bool, typer.Option("--replace", help="Where the folder says something else, take the sheet's word.")
    ] = False,
) -> None:
    """Take a filled field sheet back into its folder: what is new is added, what differs is told."""
    from reporter import visiting

    taken = visiting.take(job, filled, registry(), replace=replace)
    for line in taken.lines():
        echo(line)
    if taken.of("unreadable"):
        raise SystemExit(int(ExitCode.JOB_INVALID))
