"""Characters that cannot be seen: those that steer a terminal, those that turn the order of reading, those without width.

The first two are the C0 and C1 controls (ECMA-48) and the explicit directions of Unicode (UAX #9, tables 1 and 2), with
which a text shows something else than it says (Unicode TR #36, 2.5). The third have their use in some scripts.
"""

from __future__ import annotations

import json
import re

CONTROL = re.compile(r"[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\ud800-\udfff\ufffe\uffff]")
TURNING = re.compile("[\u2028-\u202e\u2066-\u2069\ufff9-\ufffb\U000e0000-\U000e001f]")
WIDTHLESS = re.compile("[\u061c\u180e\u200b-\u200f\u2060-\u2065\u206a-\u206f\ufeff\U000e0020-\U000e007f]")
_ANY = re.compile(f"{CONTROL.pattern}|{TURNING.pattern}|{WIDTHLESS.pattern}|\\r")


def code_point(character: str) -> str:
    """The character as "U+202E"."""
    return f"U+{ord(character):04X}"


def visible(text: str) -> str:
    """The text with each such character as <U+202E>; line ends and tabs stay."""
    return _ANY.sub(lambda found: f"<{code_point(found[0])}>", text)


def escaped(text: str) -> str:
    """JSON with each such character as its escape, which says the same."""
    return _ANY.sub(lambda found: json.dumps(found[0])[1:-1], text)
