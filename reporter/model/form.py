"""What is asked of a part, as data: one form for the field sheet, the plan and the entry page.

A question's id is its key path with dots: `details.size` and `observed.cracks` under the part in findings.yaml,
`readings.span` the quantity `span` in measurements.csv. So an id is unique in its form and says where its answer stands.
And a form that came back: what stands in each field now, and what stood there when it was printed.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any, Literal

from pydantic import Field

from reporter.model.base import Noun
from reporter.model.terms import Dimension, Grade, Sense

Sort = Literal[
    "choice",
    "choices",
    "quantity",
    "text",
    "number",
    "date",
    "yesno",
    "examined",
    "included",
    "work",
]
"""How a question is answered: one of the choices, several, a number with unit, words, a bare number, a date, yes or no,
how much was seen, which items were gone through, work that was done."""

NO_UNIT = frozenset({"", "1"})
"""Units of which nothing is written behind a number."""


class Option(Noun):
    """One answer that may be chosen: the id that files hold, the words, and the grade it leads to where it has one."""

    id: str
    words: str
    grade: Grade | None = None


class Condition(Noun):
    """What must have been answered elsewhere in the form: the question, and the choices under which this one is asked."""

    question: str
    among: tuple[str, ...] = Field(serialization_alias="is")


class LimitBeside(Noun):
    """A limit as it stands beside the cell: words for a reader, value, sense and grade for who reckons.

    `value` and `upper` are in `unit`; `between` says that it is held against the difference of the sides.
    """

    id: str
    words: str
    value: float
    upper: float | None = None
    unit: str
    sense: Sense
    grade: Grade
    between: Literal["", "sides"] = ""


class Present(Noun):
    """An answer as the folder has it, with its place.

    `index` is its position in the list it stands in (observations, work), `ordinal` its position among the readings of
    the same quantity and place, `line` its line of measurements.csv (0 for what stands in findings.yaml).
    """

    text: str
    at: str = ""
    side: Literal["", "port", "starboard"] = ""
    state: Literal["found", "left"] = "found"
    basis: str = ""
    note: str = ""
    instrument: str = ""
    index: int = 0
    ordinal: int = 0
    line: int = 0


class Question(Noun):
    """One thing asked. `asked` tells whether its `only_if` holds by what the part's details say so far.

    `usual` questions are asked of everybody, `needed` ones must be answered before the part can be graded. `places` are
    where it is usually looked at or taken, `repeats` how often at one place; `per_side` asks for both sides. `methods`
    are the ids of the job's instruments, `basis` the ways in which a detail may be known.
    """

    id: str
    sort: Sort
    title: str
    help: str = ""
    unit: str = ""
    units: tuple[str, ...] = ()
    dimension: Dimension | None = None
    method: str = ""
    methods: tuple[str, ...] = ()
    places: tuple[str, ...] = ()
    repeats: int = 1
    per_side: bool = False
    basis: tuple[Option, ...] = ()
    only_if: tuple[Condition, ...] = ()
    asked: bool = True
    usual: bool = True
    needed: bool = False
    photo: Literal["", "context", "close_up", "gauge"] = ""
    limits: tuple[LimitBeside, ...] = ()
    choices: tuple[Option, ...] = ()
    answers: tuple[Present, ...] = ()

    @property
    def key(self) -> tuple[str, ...]:
        """The path of the answer below its part; a reading's second step is its quantity in measurements.csv."""
        return tuple(self.id.split("."))

    @property
    def is_reading(self) -> bool:
        """Whether the answer is a row of measurements.csv."""
        return self.key[0] == "readings"


class Block(Noun):
    """What is asked in one go, with which tools."""

    id: str
    title: str
    tool: str = ""
    questions: tuple[Question, ...]


class Worked(Noun):
    """A figure that the readings are worked into, with its limits: what stands beside no single cell."""

    id: str
    title: str
    limits: tuple[LimitBeside, ...]


class Form(Noun):
    """Everything that is asked of one part, in the order in which it is gone through."""

    kind: str
    title: str
    help: str = ""
    blocks: tuple[Block, ...]
    worked: tuple[Worked, ...] = ()

    def question(self, ident: str) -> Question | None:
        """The question of that id, or None."""
        return next((each for block in self.blocks for each in block.questions if each.id == ident), None)


@dataclass(frozen=True, slots=True)
class Filled:
    """One field: its page from 1, its name and label, what stands in it, and what it was printed with.

    A box that is ticked holds "on", one that is not the empty text.
    """

    page: int
    name: str
    label: str
    value: str
    printed: str

    @property
    def changed(self) -> bool:
        """Whether anybody filled it in."""
        return self.value != self.printed


@dataclass(frozen=True, slots=True)
class FilledForm:
    """Every field of a form in the order of its pages, and the data it carries of what it belongs to."""

    meaning: dict[str, Any]
    fields: tuple[Filled, ...]
