"""Characters of a text or a file's name that cannot be seen, told where they stand.

In: the text and its place. Out: a problem for what steers a terminal or turns the order of reading, a remark for what has
no width, since Arabic, Persian or Indian scripts and pictures in text need some of those.
"""

from __future__ import annotations

from reporter.collect.ledger import Ledger
from reporter.model.unseen_characters import CONTROL, TURNING, WIDTHLESS, code_point

Loc = tuple[str | int, ...]


def all_seen(text: str) -> bool:
    """True of nearly every text; what is not plain ASCII is to be looked at."""
    return text.isascii() and text.isprintable()


def tell_unseen(
    text: str,
    ledger: Ledger,
    file: str,
    line: int,
    key: str,
    loc: Loc | None = None,
    *,
    part: str | None = None,
    rename: bool = False,
) -> bool:
    """Tell what cannot be seen in `text`; whether it is refused. `rename`: it is the name of the file itself."""
    if all_seen(text):
        return False
    do = "Give the file a name without it." if rename else "Delete it and type the text again."
    if found := CONTROL.search(text):
        ledger.tell(
            file, line, key, f"There is a control character here ({code_point(found[0])}).", do, loc, part
        )
        return True
    if found := TURNING.search(text):
        what = f"A character here is not seen and turns the order of the letters ({code_point(found[0])})."
        ledger.tell(file, line, key, what, do, loc, part)
        return True
    if found := WIDTHLESS.search(text):
        what = f"{key or file} holds a character without width ({code_point(found[0])}): is it meant?"
        ledger.remark(f"{file}, line {line}: {what}" if line else what)
    return False
