"""What must hold after every step: each rule a function that says what is wrong, or nothing.

Comes in: the case's folder, the step, its outcome, and what stood in the folder before. Goes out: sentences.
"""

from __future__ import annotations

import hashlib
import json
import re
import signal
from collections.abc import Callable, Iterator, Sequence
from pathlib import Path
from typing import NamedTuple

import pikepdf

from reporter.archive.verifying import find_faults
from reporter.errors import ExitCode
from tests.hard.running import Outcome, Step

FILES = ("job.yaml", "findings.yaml", "measurements.csv")
READING = {0, 3, 4}
CODES: dict[str, set[int]] = {
    "check": {*READING, 10},
    "report": {*READING, 6, 9},
    "work": READING,
    "plan": READING,
    "sheet": READING,
    "due": {*READING, 2},
    "compare": {*READING, 2},
    "take": {*READING, 2, 8},
    "extract": {0, 7, 8},
    "verify": {*READING, 11, 12, 13, 14},
    "plugins": {0, 2, 5},
    "new": {0, 2, 7},
    "describe": {0, 2, 4},
}
"""Documented exit codes (docs/commands.md) that a command may end with where the computer has all it needs.

5 is not among them, since only the program's own kinds are installed, and 8 not for what is written: both would be faults.
"""
TEMPLATE, WORDS, TARGET, MACHINE = {2, 5}, {2, 7}, {7}, {7}
"""What may come besides: of a template that is no file or has faults, of words that are off, of a target that may not be written,
of a computer that lacks something."""
ENDING = (signal.SIGINT, signal.SIGTERM, signal.SIGHUP, signal.SIGKILL)
MOST_COMPUTING = 60
MOST_MEMORY = 2 * 1024**3
_SAID = re.compile(rb"Traceback|Exception ignored|\w+Warning:|Fatal Python|fault of the program")
_STEERING = re.compile("[\x00-\x08\x0b-\x1f\x7f-\x9f\u202a-\u202e\u2066-\u2069]")


class Seen(NamedTuple):
    """One step and what came of it, with the files before it."""

    folder: Path
    step: Step
    outcome: Outcome
    before: dict[str, str]

    @property
    def killed(self) -> bool:
        """Nobody can tidy up after SIGKILL, nor answer."""
        return self.outcome.code == -signal.SIGKILL and bool(self.step.harm)

    @property
    def unheard(self) -> bool:
        """Asked to end before the program's first line ran: Python itself or the system has ended it."""
        return self.outcome.sent and not self.outcome.heard


def stood(folder: Path) -> dict[str, str]:
    """Each file and folder of the case by its name, with a digest of its content and its mode."""
    found = {}
    for path in sorted(folder.rglob("*")):
        if path.is_symlink():
            held = str(path.readlink())
        elif path.is_file():
            held = hashlib.sha256(path.read_bytes()).hexdigest()
        else:
            held = "folder"
        found[str(path.relative_to(folder))] = held
    return found


def code_is_documented(seen: Seen) -> str:
    """Among those of the command; 7 only where the computer or the target is to blame, 130 only when interrupted."""
    code, step = seen.outcome.code, seen.step
    allowed = set(CODES.get(step.words[0], {0}))
    if "--template" in step.words:
        allowed |= TEMPLATE
    if any(word == "--" or "=" in word for word in step.words):
        allowed |= WORDS
    if step.target.startswith("?"):
        allowed |= TARGET
    if step.harm and not step.harm.sent:
        allowed |= MACHINE
    if step.target.startswith("!"):
        allowed = TARGET
    if seen.outcome.heard:
        allowed.add(int(ExitCode.INTERRUPTED))
    if seen.unheard:
        allowed |= {1, 130, *(-number for number in ENDING)}
    return "" if code in allowed else f"exit code {code}, allowed are {sorted(allowed)}"


def nothing_breaks_through(seen: Seen) -> str:
    """No traceback, no warning of Python's, no fault of the program."""
    if seen.unheard:
        return ""
    found = _SAID.search(seen.outcome.out + seen.outcome.err)
    return f"{found[0].decode()} in what was said" if found else ""


def failure_is_told(seen: Seen) -> str:
    """Every failure has a sentence; where the reader's own file says so, verify tells it as its answer."""
    if not seen.outcome.code or seen.killed or seen.unheard:
        return ""
    told = seen.outcome.err + (seen.outcome.out if seen.step.words[0] in {"verify", "take"} else b"")
    return "" if len(told.split()) > 2 else "it failed without a sentence"


def interruption_is_told_once(seen: Seen) -> str:
    """One sentence and nothing else."""
    if seen.outcome.code != ExitCode.INTERRUPTED or not seen.outcome.heard:
        return ""
    return (
        ""
        if re.fullmatch(rb"Interrupted\. [^\n]+\n", seen.outcome.err)
        else "no single sentence of an interruption"
    )


def nothing_steers_the_terminal(seen: Seen) -> str:
    """Whatever stands in a file, no control or turning character is printed."""
    try:
        said = (seen.outcome.out + b"\n" + seen.outcome.err).decode("utf-8")
    except UnicodeDecodeError:
        return "" if seen.killed else "what was said is not UTF-8"
    found = _STEERING.search(said)
    return f"U+{ord(found[0]):04X} was printed raw" if found else ""


def data_are_json(seen: Seen) -> str:
    """What is for a script can be read by one."""
    if "--json" not in seen.step.words or not seen.outcome.out or seen.step.harm:
        return ""
    try:
        json.loads(seen.outcome.out)
    except ValueError as error:
        return f"no JSON: {error}"
    return ""


