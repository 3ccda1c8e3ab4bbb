"""The inspector judges last: a judgement milder than the rule caps what is asked for, a worse one reaches the list.

Comes in: the actions proposed for one part, and its judgement. Goes out: the same actions, some more or less urgent, or
one more. Whatever the inspector edits, declines or adds is applied after this.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from reporter.grade.materials import tools
from reporter.model.assessment import Action, Graded
from reporter.model.findings import ActionEdit, Judgement
from reporter.model.plugin import Plugin
from reporter.model.saying import say
from reporter.model.terms import Grade, Remedy


def as_judged(
    actions: Sequence[Action],
    graded: Graded,
    edits: Mapping[str, ActionEdit],
    plugin: Plugin,
) -> list[Action]:
    """The actions of `graded` as urgent as its judgement has them; `edits` are the inspector's, by action id."""
    judged = graded.judgement
    if judged is None:
        return list(actions)
    capped = [_no_worse(action, judged.grade) for action in actions]
    if judged.grade.rank <= max(graded.computed.rank, Grade.CLEAR.rank):
        return capped
    return _no_milder(capped, graded, judged, edits, plugin)


def _no_worse(action: Action, judged: Grade) -> Action:
    """The inspector judges last: what is asked for is not more urgent than the part."""
    worse = judged is not Grade.UNSEEN and action.grade.rank > judged.rank
    return action.model_copy(update={"grade": judged}) if worse else action


def _no_milder(
    actions: Sequence[Action],
    graded: Graded,
    judged: Judgement,
    edits: Mapping[str, ActionEdit],
    plugin: Plugin,
) -> list[Action]:
    """A judgement worse than the rule reaches the list: the leading open action is as urgent as the part.

    The leading one comes from the worst check. Where no check asks for anything, and the inspector asks for nothing
    of her own either, the judgement's own reason is to be looked into.
    """
    open_ = [each for each in actions if each.grade is not Grade.UNSEEN and _is_open(edits.get(each.id))]
    if not open_:
        if any(_is_open(edit) for edit in graded.component.actions if not edit.id):
            return list(actions)
        return [*actions, _looked_into(judged, plugin)]
    leading = max(open_, key=lambda each: (each.grade.rank, each.remedy is not Remedy.TEST))
    raised = leading.model_copy(update={"grade": judged.grade})
    return [raised if each is leading else each for each in actions]


def _is_open(edit: ActionEdit | None) -> bool:
    return edit is None or not (edit.decline or edit.done)


def _looked_into(judged: Judgement, plugin: Plugin) -> Action:
    return Action(
        id=f"{plugin.kind}.judgement",
        what=say("grade.look_into", reason=judged.reason),
        remedy=Remedy.LOOK,
        why=judged.reason,
        grade=judged.grade,
        tools=tools(plugin),
    )
