"""The steering schematic in words: every part with its grade, in the order in which the helm's pull passes them.

Comes in: a Job and the sorted parts. Goes out: one text that says everything the drawing shows.
"""

from __future__ import annotations

from collections.abc import Iterator

from reporter.contract import Job, Told

from .naming import NOT_LISTED, SIDES, Parts, side_of
from .steering_parts import Helm, Layout, Rudder

OPENING = (
    "Schematic of the steering gear, seen from above, bow to the left, starboard at the top, not to scale."
)
NAMES = {
    "wheel": "wheel", "chain": "steering chain and sprocket", "quadrant": "quadrant and rudder stops",
    "rudder_bearing": "rudder bearings, stock and gland", "rudder_blade": "rudder blade, skeg and pintles",
    "emergency_tiller": "emergency tiller", "wheel_brake": "wheel brake", "pedestal": "pedestal", "sheave": "sheaves",
    "steering_wire": "steering wire", "pilot_drive": "pilot drive",
}  # fmt: skip


def describe(job: Job, layout: Layout, told: Told) -> str:
    """What the drawing shows, part by part."""
    sentences = [OPENING]
    if layout.has_wheel:
        sentences += [
            _sentence(_named("Helm", helm.group), _helm(layout, helm, told)) for helm in layout.helms
        ]
    else:
        sentences.append("Steered by a tiller on the stock.")
    sentences += [
        _sentence(_named("Rudder", rudder.group), _rudder(job, layout, rudder, told, first=place == 0))
        for place, rudder in enumerate(layout.rudders)
    ]
    if len(layout.rudders) > 1:
        sentences.append("What links the rudders is not drawn.")
    if layout.undrawn:
        sentences.append(_sentence("Listed, not drawn", _said(layout.undrawn, "", told)))
    return " ".join(sentences)


def _named(what: str, group: str) -> str:
    return f"{what} ({group})" if group else what


def _sentence(what: str, parts: Iterator[str]) -> str:
    return f"{what}: {'; '.join(parts)}."


def _helm(layout: Layout, helm: Helm, told: Told) -> Iterator[str]:
    yield from _said(helm.kinds["wheel"], "wheel", told)
    for kind in ("wheel_brake", "pedestal"):
        yield from _said(helm.kinds[kind], "", told)
    if not layout.has_runs:
        yield "gear without chain and wire, not drawn"
        return
    yield from _said(helm.kinds["chain"], NAMES["chain"], told)
    for side in SIDES:
        run = helm.runs[side]
        for parts, name in ((run.sheaves, "sheaves"), (run.wires, "steering wire")):
            for said in _said(parts, name, told, helm.group):
                yield f"{side} run, {said}"


def _rudder(job: Job, layout: Layout, rudder: Rudder, told: Told, *, first: bool) -> Iterator[str]:
    for kind in ("quadrant", "pilot_drive", "rudder_bearing", "rudder_blade", "emergency_tiller"):
        parts = rudder.kinds[kind]
        if kind == "quadrant" and parts:
            yield from (
                f"{said}{_radius(job, part.component.id)}"
                for part, said in zip(parts, _said(parts, "", told), strict=True)
            )
        elif parts or _is_due(kind, layout, first=first):
            yield from _said(parts, NAMES[kind], told)


def _is_due(kind: str, layout: Layout, *, first: bool) -> bool:
    """Whether a part of that kind is drawn dashed when none is listed."""
    if kind == "quadrant":
        return layout.has_runs
    if kind == "emergency_tiller":
        return layout.has_wheel and first
    return kind != "pilot_drive"


def _radius(job: Job, ident: str) -> str:
    fact = job.facts.get(ident, {}).get("radius")
    return f", radius {fact.value.written}" if fact and fact.value and fact.value.written else ""


def _said(parts: Parts, name: str, told: Told, helm: str | None = None) -> Iterator[str]:
    if not parts and name:
        yield f"{name} {NOT_LISTED}, drawn dashed"
    for part in parts:
        both = " (drawn on both runs)" if helm is not None and not side_of(part, helm) else ""
        yield f"{part.title}{both}: {told(part)}"
