"""Whether what was measured goes overboard anyway: then where its wear leads is nobody's question any more.

Comes in: a graded part and its kind. Goes out: yes or no for one quantity. It reads open actions and sets none.
"""

from __future__ import annotations

from reporter.model.assessment import Action, Check, Graded
from reporter.model.plugin import Plugin
from reporter.model.terms import Grade, Remedy


def scrapped(part: Graded, plugin: Plugin, subject: str) -> bool:
    """Whether an action before the next passage renews the part, or that of it which `subject` measures."""
    return any(_renews(action, part, plugin, subject) for action in part.actions)


def _renews(action: Action, part: Graded, plugin: Plugin, subject: str) -> bool:
    """A replacement graded `first` or `stop` and not declined: of the whole part, for damage, or for that very wear.

    What it settles is asked beside its words, since the inspector may have put them otherwise.
    """
    declined = action.edit is not None and action.edit.decline
    if action.remedy is not Remedy.REPLACE or action.grade.rank < Grade.FIRST.rank or declined:
        return False
    settled = [check for check in part.checks if check.id in action.settles]
    return _whole(action.task, plugin) or any(
        check.subject == subject or _condemns(check, plugin) for check in settled
    )


def _whole(ident: str, plugin: Plugin) -> bool:
    """Whether a task renews the whole part."""
    task = plugin.task(ident)
    return task is not None and task.renews


def _condemns(check: Check, plugin: Plugin) -> bool:
    """Whether what was found is damage, or asks for the whole part to be renewed."""
    if _whole(check.task, plugin):
        return True
    observation = plugin.observation(check.subject)
    return bool(observation and check.choice and observation.choice(check.choice).damage)
