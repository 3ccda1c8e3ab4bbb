"""What would settle it: the better reading that would decide a check that is close or doubtful.

Comes in: the checks of one part. Goes out: *test* actions that say how exact the next reading has to be, and how to
get there. Nothing is promised: the better reading may fall on either side of the limit.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from reporter.engineering import units
from reporter.grade.phrases import place, unit_of
from reporter.model.assessment import Action, Check
from reporter.model.evidence import Spot
from reporter.model.plugin import Derived, Plugin, Quantity
from reporter.model.terms import Grade, Remedy, Sense, Verdict
from reporter.wording import Catalogue, exact
from reporter.wording.numbers import with_unit

MARGIN = 0.9
"""The better reading should decide with a little to spare, not by a hair."""


def settling(
    checks: Sequence[Check], spots: Sequence[Spot], plugin: Plugin, words: Catalogue, *, imperial: bool
) -> Iterator[Action]:
    """One *test* action per close or doubtful reading that a better reading could decide."""
    seen: set[tuple[str, str, str]] = set()
    for check in sorted(checks, key=lambda each: -each.grade.rank):
        measure = plugin.measure(check.subject)
        key = (check.subject, check.at, check.side)
        if measure is None or key in seen or not _open(check):
            continue
        seen.add(key)
        needed = abs(_distance(check)) * MARGIN
        how = _how(check, needed, measure, spots, plugin, words)
        if needed > 0 and how and check.limit:
            unit = unit_of(check.subject, plugin, check.limit, imperial=imperial)
            yield Action(
                id=f"{plugin.kind}.settle_{len(seen)}",
                what=words(
                    "settle.what",
                    title=check.title,
                    place=place(check, words),
                    how=how,
                    needed=_rounded_down(needed, unit),
                ),
                remedy=Remedy.TEST,
                why=words("settle.why", said=check.said),
                grade=Grade.WATCH,
                settles=(check.id,),
            )


def _open(check: Check) -> bool:
    return check.governs and check.verdict in {Verdict.CLOSE, Verdict.DOUBTFUL} and check.value is not None


def _distance(check: Check) -> float:
    """From the reading to the nearest edge of the limit, in the base unit."""
    if check.limit is None or check.value is None:
        return 0.0
    edges = [units.to_base(check.limit.value, check.limit.unit)]
    if check.limit.sense is Sense.WINDOW and check.limit.upper is not None:
        edges.append(units.to_base(check.limit.upper, check.limit.unit))
    return min(abs(check.value.value - edge) for edge in edges)


def _rounded_down(needed: float, unit: str) -> str:
    """One figure, never more than what is needed."""
    shown = units.from_base(needed, unit)
    step = 10.0 ** math.floor(math.log10(shown))
    return with_unit(exact(round(math.floor(shown / step + 1e-6) * step, 9)), unit)


def _how(
    check: Check,
    needed: float,
    measure: Quantity | Derived,
    spots: Sequence[Spot],
    plugin: Plugin,
    words: Catalogue,
) -> str:
    """Over more pitches where that is enough and can be done, else the better method of the declaration."""
    count = next(
        (spot for spot in spots if spot.quantity == measure.shrinks_with and spot.at in {check.at, ""}), None
    )
    declared = plugin.quantity(measure.shrinks_with)
    if count and declared and check.value and needed > 0:
        wanted = math.ceil(count.value.value * 2 * check.value.u / needed)
        if wanted <= declared.plausible[1]:
            now = f"{count.value.value:g}"
            return words("settle.more", count=wanted, now=now, what=declared.title.lower())
    return measure.better or (measure.method if isinstance(measure, Quantity) else "")
