"""What a job folder says, as frozen values: the boat, the people, the visit, the components, the readings.

The classes are at the same time the format of `job.yaml` and `findings.yaml` (field names are the
keys); `gudgeon schema` is made from them. Text that is private stays in `Component.private`, which
no later stage may print or attach.
"""

from __future__ import annotations

import datetime as dt
from typing import Annotated, Literal

from pydantic import Field, model_validator

from reporter.model.base import Noun
from reporter.model.citation import Limit
from reporter.model.photo import PhotoFile, PhotoUse
from reporter.model.quantity import PartialDate, Value, of
from reporter.model.terms import Access, Basis, Dimension, Extent, Grade, Remedy, State

Ident = Annotated[str, Field(pattern=r"^[a-z0-9][a-z0-9_.-]{0,47}$")]
Words = Annotated[str, Field(min_length=1, max_length=200)]
Prose = Annotated[str, Field(max_length=40_000)]
Length = Annotated[Value, of(Dimension.LENGTH)]


class Particulars(Noun):
    """The vessel: identity, and the sizes that checks may need."""

    name: Words
    type: str = ""
    builder: str = ""
    built: PartialDate | None = None
    hull_number: str = ""
    registration: str = ""
    flag: str = ""
    home_port: str = ""
    construction: str = ""
    steering: Literal["wheel", "twin_wheels", "tiller", "other"] = "wheel"
    steering_gear: Literal["chain_and_wire", "hydraulic", "push_pull", "rod", "worm", "direct", "other"] = "chain_and_wire"
    rudders: Annotated[int, Field(ge=1, le=2)] = 1
    rig: str = ""
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
    rig_installed_evidence: str = ""
    last_mast_out: PartialDate | None = None
    last_professional_check: str = ""


class Person(Noun):
    """Someone who has to do with the report, in which capacity, and with which interest in the outcome."""

    role: Literal["author", "client", "owner", "skipper_out", "skipper_in", "witness", "yard", "underwriter", "seller"]
    name: Words
    capacity: str = ""
    qualification: str = ""
    interest: str = ""
    organisation: str = ""
    address: str = ""
    contact: str = ""


class Issue(Noun):
    """The report's number, revision, date of issue and what it replaces. Without `issued` it is a draft."""

    number: Words
    revision: Annotated[int, Field(ge=0, le=99)] = 0
    issued: dt.date | None = None
    supersedes: str = ""


class Conditions(Noun):
    """How the boat lay while she was looked at."""

    afloat: Literal["afloat", "ashore", "slings", "afloat_and_ashore"] = "afloat"
    mast: Literal["up", "down"] = "up"
    rig_tension: Literal["on", "off"] = "on"
    under_way: bool = False
    weather: str = ""
    note: str = ""


class NotExamined(Noun):
    """Something that was left out of the visit, and why."""

    what: Words
    because: Words


class Inspection(Noun):
    """When, where and how the visit took place."""

    dates: Annotated[tuple[dt.date, ...], Field(min_length=1)]
    time: str = ""
    place: Words
    time_zone: str = "UTC"
    attended_by: tuple[str, ...] = ()
    conditions: Conditions = Conditions()

    @property
    def last_day(self) -> dt.date:
        """The day that counts as today for every age and every due date."""
        return max(self.dates)


class Instrument(Noun):
    """A gauge that readings were taken with."""

    id: Ident
    kind: Words
    resolution: str = ""
    calibrated: PartialDate | None = None
    note: str = ""


class ClockReading(Noun):
    """A photo of a clock of known time: what the camera wrote, and what the clock showed."""

    camera_time: dt.datetime
    true_time: dt.datetime


class CameraClock(Noun):
    """A correction for one camera: a fixed offset in seconds or up to two readings of a reference clock."""

    camera: Words
    correction: str = ""
    readings: Annotated[tuple[ClockReading, ...], Field(max_length=2)] = ()
    note: str = ""


class LimitChange(Noun):
    """A limit that the author replaces, in the limit's own unit, with the reason."""

    id: str
    value: float
    reason: Words
    by: Words


class Permission(Noun):
    """Whether the owner allowed work on board during the visit."""

    work: bool = False
    by: str = ""
    date: dt.date | None = None


class Document(Noun):
    """A paper in the documents folder, and what it shows."""

    file: str
    shows: Words
    date: PartialDate | None = None


class Plans(Noun):
    """What the reader means to do next; it sets how soon `first` and `plan` are due."""

    next_passage: PartialDate | None = None
    next_haul_out: PartialDate | None = None
    passage: str = ""


class Log(Noun):
    """An incident or repair during the time that the author had the boat."""

    date: PartialDate
    what: Words
    component: str = ""


