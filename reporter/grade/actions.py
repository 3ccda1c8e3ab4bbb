"""Actions: proposed from what was found and from what was not seen, edited by the inspector, numbered once."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from reporter.grade.judged import as_judged
from reporter.grade.materials import tools
from reporter.model.assessment import Action, Assessment, Check, Graded, Missing
from reporter.model.findings import ActionEdit
from reporter.model.plugin import Plugin, Task
from reporter.model.saying import Text, named, say, series
from reporter.model.terms import URGENCY, Access, Effort, Extent, Grade, Remedy, Verdict

KEPT = frozenset({Remedy.LOOK, Remedy.TEST, Remedy.OPEN_UP})
"""Remedies that a renewal does not make needless."""


def propose(graded: Graded, plugin: Plugin, assessment: Assessment) -> tuple[Action, ...]:
    """Every action of one component, edited as the inspector says; ids are unique within the component."""
    if graded.component.examined.extent is Extent.NOT_FITTED:
        # The kind asks nothing of what was never fitted; who judges that it should be there is heard all the same.
        return (*as_judged((), graded, {}, plugin), *_own(graded))
    proposed = [*assessment.actions]
    # A better reading settles a check beyond its limit but does not put it right: its own action stays.
    settled = {ident for action in proposed if action.remedy is not Remedy.TEST for ident in action.settles}
    proposed += _from_checks([check for check in graded.checks if check.id not in settled], plugin)
    proposed = [*_folded(proposed, plugin), *_from_gaps(graded, plugin)]
    edits = {edit.id: edit for edit in graded.component.actions if edit.id}
    proposed = as_judged(proposed, graded, edits, plugin)
    edited = [_edited(action, edits.get(action.id)) for action in proposed]
    return (*edited, *_own(graded))


def _folded(actions: Sequence[Action], plugin: Plugin) -> list[Action]:
    """Where the whole part is to be renewed before the next passage, the smaller jobs on it go with it."""
    renewals = [
        each
        for each in actions
        if (task := plugin.task(each.task)) and task.renews and each.grade.rank >= Grade.FIRST.rank
    ]
    if not renewals:
        return list(actions)
    renewal = max(renewals, key=lambda each: each.grade.rank)
    smaller = [each for each in actions if each is not renewal and each.remedy not in KEPT]
    settled = (*renewal.settles, *(ident for each in smaller for ident in each.settles))
    rest = [each for each in actions if each not in smaller and each is not renewal]
    return [renewal.model_copy(update={"settles": settled}), *rest]


def _from_checks(checks: Sequence[Check], plugin: Plugin) -> Iterator[Action]:
    """One action for all checks that ask for the same thing; of one reading's limits the worst one speaks."""
    groups: dict[str, list[Check]] = {}
    for check in checks:
        if _asks(check, plugin):
            speaker = _speaker(check, checks)
            # What asks for the same task is one job; without a task every subject asks for its own.
            groups.setdefault(speaker.task or f"{speaker.subject} {speaker.grade}", []).append(check)
    for number, group in enumerate(groups.values()):
        leading = max(group, key=lambda check: check.grade.rank)
        speaker = _speaker(leading, checks)
        task = plugin.task(speaker.task)
        twice = any(leading.subject == other[0].subject for other in list(groups.values())[:number])
        yield Action(
            id=f"{plugin.kind}.{leading.subject}{f'_{number}' if twice else ''}",
            what=_wanted(speaker, plugin),
            remedy=_remedy(leading, task, plugin),
            task=task.id if task else "",
            access=task.access if task else Access.UNKNOWN,
            effort=task.effort if task else Effort.UNKNOWN,
            parts=task.parts if task else (),
            why=_reason(group, leading),
            grade=leading.grade,
            tools=() if leading.grade in {Grade.WATCH, Grade.CLEAR} else tools(plugin),
            settles=tuple(check.id for check in group),
        )


def _asks(check: Check, plugin: Plugin) -> bool:
    """Whether a check asks for something to be done to the part; one that is close asks for a better reading only."""
    if not check.governs or check.verdict is Verdict.CLOSE:
        return False
    if check.grade is Grade.UNSEEN:
        return check.subject in _opened_up([check], plugin)
    return check.grade.rank >= Grade.WATCH.rank


def _opened_up(checks: Sequence[Check], plugin: Plugin) -> set[str]:
    """The observations whose answer tells a gap and says itself how to see more."""
    return {
        check.subject
        for check in checks
        if check.grade is Grade.UNSEEN and check.task and plugin.observation(check.subject)
    }


def _speaker(check: Check, checks: Sequence[Check]) -> Check:
    """Among the limits that one reading is held against and has reached, the one that leads to the worst grade."""
    if check.limit is None:
        return check
    same = [
        each
        for each in checks
        if each.limit and each.governs and each.subject == check.subject and each.verdict is not Verdict.CLOSE
    ]
    return max(same, key=lambda each: each.grade.rank)


