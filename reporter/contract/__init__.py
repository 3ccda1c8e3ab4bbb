"""What the author of a component kind imports, together with `reporter.engineering`; nothing else is needed.

A kind is a TOML file; where it has arithmetic, a module beside it holds `assess(evidence)`, which is pure: no files, no
clock, no network. It returns an `Assessment`; observations, ages and readings that stand directly against a limit
are checked by the core without a line of code. `compare` makes a check for a derived quantity.
"""

from __future__ import annotations

from reporter.contract.gaps import aloft_alone, asking, neighbours, not_close, size_question, stated_size
from reporter.contract.given import (
    asked_by_type,
    at_or_over,
    at_place,
    beside,
    both_sides,
    chosen,
    lacking,
    stated,
    vessel,
)
from reporter.contract.margins import is_spent, withheld
from reporter.contract.summed import against, pressed, sums, worked_out
from reporter.engineering.verdict import compare
from reporter.model.assessment import Action, Assessment, Assessments, Check, Graded, Missing, Working
from reporter.model.citation import Citation, Limit
from reporter.model.drawing import XY, Arc, Drawing, Ellipse, Label, Path, Room, Shape, Sign, Words
from reporter.model.evidence import Evidence, MeasurementPoint
from reporter.model.findings import Fact, on_mizzen
from reporter.model.job import Job
from reporter.model.plugin import (
    Care,
    Choice,
    Derived,
    DetailField,
    Draw,
    DrawingWords,
    ExaminationItem,
    Need,
    Observation,
    Plugin,
    ProofItem,
    Quantity,
    Station,
    System,
    Task,
    Together,
)
from reporter.model.quantity import Value
from reporter.model.saying import Amount, SourceFigure, Text, either, named, say, series
from reporter.model.terms import (
    Access,
    Basis,
    Dimension,
    Effort,
    Extent,
    Grade,
    LimitKind,
    Remedy,
    Sense,
    State,
    Verdict,
)

__all__ = [
    "XY",
    "Access",
    "Action",
    "Amount",
    "Arc",
    "Assessment",
    "Assessments",
    "Basis",
    "Care",
    "Check",
    "Choice",
    "Citation",
    "Derived",
    "DetailField",
    "Dimension",
    "Draw",
    "Drawing",
    "DrawingWords",
    "Effort",
    "Ellipse",
    "Evidence",
    "ExaminationItem",
    "Extent",
    "Fact",
    "Grade",
    "Graded",
    "Job",
    "Label",
    "Limit",
    "LimitKind",
    "MeasurementPoint",
    "Missing",
    "Need",
    "Observation",
    "Path",
    "Plugin",
    "ProofItem",
    "Quantity",
    "Remedy",
    "Room",
    "Sense",
    "Shape",
    "Sign",
    "SourceFigure",
    "State",
    "Station",
    "System",
    "Task",
    "Text",
    "Together",
    "Value",
    "Verdict",
    "Words",
    "Working",
    "against",
    "aloft_alone",
    "asked_by_type",
    "asking",
    "at_or_over",
    "at_place",
    "beside",
    "both_sides",
    "chosen",
    "compare",
    "either",
    "is_spent",
    "lacking",
    "named",
    "neighbours",
    "not_close",
    "on_mizzen",
    "pressed",
    "say",
    "series",
    "size_question",
    "stated",
    "stated_size",
    "sums",
    "vessel",
    "withheld",
    "worked_out",
]