class JobSheet(Noun):
    """Everything `job.yaml` may hold."""

    format: Literal[1]
    lang: Literal["en"] = "en"
    terms: Literal["uk", "us"] = "uk"
    units: Literal["metric", "imperial"] = "metric"
    page: Literal["A4", "Letter"] = "A4"
    purpose: Ident
    report: Issue
    vessel: Particulars
    people: Annotated[tuple[Person, ...], Field(min_length=1)]
    inspection: Inspection
    scope: tuple[str, ...] = ()
    not_examined: tuple[NotExamined, ...] = ()
    next: Plans = Plans()
    instruments: tuple[Instrument, ...] = ()
    cameras: tuple[CameraClock, ...] = ()
    limits: tuple[LimitChange, ...] = ()
    permission: Permission = Permission()
    incidents: tuple[Log, ...] = ()
    documents: tuple[Document, ...] = ()
    earlier: tuple[str, ...] = ()
    disclose: tuple[str, ...] = ()
    own_terms: Prose = ""

    def person(self, *roles: str) -> Person | None:
        """The first person in one of `roles`, in the order given; None when nobody is."""
        return next((each for role in roles for each in self.people if each.role == role), None)


class Detail(Noun):
    """A fact of the part (a size, a choice or a date) with how it is known."""

    value: str
    basis: Basis = Basis.SEEN
    note: str = ""

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

    choice: str
    at: str = ""
    side: Literal["", "port", "starboard"] = ""
    state: State = State.FOUND
    note: str = ""
    photos: tuple[str, ...] = ()

    @model_validator(mode="before")
    @classmethod
    def _bare(cls, raw: object) -> object:
        return {"choice": raw} if isinstance(raw, str) else raw


class Examined(Noun):
    """How much of a component was looked at, how, and why not the rest."""

    extent: Extent
    how: tuple[Literal["hand", "eye", "mirror", "camera", "binoculars", "aloft", "from_deck", "test", "gauge"], ...] = ()
    included: tuple[str, ...] = ()
    because: str = ""
    note: str = ""

    @model_validator(mode="before")
    @classmethod
    def _bare(cls, raw: object) -> object:
        return {"extent": raw} if isinstance(raw, str) else raw


class Told(Noun):
    """What somebody said; kept apart from what was seen."""

    by: Words
    what: Words


class Done(Noun):
    """Work carried out during the visit or since the last one."""

    what: Words
    by: str = ""
    date: PartialDate | None = None
    remedy: Remedy | None = None
    settles: tuple[str, ...] = ()
    documents: tuple[str, ...] = ()


class Judgement(Noun):
    """The inspector's own grade, which stands above the computed one, with the reason."""

    grade: Grade
    reason: Words


class ActionEdit(Noun):
    """The inspector's word on a proposed action (by its id), or an action of her own (without one)."""

    id: str = ""
    what: str = ""
    remedy: Remedy | None = None
    decline: bool = False
    reason: str = ""
    by_when: str = ""
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
    was: str = ""
    group: str = ""
    name: str = ""
    place: str = ""
    installed: PartialDate | None = None
    details: dict[str, Detail] = {}
    examined: Examined
    observed: dict[str, tuple[Observed, ...]] = {}
    found: Prose = ""
    told: tuple[Told, ...] = ()
    opinion: Prose = ""
    done: tuple[Done, ...] = ()
    proved: tuple[str, ...] = ()
    judgement: Judgement | None = None
    photos: tuple[PhotoUse, ...] = ()
    actions: tuple[ActionEdit, ...] = ()
    private: str = ""

    @model_validator(mode="before")
    @classmethod
    def _single_observation(cls, raw: object) -> object:
        """Lets `corrosion: surface` stand for a list of one."""
        if not isinstance(raw, dict) or not isinstance(raw.get("observed"), dict):
            return raw
        observed = {key: each if isinstance(each, list | tuple) else [each] for key, each in raw["observed"].items()}
        return {**raw, "observed": observed}


class FindingsSheet(Noun):
    """Everything `findings.yaml` may hold."""

    format: Literal[1]
    components: tuple[Component, ...]


class Reading(Noun):
    """One line of measurements.csv, as the gauge said."""

    component: str
    quantity: str
    at: str = ""
    side: Literal["", "port", "starboard"] = ""
    state: State = State.FOUND
    value: Value
    resolution: float = 0.0
    """Of the instrument, in the base unit of the value's dimension; 0 when not known."""
    instrument: str = ""
    note: str = ""
    line: int = 0


class StoredFile(Noun):
    """A paper kept in the job's documents folder: identity only."""

    name: str
    sha256: str
    size_bytes: int


class Job(Noun):
    """A whole job folder, read and checked. `limits` holds every limit in force, overrides applied."""

    sheet: JobSheet
    components: tuple[Component, ...]
    facts: dict[str, dict[str, Fact]] = {}
    """Component id -> detail id -> the detail made ready."""
    readings: tuple[Reading, ...] = ()
    photos: tuple[PhotoFile, ...] = ()
    papers: tuple[StoredFile, ...] = ()
    limits: dict[str, Limit] = {}
    remarks: tuple[str, ...] = ()
    """Remarks are what was coped with or passed over while reading, in plain words."""
    earlier: tuple[Job, ...] = ()

    def photo(self, name: str) -> PhotoFile | None:
        """The photo file that findings call `name` (with or without its folder), or None."""
        return next((each for each in self.photos if each.name in {name, f"photos/{name}"}), None)
