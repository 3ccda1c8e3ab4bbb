"""The ledger of one reading of a folder: every problem and every remark, in plain words, until all is read.

In: what the readers and checks find. Out: the list of `Problem`s for one `JobError`, and the remarks. It knows no
format and opens no file.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass, field
from difflib import get_close_matches

from reporter.errors import Problem
from reporter.model.unseen_characters import visible
from reporter.wording import catalogue

MOST_LISTED = 24
NEAR = 0.74
"""How alike a word must be to one of the choices to be taken for a slip of it: belt and blet are, good and cord are not."""
_LONG = re.compile("'([^']{60})[^']{20,}'")


@dataclass
class Ledger:
    """Problems and remarks gathered so far."""

    problems: list[Problem] = field(default_factory=list)
    remarks: list[str] = field(default_factory=list)
    bad: dict[str, set[tuple[str | int, ...]]] = field(default_factory=dict)
    """By file: the entries that problems are about, where they are entries of a sheet."""
    parts: dict[Problem, str] = field(default_factory=dict)
    """Problem about a row of a table -> the part that the row is of, as written."""
    bears_photos: bool = False
    """A photo that cannot be shown is remarked and no problem: a plate will stand in its place."""

    def tell(
        self,
        file: str,
        line: int,
        key: str,
        what: str,
        do: str,
        loc: tuple[str | int, ...] | None = None,
        part: str | None = None,
    ) -> None:
        """Note a problem: file, line (0: the whole file), key, what is wrong, what to do; the entry or the part it is about."""
        if loc is not None:
            self.bad.setdefault(file, set()).add(loc)
        # Which usage of terms the job asks for is not known while its sheets are in doubt: the kinds' own stands.
        told = catalogue().terms
        what, do = (_LONG.sub(r"'\1 …'", told(each)) for each in (what, do))
        file, key, what, do = (visible(each) for each in (file, key, what, do))
        self.problems.append(problem := Problem(file, line, key, what, do))
        if part is not None:
            self.parts[problem] = part

    def tell_file(self, file: str, what: str, do: str) -> None:
        """Note a problem of a whole file or folder."""
        self.tell(file, 0, "", what, do)

    def tell_photo(self, file: str, line: int, key: str, what: str, do: str) -> None:
        """Note that a photo cannot be shown, as a problem unless that is to be borne."""
        if self.bears_photos:
            self.remark(f"{file}, line {line}: {what}")
        else:
            self.tell(file, line, key, what, do)

    def remark(self, text: str) -> None:
        """Note something that was coped with or passed over."""
        if (text := visible(text)) not in self.remarks:
            self.remarks.append(text)


def nearest(word: str, choices: Iterable[str], likeness: float = NEAR) -> str:
    """The choice that `word` probably meant: one as alike as that, or the only one with this word in it; "" for none."""
    known = {each.casefold(): each for each in choices}
    tidy = word.casefold().strip()
    close = get_close_matches(tidy, known, 1, likeness) or get_close_matches(
        tidy.replace(" ", "_"), known, 1, likeness
    )
    if close:
        return known[close[0]]
    whole = [each for each in known if tidy and tidy in re.split("[-_. /]", each)]
    return known[whole[0]] if len(whole) == 1 else ""


def meant(word: str, choices: Iterable[str], listing: str = "") -> str:
    """What to do about an unknown word: "Did you mean 'x'? " and the list of what there is."""
    choices = list(choices)
    near = nearest(word, choices)
    hint = f"Did you mean '{near}'? " if near else ""
    return f"{hint}{listing or 'Possible: ' + listed(choices) + '.'}"


def listed(words: Iterable[str], most: int = MOST_LISTED) -> str:
    """Words with commas between, cut off where the list would be no help."""
    words = list(words)
    more = f", and {len(words) - most} more" if len(words) > most else ""
    return (", ".join(words[:most]) or "none") + more