def it_ends(seen: Seen) -> str:
    """Within a time and a memory that people have."""
    if seen.outcome.endless:
        return "it did not end"
    if seen.outcome.computing > MOST_COMPUTING:
        return f"it computed for {seen.outcome.computing:.0f} s"
    return f"it took {seen.outcome.memory // 1024**2} MB" if seen.outcome.memory > MOST_MEMORY else ""


def what_was_given_stays(seen: Seen) -> str:
    """Byte for byte, but for the folder that a sheet is taken back into."""
    after = stood(seen.folder)
    changed = {name for name in {*seen.before, *after} if seen.before.get(name) != after.get(name)}
    own = ("job/",) if seen.step.words[0] == "take" else ()
    touched = sorted(
        name for name in changed if name.startswith(("job", "given")) and not name.startswith(own or ("\0",))
    )
    return f"changed what was given: {', '.join(touched[:5])}" if touched else ""


def target_is_whole_or_as_it_was(seen: Seen) -> str:
    """A new one that its own check finds in order, or the old one to the byte."""
    target = seen.step.target.lstrip("?")
    name = f"out/{target}"
    if not target or target.startswith("!"):
        return ""
    old, new = seen.before.get(name), stood(seen.folder / "out").get(target)
    code = seen.outcome.code
    if new == old:
        return "" if code or old else "nothing was written"
    if new is None:
        return "the old file is gone"
    kept_going = "--keep-going" in seen.step.words and code in {3, 5}
    unsaid = seen.step.harm is not None and seen.step.harm.stdout == "full" and code == ExitCode.CANNOT_WRITE
    if code and not (kept_going or unsaid or seen.killed or seen.unheard or seen.outcome.heard):
        return f"written in spite of exit code {code}"
    return whole(seen.folder / name)


def taken_is_whole_or_as_it_was(seen: Seen) -> str:
    """Each file of a folder whose taking was cut off, as it was or as its twin's; once taken to the end, as its twin's."""
    twin = seen.folder / "twin"
    if seen.step.words[:2] != ("take", "../job") or not twin.exists():
        return ""
    there, wanted = stood(seen.folder / "job"), stood(twin)
    other = {name for name in FILES if there[name] != wanted[name]}
    if seen.step.harm:
        other = {name for name in other if there[name] != seen.before[f"job/{name}"]}
    return f"neither as it was nor as the sheet has it: {', '.join(sorted(other))}" if other else ""


def whole(path: Path) -> str:
    """What is wrong with a written file, by its sort."""
    if path.suffix == ".pdf":
        return _whole_pdf(path)
    if path.is_dir():
        return "" if any(path.iterdir()) else "an empty folder was left"
    begins, ends = {".html": ("<!DOCTYPE html>", "</html>"), ".ics": ("BEGIN:VCALENDAR", "END:VCALENDAR"),
                    ".csv": ("number,", "\n")}[path.suffix]  # fmt: skip
    text = path.read_text("utf-8")
    return "" if text.startswith(begins) and text.rstrip(" \r\n").endswith(ends.strip()) else "cut off"


def _whole_pdf(path: Path) -> str:
    try:
        with pikepdf.open(path) as pdf:
            is_form, wrong = "sheet.json" in pdf.attachments, pdf.check_pdf_syntax()
    except pikepdf.PdfError as error:
        return f"it cannot be opened: {error}"
    return "; ".join(map(str, [*wrong, *find_faults(path, is_form=is_form)][:3]))


def nothing_is_left(seen: Seen) -> str:
    """In the folder that is written to, in TMPDIR, in the folder where pictures are kept, where faults are told."""
    if seen.killed:
        return ""
    return ", ".join(left_in(seen.folder, seen.before, seen.step.target.lstrip("?")))


def left_in(folder: Path, before: dict[str, str], target: str) -> Iterator[str]:
    """What lies about beside the target, each by its name; a fault that was told before is not told again."""
    for name in stood(folder):
        place, _, rest = name.partition("/")
        new = rest and name not in before and rest.split("/")[0] != target
        swept = rest and (place == "tmp" or rest.endswith((".part", ".scratch", ".unfinished")))
        if (new and place in {"out", "config", "home"}) or swept:
            yield f"left: {name}"


def nobody_lives_on(seen: Seen) -> str:
    """Workers end with their run."""
    return f"still alive: {', '.join(seen.outcome.living)}" if seen.outcome.living else ""


RULES: tuple[Callable[[Seen], str], ...] = (
    code_is_documented, nothing_breaks_through, failure_is_told, interruption_is_told_once, nothing_steers_the_terminal,
    data_are_json, it_ends, what_was_given_stays, target_is_whole_or_as_it_was,
    taken_is_whole_or_as_it_was, nothing_is_left, nobody_lives_on,
)  # fmt: skip


def broken(seen: Seen) -> list[str]:
    """The rules that do not hold, by name, with what is wrong."""
    return [f"{rule.__name__}: {wrong}" for rule in RULES if (wrong := rule(seen))]


def disagreement(seen: Sequence[Seen]) -> list[str]:
    """What `check` says holds for the documents: 0 means that each can be made, anything else that a report cannot."""
    checked = [each.outcome.code for each in seen if each.step.words[0] == "check" and not each.step.harm]
    if not checked:
        return []
    found = []
    for each in seen:
        command, code = each.step.words[0], each.outcome.code
        if (
            command not in {"report", "work", "sheet", "plan"}
            or each.step.harm
            or each.step.target.startswith(("!", "?"))
        ):
            continue
        if not checked[-1] and code:
            found.append(f"check_is_believed: check says 0, {command} {code}")
        if checked[-1] and not code and command == "report":
            found.append(f"check_is_believed: check says {checked[-1]}, {command} 0")
    return found
