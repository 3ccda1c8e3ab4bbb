"""YAML's own syntax errors in plain words.

In: the error that the YAML library raised and the text. Out: line, key, what is wrong, what to do. The library's own
wording is never shown.
"""

from __future__ import annotations

import re

import yaml

_QUOTE = "Put the whole text in quotes."
_WORDS: tuple[tuple[str, str, str], ...] = (
    ("mapping values are not allowed", "There is one colon too many in this line, or the line above is not finished.",
     "If the colon belongs to the text, put the whole text in quotes: 'like: this'."),
    ("could not find expected ':'", "A line here has no colon after its key, or a quote or bracket is left open above.",
     "Write 'key: value', with a space after the colon; check quotes and brackets."),
    ("end of stream|unexpected end|expected <stream end>", "A quote or a bracket is opened and never closed.",
     "Close it; an apostrophe inside single quotes is written twice."),
    ("document separator", "A quote is opened and not closed before '---'.", "Close the quote."),
    ("block sequence entries|expected '-' indicator|<block end>|expected key|expected <document start>",
     "The indentation does not fit the lines above.",
     "Put keys that belong together exactly below one another, and use spaces; text with quotes inside goes in quotes."),
    ("expected ',' or|expected the node content|flow sequence|flow mapping",
     "A list in brackets is not closed, or a comma is missing in it.", "Check the brackets: [a, b, c] or {key: value}."),
    ("cannot start any token", "A text cannot begin with this character.", _QUOTE),
    ("escape", "A backslash in double quotes means something special.", "Use single quotes, or write \\\\ for one backslash."),
    ("alias|anchor", "A text beginning with & or * is read as a mark.", _QUOTE),
    ("tag|directive", "A text beginning with ! or % is read as an instruction.", _QUOTE),
    ("block scalar|chomping|indentation indicator", "After | or > nothing may follow in the same line.",
     "Begin the text in the next line, indented."),
)  # fmt: skip


def in_plain_words(error: yaml.YAMLError, text: str) -> tuple[int, str, str, str]:
    """Line, key (""), what is wrong and what to do for a syntax error in `text`."""
    problem = str(getattr(error, "problem", "") or getattr(error, "reason", "") or "")
    line = _line(error, text)
    if _tab_near(text, line):
        return line, "", "There is a tab here; YAML indents with spaces only.", "Replace the tab by spaces."
    if "allowed" in problem and ("control" in problem or "special" in problem):
        return line, "", "There is a control character in the file.", "Delete it and type the text again."
    for pattern, what, do in _WORDS:
        if re.search(pattern, problem):
            return line, "", what, do
    return (
        line,
        "",
        "The layout of the file cannot be read from here on.",
        "Compare it with the demonstration job.",
    )


def _line(error: yaml.YAMLError, text: str) -> int:
    mark = getattr(error, "problem_mark", None) or getattr(error, "context_mark", None)
    if mark is not None:
        return min(int(mark.line) + 1, text.count("\n") + 1)
    position = getattr(error, "position", None)
    return text[:position].count("\n") + 1 if isinstance(position, int) else 1


def _tab_near(text: str, line: int) -> bool:
    lines = text.splitlines()[max(line - 2, 0) : line]
    return any(re.match(r" *\t", each) for each in lines)
