"""Photos as evidence: the file, when it was taken and how that is known, the marks laid on it."""

from __future__ import annotations

import datetime as dt
from enum import StrEnum
from typing import Annotated, Literal

from pydantic import Field, model_validator

from reporter.model.base import Noun
from reporter.model.texts import Caption, Line
from reporter.model.texts import Mark as Words

PICTURES = frozenset(
    {
        ".jpg",
        ".jpeg",
        ".jpe",
        ".jfif",
        ".mpo",
        ".png",
        ".webp",
        ".avif",
        ".heic",
        ".heif",
        ".hif",
        ".tif",
        ".tiff",
    }
)
"""Endings of photo files, in small letters: the one list of what a folder takes, a heap gives and a page sends."""

Fraction = Annotated[float, Field(ge=0, le=1)]
Point = tuple[Fraction, Fraction]


class OffsetBasis(StrEnum):
    """How the UTC offset of a photo's time is known."""

    WRITTEN = "written"
    INFERRED = "inferred"
    ASSUMED = "assumed"


class Taken(Noun):
    """When a photo was taken.

    `camera_time` is what the camera wrote; `time` is that plus `correction` (seconds); both are the
    camera's local time. `offset_minutes` is the UTC offset and `offset_basis` how it is known.
    """

    camera_time: dt.datetime
    time: dt.datetime
    correction: float = 0.0
    offset_minutes: int
    offset_basis: OffsetBasis


class PhotoFile(Noun):
    """One file of the photos folder: identity, upright size in pixels, time. Position and serials stay out.

    `name` is relative to the job folder with forward slashes. `problem` is empty or says in plain words why
    the file cannot be shown.
    """

    name: str
    sha256: str
    size_bytes: int
    format: str = ""
    width: int = 0
    height: int = 0
    camera: str = ""
    taken: Taken | None = None
    has_position: bool = False
    turned: str = ""
    problem: str = ""


class MarkBase(Noun):
    """What all marks share: an optional number that the text repeats."""

    callout: int | None = Field(default=None, ge=1, le=99)


class Ring(MarkBase):
    """A circle round a place; its radius is a fraction of the photo's width."""

    kind: Literal["ring"] = "ring"
    at: Point
    radius: Annotated[float, Field(gt=0, le=1)] = 0.05


class Box(MarkBase):
    """A rectangle between two opposite corners."""

    kind: Literal["box"] = "box"
    corner: Point
    opposite: Point


class Arrow(MarkBase):
    """An arrow from `tail` to `head`; the head is what it points at."""

    kind: Literal["arrow"] = "arrow"
    tail: Point
    head: Point


class Ruler(MarkBase):
    """A line with the length the inspector entered; printed as entered, never measured off the photo."""

    kind: Literal["line"] = "line"
    start: Point
    end: Point
    length: Words = ""


class LabelMark(MarkBase):
    """A few words beside the place they speak of."""

    kind: Literal["label"] = "label"
    at: Point
    text: Annotated[str, Field(min_length=1, max_length=80)]


class Blur(MarkBase):
    """A rectangle destroyed in the pixels of every use of the file."""

    kind: Literal["blur"] = "blur"
    corner: Point
    opposite: Point


LARGEST_INSET = 0.36
"""The share of a photo's shorter side that a magnified piece may take up on the page."""


class Inset(MarkBase):
    """A magnified piece of the photo: centre, and radius as a fraction of the width."""

    kind: Literal["inset"] = "inset"
    at: Point
    radius: Annotated[float, Field(gt=0, le=0.25)] = 0.06
    zoom: Annotated[float, Field(ge=1.5, le=6)] = 3.0


Mark = Annotated[Ring | Box | Arrow | Ruler | LabelMark | Blur | Inset, Field(discriminator="kind")]


class PhotoUse(Noun):
    """One use of a photo for a component: what it shows, and what is marked on it.

    `holds` says that people or a plate with a name or number can be seen on it: versions for others leave it out.
    """

    file: Line
    caption: Caption = ""
    shows: Literal["context", "close_up", "paper", ""] = ""
    decides: bool = False
    holds: tuple[Literal["people", "plate"], ...] = ()
    marks: tuple[Mark, ...] = ()

    @model_validator(mode="before")
    @classmethod
    def _bare_name(cls, raw: object) -> object:
        return {"file": raw} if isinstance(raw, str) else raw
