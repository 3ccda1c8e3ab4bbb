"""The steering schematic in words: every part with its grade, in the order in which the helm's pull passes them.

Comes in: a Job and the sorted parts. Goes out: one text that says everything the drawing shows.
"""

from __future__ import annotations

from collections.abc import Iterator

from reporter.contract import DrawingWords, Graded, Job

from .naming import SIDES, Parts, gap, said_of, sentence, side_of
from .steering_parts import Helm, Layout, Rudder, radius_of


def describe(job: Job, layout: Layout, told: DrawingWords) -> str:
    """What the drawing shows, part by part."""
    sentences = [told.say("drawing.steering_opening")]
    if layout.has_wheel:
        sentences += [
            sentence(_named(told.say("drawing.steering_helm"), helm.group), _helm(layout, helm, told))
            for helm in layout.helms
        ]
    else:
        sentences.append(told.say("drawing.by_tiller"))
    sentences += [
        sentence(
            _named(told.say("drawing.steering_rudder"), rudder.group),
            _rudder(job, layout, rudder, told, first=place == 0),
        )
        for place, rudder in enumerate(layout.rudders)
    ]
    if len(layout.rudders) > 1:
        sentences.append(told.say("drawing.unlinked"))
    if layout.undrawn:
        sentences.append(sentence(told.say("drawing.undrawn"), _said(layout.undrawn, "", told)))
    return " ".join(sentences)


def _named(what: str, group: str) -> str:
    return f"{what} ({group})" if group else what


def _helm(layout: Layout, helm: Helm, told: DrawingWords) -> Iterator[str]:
    yield from _said(helm.kinds["wheel"], "wheel", told)
    for kind in ("wheel_brake", "pedestal"):
        yield from _said(helm.kinds[kind], "", told)
    if not layout.has_runs:
        yield told.say("drawing.no_runs")
        return
    yield from _said(helm.kinds["chain"], "chain", told)
    for side in SIDES:
        run = helm.runs[side]
        for parts, place in ((run.sheaves, "sheave"), (run.wires, "steering_wire")):
            for said in _said(parts, place, told, helm.group):
                yield told.say("drawing.run", side=said_of(side, told), said=said)


def _rudder(job: Job, layout: Layout, rudder: Rudder, told: DrawingWords, *, first: bool) -> Iterator[str]:
    for kind in ("quadrant", "pilot_drive", "rudder_bearing", "rudder_blade", "emergency_tiller"):
        parts = rudder.kinds[kind]
        if kind == "quadrant" and parts:
            yield from (
                f"{said}{_radius(job, part, told)}"
                for part, said in zip(parts, _said(parts, "", told), strict=True)
            )
        elif parts or _is_due(kind, layout, first=first):
            yield from _said(parts, kind, told)


def _is_due(kind: str, layout: Layout, *, first: bool) -> bool:
    """Whether a part of that kind is drawn dashed when none is listed."""
    if kind == "quadrant":
        return layout.has_runs
    if kind == "emergency_tiller":
        return layout.has_wheel and first
    return kind != "pilot_drive"


def _radius(job: Job, part: Graded, told: DrawingWords) -> str:
    radius = radius_of(job, part)
    return f", {told.say('drawing.radius', radius=radius)}" if radius else ""


def _said(parts: Parts, place: str, told: DrawingWords, helm: str | None = None) -> Iterator[str]:
    if not parts and place:
        yield gap(place, told)
    for part in parts:
        both = told.say("drawing.on_both_runs") if helm is not None and not side_of(part, helm) else ""
        yield f"{part.title}{both}: {told(part)}"
