"""What a plugin author imports, together with `reporter.engineering`; nothing else of the program is needed.

A plugin module builds one `Plugin` value from the declarations below and reads its limits with
`load_limits(__package__, "<kind>.toml")`. Its `assess(evidence)` is pure: no files, no clock, no network.
It returns an `Assessment`; observations, ages and readings that stand directly against a limit are
checked by the core without a line of code. `compare` makes a check for a derived quantity.
"""

from __future__ import annotations

import tomllib
from importlib import resources
from typing import Any

from pydantic import ValidationError

from reporter.engineering import units
from reporter.engineering.guard_band import conformity, grade_reached, guarded
from reporter.errors import PluginError
from reporter.model.assessment import Action, Assessment, Assessments, Check, Graded, Missing, Working
from reporter.model.citation import Citation, Limit
from reporter.model.drawing import Arc, Drawing, Ellipse, Path, Shape, Sign, Words
from reporter.model.evidence import Evidence, Spot
from reporter.model.job import Fact, Job
from reporter.model.plugin import (
    Care,
    Choice,
    Derived,
    DetailField,
    ExaminationItem,
    Need,
    Observation,
    Plugin,
    ProofItem,
    Quantity,
    Station,
    System,
)
from reporter.model.quantity import Value
from reporter.model.terms import (
    Access,
    Basis,
    Dimension,
    Extent,
    Grade,
    LimitKind,
    Remedy,
    Sense,
    State,
    Verdict,
)

__all__ = [
    "Access",
    "Action",
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
    "Drawing",
    "Ellipse",
    "Evidence",
    "ExaminationItem",
    "Extent",
    "Fact",
    "Grade",
    "Graded",
    "Job",
    "Limit",
    "LimitKind",
    "Missing",
    "Need",
    "Observation",
    "Path",
    "Plugin",
    "ProofItem",
    "Quantity",
    "Remedy",
    "Sense",
    "Shape",
    "Sign",
    "Spot",
    "State",
    "Station",
    "System",
    "Value",
    "Verdict",
    "Words",
    "Working",
    "compare",
    "load_limits",
]


def load_limits(package: str | None, file: str) -> tuple[Limit, ...]:
    """The limits of `file` beside a plugin module, every one with its citation.

    A limit's `source` is a table, or the name of a `[source.<name>]` table of the same file. Raises PluginError
    when the file is not as it should be.
    """
    if not package:
        msg = f"{file}: a plugin with limits must be a module of a package"
        raise PluginError(msg)
    try:
        data = tomllib.loads(resources.files(package).joinpath(file).read_text("utf-8"))
        return tuple(Limit.model_validate(_with_source(row, data.get("source", {}))) for row in data["limit"])
    except (OSError, KeyError, tomllib.TOMLDecodeError, ValidationError) as error:
        msg = f"{file}: {error}"
        raise PluginError(msg, "Correct the limits file of this plugin.") from error


def _with_source(row: dict[str, Any], sources: dict[str, Any]) -> dict[str, Any]:
    source = row.get("source")
    return {**row, "source": sources[source]} if isinstance(source, str) else row


def compare(
    evidence: Evidence,
    value: Value,
    limit: Limit,
    *,
    title: str,
    like: Spot | None = None,
    method: str = "",
    working: tuple[Working, ...] = (),
    notes: tuple[str, ...] = (),
) -> Check:
    """Holds a value (base unit, standard uncertainty) against a limit with a guard band of U = 2u.

    `like` is the spot that the value came from: it lends place, side and state. On a load path a doubtful
    reading counts as beyond (`Check.grade`). Limits of kind design, rule and age never grade worse than `plan`.
    Guard band: JCGM 106:2012 8.3.2; ILAC-G8:09/2019 4.2.2.
    """
    bound = units.to_base(limit.value, limit.unit)
    upper = None if limit.upper is None else units.to_base(limit.upper, limit.unit)
    unworn = None if limit.unworn is None else units.to_base(limit.unworn, limit.unit)
    expanded = 0.0 if value.dimension is Dimension.COUNT else 2 * value.u
    verdict, use = guarded(value.value, expanded, bound, sense=limit.sense, upper=upper, unworn=unworn)
    return Check(
        id=f"{limit.id}@{like.at}/{like.side}/{like.state}" if like else limit.id,
        subject=limit.quantity,
        title=title,
        value=value,
        limit=limit,
        verdict=verdict,
        grade=grade_reached(verdict, limit.then, limit.kind, load_path=evidence.load_path),
        kind=limit.kind,
        use=use,
        conformity=conformity(value.value, expanded / 2, bound, limit.sense, upper),
        at=like.at if like else "",
        side=like.side if like else "",
        state=like.state if like else State.FOUND,
        method=method,
        working=working,
        notes=notes,
        governs=limit.governs,
    )
