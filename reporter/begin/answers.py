"""What whoever begins a job folder says of the boat, and the parts that follow from it.

Comes in: answers, the installed kinds and templates. Goes out: the systems in question, and the stops of the walk with
the kinds expected at each. Pure.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import get_args

from reporter.asking import Stop, expected, walk
from reporter.model.plugin import Kinds
from reporter.model.sheet import Particulars
from reporter.model.template import Template

GEARS: tuple[str, ...] = tuple(filter(None, get_args(Particulars.model_fields["steering_gear"].annotation)))
"""The steering gears that job.yaml knows."""


@dataclass(frozen=True)
class Answers:
    """What is known when a folder is begun; what is empty is left open in job.yaml, and `check` names it.

    `systems` are those to be looked at; none means those of which the purpose expects parts. `lang` is what job.yaml asks for,
    and what the folder's comments are written in.
    """

    boat: str = ""
    author: str = ""
    place: str = ""
    purpose: str = "pre_purchase"
    steering: str = ""
    systems: tuple[str, ...] = ()
    lang: str = "en"


def systems_of(template: Template) -> tuple[str, ...]:
    """The systems that a report of this kind expects parts of."""
    return tuple(dict.fromkeys(each.system for each in template.expects))


def stops_of(answers: Answers, kinds: Kinds, template: Template) -> list[Stop]:
    """The walk along one part of each kind that this boat should have; of a system that nothing is expected of, each kind."""
    # Of a gear that nobody has told, every part is offered that one of them has.
    true = {"any", answers.steering} if answers.steering else {"any", *GEARS}
    wanted: list[str] = []
    for system in answers.systems or systems_of(template):
        own = [kind for kind, each in kinds.plugins.items() if each.system == system]
        wanted += [kind for kind in expected(template, true) if kind in own] or own
    return walk(kinds, None, None, list(dict.fromkeys(wanted)))
