"""YAML's own syntax errors in plain words.

In: the error that the YAML library raised and the text. Out: line, key, what is wrong, what to do. The library's own
wording is never shown.
"""

from __future__ import annotations

import re

import yaml

_QUOTE = "Put the whole text in quotes."
_WORDS: tuple[tuple[str, str, str], ...] = (
    ("could not find expected ':'", "This line has no colon after its key, or a quote or bracket is left open in it.",
     "Write 'key: value', with a space after the colon; check quotes and brackets."),
    ("quoted scalar", "A quote is opened here and never closed.",
     "Close it; an apostrophe inside single quotes is written twice."),
    ("flow sequence|flow mapping", "A bracket is opened here and not closed, or a comma is missing after it.",
     "Check the brackets: [a, b, c] or {key: value}."),
    ("block scalar|chomping|indentation indicator", "After | or > nothing may follow in the same line.",
     "Begin the text in the next line, indented."),
    ("escape", "A backslash in double quotes means something special.", "Use single quotes, or write two backslashes."),
    ("alias|anchor|tag|directive", "A text that begins with & * ! or % has a special meaning.", _QUOTE),
    ("block sequence|block mapping|block collection|<document start>|<block end>|expected key|entries are not allowed",
     "The indentation does not fit the lines above, or text follows a closing quote.",
     "Put what belongs together exactly below one another, with spaces; a text with quotes inside goes in quotes."),
)  # fmt: skip
_FROM_THE_START = re.compile("quoted scalar|flow sequence|flow mapping|simple key")
"""Where the fault is what was opened, the line where it was opened is told, not the one where reading stopped."""


def in_plain_words(error: yaml.YAMLError, text: str) -> tuple[int, str, str, str]:
    """Line, key (""), what is wrong and what to do for a syntax error in `text`."""
    context = str(getattr(error, "context", "") or "")
    problem = f"{getattr(error, 'problem', '') or getattr(error, 'reason', '') or ''} {context}"
    line, column = _place(error, text, opened=_FROM_THE_START.search(context) is not None)
    if _tab_near(text, line):
        return (
            line,
            "",
            "There is a tab here; this kind of file indents with spaces only.",
            "Replace the tab by spaces.",
        )
    if "control" in problem or "special characters" in problem:
        return line, "", "There is a control character in the file.", "Delete it and type the text again."
    if "cannot start any token" in problem:
        first = _line_text(text, line)[column : column + 1]
        return line, "", f"A text cannot begin with '{first}'.", _QUOTE
    if "values are not allowed" in problem:
        return line, "", *_colon(_line_text(text, line))
    for pattern, what, do in _WORDS:
        if re.search(pattern, problem):
            return line, "", what, do
    return (
        line,
        "",
        "The layout of the file cannot be read from here on.",
        "Compare it with the demonstration job.",
    )


def _colon(line: str) -> tuple[str, str]:
    if line.count(": ") > 1:
        return (
            "There is one colon too many in this line.",
            "If it belongs to the text, put the text in quotes.",
        )
    return (
        "This line is not indented like the lines that it belongs with.",
        "Put keys that belong together exactly below one another.",
    )


def _place(error: yaml.YAMLError, text: str, *, opened: bool) -> tuple[int, int]:
    """Line (from 1) and column (from 0)."""
    names = ("context_mark", "problem_mark") if opened else ("problem_mark", "context_mark")
    mark = next((found for found in (getattr(error, name, None) for name in names) if found), None)
    if mark is not None:
        return min(int(mark.line) + 1, text.count("\n") + 1), int(mark.column)
    position = getattr(error, "position", None)
    return (text[:position].count("\n") + 1 if isinstance(position, int) else 1), 0


def _line_text(text: str, line: int) -> str:
    lines = text.split("\n")
    return lines[line - 1] if line <= len(lines) else ""


def _tab_near(text: str, line: int) -> bool:
    lines = text.split("\n")[max(line - 2, 0) : line]
    return any(re.match(r" *\t", each) for each in lines)