def _reason(group: Sequence[Check], leading: Check) -> Text:
    """The worst check of each subject in words; further limits of one reading add nothing to act on."""
    chosen = {leading.subject: leading}
    for check in group:
        if check.grade.rank > chosen.setdefault(check.subject, check).grade.rank:
            chosen[check.subject] = check
    return series([check.sentence for check in chosen.values()], by="; ")


def _wanted(check: Check, plugin: Plugin) -> Text:
    if check.subject == "proof":
        return say("grade.prove", title=named(plugin.kind, "title"))
    if plugin.task(check.task):
        return named(plugin.kind, "task", check.task, "words")
    return say(f"grade.do_{check.grade}", title=check.title)


def _remedy(check: Check, task: Task | None, plugin: Plugin) -> Remedy:
    if check.subject == "proof":
        return Remedy.TEST
    observation = plugin.observation(check.subject)
    if observation:
        chosen = next((each.remedy for each in observation.choices if each.id == check.choice), None)
        return chosen or (task.remedy if task else Remedy.LOOK)
    return task.remedy if task else Remedy.LOOK


def _from_gaps(graded: Graded, plugin: Plugin) -> Iterator[Action]:
    """*Open up* for what was not seen, *test* for what was needed and not taken; both at once where both lack."""
    extent = graded.component.examined.extent
    hidden = extent in {Extent.NOT_SEEN, Extent.PART_SEEN} or bool(graded.not_included)
    asked = _opened_up(graded.checks, plugin)
    needed = [each for each in graded.missing if each.needed and each.id not in asked]
    if extent is Extent.NOT_SEEN:
        needed = []
    if hidden:
        why = "grade.not_all_told" if extent is Extent.SEEN else "grade.not_all_seen"
        yield Action(
            id=f"{plugin.kind}.open_up",
            what=_look(graded, plugin, needed),
            remedy=Remedy.OPEN_UP,
            why=graded.component.examined.because or say(why),
            grade=Grade.UNSEEN,
            tools=tools(plugin),
            settles=tuple(each.id for each in needed),
        )
    elif needed:
        yield Action(
            id=f"{plugin.kind}.take",
            what=say("grade.take", what=series([each.title for each in told_once(needed)])),
            remedy=Remedy.TEST,
            why=say("grade.needed_for_grade"),
            grade=Grade.UNSEEN,
            settles=tuple(each.id for each in needed),
        )


def _look(graded: Graded, plugin: Plugin, needed: Sequence[Missing]) -> Text:
    """What was not seen is to be looked at; whoever looks at it answers the questions about it, so only figures are added."""
    if graded.component.examined.extent is Extent.NOT_SEEN:
        return say("grade.open_up")
    if not graded.not_included:
        return say("grade.open_rest")
    figures = [each.title for each in needed if plugin.quantity(each.id) or plugin.detail(each.id)]
    also = say("grade.and_take", what=series(figures)) if figures else ""
    return say("grade.complete", what=series(list(graded.not_included)), also=also)


def told_once(missing: Sequence[Missing]) -> list[Missing]:
    """Without the question from where a part was looked at, when what is to be looked at from close by is told."""
    close = any(each.id == "close_up" for each in missing)
    return [each for each in missing if not (close and each.id == "looked")]


def _edited(action: Action, edit: ActionEdit | None) -> Action:
    if edit is None:
        return action
    changes = {"what": edit.what, "remedy": edit.remedy, "access": edit.access, "by_when": edit.by_when}
    return action.model_copy(update={**{key: value for key, value in changes.items() if value}, "edit": edit})


def _own(graded: Graded) -> Iterator[Action]:
    own = [edit for edit in graded.component.actions if not edit.id]
    for place, edit in enumerate(own, start=1):
        action = Action(
            id=f"{graded.component.kind}.own_{place}",
            what=edit.what,
            remedy=edit.remedy or Remedy.LOOK,
            why=edit.reason,
            grade=graded.grade,
            proposed_by="inspector",
        )
        yield _edited(action, edit)


def numbered(parts: Sequence[Graded]) -> tuple[Graded, ...]:
    """The components with their actions numbered through, most urgent first."""
    flat = [(place, action) for place, part in enumerate(parts) for action in part.actions]
    flat.sort(key=lambda pair: URGENCY.index(pair[1].grade))
    numbers = {(place, action.id): number for number, (place, action) in enumerate(flat, start=1)}
    return tuple(
        part.model_copy(
            update={
                "actions": tuple(
                    action.model_copy(update={"number": numbers[place, action.id]}) for action in part.actions
                )
            }
        )
        for place, part in enumerate(parts)
    )
