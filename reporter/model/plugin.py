"""What one component kind declares of itself, and what one system declares of itself."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from functools import cached_property
from typing import Any, Literal, Protocol

from pydantic import Field, model_validator

from reporter.model.assessment import Assessment, Assessments, Graded
from reporter.model.base import Noun
from reporter.model.citation import Limit
from reporter.model.drawing import Drawing
from reporter.model.evidence import Evidence
from reporter.model.findings import Observed
from reporter.model.job import Job
from reporter.model.terms import Access, Dimension, Effort, Grade, Remedy

PhotoWanted = Literal["", "context", "close_up", "gauge"]
"""The photo that is wanted: where the part stands, from near by, or with the gauge in the picture."""


class Quantity(Noun):
    """A reading that a kind may hold: what, how, with what, and what would be absurd.

    `plausible` is (low, high) and `expected_u` the expanded uncertainty (k = 2) of the method; both in `unit`.
    `imperial` is the unit for imperial reports. `only_if` names a detail and the choices under which the
    reading makes sense. `wears` marks quantities that a forecast may be made of; `wears_by` is what the wear is counted
    by where every visit gives it, else time. `better` says how to take it
    more exactly; `shrinks_with` names a count that the uncertainty shrinks in proportion to (pitches measured over).
    `new_within` is how far better than unworn, in `unit`, a new part may measure (0 where it may not at all); a value
    better than that by more than its uncertainty is not believed, and `recheck` says what to do again ("count the
    pitches again"). None where more is simply more (travel left).
    """

    id: str
    title: str
    dimension: Dimension
    unit: str
    imperial: str = ""
    method: str
    required: Literal["needed", "optional"] = "optional"
    asked: Literal["usual", "on_request"] = "usual"
    plausible: tuple[float, float]
    expected_u: float = 0.0
    only_if: dict[str, tuple[str, ...]] = {}
    per_side: bool = False
    wears: bool = False
    wears_by: Literal["time", "miles", "hours"] = "time"
    better: str = ""
    shrinks_with: str = ""
    new_within: float | None = None
    recheck: str = ""
    help: str = ""
    places: tuple[str, ...] = ()
    """Where on the part it is usually taken."""
    repeats: int = Field(default=1, ge=1)
    """How often it is wanted at one place."""
    photo: PhotoWanted = ""


class Derived(Noun):
    """A quantity that `assess` works out from readings and holds against limits (chain elongation).

    `better`, `shrinks_with`, `new_within` and `recheck` as for `Quantity`.
    """

    id: str
    title: str
    dimension: Dimension
    unit: str
    imperial: str = ""
    decimals: int | None = None
    wears: bool = False
    wears_by: Literal["time", "miles", "hours"] = "time"
    better: str = ""
    shrinks_with: str = ""
    new_within: float | None = None
    recheck: str = ""


class Choice(Noun):
    """One answer to an observation: the words a sailor would use, and the grade it leads to."""

    id: str
    words: str
    grade: Grade
    task: str = ""
    """Id of what is to be done about it."""
    remedy: Remedy | None = None
    """Where this answer asks for another remedy than its task's own."""
    damage: bool = False
    """Damage withholds every strength margin of the part."""
    also: tuple[str, ...] = ()
    """Other words that mean the very same, and are taken for this answer."""
    gap: bool = False
    """The answer tells how little was seen ("from deck only"): it is no finding, and its grade is always unseen."""

    @model_validator(mode="before")
    @classmethod
    def _gap_is_unseen(cls, raw: object) -> object:
        """A gap grades nothing (`clear` is taken for that as well); what it asks for is to be opened up."""
        if not isinstance(raw, dict) or not raw.get("gap"):
            return raw
        grade = Grade(raw.get("grade", Grade.UNSEEN))
        remedy = raw.get("remedy") or (Remedy.OPEN_UP if raw.get("task") else None)
        return {**raw, "grade": Grade.UNSEEN if grade is Grade.CLEAR else grade, "remedy": remedy}

    @model_validator(mode="after")
    def _only_a_gap_is_unseen(self) -> Choice:
        if self.gap is not (self.grade is Grade.UNSEEN):
            msg = f"{self.id}: an answer that tells a gap has the grade unseen, and no other answer has"
            raise ValueError(msg)
        if self.gap and self.damage:
            msg = f"{self.id}: what was not seen tells no damage"
            raise ValueError(msg)
        return self


class Observation(Noun):
    """Something seen, felt or tried that has a fixed set of answers."""

    id: str
    title: str
    choices: tuple[Choice, ...] = Field(min_length=2)
    required: Literal["needed", "optional"] = "optional"
    asked: Literal["usual", "on_request"] = "usual"
    loaded_test: bool = False
    basis: str = "common practice"
    help: str = ""
    only_if: dict[str, tuple[str, ...]] = {}
    places: tuple[str, ...] = ()
    photo: PhotoWanted = ""

    def choice(self, ident: str) -> Choice:
        """The choice of that id; KeyError when there is none."""
        return self._by_id[ident]

    @cached_property
    def _by_id(self) -> dict[str, Choice]:
        return {each.id: each for each in self.choices}

    def was_seen(self, answers: Iterable[Observed]) -> bool:
        """Whether any of the answers tells more than a gap."""
        return any(not self.choice(each.choice).gap for each in answers)


class DetailField(Noun):
    """A fact of the part that findings may give: a quantity with its unit, a count, a choice, a date or plain words."""

    id: str
    title: str
    holds: Literal[
        "length", "force", "count", "date", "choice", "words", "angle", "area", "mass", "ratio", "torque"
    ]
    choices: dict[str, str] = {}
    required: Literal["needed", "optional"] = "optional"
    plausible: tuple[float, float] | None = None
    unit: str = ""
    imperial: str = ""
    help: str = ""
    only_if: dict[str, tuple[str, ...]] = {}


class Need(Noun):
    """Something that a kind's arithmetic takes from elsewhere: another kind of the same system and group, or the vessel.

    One that is `on_request` serves a sizing estimate only, and is missing to nobody.
    """

    id: str
    source: Literal["component", "vessel"]
    kind: str = ""
    holds: Literal["reading", "detail"] = "detail"
    name: str
    dimension: Dimension | None = None
    asked: Literal["usual", "on_request"] = "usual"
    why: str


class Task(Noun):
    """One thing to be done to a part: what, by which remedy, in which state of the boat, and how much work it is.

    `renews` marks the renewal of the whole part: done before the next passage, it makes smaller jobs needless. `parts`
    are materials to bring; `{detail}` in them stands for what the part's details say.
    """

    id: str
    words: str
    remedy: Remedy = Remedy.LOOK
    access: Access = Access.UNKNOWN
    effort: Effort = Effort.UNKNOWN
    parts: tuple[str, ...] = ()
    renews: bool = False


class Together(Noun):
    """What is looked at and measured in one go, with which tools: the order of a form and of a field sheet."""

    id: str
    words: str
    tools: tuple[str, ...] = ()
    holds: tuple[str, ...]


class ExaminationItem(Noun):
    """One thing an examination must include before the part can be called clear."""

    id: str
    words: str


class ProofItem(Noun):
    """One thing to be proved after work on the part."""

    id: str
    words: str


class Care(Noun):
    """Something to be done to a part at fixed times, with what (a generic type) and how often, in months."""

    id: str
    what: str
    supply: str = ""
    months: int = Field(ge=1, le=600)
    remedy: Remedy = Remedy.LUBRICATE
    basis: str = "common practice"


TABLES = (
    "examination", "proof", "details", "readings", "derived", "observations", "needs", "limits", "care", "tasks", "together"
)  # fmt: skip
"""The fields of a kind whose entries have ids."""
Assess = Callable[[Evidence], Assessment]


class Plugin(Noun):
    """One component kind. `assess` is pure: no files, no clock, no network.

    `station` is one of the system's stations (the walking order). `pair_by` names the details that make two parts of the
    kind each other's opposite number (role), for limits between the sides. `forecast` readings, wording, the entry form and
    the documentation are all made from this value.
    """

    kind: str
    title: str
    plural: str = ""
    system: str
    load_path: bool
    station: str
    purpose: str = ""
    cautions: tuple[str, ...] = ()
    tools: tuple[str, ...] = ()
    supplies: tuple[str, ...] = ()
    examination: tuple[ExaminationItem, ...] = ()
    proof: tuple[ProofItem, ...] = ()
    details: tuple[DetailField, ...] = ()
    readings: tuple[Quantity, ...] = ()
    derived: tuple[Derived, ...] = ()
    observations: tuple[Observation, ...] = ()
    needs: tuple[Need, ...] = ()
    limits: tuple[Limit, ...] = ()
    tasks: tuple[Task, ...] = ()
    together: tuple[Together, ...] = ()
    says: dict[str, str] = {}
    """What the kind's arithmetic says, as messages by id: `say("no_pitch", kind="chain")`."""
    consequence: str = ""
    """What happens aboard when this part lets go, in one plain sentence."""
    care: tuple[Care, ...] = ()
    pair_by: tuple[str, ...] = ()
    assess: Assess

    @model_validator(mode="after")
    def _ids_are_unique(self) -> Plugin:
        for name in TABLES:
            ids = [each.id for each in getattr(self, name)]
            if len(ids) != len(set(ids)):
                msg = f"{self.kind}: two {name} share an id"
                raise ValueError(msg)
        for limit in self.limits:
            if not limit.id.startswith(f"{self.kind}."):
                msg = f"limit {limit.id} must begin with '{self.kind}.'"
                raise ValueError(msg)
        known = {task.id for task in self.tasks}
        asking: list[Choice | Limit] = [choice for each in self.observations for choice in each.choices]
        for asked in (*asking, *self.limits):
            if asked.task and asked.task not in known:
                msg = f"'{asked.id}' asks for the task '{asked.task}', which is not declared"
                raise ValueError(msg)
        return self

    def task(self, ident: str) -> Task | None:
        """The task of that id, or None."""
        return self._by_id["tasks"].get(ident)

    def quantity(self, ident: str) -> Quantity | None:
        """The reading of that id, or None."""
        return self._by_id["readings"].get(ident)

    def measure(self, ident: str) -> Quantity | Derived | None:
        """The reading or derived quantity of that id, or None: what is needed to print a value of it."""
        return self.quantity(ident) or self._by_id["derived"].get(ident)

    def observation(self, ident: str) -> Observation | None:
        """The observation of that id, or None."""
        return self._by_id["observations"].get(ident)

    def detail(self, ident: str) -> DetailField | None:
        """The detail of that id, or None."""
        return self._by_id["details"].get(ident)

    def limit(self, ident: str) -> Limit | None:
        """The limit of that id, or None."""
        return self._by_id["limits"].get(ident)

    def entries(self, table: str) -> dict[str, Any]:
        """The entries of one table by their ids."""
        return self._by_id[table]

    @cached_property
    def _by_id(self) -> dict[str, dict[str, Any]]:
        """Table -> id -> entry: judging asks some fifty times for each check."""
        return {table: {each.id: each for each in getattr(self, table)} for table in TABLES}


class Station(Noun):
    """One stop of the walking order."""

    id: str
    title: str


class DrawingWords(Protocol):
    """The report's own words, in its language, for whoever draws."""

    def __call__(self, part: Graded, /) -> str:
        """A part's grade, as it stands beside the part."""

    def say(self, ident: str, /, **values: object) -> str:
        """A message of the catalogue with `values` put in; those for drawings have ids that begin with `drawing.`."""


Draw = Callable[[Job, Assessments, DrawingWords], Drawing | None]


def undrawn(_job: Job, _assessments: Assessments, _told: DrawingWords, /) -> Drawing | None:
    """What a system that has no drawing draws."""
    return None


class System(Noun):
    """A system of the boat: its walking order, and, if it has one, the drawing of itself with its grades."""

    id: str
    title: str
    stations: tuple[Station, ...] = Field(min_length=1)
    order: int = 100
    """Where the system stands in a report; of equals the id decides."""
    draw: Draw = undrawn
    overview: Draw | None = None
    """The whole boat in one picture, with one label for each part of any system that has a place in it; its labels are
    not set but numbered. The first system that has one gives a report's second page."""


class Kinds(Protocol):
    """What the stages need to know of the installed plugins."""

    @property
    def plugins(self) -> Mapping[str, Plugin]:
        """Kind -> Plugin."""

    @property
    def systems(self) -> Mapping[str, System]:
        """Id -> System."""
