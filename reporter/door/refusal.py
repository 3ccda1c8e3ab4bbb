"""The one way in which a photo file says no: what is wrong with it, and what the user can do.

Comes in: nothing. Goes out: a value that crosses the border between worker and parent. It must stay free of
imports, since every module of the door uses it.
"""

from __future__ import annotations


class Refusal(Exception):  # noqa: N818 - a file that cannot be used is an answer, not a fault of the program
    """A file that cannot be used, in plain words: `what` is wrong, and what to `do` about it."""

    def __init__(self, what: str, do: str) -> None:
        super().__init__(what, do)
        self.what = what
        self.do = do

    def __str__(self) -> str:
        return f"{self.what}: {self.do}"


class LostTask(Refusal):
    """A task whose worker went away; it gets a second try."""


class ShortOfRoom(LostTask):
    """A task that this computer had no memory or room for: not the photo's fault, and told as the computer's."""


def damaged(fault: Exception) -> Refusal:
    """What to say of a file that a reader stumbles over; readers of damaged files raise nearly everything."""
    again = "copy it again from the camera, or export it as JPEG"
    if "truncated" in str(fault) or isinstance(fault, EOFError):
        return Refusal("the end of it is missing", again)
    if "MAX_TEXT" in str(fault):
        return Refusal("it holds more text than a photo has", "export it as JPEG")
    return Refusal(f"it is damaged ({type(fault).__name__})", again)
