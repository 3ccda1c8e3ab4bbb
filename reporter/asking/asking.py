"""A kind's declaration to a form, in the order in which a part is gone through.

Comes in: the kind in the language that is spoken, the catalogue of that language, the part and its job where there are
any. Goes out: a `Form`. Every observation, reading and detail of the kind stands in it exactly once, asked or not.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import Any, get_args

from reporter.asking.present import readings_of, said_of, seen_of
from reporter.engineering import units
from reporter.model.citation import Limit
from reporter.model.findings import Component, Examined
from reporter.model.form import NO_UNIT, Block, Condition, Form, LimitBeside, Option, Question, Sort, Worked
from reporter.model.job import Job
from reporter.model.plugin import (
    DetailField,
    ExaminationItem,
    Observation,
    Plugin,
    ProofItem,
    Quantity,
    Together,
)
from reporter.model.terms import Basis, Dimension, Extent, Grade, LimitKind
from reporter.wording import Catalogue, exact
from reporter.wording.numbers import with_unit

SIDES = ("port", "starboard")
YES_NO = {"yes", "no"}
HOW: tuple[str, ...] = get_args(get_args(Examined.model_fields["how"].annotation)[0])
"""The ways of looking that findings.yaml knows."""
BY_HOLDING: Mapping[str, Sort] = {"date": "date", "choice": "choice", "words": "text", "count": "number"}
"""What a detail holds -> how it is answered; everything else is a quantity."""


def asked(plugin: Plugin, words: Catalogue, part: Component | None = None, job: Job | None = None) -> Form:
    """Everything that is asked of a part of this kind; with `part` and `job` the answers that are there already."""
    asking = _Asking(plugin, words, part, job)
    return Form(
        kind=plugin.kind,
        title=words.terms(plugin.title),
        help=words("kind_page.purpose", purpose=plugin.purpose) if plugin.purpose else "",
        blocks=tuple(block for block in asking.blocks() if block.questions),
        worked=tuple(asking.worked()),
    )


@dataclass(frozen=True)
class _Asking:
    """One form in the making."""

    plugin: Plugin
    words: Catalogue
    part: Component | None
    job: Job | None

    def blocks(self) -> Iterator[Block]:
        """What it is, the rounds of looking and measuring, how much was seen, what is said of it, work, judgement."""
        yield self._block("part", tuple(self._which()))
        yield self._block("details", tuple(self._detail(each) for each in self.plugin.details))
        for group in self.plugin.together:
            yield self._round(group)
        yield self._block("more", tuple(self._look(each) for each in self._alone()))
        yield self._block("examined", tuple(self._examined()))
        yield self._block("said", tuple(self._line(each) for each in ("found", "opinion", "private")))
        yield self._block("work", tuple(self._work()))
        yield self._block("judged", tuple(self._judged()))

    def _block(self, ident: str, questions: tuple[Question, ...]) -> Block:
        return Block(id=ident, title=self.words(f"form.{ident}"), questions=questions)

    def _round(self, group: Together) -> Block:
        return Block(
            id=group.id,
            title=self.words.terms(group.words),
            tool=self.words.terms(", ".join(group.tools)),
            questions=tuple(self._look(each) for ident in group.holds if (each := self._declared[ident])),
        )

    @cached_property
    def _declared(self) -> dict[str, Observation | Quantity]:
        looks: list[Observation | Quantity] = [*self.plugin.observations, *self.plugin.readings]
        return {each.id: each for each in looks}

    def _alone(self) -> list[Observation | Quantity]:
        """What no round holds."""
        held = {ident for group in self.plugin.together for ident in group.holds}
        return [each for each in self._declared.values() if each.id not in held]

    @cached_property
    def _limits(self) -> list[Limit]:
        """The limits that decide and may apply to this part, as the job has them, mildest first."""
        changed = self.job.limits if self.job else {}
        limits = (changed.get(each.id, each) for each in self.plugin.limits)
        fitting = [each for each in limits if each.governs and self._may_meet(each.applies)]
        return sorted(fitting, key=lambda limit: limit.then.rank)

    def worked(self) -> Iterator[Worked]:
        """What the readings are worked into, with its limits of condition: design and age decide nothing at the gauge."""
        for each in self.plugin.derived:
            own = [
                limit
                for limit in self._limits
                if limit.quantity == each.id and limit.kind is LimitKind.CONDITION
            ]
            if own:
                limits = tuple(map(self._beside, own))
                yield Worked(id=each.id, title=self.words.terms(each.title), limits=limits)

    def _beside(self, limit: Limit) -> LimitBeside:
        """A limit in words, so that a bad reading is seen as it is written down."""
        words = self.words
        value = with_unit(exact(limit.value), limit.unit)
        ends = {"low": exact(limit.value), "high": with_unit(exact(limit.upper or 0.0), limit.unit)}
        told = words(f"form.{limit.sense}", value=value, **ends)
        if limit.between:
            told = f"{told} ({words('sides.limit_relative' if limit.relative else 'sides.limit')})"
        return LimitBeside(
            id=limit.id,
            words=words("form.limit", limit=told, grade=words(f"grade.{limit.then}")),
            value=limit.value,
            upper=limit.upper,
            unit=limit.unit,
            sense=limit.sense,
            grade=limit.then,
            between=limit.between,
        )

    def _may_meet(self, conditions: Mapping[str, tuple[str, ...]]) -> bool:
        """True unless a detail is known to be another: what is not known leaves a question open."""
        details = self.part.details if self.part else {}
        return all(
            name not in details or details[name].value in choices for name, choices in conditions.items()
        )

    def _conditions(self, only_if: Mapping[str, tuple[str, ...]]) -> tuple[Condition, ...]:
        return tuple(
            Condition(question=f"details.{name}", among=choices) for name, choices in only_if.items()
        )

    def _which(self) -> Iterator[Question]:
        """Which part it is, where, on which side, since when."""
        yield from (self._line(each) for each in ("name", "place"))
        sides = tuple(Option(id=each, words=self.words(f"side.{each}")) for each in SIDES)
        yield self._line("side", "choice", choices=sides)
        yield self._line("group")
        yield self._line("installed", "date")

    def _declared_options(self, items: Iterable[ExaminationItem | ProofItem]) -> tuple[Option, ...]:
        """Choices that the kind names."""
        return tuple(Option(id=each.id, words=self.words.terms(each.words)) for each in items)

    def _plain(self, ident: str, sort: Sort = "text", title: str = "", **more: Any) -> Question:
        """A question that the kind does not declare, under its own name in the catalogue or another one."""
        title = self.words(title or f"form.{ident.rpartition('.')[2]}")
        return Question(id=ident, sort=sort, title=title, answers=said_of(self.part, ident), **more)

    def _line(self, name: str, sort: Sort = "text", **more: Any) -> Question:
        return self._plain(name, sort, usual=name in {"name", "place", "found", "opinion"}, **more)

    def _detail(self, field: DetailField) -> Question:
        sort: Sort = "yesno" if set(field.choices) == YES_NO else BY_HOLDING.get(field.holds, "quantity")
        sort = "number" if sort == "quantity" and field.unit in NO_UNIT else sort
        measures = sort in {"quantity", "number"}
        dimension = Dimension(field.holds) if measures else None
        return Question(
            id=f"details.{field.id}",
            sort=sort,
            title=self.words.terms(field.title),
            help=self.words.terms(field.help),
            unit=self._unit(field.unit, field.imperial) if measures else "",
            units=units.names(dimension) if dimension else (),
            dimension=dimension,
            basis=tuple(Option(id=each, words=self.words(f"basis.{each}")) for each in Basis),
            only_if=self._conditions(field.only_if),
            asked=self._may_meet(field.only_if),
            usual=field.required == "needed" or measures or sort == "date" or field.id in self._deciding,
            needed=field.required == "needed",
            choices=tuple(
                Option(id=ident, words=self.words.terms(text)) for ident, text in field.choices.items()
            ),
            answers=said_of(self.part, f"details.{field.id}"),
        )

    @cached_property
    def _deciding(self) -> frozenset[str]:
        """The details on which another question or a limit depends."""
        asking = (*self.plugin.details, *self._declared.values())
        conditions = [each.only_if for each in asking] + [each.applies for each in self.plugin.limits]
        return frozenset(name for condition in conditions for name in condition)

    def _look(self, each: Observation | Quantity) -> Question:
        return self._observation(each) if isinstance(each, Observation) else self._reading(each)

    def _observation(self, seen: Observation) -> Question:
        return Question(
            id=f"observed.{seen.id}",
            sort="choice",
            title=self.words.terms(seen.title),
            help=self.words.terms(seen.help),
            places=tuple(self.words.terms(each) for each in seen.places),
            only_if=self._conditions(seen.only_if),
            asked=self._may_meet(seen.only_if),
            usual=seen.asked == "usual",
            needed=seen.required == "needed",
            photo=seen.photo,
            choices=tuple(
                Option(id=each.id, words=self.words.terms(each.words), grade=each.grade)
                for each in seen.choices
            ),
            answers=seen_of(self.part, seen.id),
        )

    def _reading(self, taken: Quantity) -> Question:
        return Question(
            id=f"readings.{taken.id}",
            sort="number" if taken.dimension is Dimension.COUNT or taken.unit in NO_UNIT else "quantity",
            title=self.words.terms(taken.title),
            help=self.words.terms(taken.help),
            unit=self._unit(taken.unit, taken.imperial),
            units=units.names(taken.dimension),
            dimension=taken.dimension,
            method=self.words.terms(taken.method),
            methods=tuple(each.id for each in self.job.sheet.instruments) if self.job else (),
            places=tuple(self.words.terms(each) for each in taken.places),
            repeats=taken.repeats,
            per_side=taken.per_side and not (self.part and self.part.hand),
            only_if=self._conditions(taken.only_if),
            asked=self._may_meet(taken.only_if),
            usual=taken.asked == "usual",
            needed=taken.required == "needed",
            photo=taken.photo,
            limits=tuple(self._beside(each) for each in self._limits if each.quantity == taken.id),
            answers=readings_of(self.job, self.part, taken.id),
        )

    def _unit(self, metric: str, imperial: str) -> str:
        wanted = imperial if self.job and self.job.sheet.units == "imperial" and imperial else metric
        return "" if wanted in NO_UNIT else wanted

    def _examined(self) -> Iterator[Question]:
        extents = tuple(Option(id=each, words=self.words(f"form.extent_{each}")) for each in Extent)
        how = tuple(Option(id=each, words=self.words(f"form.how_{each}")) for each in HOW)
        items = self._declared_options(self.plugin.examination)
        yield self._plain("examined.extent", "examined", choices=extents, needed=True)
        yield self._plain("examined.how", "choices", choices=how)
        if items:
            yield self._plain("examined.included", "included", choices=items)
        yield self._plain("examined.because")

    def _work(self) -> Iterator[Question]:
        yield self._plain("done", "work")
        if proofs := self._declared_options(self.plugin.proof):
            done = bool(self.part and self.part.done)
            yield self._plain("proved", "included", "kind_page.proof", asked=done, choices=proofs)

    def _judged(self) -> Iterator[Question]:
        grades = tuple(Option(id=each, words=self.words(f"grade.{each}"), grade=each) for each in Grade)
        yield self._plain("judgement.grade", "choice", "form.judged_grade", usual=False, choices=grades)
        yield self._plain("judgement.reason", "text", "form.judged_reason", usual=False)
