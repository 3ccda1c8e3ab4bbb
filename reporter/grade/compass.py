"""Work near the compass: the deviation is to be taken on four headings afterwards.

Comes in: graded parts. Goes out: the same, the first part worked on near the compass with an action of its own. Which
parts stand near it their kinds say themselves, by a proof that looks at the compass.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from reporter.grade.observing import HARMLESS
from reporter.model.assessment import Action, Graded
from reporter.model.plugin import Plugin
from reporter.model.saying import say, series
from reporter.model.terms import Access, Grade, Remedy

PROOF = "compass"
"""The proof by which a kind says that it stands near the compass."""


def with_deviation(parts: Sequence[Graded], plugins: Mapping[str, Plugin]) -> tuple[Graded, ...]:
    """The parts, one of them with the action; one swing serves all work of a visit (*common practice*)."""
    near = [part for part in parts if part.component.done and _is_near(plugins[part.component.kind])]
    if not near:
        return tuple(parts)
    opened = any(
        done.remedy is None or done.remedy.value not in HARMLESS
        for part in near
        for done in part.component.done
    )
    chosen = near[0]
    ident = f"{chosen.component.kind}.deviation"
    action = Action(
        id=ident,
        what=say("deviation.what"),
        remedy=Remedy.TEST,
        why=say("deviation.why", parts=series([part.title for part in near])),
        grade=Grade.FIRST if opened else Grade.WATCH,
        access=Access.AFLOAT,
        edit=next((edit for edit in chosen.component.actions if edit.id == ident), None),
    )
    told = chosen.model_copy(update={"actions": (*chosen.actions, action)})
    return tuple(told if part is chosen else part for part in parts)


def _is_near(plugin: Plugin) -> bool:
    return any(item.id == PROOF for item in plugin.proof)
