"""What a folder already answers, each answer with its place.

Comes in: a part and its job. Goes out: answers as they were written. Nothing is merged or judged.
"""

from __future__ import annotations

from collections import Counter

from reporter.model.base import Noun
from reporter.model.findings import Component, Detail, Done
from reporter.model.form import Present
from reporter.model.job import Job
from reporter.wording import joined


def said_of(part: Component | None, path: str) -> tuple[Present, ...]:
    """What findings.yaml says of `part` under a dotted path, its observations excepted: none, one or several answers."""
    found: object = part
    for step in path.split("."):
        found = found.get(step) if isinstance(found, dict) else getattr(found, step, None)
    if found in (None, "", ()):
        return ()
    several = found if isinstance(found, tuple) else (found,)
    return tuple(_present(each, index) for index, each in enumerate(several))


def _present(said: object, index: int) -> Present:
    if isinstance(said, Detail):
        return Present(text=said.value, basis=said.basis, note=said.note)
    if isinstance(said, Done):
        return Present(text=said.what, index=index, note=joined("; ", said.by, _day(said)))
    text = "" if isinstance(said, Noun) else str(said)
    return Present(text=text.strip(), index=index)


def _day(done: Done) -> str:
    return str(done.date) if done.date else ""


def seen_of(part: Component | None, observation: str) -> tuple[Present, ...]:
    """The answers to an observation, in the order of the file."""
    return tuple(
        Present(
            text=each.choice, at=each.at, side=each.side, state=each.state.value, note=each.note, index=index
        )
        for index, each in enumerate(part.observed.get(observation, ()) if part else ())
    )


def readings_of(job: Job | None, part: Component | None, quantity: str) -> tuple[Present, ...]:
    """The readings of one quantity of a part, in the order of the file."""
    if job is None or part is None:
        return ()
    counted: Counter[str] = Counter()
    found = []
    for each in job.readings:
        if (each.component, each.quantity) == (part.id, quantity):
            found.append(
                Present(
                    text=each.value.written,
                    at=each.at,
                    side=each.side,
                    state=each.state.value,
                    note=each.note,
                    instrument=each.instrument,
                    ordinal=counted[each.at],
                    line=each.line,
                )
            )
            counted[each.at] += 1
    return tuple(found)
