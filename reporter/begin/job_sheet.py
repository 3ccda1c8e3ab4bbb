"""The first `job.yaml`: what was answered, the days and the time zone that the photos tell, the rest left empty.

What a job cannot be without and nobody has told stands there with nothing after its colon: `check` then names it. Pure but
for this computer's own time zone.
"""

from __future__ import annotations

import datetime as dt
import json
import re
from collections import Counter
from collections.abc import Sequence

from reporter.begin.answers import GEARS, Answers
from reporter.model.photo import OffsetBasis, PhotoFile
from reporter.model.template import Template

MOST_DAYS = 14
ONE_VISIT = dt.timedelta(days=31)
"""Days of one visit lie within a month of the day with the most photos; a clock that was reset shows another year."""
_ZONES_APART = dt.timedelta(days=1)
"""A camera on the other side of the date line is a day ahead of this computer."""

_JOB = """\
# Lines that begin with # are notes to yourself and are never printed.
# `gudgeon check` names what is still empty; docs/job_folder.md tells every key.
format: 1
purpose: {purpose}

report:
  number: "{number}"       # your own number for this report

vessel:
  name:{boat}
  # type: sloop, wheel steering on a pedestal
  # built: 2004
{steering}  # rig: sloop
  # length_overall: 11.20 m

people:
  - role: author
    name:{author}
    # capacity: marine surveyor, instructed and paid by the buyer
    # interest: none in the boat, her sale or any repair
{others}
inspection:
  dates: [{dates}]       # the last is "today" for every age and due date
  place:{place}
  time_zone: {zone}       # {zone_basis}; or a name such as Europe/Lisbon
  # conditions: {{afloat: afloat, mast: up, rig_tension: on, weather: dry}}
"""


def job_text(
    answers: Answers, template: Template, days: Sequence[dt.date], photos: Sequence[PhotoFile]
) -> str:
    """The text of job.yaml."""
    zone, zone_basis = _zone(photos, max(days))
    roles = [role for role in template.signed_by if role != "author"]
    return _JOB.format(
        purpose=answers.purpose,
        number=max(days),
        boat=_said(answers.boat, "her name"),
        steering=_steering(answers.steering),
        author=_said(answers.author, "yours"),
        others="".join(f"  # - role: {role}\n  #   name:\n" for role in roles),
        dates=", ".join(map(str, days)),
        place=_said(answers.place, "harbour and berth"),
        zone=zone,
        zone_basis=zone_basis,
    )


def _said(answer: str, what: str) -> str:
    return f" {scalar(answer)}" if answer else f"                    # fill in: {what}"


def _steering(gear: str) -> str:
    if not gear:
        return f"  # steering_gear: chain_and_wire    # or {', '.join(GEARS[1:])}\n"
    return f"  steering: {'tiller' if gear == 'direct' else 'wheel'}\n  steering_gear: {gear}\n"


def days_of(photos: Sequence[PhotoFile], today: dt.date) -> tuple[list[dt.date], list[PhotoFile]]:
    """The days of the visit by the photos, `today` where they tell none; and the photos whose clock is not believed.

    No visit lies ahead. Of the days that are left the one with the most photos, of equals the latest, is one of the visit.
    """
    dated = [(photo.taken.time.date(), photo) for photo in photos if photo.taken]
    counted = Counter(day for day, _ in dated if day <= today + _ZONES_APART)
    if not counted:
        return [today], [photo for _, photo in dated]
    main = max(counted, key=lambda day: (counted[day], day))
    days = sorted(day for day in counted if abs(day - main) <= ONE_VISIT)[-MOST_DAYS:]
    return days, [photo for day, photo in dated if day > max(days) or abs(day - main) > ONE_VISIT]


def _zone(photos: Sequence[PhotoFile], day: dt.date) -> tuple[str, str]:
    """The offset that the cameras wrote, where they agree; else this computer's on that day."""
    written = {
        photo.taken.offset_minutes
        for photo in photos
        if photo.taken and photo.taken.offset_basis is OffsetBasis.WRITTEN
    }
    if len(written) == 1:
        return _offset(written.pop()), "as the camera wrote"
    own = dt.datetime.combine(day, dt.time(12)).astimezone().utcoffset() or dt.timedelta()
    return _offset(round(own.total_seconds() / 60)), "this computer's on that day"


def _offset(minutes: int) -> str:
    hours, rest = divmod(abs(minutes), 60)
    return f"{'-' if minutes < 0 else '+'}{hours:02d}:{rest:02d}"


def scalar(text: str) -> str:
    """A text as YAML reads it back; JSON's strings are YAML's (YAML 1.2.2, 1.2). Plain where nobody could misread it."""
    plain = r"[A-Za-z][\w.()-]*( [A-Za-z][\w.()-]*)*"
    taken = {"true", "false", "yes", "no", "on", "off", "null", "y", "n"}
    if re.fullmatch(plain, text, re.ASCII) and text.lower() not in taken:
        return text
    return json.dumps(text, ensure_ascii=False)
