"""The closed lists of words that everything else is built from: grades, verdicts, remedies, bases.

Each member's value is what files and JSON hold; what a reader sees stands in the catalogue
(`reporter/wording`) or, for a component kind's own words, in its file.
"""

from __future__ import annotations

from enum import StrEnum


class Grade(StrEnum):
    """How urgent a component is, and nothing else. `unseen` stands beside the scale, not on it."""

    CLEAR = "clear"
    WATCH = "watch"
    PLAN = "plan"
    FIRST = "first"
    STOP = "stop"
    UNSEEN = "unseen"

    @property
    def rank(self) -> int:
        """0 for clear up to 4 for stop; -1 for unseen, which is no grade of condition."""
        return _RANKS[self]

    @property
    def milder(self) -> Grade:
        """The grade one step less urgent, but never below `watch`."""
        return list(Grade)[max(self.rank - 1, 1)]


# Looked up, not counted anew: grading asks some hundred times for each part.
_RANKS = {grade: -1 if grade is Grade.UNSEEN else place for place, grade in enumerate(Grade)}


URGENCY = (Grade.STOP, Grade.FIRST, Grade.UNSEEN, Grade.PLAN, Grade.WATCH, Grade.CLEAR)
"""The order in which things are to be done: what was not seen stands before what can wait."""


def worst(grades: list[Grade]) -> Grade:
    """The most urgent of `grades`; `clear` when there are none."""
    return max(grades, key=lambda grade: grade.rank, default=Grade.CLEAR)


class Verdict(StrEnum):
    """Where a guarded value stands against a limit (guard band: JCGM 106:2012, ILAC-G8:09/2019)."""

    WITHIN = "within"
    CLOSE = "close"
    DOUBTFUL = "doubtful"
    BEYOND = "beyond"
    SEEN = "seen"
    UNSEEN = "unseen"
    NOT_APPLICABLE = "not_applicable"


class Remedy(StrEnum):
    """What an action consists of, apart from how urgent it is."""

    LOOK = "look"
    TEST = "test"
    OPEN_UP = "open_up"
    CLEAN = "clean"
    LUBRICATE = "lubricate"
    ADJUST = "adjust"
    TIGHTEN = "tighten"
    REFIT = "refit"
    REPAIR = "repair"
    REPLACE = "replace"


class Access(StrEnum):
    """What state the boat must be in before an action can be done."""

    ANY = "any"
    AFLOAT = "afloat"
    ASHORE = "ashore"
    MAST_DOWN = "mast_down"
    RUDDER_DOWN = "rudder_down"
    OPENED_UP = "opened_up"
    UNKNOWN = ""


class Effort(StrEnum):
    """How much of a working day an action takes, by common practice; empty where nobody can say."""

    HOUR = "hour"
    HALF_DAY = "half_day"
    DAY = "day"
    YARD = "yard"
    UNKNOWN = ""


class Basis(StrEnum):
    """How well a size, an age or a material is known."""

    INVOICE = "invoice"
    STAMPED = "stamped"
    MEASURED = "measured"
    SEEN = "seen"
    TOLD = "told"
    ESTIMATE = "estimate"

    @property
    def is_guess(self) -> bool:
        """True where nobody saw a mark, a paper or a gauge."""
        return self in {Basis.TOLD, Basis.ESTIMATE}


class Extent(StrEnum):
    """Whether a component was examined."""

    SEEN = "seen"
    PART_SEEN = "part_seen"
    NOT_SEEN = "not_seen"
    NOT_FITTED = "not_fitted"
    NOT_FOUND = "not_found"


class State(StrEnum):
    """Before or after work done during the visit: two facts, never merged."""

    FOUND = "found"
    LEFT = "left"


class Sense(StrEnum):
    """On which side of a limit a value is in order."""

    AT_MOST = "at_most"
    AT_LEAST = "at_least"
    WINDOW = "window"


class LimitKind(StrEnum):
    """What a limit speaks about; only `condition` scores, the others never grade worse than `plan`."""

    CONDITION = "condition"
    DESIGN = "design"
    RULE = "rule"
    AGE = "age"


class LimitBasis(StrEnum):
    """Where a limit comes from."""

    STANDARD = "standard"
    LAW = "law"
    HANDBOOK = "handbook"
    MAKER = "maker"
    PRACTICE = "practice"


class SourceStatus(StrEnum):
    """How well a cited figure is known."""

    READ = "READ"
    READ_2 = "READ-2"
    DERIVED = "DERIVED"
    MEMORY = "MEMORY"


class Dimension(StrEnum):
    """What a number measures. Angle, count and ratio are dimensions of their own."""

    LENGTH = "length"
    AREA = "area"
    FORCE = "force"
    MASS = "mass"
    TORQUE = "torque"
    PRESSURE = "pressure"
    SPEED = "speed"
    ANGLE = "angle"
    COUNT = "count"
    RATIO = "ratio"
    AGE = "age"
    HOURS = "hours"
    VOLTAGE = "voltage"


BASE_UNIT: dict[Dimension, str] = {
    Dimension.LENGTH: "m",
    Dimension.AREA: "m²",
    Dimension.FORCE: "N",
    Dimension.MASS: "kg",
    Dimension.TORQUE: "N·m",
    Dimension.PRESSURE: "Pa",
    Dimension.SPEED: "m/s",
    Dimension.ANGLE: "rad",
    Dimension.COUNT: "",
    Dimension.RATIO: "1",
    Dimension.AGE: "year",
    Dimension.HOURS: "h",
    Dimension.VOLTAGE: "V",
}
"""The unit every `Value.value` of a dimension is stored in (SI, but for age in years and running hours)."""
