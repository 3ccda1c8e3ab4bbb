"""Where a key stands in the text of a TOML file: for messages, since the parser forgets lines.

Comes in: text and the path of a key. Goes out: a line number, counted from 1; the nearest one that is known.
"""

from __future__ import annotations

import re
from collections.abc import Sequence


def line_of(text: str, path: Sequence[str]) -> int:
    """The line of `path`: its table's header, then within that table the key that is nearest to it."""
    lines = text.splitlines()
    start, rest = _header(lines, path)
    for number in range(start + 1, len(lines)):
        if lines[number].startswith("["):
            break
        if any(re.match(rf'\s*"?(?:choices\.)?"?{re.escape(key)}"?\s*[=.]', lines[number]) for key in rest):
            return number + 1
    return max(start, 0) + 1


def _header(lines: Sequence[str], path: Sequence[str]) -> tuple[int, Sequence[str]]:
    """The line of the header of the path's table (-1 where there is none), and what is left of the path."""
    for length in (2, 1):
        names = [re.escape(each) for each in path[:length]]
        pattern = r"\[" + r"\.".join(f'"?{each}"?' for each in names) + r"\]"
        for number, line in enumerate(lines):
            if re.match(pattern, line):
                return number, path[length:]
    return -1, path
