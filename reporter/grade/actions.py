"""Actions: proposed from what was found and from what was not seen, edited by the inspector, numbered once."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from reporter.model.assessment import Action, Assessment, Check, Graded
from reporter.model.job import ActionEdit, Job, Plans
from reporter.model.plugin import Plugin
from reporter.model.terms import Extent, Grade, Remedy
from reporter.wording import Catalogue, catalogue, date

URGENCY = (Grade.STOP, Grade.FIRST, Grade.UNSEEN, Grade.PLAN, Grade.WATCH, Grade.CLEAR)


def propose(graded: Graded, plugin: Plugin, assessment: Assessment, words: Catalogue) -> tuple[Action, ...]:
    """Every action of one component, edited as the inspector says; ids are unique within the component."""
    if graded.component.examined.extent is Extent.NOT_FITTED:
        return ()
    proposed = [*assessment.actions]
    settled = {ident for action in proposed for ident in action.settles}
    proposed += _from_checks([check for check in graded.checks if check.id not in settled], plugin, words)
    proposed += _from_gaps(graded, plugin, words)
    edits = {edit.id: edit for edit in graded.component.actions if edit.id}
    edited = [_edited(action, edits.get(action.id)) for action in proposed]
    return (*edited, *_own(graded))


def _from_checks(checks: Sequence[Check], plugin: Plugin, words: Catalogue) -> Iterator[Action]:
    """One action for all checks that ask for the same thing; of one reading's limits the worst one speaks."""
    groups: dict[str, list[Check]] = {}
    for check in checks:
        if check.governs and check.grade.rank >= Grade.WATCH.rank:
            groups.setdefault(_wanted(_speaker(check, checks), plugin, words), []).append(check)
    for number, (what, group) in enumerate(groups.items()):
        leading = max(group, key=lambda check: check.grade.rank)
        twice = any(leading.subject == other[0].subject for other in list(groups.values())[:number])
        yield Action(
            id=f"{plugin.kind}.{leading.subject}{f'_{number}' if twice else ''}",
            what=what,
            remedy=_remedy(leading, plugin),
            why=_reason(group, leading),
            grade=leading.grade,
            tools=plugin.tools if leading.grade.rank > Grade.WATCH.rank else (),
            settles=tuple(check.id for check in group),
        )


def _speaker(check: Check, checks: Sequence[Check]) -> Check:
    """Among the limits that one reading is held against, the one that leads to the worst grade."""
    if check.limit is None:
        return check
    same = [each for each in checks if each.limit and each.governs and each.subject == check.subject]
    return max(same, key=lambda each: each.grade.rank)


def _reason(group: Sequence[Check], leading: Check) -> str:
    """The worst check of each subject in words; further limits of one reading add nothing to act on."""
    chosen = {leading.subject: leading}
    for check in group:
        if check.grade.rank > chosen.setdefault(check.subject, check).grade.rank:
            chosen[check.subject] = check
    return "; ".join(dict.fromkeys(check.sentence for check in chosen.values()))


def _wanted(check: Check, plugin: Plugin, words: Catalogue) -> str:
    if check.subject == "proof":
        return words("grade.prove", title=plugin.title.lower())
    observation = plugin.observation(check.subject)
    if observation:
        action = next((each.action for each in observation.choices if each.words == check.said), "")
        return action or words(f"grade.do_{check.grade}", title=observation.title.lower())
    if check.limit and check.limit.action:
        return check.limit.action
    return words(f"grade.do_{check.grade}", title=check.title.lower())


def _remedy(check: Check, plugin: Plugin) -> Remedy:
    if check.subject == "proof":
        return Remedy.TEST
    observation = plugin.observation(check.subject)
    if observation:
        chosen = next((each.remedy for each in observation.choices if each.words == check.said), None)
        return chosen or Remedy.LOOK
    return (check.limit.remedy if check.limit else None) or Remedy.LOOK


def _from_gaps(graded: Graded, plugin: Plugin, words: Catalogue) -> Iterator[Action]:
    """*Open up* for what was not seen, *test* for what was needed and not taken."""
    extent = graded.component.examined.extent
    if extent in {Extent.NOT_SEEN, Extent.PART_SEEN} or graded.not_included:
        what = words.listed(list(graded.not_included)) if graded.not_included else graded.title
        yield Action(
            id=f"{plugin.kind}.open_up",
            what=words("grade.open_up", what=what),
            remedy=Remedy.OPEN_UP,
            why=graded.component.examined.because or words("grade.not_all_seen"),
            grade=Grade.UNSEEN,
            tools=plugin.tools,
        )
    needed = [each for each in graded.missing if each.needed]
    if needed and extent is not Extent.NOT_SEEN:
        yield Action(
            id=f"{plugin.kind}.take",
            what=words("grade.take", what=words.listed([each.title.lower() for each in needed])),
            remedy=Remedy.TEST,
            why=words("grade.needed_for_grade"),
            grade=Grade.UNSEEN,
            settles=tuple(each.id for each in needed),
        )


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


def numbered(parts: Sequence[Graded], job: Job) -> tuple[Graded, ...]:
    """The components with their actions numbered through, most urgent first, and given a date."""
    words = catalogue(job.sheet.lang, job.sheet.terms)
    flat = [(place, action) for place, part in enumerate(parts) for action in part.actions]
    flat.sort(key=lambda pair: URGENCY.index(pair[1].grade))
    numbers = {(place, action.id): number for number, (place, action) in enumerate(flat, start=1)}
    return tuple(
        part.model_copy(
            update={
                "actions": tuple(
                    action.model_copy(
                        update={
                            "number": numbers[place, action.id],
                            "by_when": action.by_when or by_when(action.grade, job.sheet.next, words),
                        }
                    )
                    for action in part.actions
                )
            }
        )
        for place, part in enumerate(parts)
    )


def by_when(grade: Grade, plans: Plans, words: Catalogue) -> str:
    """When an action of that urgency is due, in words, with the date of the passage or haul-out where known."""
    if grade in {Grade.FIRST, Grade.STOP, Grade.UNSEEN} and plans.next_passage:
        return words(f"due.{grade}_dated", date=date(plans.next_passage))
    if grade is Grade.PLAN and plans.next_haul_out:
        return words("due.plan_dated", date=date(plans.next_haul_out))
    return words(f"due.{grade}")
