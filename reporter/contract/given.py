"""What is given of a part: its stated details, readings that belong together, which limits it is meant for.

Comes in: Evidence. Goes out: values, or None where something is not known. It judges nothing.
"""

from __future__ import annotations

from collections.abc import Iterator

from reporter.model.assessment import Check, Missing
from reporter.model.citation import Limit
from reporter.model.evidence import Evidence, MeasurementPoint
from reporter.model.quantity import Value
from reporter.model.saying import Text, named
from reporter.model.terms import Verdict

ROUNDING = 1e-9
"""What the arithmetic of floats leaves of a figure, as a fraction: 12 less 9.6 over 12 is a fifth, and not more."""


def stated(evidence: Evidence, detail: str) -> Value | None:
    """The number that a detail of the part states."""
    fact = evidence.facts.get(detail)
    return fact.value if fact else None


def chosen(evidence: Evidence, detail: str) -> str:
    """The choice that a detail of the part states, or nothing."""
    fact = evidence.facts.get(detail)
    return fact.choice if fact else ""


def vessel(evidence: Evidence, need: str) -> Value | None:
    """A size of the vessel that a need resolved to."""
    found = evidence.needed.get(need)
    return found if isinstance(found, Value) else None


def at_place(evidence: Evidence, quantity: str, spot: MeasurementPoint) -> MeasurementPoint | None:
    """The reading of another quantity taken at the very same place, on the same side, in the same state."""
    wanted = (spot.at, spot.side, spot.state)
    same = (each for each in evidence.at(quantity) if (each.at, each.side, each.state) == wanted)
    return next(same, None)


def beside(evidence: Evidence, quantity: str, spot: MeasurementPoint) -> MeasurementPoint | None:
    """As `at_place`; where there is none, one without a place serves every place."""
    anywhere = spot.model_copy(update={"at": "", "side": ""})
    return at_place(evidence, quantity, spot) or at_place(evidence, quantity, anywhere)


def both_sides(evidence: Evidence, quantity: str) -> Iterator[tuple[MeasurementPoint, MeasurementPoint]]:
    """Port and starboard of one quantity, wherever both were read at one place in one state."""
    spots = evidence.at(quantity)
    for port in (each for each in spots if each.side == "port"):
        same = (each for each in spots if (each.at, each.state) == (port.at, port.state))
        if starboard := next((each for each in same if each.side == "starboard"), None):
            yield port, starboard


def meant(limit: Limit, evidence: Evidence) -> bool:
    """Whether the part's details are those that the limit was written for; what is not known leaves it out."""
    return evidence.meets(limit.applies)


def lacking(kind: str, ident: str, why: Text = "", *, needed: bool = False) -> Missing:
    """A result that could not be worked out, under its declared title."""
    return Missing(id=ident, title=named(kind, "derived", ident, "title"), needed=needed, why=why)


def asked_by_type(evidence: Evidence, due: str, why: Text) -> Iterator[Missing]:
    """The observation that this very type of part asks for and that was not made."""
    if due not in evidence.observed:
        title = named(evidence.component.kind, "observation", due, "title")
        yield Missing(id=due, title=title, needed=True, why=why)


def at_or_over(check: Check) -> Check:
    """The check where the text says "or more": the figure itself already lies beyond, however exact the reading."""
    limit, value = check.limit, check.value
    if limit is None or value is None or check.use is None or abs(check.use - 1) > ROUNDING:
        return check
    return check.model_copy(update={"verdict": Verdict.DOUBTFUL, "grade": limit.then})
