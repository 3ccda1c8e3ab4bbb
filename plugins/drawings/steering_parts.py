"""The parts of a steering gear sorted for its drawing: by helm, by rudder, by side, in the order they were listed.

Comes in: a Job and its Assessments. Goes out: plain tuples of graded parts. It draws nothing and grades nothing.
"""

from __future__ import annotations

from typing import NamedTuple

from reporter.contract import Assessments, Graded, Job

from .naming import SIDES, Parts, group_of, side_of

HELM_KINDS = ("wheel", "wheel_brake", "pedestal", "chain", "sheave", "steering_wire")
RUDDER_KINDS = ("quadrant", "pilot_drive", "rudder_bearing", "rudder_blade", "emergency_tiller")
DRAWN = (*HELM_KINDS, *RUDDER_KINDS)
Owned = list[tuple[str, Graded]]
"""Parts, each behind the group that it belongs to."""


class WireSide(NamedTuple):
    """One side of the wire: its sheaves from the wheel to the rudder, and its wires."""

    sheaves: Parts
    wires: Parts


class Helm(NamedTuple):
    """One wheel with what it drives."""

    group: str
    kinds: dict[str, Parts]
    runs: dict[str, WireSide]


class Rudder(NamedTuple):
    """One rudder with what turns it."""

    group: str
    kinds: dict[str, Parts]


class Layout(NamedTuple):
    """Everything to be drawn, and the parts of the gear that the drawing has no place for."""

    helms: tuple[Helm, ...]
    rudders: tuple[Rudder, ...]
    undrawn: Parts
    has_runs: bool
    has_wheel: bool


def sorted_parts(job: Job, assessments: Assessments) -> Layout | None:
    """The steering parts of the job in their places; None when there is none."""
    parts = tuple(part for part in assessments.components if part.system == "steering")
    if not parts:
        return None
    vessel = job.sheet.vessel
    by_id = {part.component.id: part for part in parts}
    owned = [(group_of(part, by_id), part) for part in parts]
    helms = _lines(owned, ("wheel",), fewest=2 if vessel.steering == "twin_wheels" else 1)
    rudders = _lines(owned, ("quadrant", "rudder_bearing", "rudder_blade"), fewest=vessel.rudders)
    of_runs = ("chain", "sheave", "steering_wire")
    wheeled = vessel.steering in {"wheel", "twin_wheels", ""} or any(
        part.component.kind == "wheel" for part in parts
    )
    return Layout(
        helms=tuple(_helm(group, _of_line(owned, group, helms, HELM_KINDS)) for group in helms),
        rudders=tuple(Rudder(group, _of_line(owned, group, rudders, RUDDER_KINDS)) for group in rudders),
        undrawn=tuple(part for part in parts if part.component.kind not in DRAWN),
        has_runs=(wheeled and "chain_and_wire" in vessel.gears)
        or any(part.component.kind in of_runs for part in parts),
        has_wheel=wheeled,
    )


def _lines(owned: Owned, kinds: tuple[str, ...], *, fewest: int) -> tuple[str, ...]:
    """The groups of a boat with two helms or two rudders, starboard first; one nameless group otherwise."""
    found = dict.fromkeys(group for group, part in owned if part.component.kind in kinds)
    groups = [group for group in found if group]
    if len(groups) < 2 and fewest < 2:  # noqa: PLR2004 - twin means two
        return ("",)
    spare = [side for side in SIDES if side not in groups]
    pair = [*groups, *spare][:2]
    return tuple(sorted(pair, key=lambda group: SIDES.index(group) if group in SIDES else len(SIDES)))


def _of_line(owned: Owned, line: str, lines: tuple[str, ...], kinds: tuple[str, ...]) -> dict[str, Parts]:
    """The parts of one helm or rudder by kind; one whose group names no line of its own is drawn with the first."""
    own = [part for group, part in owned if line == (group if group in lines else lines[0])]
    return {kind: tuple(part for part in own if part.component.kind == kind) for kind in kinds}


def _helm(group: str, kinds: dict[str, Parts]) -> Helm:
    runs = {
        side: WireSide(
            *(
                tuple(part for part in kinds[kind] if side_of(part, group) in {side, ""})
                for kind in ("sheave", "steering_wire")
            )
        )
        for side in SIDES
    }
    return Helm(group, kinds, runs)


def radius_of(job: Job, part: Graded) -> str:
    """The quadrant's radius as it was written, or nothing."""
    fact = job.fact(part.component.id, "radius")
    return fact.value.written if fact and fact.value else ""
