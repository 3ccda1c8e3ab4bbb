"""Readings that say a part is better than new: a miscount or a wrong size, and no good news.

Comes in: the checks of one part. Goes out: those checks with verdict and grade `unseen` where the value lies better than
unworn by more than its expanded uncertainty and what the kind declares that new parts may be; the gap in words; the
*test* action. A value that a bad check speaks of cannot be among them: it lies on the other side of unworn.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from reporter.engineering import units
from reporter.engineering.verdict import ROUNDING
from reporter.grade.materials import tools
from reporter.grade.phrases import place, title_of
from reporter.model.assessment import Action, Check
from reporter.model.plugin import Plugin
from reporter.model.saying import Text, named, say
from reporter.model.terms import Dimension, Grade, Remedy, Sense, Verdict


def doubted(checks: Sequence[Check], plugin: Plugin) -> list[Check]:
    """The checks; of a value that cannot be, every check is `unseen`, also against limits that tell no unworn."""
    values = {_of(check) for check in checks if _is_better_than_new(check, plugin)}
    return [_unseen(check, plugin) if _of(check) in values else check for check in checks]


def _of(check: Check) -> tuple[object, ...]:
    """What makes two checks speak of one value."""
    number = check.value.value if check.value and check.limit else None
    return (check.subject, check.at, check.side, check.state, number)


def _is_better_than_new(check: Check, plugin: Plugin) -> bool:
    limit, value, measure = check.limit, check.value, plugin.measure(check.subject)
    if limit is None or value is None or limit.unworn is None or limit.sense is Sense.WINDOW:
        return False
    if measure is None or measure.new_within is None:
        return False
    unworn = units.to_base(limit.unworn, limit.unit)
    better = (unworn - value.value) * (1 if limit.sense is Sense.AT_MOST else -1)
    expanded = 0.0 if value.dimension is Dimension.COUNT else 2 * value.u
    allowed = expanded + units.to_base(measure.new_within, measure.unit)
    return better > allowed + ROUNDING * max(abs(unworn), abs(value.value))


def _unseen(check: Check, plugin: Plugin) -> Check:
    measure = plugin.measure(check.subject)
    declared = "reading" if plugin.quantity(check.subject) else "derived"
    again = named(plugin.kind, declared, check.subject, "recheck")
    note = again if measure and measure.recheck else say("recheck.again")
    return check.model_copy(
        update={
            "verdict": Verdict.UNSEEN, "grade": Grade.UNSEEN, "use": None, "conformity": None, "notes": (*check.notes, note),
        }
    )  # fmt: skip


def _gaps(checks: Sequence[Check]) -> list[Check]:
    """One check for each value that is not believed; one that governs nothing leaves no gap."""
    found: dict[tuple[object, ...], Check] = {}
    for check in checks:
        if check.governs and check.limit and check.value and check.verdict is Verdict.UNSEEN:
            found.setdefault(_of(check), check)
    return list(found.values())


def unbelieved(checks: Sequence[Check], plugin: Plugin) -> Iterator[Text]:
    """Why the part cannot be called clear: each value that came out better than new, and what to do again."""
    for check in _gaps(checks):
        yield say(
            "recheck.cap", title=title_of(check.subject, plugin), place=place(check), note=check.notes[-1]
        )


def rechecks(checks: Sequence[Check], plugin: Plugin) -> Iterator[Action]:
    """One *test* action for each value that came out better than new."""
    for number, check in enumerate(_gaps(checks), start=1):
        yield Action(
            id=f"{plugin.kind}.recheck_{number}",
            what=say(
                "recheck.what",
                title=title_of(check.subject, plugin),
                place=place(check),
                note=check.notes[-1],
            ),
            remedy=Remedy.TEST,
            why=check.said,
            grade=Grade.UNSEEN,
            tools=tools(plugin),
            settles=tuple(each.id for each in checks if _of(each) == _of(check)),
        )
