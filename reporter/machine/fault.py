"""Where a fault of the program lies, as a text that can be sent to those who mend it, without anything private.

Comes in: an exception. Goes out: its way through the code by file, line and function, with the line of code; of what it
says, only words that stand in that very code or in Python's own messages. No values, no names of files or people.
"""

from __future__ import annotations

import linecache
import os
import re
import sys
import tempfile
from collections.abc import Iterator
from pathlib import Path
from types import CodeType, TracebackType

_WORDS = frozenset(
    re.findall(
        r"\w+",
        "a an and are argument arguments at attribute be between but by callable can cannot case closed could "
        "decode dict division does empty error expected failed file float for found from full got has have in "
        "index input int integer invalid is it iterable key keyword len line list literal many missing must no "
        "none nonetype not object of on open operand operands operation or out outside path positional range "
        "required sequence set should str string support supported takes than that the to too tuple type types "
        "unexpected unhashable unknown unpack unsupported use value values was were with you zero ",
    )
)  # fmt: skip
"""Words of Python's own messages."""
_LEFT_OUT = "…"
_LONGEST = 2000
_WORD = re.compile(r"\w+")
_HOME = Path(__file__).resolve().parents[2]


def told(error: BaseException) -> str:
    """The exception and those that led to it, without anything private."""
    return "\n".join(_chain(error))


def keep(error: BaseException, head: str, folders: tuple[Path, ...]) -> Path | None:
    """Put `told` below `head` into a new file that only this user may read, in the first folder that takes it."""
    for folder in folders:
        try:
            folder.mkdir(parents=True, exist_ok=True)
            handle, name = tempfile.mkstemp(".txt", "gudgeon-fault-", folder)
            with os.fdopen(handle, "w", encoding="utf-8") as file:
                file.write(f"{head}\n\n{told(error)}\n")
        except OSError:
            continue
        return Path(name)
    return None


def _chain(error: BaseException, depth: int = 0) -> Iterator[str]:
    earlier = error.__cause__ or (None if error.__suppress_context__ else error.__context__)
    if earlier is not None and depth < 5:  # noqa: PLR2004 - more would tell nothing new
        yield from _chain(earlier, depth + 1)
        yield "\nwhich led to:\n"
    known = set(_WORDS)
    for code, line in _frames(error.__traceback__):
        known |= _words_of(code)
        yield f"{_place(code.co_filename)}, line {line}, in {code.co_qualname}"
        yield f"    {linecache.getline(code.co_filename, line).strip()}"
    yield f"{type(error).__module__}.{type(error).__qualname__}: {_known_words(str(error), known)}"


def _frames(trace: TracebackType | None) -> Iterator[tuple[CodeType, int]]:
    while trace is not None:
        yield trace.tb_frame.f_code, trace.tb_lineno
        trace = trace.tb_next


def _place(file: str) -> str:
    """A file of code from its package on; where that lies on this computer tells whose it is."""
    parts = Path(file).parts
    for root in ("site-packages", f"python{sys.version_info[0]}.{sys.version_info[1]}"):
        if root in parts:
            return "/".join(parts[parts.index(root) + 1 :])
    if Path(file).is_relative_to(_HOME):
        return Path(file).relative_to(_HOME).as_posix()
    return Path(file).name


def _words_of(code: CodeType) -> set[str]:
    """Every word that stands in the code itself: its names, and the texts written in it."""
    texts = [each for each in code.co_consts if isinstance(each, str)]
    names = (*code.co_names, *code.co_varnames, *code.co_freevars, *texts)
    return {word.lower() for each in names for word in _WORD.findall(each)}


def _known_words(message: str, known: set[str]) -> str:
    """The message with every other word, and every number, left out."""
    shown = _WORD.sub(lambda each: each[0] if each[0].lower() in known else _LEFT_OUT, message[:_LONGEST])
    return re.sub(rf"{_LEFT_OUT}(\W{{0,3}}{_LEFT_OUT})+", _LEFT_OUT, shown)
