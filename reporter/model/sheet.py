"""What `job.yaml` says: the boat, the people, the visit, the report's number, what may be disclosed.

The classes are at the same time the format of the file (field names are the keys); `gudgeon schema` is made from them.
"""

from __future__ import annotations

import datetime as dt
from typing import Annotated, Literal

from pydantic import Field

from reporter.model.base import Noun
from reporter.model.quantity import PartialDate, Value, of
from reporter.model.terms import Basis, Dimension
from reporter.model.texts import Ident, Line, Note, Prose, ShortText, Standing

Length = Annotated[Value, of(Dimension.LENGTH)]


class Particulars(Noun):
    """The vessel: identity, and the sizes that checks may need.

    `photo` names a picture of the whole boat, `hull_number_photo` one of the number on her hull.
    """

    name: ShortText
    type: Line = ""
    builder: Line = ""
    built: PartialDate | None = None
    hull_number: Line = ""
    registration: Line = ""
    flag: Line = ""
    home_port: Line = ""
    construction: Line = ""
    steering: Literal["wheel", "twin_wheels", "tiller", "other", ""] = ""
    steering_gear: Literal[
        "chain_and_wire", "hydraulic", "push_pull", "rod", "worm", "direct", "other", ""
    ] = ""
    rudders: Annotated[int, Field(ge=1, le=2)] = 1
    rig: Line = ""
    mast_step: Literal["keel", "deck", ""] = ""
    length_overall: Length | None = None
    length_waterline: Length | None = None
    beam: Length | None = None
    draught: Length | None = None
    displacement: Annotated[Value, of(Dimension.MASS)] | None = None
    righting_moment: Annotated[Value, of(Dimension.TORQUE)] | None = None
    sail_area: Annotated[Value, of(Dimension.AREA)] | None = None
    miles: Annotated[Value, of(Dimension.LENGTH)] | None = None
    engine_hours: Annotated[Value, of(Dimension.HOURS)] | None = None
    rig_installed: PartialDate | None = None
    rig_installed_basis: Basis | None = None
    rig_installed_evidence: Note = ""
    last_mast_out: PartialDate | None = None
    last_professional_check: Note = ""
    photo: Line = ""
    hull_number_photo: Line = ""

    @property
    def gears(self) -> frozenset[str]:
        """What a template's `when` may name of her; what is not stated is expected as the commonest gear.

        So leaving the key out leaves no part unasked for. It is never printed as a fact.
        """
        usual = "direct" if self.steering == "tiller" else "chain_and_wire"
        return frozenset({"any", self.steering or "wheel", self.steering_gear or usual, self.rig})

    def is_boat_of(self, other: Particulars) -> bool:
        """Whether both may be of one boat: by the hull number where both tell it (a name changes), else by the name."""
        one, two = (self.hull_number, other.hull_number)
        if not (one and two):
            one, two = self.name, other.name
        return one.casefold().split() == two.casefold().split()

    @property
    def photos(self) -> dict[str, str]:
        """The photos of the boat herself, by key."""
        named = {"photo": self.photo, "hull_number_photo": self.hull_number_photo}
        return {key: file for key, file in named.items() if file}


class Person(Noun):
    """Someone who has to do with the report, in which capacity, and with which interest in the outcome.

    `membership` is of a professional body, `cover` the insurance that stands behind the person's word; both in plain
    words, printed of the author.
    """

    role: Literal[
        "author", "client", "owner", "skipper_out", "skipper_in", "witness", "yard", "underwriter", "seller"
    ]
    name: ShortText
    capacity: Standing = ""
    qualification: Note = ""
    interest: Note = ""
    organisation: Line = ""
    membership: Note = ""
    cover: Note = ""
    address: Line = ""
    contact: Line = ""


class Issue(Noun):
    """The report's number, revision, date of issue and what it replaces. Without `issued` it is a draft.

    `ordered_by` says who ordered it and when, `may_rely` names who may rely on it beside the person it was made for.
    """

    number: ShortText
    revision: Annotated[int, Field(ge=0, le=99)] = 0
    issued: dt.date | None = None
    supersedes: Line = ""
    ordered_by: Line = ""
    may_rely: tuple[ShortText, ...] = ()


