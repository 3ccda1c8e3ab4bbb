"""How a run ends: every outcome becomes an exit code and a sentence, and nothing is left lying about.

Comes in: what makes the command line's command. Goes out: the end of the process.
"""

from __future__ import annotations

import os
import sys
from collections.abc import Callable
from pathlib import Path
from shutil import get_terminal_size
from textwrap import fill
from typing import Any, NoReturn

import typer

from reporter.commands.in_language import commands_of, told
from reporter.commands.options import for_terminal
from reporter.errors import ExitCode, GudgeonError, JobError
from reporter.machine import interrupts, leavings, log, outlet
from reporter.machine.shortage import machines, refused
from reporter.model.unseen_characters import visible

_NARROWEST, _WIDEST = 40, 100


def run_to_the_end(program: Callable[[], Any]) -> NoReturn:
    """Run the command that `program` makes and end the process with a documented code; a bug is told as one, without a traceback."""
    try:
        interrupts.begin()
        outlet.prepare()
        code = _code(program)
        if code:
            # Where memory ran out nothing could be taken away at once; by now what filled it is gone.
            leavings.clear()
        interrupts.over()
    except KeyboardInterrupt:
        _interrupted()
    log.note(f"exit code {code}")
    raise SystemExit(code)


def _code(program: Callable[[], Any]) -> int:
    try:
        answer = _answer(program)
        outlet.flush()
    except Exception as error:
        if interrupts.asked():
            raise interrupts.Interrupted from error
        return _failed(error, program)
    if answer == ExitCode.INTERRUPTED:
        # Typer has made a code of it.
        raise interrupts.Interrupted
    return answer


def _answer(program: Callable[[], Any]) -> int:
    try:
        answer = program()(standalone_mode=False)
    except SystemExit as left:
        answer = left.code
    except typer.Abort:
        answer = int(ExitCode.INTERRUPTED)
    return answer if isinstance(answer, int) else int(ExitCode.DONE)


def _failed(error: Exception, program: Callable[[], Any]) -> int:
    try:
        return _told(error, program)
    except Exception as again:
        short = machines(again)
        if short is None:
            raise
        # Too little memory is left even to tell it in the language of this run.
        interrupts.say(f"{short.message}\n    → {short.advice}")
        return int(short.exit_code)


def _told(error: Exception, program: Callable[[], Any]) -> int:
    if isinstance(error, typer.TyperException):
        _say("\n    → ".join(_spoken(each) for each in _misused(error)))
        return int(ExitCode.USAGE)
    known = error if isinstance(error, GudgeonError) else machines(error) or refused(error)
    if known is None or known.exit_code is ExitCode.BUG:
        _fault(error, lambda: _command(program()))
        return int(ExitCode.BUG)
    log.note(f"{type(known).__name__} in {_where(error)}")
    # What is wrong with a folder has been put into its language, where its kinds are known.
    _say(str(known) if isinstance(known, JobError) else _wrapped(_in_words(known)))
    return int(known.exit_code)


def _misused(error: typer.TyperException) -> list[str]:
    """What is wrong with the words of a command, and where it tells what it takes; a bare name gets just that."""
    message = error.format_message().replace("Value error, ", "")
    context = getattr(error, "ctx", None)
    if context is None or "\n" in message:
        return [message]
    takes = f"{context.command_path} --help tells what it takes."
    one_too_many = message.startswith("Got unexpected extra argument")
    writes = one_too_many and any("-o" in each.opts for each in context.command.params)
    return [message, "The name of what is written follows -o.", takes] if writes else [message, takes]


def _in_words(known: GudgeonError) -> str:
    parts = [known.message, known.advice] if known.advice else [known.message]
    return "\n    → ".join(_spoken(each) for each in parts)


def _wrapped(text: str) -> str:
    """Lines of the terminal's width; what follows a line stands beneath its first word. Names are never parted.

    Where it goes to a file or another program, a sentence stays a line.
    """
    if not (sys.stderr.isatty() or "COLUMNS" in os.environ):
        return text
    width = min(max(get_terminal_size().columns, _NARROWEST), _WIDEST)
    return "\n".join(
        fill(
            line,
            width,
            subsequent_indent=" " * (len(line) - len(line.lstrip(" →"))),
            break_long_words=False,
            break_on_hyphens=False,
        )
        for line in text.splitlines()
    )


def _fault(error: Exception, command: Callable[[], str]) -> None:
    """Tell a fault of the program, and what the person who met it can do."""
    from reporter.commands.about import about
    from reporter.machine import fault

    said = str(error).partition("\n")[0]
    _say(_spoken(f"This is a fault of the program, not of your job folder: {type(error).__name__}: {said}."))
    head = "\n".join(["gudgeon fault", _without_fail(command), _without_fail(about)])
    folders = (Path(typer.get_app_dir("gudgeon")) / "faults", Path(os.environ.get("TMPDIR") or "/tmp"))  # noqa: S108
    file = fault.keep(error, head, folders)
    log.note(f"fault:\n{fault.told(error)}")
    if file is None:
        _say(f"{_spoken('Please report it with these lines:')}\n{head}\n\n{fault.told(error)}")
        return
    _say(
        f"    → {_spoken('Please report it to those who maintain gudgeon, and send this file with it:')}\n"
        f"      {file}\n"
        f"      {_spoken('It says where in the program the fault lies.')}\n"
        f"      {_spoken('It holds no name, text, figure or photo of yours; read it through before you send it.')}"
    )


def _without_fail(tell: Callable[[], str]) -> str:
    """What is told besides must not hide the fault itself."""
    try:
        return tell()
    except Exception as error:  # noqa: BLE001 - as it says
        return f"({tell.__name__} cannot be told: {type(error).__name__})"


def _command(command: Any) -> str:
    known = _command_words(command)
    return " ".join(["command:", *(each for each in sys.argv[1:] if each in known)])


def _command_words(command: Any) -> set[str]:
    """Names of commands and options: what else was typed may be a name of a boat."""
    words: set[str] = set()
    for one in commands_of(command):
        words |= {option for each in one.params for option in each.opts if option.startswith("-")}
        words |= set(getattr(one, "commands", {}))
    return words


def _say(text: str) -> None:
    interrupts.say(for_terminal(visible(text)))


def _spoken(english: str) -> str:
    """In the language of this run; where the words cannot be had, that must not hide what happened."""
    try:
        return told(english)
    except Exception:  # noqa: BLE001 - as it says
        return english


def _where(error: BaseException) -> str:
    trace = error.__traceback__
    while trace is not None and trace.tb_next is not None:
        trace = trace.tb_next
    return f"{Path(trace.tb_frame.f_code.co_filename).name}, line {trace.tb_lineno}" if trace else "?"


def _interrupted() -> NoReturn:
    """Everything of this run goes; then the process, without waiting for anybody."""
    interrupts.over()
    interrupts.wind_up()
    leavings.clear()
    log.note("interrupted")
    written = ", ".join(str(each) for each in leavings.written)
    _say(_spoken(f"Interrupted. Already written: {written}." if written else interrupts.NOTHING))
    os._exit(interrupts.CODE)
