"""Sizing of an emergency tiller, on request: from a torque at the rudder stock to the force at the hand.

Comes in: the Evidence of an emergency tiller. Goes out: the force at the hand against what can be kept up, and the
length that would bring it there; nothing when nobody asked. The torque is the measured one at the stock, else the
wheel's torque times the steering ratio, else a rudder force at its lever, which is an estimate and decides nothing.
"""

from __future__ import annotations

from typing import NamedTuple

from reporter.contract import (
    Assessment,
    Check,
    Evidence,
    Value,
    Working,
    compare,
    lacking,
    say,
    stated,
    worked_out,
)
from reporter.engineering import work
from reporter.engineering.mechanics import steering_ratio, torque_at_speed
from reporter.engineering.stock import moment, tiller_for_force, tiller_force, torque_by_ratio

from .drive import kept_up, largest


class Torque(NamedTuple):
    """A torque at the stock, the sums that led to it, and whether it was measured."""

    value: Value
    sums: tuple[Working, ...]
    measured: bool


def assess(evidence: Evidence) -> Assessment:
    """The force at the hand, with its working; what is lacking for it is named once part of it was given."""
    length, torque = stated(evidence, "length"), _torque(evidence)
    if torque is None:
        return Assessment()
    if length is None:
        why = say("no_length", kind="emergency_tiller")
        return Assessment(missing=(lacking("emergency_tiller", "hand_force", why),))
    torque = _at_speed(evidence, torque)
    return Assessment(checks=(_hand_force(evidence, torque, length), _length(evidence, torque)))


def _hand_force(evidence: Evidence, torque: Torque, length: Value) -> Check:
    force, sum_ = work(tiller_force, {"torque": torque.value, "tiller": length})
    limit = evidence.limit("emergency_tiller.hand_force.kept_up")
    check = compare(evidence, force, limit, working=(*torque.sums, sum_))
    return check if torque.measured else check.model_copy(update={"governs": False})


def _length(evidence: Evidence, torque: Torque) -> Check:
    limit = evidence.limit("emergency_tiller.hand_force.kept_up")
    needed, sum_ = work(tiller_for_force, {"torque": torque.value, "hand_force": kept_up(limit)})
    return worked_out("emergency_tiller", "length_for_hand", needed, (sum_,))


def _torque(evidence: Evidence) -> Torque | None:
    measured = _reading(evidence, "stock_torque")
    if measured:
        return Torque(measured, (), measured=True)
    return _by_wheel(evidence) or _by_force(evidence)


def _by_wheel(evidence: Evidence) -> Torque | None:
    wheel, turned, rudder = (
        _reading(evidence, name) for name in ("wheel_torque", "wheel_angle", "rudder_turned")
    )
    if not (wheel and turned and rudder):
        return None
    ratio, geared = work(steering_ratio, {"wheel_angle": turned, "rudder_angle": rudder})
    torque, sum_ = work(torque_by_ratio, {"wheel_torque": wheel, "ratio": ratio})
    return Torque(torque, (geared, sum_), measured=True)


def _by_force(evidence: Evidence) -> Torque | None:
    force, lever = _reading(evidence, "rudder_force"), _reading(evidence, "rudder_lever")
    if not (force and lever):
        return None
    torque, sum_ = work(moment, {"force": force, "arm": lever})
    return Torque(torque, (sum_,), measured=False)


def _at_speed(evidence: Evidence, torque: Torque) -> Torque:
    """The torque at the speed asked about, where both speeds are known; else as it is."""
    known, wanted = _reading(evidence, "speed"), _reading(evidence, "speed_asked")
    if known is None or wanted is None:
        return torque
    scaled, sum_ = work(torque_at_speed, {"torque": torque.value, "known_speed": known, "speed": wanted})
    return Torque(scaled, (*torque.sums, sum_), torque.measured)


def _reading(evidence: Evidence, ident: str) -> Value | None:
    """The largest value read: the tiller has to hold the worst of them."""
    return largest(evidence.at(ident))