class Conditions(Noun):
    """How the boat lay while she was looked at; what is left out is not stated, and nothing is taken for granted."""

    afloat: Literal["afloat", "ashore", "slings", "afloat_and_ashore", ""] = ""
    mast: Literal["up", "down", ""] = ""
    rig_tension: Literal["on", "off", ""] = ""
    under_way: bool | None = None
    weather: Line = ""
    note: Note = ""


class NotExamined(Noun):
    """Something that was left out of the visit, and why."""

    what: ShortText
    because: ShortText


class Inspection(Noun):
    """When, where and how the visit took place."""

    dates: Annotated[tuple[dt.date, ...], Field(min_length=1)]
    time: Line = ""
    place: ShortText
    time_zone: Line = "UTC"
    time_spent: Line = ""
    """How long it took, in plain words: aboard, aloft, at the desk."""
    attended_by: tuple[Line, ...] = ()
    conditions: Conditions = Conditions()

    @property
    def last_day(self) -> dt.date:
        """The day that counts as today for every age and every due date."""
        return max(self.dates)


class Instrument(Noun):
    """A gauge that readings were taken with."""

    id: Ident
    kind: ShortText
    resolution: Line = ""
    calibrated: PartialDate | None = None
    note: Note = ""


class ClockReading(Noun):
    """A photo of a clock of known time: what the camera wrote, and what the clock showed."""

    camera_time: dt.datetime
    true_time: dt.datetime


class CameraClock(Noun):
    """A correction for one camera: a fixed offset in seconds or up to two readings of a reference clock."""

    camera: ShortText
    correction: Line = ""
    readings: Annotated[tuple[ClockReading, ...], Field(max_length=2)] = ()
    note: Note = ""


class LimitChange(Noun):
    """A limit that the author replaces, in the limit's own unit, with the reason."""

    id: Line
    value: float
    reason: ShortText
    by: ShortText


class Permission(Noun):
    """Whether the owner allowed work on board during the visit."""

    work: bool = False
    by: Line = ""
    date: dt.date | None = None


class Document(Noun):
    """A paper in the documents folder, and what it shows."""

    file: Line
    shows: ShortText
    date: PartialDate | None = None


class Plans(Noun):
    """What the reader means to do next; it sets how soon `first` and `plan` are due."""

    next_passage: PartialDate | None = None
    next_haul_out: PartialDate | None = None
    passage: Line = ""
    waters: Line = ""
    """Where she is meant to sail."""


class Log(Noun):
    """An incident or repair during the time that the author had the boat."""

    date: PartialDate
    what: ShortText
    component: Line = ""


class Kept(Noun):
    """One line of the inventory that is handed over with the boat: a spare, a tool, a key."""

    what: ShortText
    count: Line = ""
    where: Line = ""
    note: Note = ""


class JobSheet(Noun):
    """Everything `job.yaml` may hold."""

    format: Literal[1]
    lang: Literal["en", "de"] = "en"
    terms: Literal["uk", "us"] = "uk"
    units: Literal["metric", "imperial"] = "metric"
    page: Literal["A4", "Letter", "phone"] = "A4"
    text: Literal["normal", "large"] = "normal"
    purpose: Ident
    report: Issue
    vessel: Particulars
    people: Annotated[tuple[Person, ...], Field(min_length=1)]
    inspection: Inspection
    scope: tuple[Line, ...] = ()
    not_examined: tuple[NotExamined, ...] = ()
    next: Plans = Plans()
    instruments: tuple[Instrument, ...] = ()
    cameras: tuple[CameraClock, ...] = ()
    limits: tuple[LimitChange, ...] = ()
    permission: Permission = Permission()
    incidents: tuple[Log, ...] = ()
    inventory: tuple[Kept, ...] = ()
    documents: tuple[Document, ...] = ()
    earlier: tuple[Note, ...] = ()
    disclose: tuple[Literal["job", "findings", "measurements", "assessments", "photo_register"], ...] = ()
    """Which data the PDF may carry, of those that its template discloses; all of them when nothing is said."""
    opinion: Prose = ""
    """The author's opinion of the whole, in the author's own words; the program adds nothing to it."""
    evidence: Literal["", "serious", "all"] = ""
    """How fully the parts are told: "serious" only those graded `stop` or `first`; empty leaves it to the template."""
    own_terms: Prose = ""

    def person(self, *roles: str) -> Person | None:
        """The first person in one of `roles`, in the order given; None when nobody is."""
        return next((each for role in roles for each in self.people if each.role == role), None)
