"""One tree of errors; each knows its exit code and says what to do.

GudgeonError            70  our bug
  UsageError             2  the command's words are off
  JobError               3  the job folder is invalid (carries every problem found)
  PhotosLostError        3  plates stand for photos in a report that was written all the same
  NoSuchError            4  no such plugin, system or template
  PluginError            5  a plugin failed
  LayoutError            6  something does not fit the page
  CannotWriteError       7  the output cannot be written
    MachineError         7  the computer lacks room, memory or permission
  VerificationError      8  the written file failed its own check
  DisclosureError        9  what a version should leave out would still stand in it
  GradeMetError         10  `check --fail-on` met its grade
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from enum import IntEnum

MOST_SHOWN = 20
"""How many problems are printed at once; more than this would only push the first ones off the screen."""
MOST_LINES = 5
"""How many lines are named at which the same is wrong."""


class ExitCode(IntEnum):
    """The documented exit codes: a stable interface."""

    DONE = 0
    USAGE = 2
    JOB_INVALID = 3
    NO_SUCH = 4
    PLUGIN_FAILED = 5
    DOES_NOT_FIT = 6
    CANNOT_WRITE = 7
    VERIFICATION_FAILED = 8
    LEFT_IN = 9
    GRADE_MET = 10
    VERIFIED_WITH_LIMITS = 11
    CHANGED = 12
    UNSEALED = 13
    UNREADABLE = 14
    BUG = 70
    INTERRUPTED = 130


@dataclass(frozen=True, order=True)
class Problem:
    """One thing wrong in a job folder: where, which key, what, and what to do about it."""

    file: str
    line: int
    key: str
    what: str
    do: str

    def __str__(self) -> str:
        return self.told(Frame())

    def told(self, frame: Frame, lines: tuple[int, ...] = ()) -> str:
        """Place and key, then what is wrong, then what to do; `lines` are all at which it stands, where they are several."""
        place = frame.place.format(file=self.file, line=self.line) if self.line else self.file
        if len(lines) > 1:
            place = frame.at_lines(self.file, lines)
        key = f" · {self.key}" if self.key else ""
        return f"{place}{key}\n    {self.what}\n    → {self.do}"


@dataclass(frozen=True)
class Frame:
    """What is said round the problems of a folder; English unless another language is put in."""

    one: str = "1 problem in the job folder"
    many: str = "{count} problems in the job folder"
    place: str = "{file}, line {line}"
    places: str = "{file}, lines {lines}"
    further: str = "{lines} and {count} more"
    more: str = "… and {count} more. Correct these first."

    def at_lines(self, file: str, lines: tuple[int, ...]) -> str:
        """The lines of a file at which the same is wrong, the first ones by number."""
        shown = ", ".join(map(str, lines[:MOST_LINES]))
        if len(lines) > MOST_LINES:
            shown = self.further.format(lines=shown, count=len(lines) - MOST_LINES)
        return self.places.format(file=file, lines=shown)


def _folded(problems: Iterable[Problem]) -> dict[Problem, tuple[int, ...]]:
    """Each problem once, with every line at which the same is wrong; whole files first, since what is wrong in lines may follow."""
    lines: dict[tuple[str, str, str, str], list[Problem]] = {}
    for each in sorted(set(problems), key=lambda problem: (problem.line > 0, problem)):
        lines.setdefault((each.file, each.key, each.what, each.do), []).append(each)
    return {same[0]: tuple(each.line for each in same) for same in lines.values()}


class GudgeonError(Exception):
    """Every error that the program raises on purpose."""

    exit_code = ExitCode.BUG

    def __init__(self, message: str, advice: str = "") -> None:
        super().__init__(message)
        self.message = message
        self.advice = advice

    def __str__(self) -> str:
        return f"{self.message}\n    → {self.advice}" if self.advice else self.message


class UsageError(GudgeonError):
    """Raised when the command line asks for something that cannot be meant."""

    exit_code = ExitCode.USAGE


class JobError(GudgeonError):
    """Raised when a job folder cannot be used; carries every problem found in it."""

    exit_code = ExitCode.JOB_INVALID

    def __init__(self, problems: list[Problem], frame: Frame | None = None) -> None:
        self.problems = sorted(set(problems))
        self.frame = frame or Frame()
        self._folded = _folded(problems)
        count = len(self._folded)
        super().__init__(self.frame.one if count == 1 else self.frame.many.format(count=count))

    def __str__(self) -> str:
        shown = [problem.told(self.frame, lines) for problem, lines in self._folded.items()][:MOST_SHOWN]
        if len(self._folded) > MOST_SHOWN:
            shown.append(self.frame.more.format(count=len(self._folded) - MOST_SHOWN))
        return "\n".join([f"{self.message}:", *shown])


class PhotosLostError(GudgeonError):
    """Raised after a report in which plates stand for photos that could not be shown; it names them."""

    exit_code = ExitCode.JOB_INVALID


class NoSuchError(GudgeonError):
    """Raised when a kind, system or template is asked for that nobody provides, or that two provide."""

    exit_code = ExitCode.NO_SUCH


class PluginError(GudgeonError):
    """Raised when a plugin fails to load, breaks its contract or raises."""

    exit_code = ExitCode.PLUGIN_FAILED


class LayoutError(GudgeonError):
    """Raised when a block cannot be laid out."""

    exit_code = ExitCode.DOES_NOT_FIT


class CannotWriteError(GudgeonError):
    """Raised when the output cannot be put where it was asked for."""

    exit_code = ExitCode.CANNOT_WRITE


class MachineError(CannotWriteError):
    """Raised when the computer lacks room, memory or permission: nothing is wrong with the job folder."""


class VerificationError(GudgeonError):
    """Raised when a written document does not pass its own check."""

    exit_code = ExitCode.VERIFICATION_FAILED


class DisclosureError(GudgeonError):
    """Raised when what a version should leave out would still stand in it."""

    exit_code = ExitCode.LEFT_IN


class GradeMetError(GudgeonError):
    """Raised by `check --fail-on GRADE` when a component has that grade or worse."""

    exit_code = ExitCode.GRADE_MET
