"""Corrections of camera clocks: from what job.yaml says to seconds for any moment.

Comes in: the cameras of a job. Goes out: for each camera a function from camera time to seconds to add. Pure.

How a fixed correction is written, always with its sign (+ when the camera was slow, - when it was fast):

    +00:03:10        hours:minutes:seconds
    -1d 00:01:35     days before that
    +95  or  -3.5 s  seconds

Two readings of a clock of known time are joined by a straight line, as a clock gains or loses evenly; before
the first and after the second the nearest one holds.
"""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Sequence

from reporter.door.taken import Correction
from reporter.errors import JobError, Problem
from reporter.model.sheet import CameraClock, ClockReading

_LONG = re.compile(r"(?:(\d{1,5})d(?: |$))?(?:(\d{1,2}):(\d\d):(\d\d(?:\.\d+)?))?")
_SECONDS = re.compile(r"(\d{1,9}(?:\.\d+)?) ?s?")
_HOW = (
    "write it with its sign: +00:03:10 (hours:minutes:seconds), -1d 00:01:35 or +95 (seconds), "
    "+ when the camera was slow and - when it was fast"
)


def correction(text: str) -> float:
    """Seconds of a written correction. Raises ValueError, saying how it is written."""
    text = text.strip().replace("\N{MINUS SIGN}", "-")
    sign, rest = text[:1], text[1:].strip()
    amount = _amount(rest) if sign in {"+", "-"} and rest else None
    if amount is None:
        msg = f"{text!r} is no correction; {_HOW}"
        raise ValueError(msg)
    return -amount if sign == "-" else amount


def _amount(text: str) -> float | None:
    if found := _SECONDS.fullmatch(text):
        return float(found[1])
    found = _LONG.fullmatch(text)
    if not found or any(part and float(part) >= 60 for part in found.groups()[2:]):  # noqa: PLR2004
        return None
    days, hours, minutes, seconds = (float(part or 0) for part in found.groups())
    return days * 86400 + hours * 3600 + minutes * 60 + seconds


class Clocks:
    """The corrections of all cameras of a job, found by a camera's name as the report prints it."""

    def __init__(self, clocks: Sequence[CameraClock]) -> None:
        """Raises JobError with every clock that cannot be understood."""
        self._by_camera: dict[str, Correction] = {}
        problems: list[Problem] = []
        for number, clock in enumerate(clocks):
            name = _plain(clock.camera)
            try:
                if name in self._by_camera:
                    _refuse(f"the camera {clock.camera!r} has two corrections; keep one")
                self._by_camera[name] = _function(clock)
            except ValueError as fault:
                what, _, do = str(fault).partition("; ")
                problems.append(Problem("job.yaml", 0, f"cameras[{number}]", what, do))
        if problems:
            raise JobError(problems)

    def of(self, camera: str) -> Correction:
        """The correction for a camera; none is zero. `camera` is make and model."""
        return self._by_camera.get(_plain(camera), _none)


def _function(clock: CameraClock) -> Correction:
    if bool(clock.correction) == bool(clock.readings):
        _refuse("a camera needs either a correction or readings; write one of the two")
    if clock.correction:
        return _fixed(correction(clock.correction))
    if any(time.tzinfo for reading in clock.readings for time in (reading.camera_time, reading.true_time)):
        _refuse("a clock reading is in the camera's local time, without a zone; write 2027-05-12 14:03:20")
    ordered = sorted(clock.readings, key=lambda each: each.camera_time)
    return _line(ordered[0], ordered[-1])


def _line(first: ClockReading, last: ClockReading) -> Correction:
    """The straight line through two readings, level outside them."""
    span = (last.camera_time - first.camera_time).total_seconds()
    begin, end = ((each.true_time - each.camera_time).total_seconds() for each in (first, last))
    if span == 0 and begin != end:
        _refuse("two readings at the same camera time contradict each other; keep one")

    def at(moment: dt.datetime) -> float:
        passed = (moment - first.camera_time).total_seconds() / span if span else 0.0
        return round(begin + (end - begin) * min(max(passed, 0.0), 1.0), 3)

    return at


def _fixed(seconds: float) -> Correction:
    return lambda _: seconds


def _none(_: dt.datetime) -> float:
    return 0.0


def _refuse(message: str) -> None:
    raise ValueError(message)


def _plain(name: str) -> str:
    return " ".join(name.casefold().split())
