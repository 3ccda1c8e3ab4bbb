"""What `findings.yaml` says: each part, how it was examined, what was seen, found, told, done, advised.

The classes are at the same time the format of the file. Text that is private stays in `Component.private`, which no later
stage may print or attach.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Literal

from pydantic import Field, model_validator

from reporter.model.base import Noun
from reporter.model.photo import PhotoUse
from reporter.model.quantity import PartialDate, Value
from reporter.model.terms import Access, Basis, Extent, Grade, Remedy, State
from reporter.model.texts import Ident, Label, Line, Note, Prose, ShortText


class Detail(Noun):
    """A fact of the part (a size, a choice or a date) with how it is known."""

    value: Note
    basis: Basis = Basis.SEEN
    note: Note = ""

    @model_validator(mode="before")
    @classmethod
    def _bare(cls, raw: object) -> object:
        return {"value": raw} if isinstance(raw, str) else raw


class Fact(Noun):
    """A detail made ready for arithmetic: a number, a date, a choice or words, with how it is known."""

    basis: Basis
    value: Value | None = None
    date: PartialDate | None = None
    choice: str = ""
    words: str = ""


class Observed(Noun):
    """One choice made among those that a kind of component offers, at one place and in one state."""

    choice: Line
    at: Label = ""
    side: Literal["", "port", "starboard"] = ""
    state: State = State.FOUND
    note: Note = ""
    photos: tuple[Line, ...] = ()

    @model_validator(mode="before")
    @classmethod
    def _bare(cls, raw: object) -> object:
        return {"choice": raw} if isinstance(raw, str) else raw


class Examined(Noun):
    """How much of a component was looked at, how, and why not the rest."""

    extent: Extent
    how: tuple[
        Literal["hand", "eye", "mirror", "camera", "binoculars", "aloft", "from_deck", "test", "gauge"], ...
    ] = ()
    included: tuple[Line, ...] = ()
    because: Note = ""
    note: Note = ""

    @model_validator(mode="before")
    @classmethod
    def _bare(cls, raw: object) -> object:
        return {"extent": raw} if isinstance(raw, str) else raw


class Told(Noun):
    """What somebody said; kept apart from what was seen."""

    by: ShortText
    what: ShortText


class Done(Noun):
    """Work carried out during the visit or since the last one."""

    what: ShortText
    by: Line = ""
    date: PartialDate | None = None
    remedy: Remedy | None = None
    settles: tuple[Line, ...] = ()
    documents: tuple[Line, ...] = ()


class Judgement(Noun):
    """The inspector's own grade, which stands above the computed one, with the reason."""

    grade: Grade
    reason: ShortText


class ActionEdit(Noun):
    """The inspector's word on a proposed action (by its id), or an action of her own (without one)."""

    id: Line = ""
    what: Line = ""
    remedy: Remedy | None = None
    decline: bool = False
    reason: Note = ""
    by_when: Line = ""
    access: Access | None = None
    done: Done | None = None

    @model_validator(mode="after")
    def _says_something(self) -> ActionEdit:
        if self.decline and not (self.id and self.reason):
            msg = "declining an action needs its id and a reason"
            raise ValueError(msg)
        if not self.id and not self.what:
            msg = "an action of your own needs 'what'"
            raise ValueError(msg)
        return self


class Component(Noun):
    """One part aboard as findings.yaml tells it."""

    id: Ident
    kind: Ident
    was: Line = ""
    part_of: Ident | None = None
    """The part that this one belongs to: a mast's sheave, a wheel's brake, the blade of one rudder of two."""
    side: Literal["", "port", "starboard"] = ""
    group: Label = ""
    """What belongs together, in the inspector's own word, where neither side nor `part_of` tells it."""
    name: Line = ""
    place: Label = ""
    installed: PartialDate | None = None
    details: dict[str, Detail] = {}
    examined: Examined
    observed: dict[str, tuple[Observed, ...]] = {}
    found: Prose = ""
    told: tuple[Told, ...] = ()
    opinion: Prose = ""
    done: tuple[Done, ...] = ()
    proved: tuple[Line, ...] = ()
    judgement: Judgement | None = None
    photos: tuple[PhotoUse, ...] = ()
    actions: tuple[ActionEdit, ...] = ()
    private: Prose = ""

    @model_validator(mode="before")
    @classmethod
    def _single_observation(cls, raw: object) -> object:
        """Lets `corrosion: surface` stand for a list of one."""
        if not isinstance(raw, dict) or not isinstance(raw.get("observed"), dict):
            return raw
        observed = {
            key: each if isinstance(each, list | tuple) else [each] for key, each in raw["observed"].items()
        }
        return {**raw, "observed": observed}

    @property
    def hand(self) -> str:
        """The side that the part is on; a group of that name tells it too."""
        return self.side or (self.group if self.group in {"port", "starboard"} else "")

    def agrees(self, other: Component) -> bool:
        """Whether nothing parts them: a side or a group that only one of them tells does not."""
        told = ((self.group or self.side, other.group or other.side), (self.hand, other.hand))
        return all(not mine or not its or mine == its for mine, its in told)

    @property
    def tells_left(self) -> bool:
        """Whether an answer is told as left after work."""
        return any(each.state is State.LEFT for answers in self.observed.values() for each in answers)


MIZZEN = re.compile(r"mizzen|besan", re.IGNORECASE)


def on_mizzen(part: Component, parts: Mapping[str, Component]) -> bool:
    """Whether a part belongs to the mizzen: its own words say so, or those of the larger part (of `parts`) it belongs to."""
    whole: Component | None = part
    for _ in range(len(parts) + 1):
        if whole is None:
            return False
        if MIZZEN.search(f"{whole.name} {whole.id} {whole.place} {whole.group}"):
            return True
        whole = parts.get(whole.part_of or "")
    return False


class LoadPath(Noun):
    """Parts that carry a load one after another; the paths of one system carry beside each other."""

    id: Ident
    name: ShortText
    parts: tuple[Ident, ...] = Field(min_length=1)
    lost: ShortText
    """What it means aboard when this path is lost and the others still hold."""


class FindingsSheet(Noun):
    """Everything `findings.yaml` may hold."""

    format: Literal[1]
    components: tuple[Component, ...] = ()
    paths: tuple[LoadPath, ...] = ()
