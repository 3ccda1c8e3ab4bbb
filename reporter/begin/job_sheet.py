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
from reporter.wording import Catalogue, catalogue

MOST_DAYS = 14
ONE_VISIT = dt.timedelta(days=31)
"""Days of one visit lie within a month of the day with the most photos; a clock that was reset shows another year."""
_ZONES_APART = dt.timedelta(days=1)
"""A camera on the other side of the date line is a day ahead of this computer."""

_JOB = """\
# {notes}
# {empty}
format: 1
purpose: {purpose}
{lang}
report:
  number: "{number}"       # {own_number}

vessel:
  name:{boat}
  # type: {type}
  # built: 2004
{steering}  # rig: sloop
  # length_overall: 11.20 m

people:
  - role: author
    name:{author}
    # capacity: {capacity}
    # interest: {interest}
{others}
inspection:
  dates: [{dates}]       # {last_day}
  place:{place}
  time_zone: {zone}       # {zone_basis}; {zone_named}
  # conditions: {{afloat: afloat, mast: up, rig_tension: on, weather: dry}}
"""
_SAID = ("notes", "empty", "own_number", "type", "capacity", "interest", "last_day", "zone_named")
"""What stands in it of words, as `begin.*` of the catalogue has them."""


def job_text(
    answers: Answers, template: Template, days: Sequence[dt.date], photos: Sequence[PhotoFile]
) -> str:
    """The text of job.yaml."""
    words = catalogue(answers.lang)
    zone, zone_basis = _zone(photos, max(days))
    roles = [role for role in template.signed_by if role != "author"]
    return _JOB.format(
        **{name: words(f"begin.{name}") for name in _SAID},
        purpose=answers.purpose,
        lang=f"lang: {answers.lang}\n" if answers.lang != "en" else "",
        number=max(days),
        boat=_said(answers.boat, words("begin.her_name")),
        steering=_steering(answers.steering, words),
        author=_said(answers.author, words("begin.your_name")),
        others="".join(f"  # - role: {role}\n  #   name:\n" for role in roles),
        dates=", ".join(map(str, days)),
        place=_said(answers.place, words("begin.berth")),
        zone=zone,
        zone_basis=words(f"begin.zone_{zone_basis}"),
    )


def _said(answer: str, otherwise: str) -> str:
    return f" {scalar(answer)}" if answer else f"                    # {otherwise}"


def _steering(gear: str, words: Catalogue) -> str:
    if not gear:
        others = words("begin.or", others=", ".join(GEARS[1:]))
        return f"  # steering_gear: chain_and_wire    # {others}\n"
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
    """The offset that the cameras wrote, where they agree; else this computer's on that day; and which it is."""
    written = {
        photo.taken.offset_minutes
        for photo in photos
        if photo.taken and photo.taken.offset_basis is OffsetBasis.WRITTEN
    }
    if len(written) == 1:
        return _offset(written.pop()), "camera"
    own = dt.datetime.combine(day, dt.time(12)).astimezone().utcoffset() or dt.timedelta()
    return _offset(round(own.total_seconds() / 60)), "computer"


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
