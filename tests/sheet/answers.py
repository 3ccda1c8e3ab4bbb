"""What a folder says, as the fields of a sheet: a hand that fills the sheet in, which knows nothing of how it is read."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Collection, Iterator

from reporter.model.findings import Component
from reporter.model.job import Job
from reporter.model.terms import State


def answers(job: Job, names: Collection[str]) -> dict[str, str]:
    """Field -> what a person would write, for everything that `job` says and a sheet with these fields has room for."""
    told: dict[str, str] = {}
    for part in job.components:
        for steps, value in (
            *_said(part, names),
            *_observed(part),
            *_details(part),
            *_readings(job, part, names),
        ):
            name = "/".join((part.id, *steps))
            if name in names:
                told[name] = value
    return told


def _said(part: Component, names: Collection[str]) -> Iterator[tuple[tuple[str, ...], str]]:
    yield ("examined", "extent", part.examined.extent.value), "on"
    for how in part.examined.how:
        yield ("examined", "how", how), "on"
    lead = f"{part.id}/examined/included/"
    every = [name.removeprefix(lead) for name in names if name.startswith(lead)]
    for item in every if "all" in part.examined.included else part.examined.included:
        yield ("examined", "included", item), "on"
    if part.examined.because:
        yield ("examined", "because"), part.examined.because
    for name in ("found", "opinion", "private", "name", "place", "side", "group", "installed"):
        if getattr(part, name):
            yield (name,), str(getattr(part, name)).strip()
    if part.judgement:
        yield ("judgement", "grade", part.judgement.grade.value), "on"
        yield ("judgement", "reason"), part.judgement.reason


def _observed(part: Component) -> Iterator[tuple[tuple[str, ...], str]]:
    """The first place in the boxes, every further one as a written answer."""
    for ident, seen in part.observed.items():
        found = [each for each in seen if each.state is State.FOUND]
        rest = [each for each in found if each.at != found[0].at]
        for each in found:
            if each.at == found[0].at:
                yield ("observed", ident, "1", each.choice), "on"
        if found and found[0].at:
            yield ("observed", ident, "1", "at"), found[0].at
        for number, each in enumerate(rest, start=1):
            yield ("observed", ident, f"+{number}"), each.choice
            yield ("observed", ident, f"+{number}", "at"), each.at


def _details(part: Component) -> Iterator[tuple[tuple[str, ...], str]]:
    for ident, detail in part.details.items():
        yield ("details", ident), detail.value
        yield ("details", ident, "basis"), detail.basis.value


def _readings(job: Job, part: Component, names: Collection[str]) -> Iterator[tuple[tuple[str, ...], str]]:
    """Places that the sheet prints have cells of their own, others take the free ones in turn."""
    free: dict[str, list[str]] = defaultdict(list)
    count: dict[tuple[str, ...], int] = defaultdict(int)
    for each in job.readings:
        if each.component != part.id or each.state is not State.FOUND:
            continue
        step = f"@{each.at}" if each.at else "-"
        side = each.side or "-"
        if f"{part.id}/readings/{each.quantity}/{step}/{side}/1" not in names:
            places = free[each.quantity]
            places += [each.at] if each.at not in places else []
            step = f"+{places.index(each.at) + 1}"
            if each.at:
                yield ("readings", each.quantity, step, "at"), each.at
        count[each.quantity, step, side] += 1
        written = each.value.written
        if each.value.u and "±" not in written:
            number, _, unit = written.partition(" ")
            spread = 2 * each.value.u / _factor(each.value.unit)
            written = f"{number} ± {spread:.6g} {unit}".strip()
        yield ("readings", each.quantity, step, side, str(count[each.quantity, step, side])), written
        if each.instrument:
            yield ("readings", each.quantity, "with"), each.instrument


def _factor(unit: str) -> float:
    from reporter.engineering import units

    return units.to_base(1.0, unit) if unit else 1.0
