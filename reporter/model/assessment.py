"""What grading says: checks with their arithmetic, actions, grades, scores, and what was not seen."""

from __future__ import annotations

import datetime as dt
from functools import cached_property
from typing import Literal

from reporter.model.base import Noun
from reporter.model.citation import Citation, Limit
from reporter.model.evidence import MeasurementPoint
from reporter.model.findings import ActionEdit, Component, Judgement
from reporter.model.history import Due, History
from reporter.model.quantity import Value
from reporter.model.saying import Text
from reporter.model.terms import Access, Effort, Extent, Grade, LimitKind, Remedy, State, Verdict


class Term(Noun):
    """One symbol of a formula: what it means, the number put in, its unit, and its expanded uncertainty (k = 2).

    `decimals` is how many decimals the number is printed with, below 0 for whole tens and hundreds; None lets the
    printer decide.
    """

    symbol: str
    meaning: str
    side: str = ""
    value: float
    unit: str
    expanded: float = 0.0
    decimals: int | None = None


class Working(Noun):
    """A sum as the report prints it: formula, inputs, result, source."""

    id: str = ""
    """Name of the declared function."""
    title: str
    formula: str
    inputs: tuple[Term, ...]
    result: Term
    source: Citation


class Check(Noun):
    """One reading, observation or fact held against one limit (or, for an observation, one choice).

    `use` is 0 for unworn and 1 at the limit. `value` carries its standard uncertainty. `subject` names
    the reading, observation or detail, `choice` the answer given, `task` what is to be done about it. `governs` is False
    for a yardstick that is for information only, and for a fact as found that was `superseded`: the same thing was taken
    again as left.
    """

    id: str
    subject: str
    title: Text = ""
    choice: str = ""
    task: str = ""
    said: Text = ""
    sentence: Text = ""
    """`said` in words that stand alone: an observation is led by what was looked for."""
    value: Value | None = None
    limit: Limit | None = None
    verdict: Verdict
    grade: Grade
    kind: LimitKind = LimitKind.CONDITION
    use: float | None = None
    score: float | None = None
    conformity: float | None = None
    at: str = ""
    side: str = ""
    state: State = State.FOUND
    method: Text = ""
    working: tuple[Working, ...] = ()
    notes: tuple[Text, ...] = ()
    governs: bool = True
    superseded: bool = False


class Action(Noun):
    """Something to be done: what, why, by when, with what; and which checks it settles.

    `by_when` says it in words, `due` is the last day for it where one is known, `dated_by` what set that day.
    """

    id: str
    what: Text
    remedy: Remedy
    why: Text
    grade: Grade
    access: Access = Access.UNKNOWN
    effort: Effort = Effort.UNKNOWN
    task: str = ""
    parts: tuple[Text, ...] = ()
    tools: tuple[Text, ...] = ()
    supplies: tuple[Text, ...] = ()
    settles: tuple[str, ...] = ()
    number: int = 0
    by_when: Text = ""
    due: dt.date | None = None
    dated_by: Literal["grade", "inspector", "forecast"] = "grade"
    edit: ActionEdit | None = None
    proposed_by: Literal["rule", "inspector"] = "rule"

    @property
    def is_open(self) -> bool:
        """Neither declined nor done."""
        return not (self.edit and (self.edit.decline or self.edit.done))


class Missing(Noun):
    """Something that was not taken: a reading, observation, detail or need, and whether it was needed."""

    id: str
    title: Text
    needed: bool
    why: Text = ""


class Assessment(Noun):
    """What a plugin's `assess` returns: checks, actions and remarks of its own.

    The core adds the checks that the declaration alone decides (observations, ages) and does all grading.
    """

    checks: tuple[Check, ...] = ()
    actions: tuple[Action, ...] = ()
    missing: tuple[Missing, ...] = ()
    remarks: tuple[Text, ...] = ()


class Graded(Noun):
    """A component with everything that was judged of it.

    `computed` is the grade by rule, `grade` the one that stands (the inspector judges last). `capped` holds the
    reasons in plain words why it could not be called clear. `spots` are its readings as merged; `unmet` names inputs
    from elsewhere without which a sum could not be made. `failed` is the reason when its plugin failed.
    """

    component: Component
    title: Text
    system: str
    station: str
    load_path: bool
    grade: Grade
    computed: Grade
    score: float | None = None
    sentence: Text = ""
    spots: tuple[MeasurementPoint, ...] = ()
    checks: tuple[Check, ...] = ()
    actions: tuple[Action, ...] = ()
    missing: tuple[Missing, ...] = ()
    unmet: tuple[Text, ...] = ()
    not_included: tuple[Text, ...] = ()
    capped: tuple[Text, ...] = ()
    remarks: tuple[Text, ...] = ()
    judgement: Judgement | None = None
    failed: str = ""

    @property
    def unjudged(self) -> bool:
        """Graded `unseen` although all of it was seen: what was told of it is too little to judge by."""
        told = self.component
        # A needed question with an answer that tells a gap, and a part aloft looked at from deck, were not seen.
        hidden = {each.id for each in self.missing if each.needed} & {*told.observed, "close_up"}
        whole = told.examined.extent is Extent.SEEN and not (self.not_included or hidden or self.failed)
        return self.grade is Grade.UNSEEN and whole


class PathGrade(Noun):
    """A load path: the worst grade on it, its weakest link or why it has no score, and what its loss means.

    A path is no reason for a milder grade: the others beside it carry on only until they are lost as well.
    """

    id: str
    title: Text
    grade: Grade
    score: float | None = None
    weakest: Text = ""
    withheld: Text = ""
    parts: tuple[str, ...] = ()
    lost: Text = ""


class SystemGrade(Noun):
    """A system: its worst grade, the weakest link of its load path, or why it is not scored."""

    id: str
    title: str
    grade: Grade
    score: float | None = None
    weakest: Text = ""
    withheld: Text = ""
    components: tuple[str, ...] = ()
    listed: int = 0
    expected: int = 0
    not_listed: tuple[str, ...] = ()
    paths: tuple[PathGrade, ...] = ()


class Assessments(Noun):
    """Everything graded: components in walking order, systems, and every action numbered once."""

    components: tuple[Graded, ...] = ()
    systems: tuple[SystemGrade, ...] = ()
    relaxed_limits: tuple[Limit, ...] = ()
    yardsticks: tuple[Limit, ...] = ()
    sources: tuple[Citation, ...] = ()
    history: History = History()
    schedule: tuple[Due, ...] = ()

    @property
    def actions(self) -> tuple[Action, ...]:
        """Every action in the order of its number."""
        return tuple(
            sorted((each for part in self.components for each in part.actions), key=lambda a: a.number)
        )

    def part(self, ident: str) -> Graded | None:
        """The graded component of that id, or None."""
        return self._parts.get(ident)

    @cached_property
    def _parts(self) -> dict[str, Graded]:
        return {each.component.id: each for each in self.components}
