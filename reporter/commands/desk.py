"""`gudgeon desk`: the job in a browser page on this computer, for as long as the command runs."""

from __future__ import annotations

import webbrowser
from collections.abc import Callable
from importlib.util import find_spec
from pathlib import Path
from threading import Thread
from typing import Annotated

import typer

from reporter.commands.options import registry, say
from reporter.errors import UsageError
from reporter.machine.interrupts import expected

NEEDED = ("starlette", "uvicorn", "pypdfium2")
LAST_PORT = 65_535


Job = Annotated[
    Path | None,
    typer.Argument(
        help="A job folder, or a folder of several; default: this one, to choose or begin one.", metavar="JOB"
    ),
]
Port = Annotated[
    int,
    typer.Option("--port", help="The port to listen on; default: one that is free.", min=0, max=LAST_PORT),
]
NoBrowser = Annotated[bool, typer.Option("--no-browser", help="Show the address and open nothing.")]
OnNetwork = Annotated[
    bool,
    typer.Option(
        "--on-network", help="Let phones and tablets on this network in, each by a code of its own."
    ),
]


def desk(
    job: Job = None, port: Port = 0, no_browser: NoBrowser = False, on_network: OnNetwork = False
) -> None:
    """Write a job in a browser page: photos, marks, answers, grades as you go, the report."""
    _refuse_if_not_installed()
    folder = (job or Path.cwd()).absolute()
    if not folder.is_dir():
        raise UsageError(f"There is no folder {folder}.", "Check the name, or leave it out to begin a job.")
    from reporter.desk.serving import serve

    with expected():
        serve(
            folder,
            registry(),
            is_job=(folder / "job.yaml").exists(),
            port=port,
            on_network=on_network,
            tell=say,
            ready=_ready(quiet=no_browser, on_network=on_network),
        )
    say("The desk is closed; everything is in its folder.")


def _refuse_if_not_installed() -> None:
    missing = [name for name in NEEDED if find_spec(name) is None]
    if missing:
        msg = f"The desk needs libraries that are not installed: {', '.join(missing)}."
        raise UsageError(msg, 'Install them: pip install "gudgeon[desk]".')


def _ready(*, quiet: bool, on_network: bool) -> Callable[[str], None]:
    """Shows the address, and opens it unless asked not to."""

    def ready(url: str) -> None:
        say(f"The desk is open: {url}")
        if on_network:
            say("Phones and tablets come in by the code that the page shows; each one is told here.")
        say("Stop it with Ctrl-C.")
        if not quiet:
            # Some browsers keep who started them waiting; questions are to be answered meanwhile.
            Thread(target=webbrowser.open, args=(url,), daemon=True).start()

    return ready
