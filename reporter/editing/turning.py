"""What an edit did to the characters of a file, so that it can be taken back to the letter.

An entry taken out of a list comes back at its place, with its comments, as long as the file still is what the edit left.
Where it is not, the edit is taken back by its values.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from hashlib import sha256
from itertools import takewhile


@dataclass(frozen=True)
class Change:
    """Characters of a file from `start` on: `gone` gave way to `come`; `before` and `after` are digests of the whole."""

    file: str
    start: int
    gone: str
    come: str
    before: str
    after: str

    @classmethod
    def of(cls, file: str, before: str, after: str) -> Change:
        """The one stretch in which two texts differ."""
        start = _alike(before, after)
        same = _alike(before[start:][::-1], after[start:][::-1])
        gone, come = before[start : len(before) - same], after[start : len(after) - same]
        return cls(file, start, gone, come, _digest(before), _digest(after))

    def turned(self) -> Change:
        """The change that takes this one back."""
        return Change(self.file, self.start, self.come, self.gone, self.after, self.before)

    def done_to(self, text: str) -> str | None:
        """`text` after the change; None where it is not the text that was changed."""
        if _digest(text) != self.before:
            return None
        return text[: self.start] + self.come + text[self.start + len(self.gone) :]


def _alike(one: str, other: str) -> int:
    """How many characters agree from the beginning on."""
    return sum(1 for _ in takewhile(lambda pair: pair[0] == pair[1], zip(one, other, strict=False)))


def _digest(text: str) -> str:
    return sha256(text.encode("utf-8")).hexdigest()


def done_to_all(changes: Iterable[Change], read: Callable[[str], str]) -> dict[str, str] | None:
    """Each file's text after the changes; None where one of the files is not what was changed, or there are none."""
    texts = {each.file: each.done_to(read(each.file)) for each in changes}
    whole = {file: text for file, text in texts.items() if text is not None}
    return whole if whole and len(whole) == len(texts) else None
