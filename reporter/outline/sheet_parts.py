"""One part of the field sheet: its head, its questions as boxes and blanks, room for a note, a sketch, the photos' numbers.

Comes in: a part of the walk, its form, the form as the last visit answered it. Goes out: the items of one `Fields` block.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from reporter.asking import Part
from reporter.asking.naming import BASIS, FREE, NO_SIDE, WHERE, WITH, field_name, place_step
from reporter.model.form import Form, Option, Present, Question
from reporter.model.report import FieldItem, FillIn, Said, Space, Span, TickBox, plain, strong
from reporter.model.terms import Basis
from reporter.wording import Catalogue, date, joined

SIDES = ("port", "starboard")
GUESSES = frozenset(each.value for each in Basis if each.is_guess)
FREE_ANSWERS = 2
FREE_PLACES = 3
"""So many places of one's own a full sheet leaves room for; the usual one leaves room for one."""
WRITTEN = {"text", "number", "quantity", "date"}
ON_REQUEST = {
    "name", "place", "side", "group", "installed", "opinion", "private", "done", "proved", "judgement",
}  # fmt: skip
"""What only a full sheet asks for."""


@dataclass(frozen=True)
class SheetPart:
    """One part on the sheet. `then` is its form with the answers of the last visit."""

    part: Part
    form: Form
    then: Form | None
    words: Catalogue
    cautions: tuple[str, ...] = ()
    first: bool = True
    """Whether it is the first of its kind: cautions and methods stand there, and not again at the next."""
    everything: bool = False
    empty: bool = False

    def head(self) -> Iterator[FieldItem]:
        """Where it is, whether it was seen, when it was looked at last, what is known of it."""
        if self.part.place:
            yield self._quiet(self.part.place)
        yield from self._ticks(self._question("examined.extent"))
        if self.part.before and self.everything:
            day = date(self.part.before[0].sheet.inspection.last_day)
            yield self._quiet(self.words("sheet.last_seen", day=day))
        details = [each for block in self.form.blocks if block.id == "details" for each in block.questions]
        if known := [self._known(each) for each in details if each.answers and not self._open(each)]:
            yield self._quiet("; ".join(known))
        if self.first and self.cautions:
            # Only the word is bold: what is asked for must stay what leads the eye.
            told = self.words("sheet.caution", text=" ".join(self.cautions))
            word, colon, rest = told.partition(":")
            yield Said(text=(*strong(word + colon), *plain(rest)))

    def questions(self) -> Iterator[FieldItem]:
        """Every question that the sheet asks, in the order of the rounds; then note, sketch and photos."""
        for block in self.form.blocks:
            asked = [each for each in block.questions if self._asks(each)]
            if asked and block.tool and self.everything:
                yield Said(text=(Span(text=f"{block.title} ({block.tool}).", style="accent"),), begins=True)
            writes = False
            for each in asked:
                # Blanks follow each other on a line; what has boxes or readings begins its own.
                blank = each.sort in WRITTEN and not each.is_reading
                yield from self._ask(each, begins=self.everything or not (blank and writes))
                writes = blank
        yield from self._ending()

    def _question(self, ident: str) -> Question:
        found = self.form.question(ident)
        if found is None:
            raise KeyError(ident)
        return found

    def _open(self, detail: Question) -> bool:
        """Whether a detail has a cell: it is known already on the usual sheet, and stands there as words."""
        return self.everything or self.empty or not detail.answers

    def _asks(self, question: Question) -> bool:
        """Whether the question has a place in the flow of the sheet."""
        table = question.key[0]
        if question.id == "examined.extent" or table == "found":
            return False
        if table in ON_REQUEST:
            return self.everything
        wanted = (question.asked and question.usual) or self.everything
        return wanted and (table != "details" or self._open(question))

    def _ask(self, question: Question, *, begins: bool) -> Iterator[FieldItem]:
        table = question.key[0]
        yield Said(text=strong(question.title), begins=begins)
        if question.help and self.everything:
            yield self._quiet(question.help)
        if table == "observed":
            yield from self._observation(question)
        elif table == "readings":
            yield from self._reading(question)
        elif question.sort in {"choices", "included"} or (table == "judgement" and question.choices):
            yield from self._ticks(question)
        else:
            yield from self._written(question)

    def _ticks(self, question: Question) -> Iterator[FieldItem]:
        told = set() if self.empty else {each.text for each in question.answers}
        told |= {each.id for each in question.choices} if "all" in told else set()
        for choice in question.choices:
            yield self._box(question, (choice.id,), choice.words, on=choice.id in told)

    def _box(
        self, question: Question, steps: tuple[object, ...], words: str, *, on: bool, mark: str = ""
    ) -> TickBox:
        name, label = self._name(*question.key, *steps), self._label(question, words)
        return TickBox(field=name, label=label, text=f"{words}{mark}", on=on)

    def _written(self, question: Question) -> Iterator[FieldItem]:
        told = self._filled(question).text
        long = question.sort in {"text", "work"}
        yield FillIn(
            field=self._name(*question.key),
            label=self._label(question, question.unit),
            value=_without(told, question.unit) if question.sort in {"number", "quantity"} else told,
            size="long" if long else "medium" if question.choices else "short",
            options=tuple((each.id, each.words) for each in question.choices),
        )
        if question.unit:
            yield Said(text=plain(question.unit))
        if question.basis:
            known_by = self.words("sheet.known_by")
            basis = self._filled(question).basis
            yield from self._blank(question, (known_by,), BASIS, value=basis, options=question.basis)
        yield from self._last(question)

    def _observation(self, question: Question) -> Iterator[FieldItem]:
        """The answers as boxes; what stands at several places has a row for each."""
        found = self._found(question)
        places = list(dict.fromkeys((each.at, each.side) for each in found)) or [("", "")]
        then = {each.text for each in self._then(question)}
        for row, (at, side) in enumerate(places, start=1):
            told = {each.text for each in found if (each.at, each.side) == (at, side)}
            if side:
                yield self._quiet(self.words(f"side.{side}"))
            for choice in question.choices:
                mark = self.words("sheet.then") if choice.id in then else ""
                yield self._box(question, (row, choice.id), choice.words, on=choice.id in told, mark=mark)
            if question.places or at or self.everything:
                yield from self._blank(question, (self.words("sheet.where"),), row, WHERE, value=at)
        if self.everything:
            yield from self._elsewhere(question)

    def _elsewhere(self, question: Question) -> Iterator[FieldItem]:
        """The same seen otherwise at another place: an answer and its place to be written."""
        also, where = self.words("sheet.also"), self.words("sheet.where")
        for number in range(1, FREE_ANSWERS + 1):
            free = f"{FREE}{number}"
            yield from self._blank(question, (also,), free, options=question.choices)
            yield from self._blank(question, (also, where), free, WHERE)

    def _blank(
        self,
        question: Question,
        words: tuple[str, ...],
        *steps: object,
        value: str = "",
        options: Iterable[Option] = (),
    ) -> Iterator[FieldItem]:
        """The last of `words`, then room for what it asks for; all of them name the field to who does not see the page."""
        yield Said(text=plain(words[-1]))
        yield FillIn(
            field=self._name(*question.key, *steps),
            label=self._label(question, *words),
            value=value,
            options=tuple((each.id, each.words) for each in options),
        )

    def _reading(self, question: Question) -> Iterator[FieldItem]:
        """Method, then for each place its cells, then unit and limits."""
        found = self._found(question)
        if self.first or self.everything:
            yield self._quiet(f"({question.method})")
        sides = SIDES if question.per_side else ("",)
        told = [each.at for each in found]
        known = [*told, *question.places] if self.everything or not told else told
        for at in dict.fromkeys(known or [""]):
            if at:
                yield Said(text=plain(at))
            yield from self._cells(
                question, place_step(at), sides, tuple(each for each in found if each.at == at)
            )
        if question.places or self.everything:
            for number in range(1, (FREE_PLACES if self.everything else 1) + 1):
                yield from self._blank(question, (self.words("sheet.where"),), f"{FREE}{number}", WHERE)
                yield from self._cells(question, f"{FREE}{number}", sides, ())
        if question.unit:
            yield Said(text=plain(question.unit))
        if question.methods and self.everything:
            instruments = [each.instrument for each in found if each.instrument]
            yield Said(text=plain(self.words("sheet.with")))
            yield FillIn(
                field=self._name(*question.key, WITH),
                label=self._label(question, self.words("sheet.with")),
                value=instruments[0] if len(set(instruments)) == 1 else "",
                options=tuple((each, each) for each in question.methods),
            )
        for limit in question.limits:
            yield Said(text=strong(limit.words))
        yield from self._last(question)

    def _cells(
        self, question: Question, step: str, sides: Sequence[str], told: tuple[Present, ...]
    ) -> Iterator[FieldItem]:
        """One cell for each repeat on each side; as many as there are readings already, if that is more."""
        for side in dict.fromkeys((*sides, *(each.side for each in told))):
            own = [each for each in told if each.side == side]
            if not own and told and not side and not self.everything:
                continue  # it was read by side, though the kind does not ask for that
            if side:
                yield Said(text=plain(self.words(f"side.{side}")))
            for repeat in range(1, max(question.repeats, len(own)) + 1):
                value = own[repeat - 1].text if repeat <= len(own) else ""
                yield FillIn(
                    field=self._name(*question.key, step, side or NO_SIDE, repeat),
                    label=self._label(question, step.lstrip("@-"), side, str(repeat), question.unit),
                    value=_without(value, question.unit),
                )

    def _found(self, question: Question) -> tuple[Present, ...]:
        """What is filled in: what was found, wherever that was."""
        return () if self.empty else tuple(each for each in question.answers if each.state == "found")

    def _filled(self, question: Question) -> Present:
        """What is filled in where there is one answer; nothing on an empty sheet."""
        return next(iter(() if self.empty else question.answers), Present(text=""))

    def _then(self, question: Question) -> list[Present]:
        """What the last visit answered: as it was left, where it was worked on."""
        then = self.then.question(question.id) if self.then else None
        answers = then.answers if then else ()
        return [each for each in answers if each.state == "left"] or list(answers)

    def _last(self, question: Question) -> Iterator[FieldItem]:
        """What was read or written last time, each with its place."""
        told = [joined(" ", _worded(question, each), each.at) for each in self._then(question)]
        if told:
            yield self._quiet(self.words("sheet.last", told="; ".join(dict.fromkeys(told))))

    def _known(self, detail: Question) -> str:
        answer = detail.answers[0]
        basis = f"({self.words(f'basis.{answer.basis}')})" if answer.basis in GUESSES else ""
        return joined(" ", detail.title, _worded(detail, answer), basis)

    def _ending(self) -> Iterator[FieldItem]:
        """Photos, note, sketch."""
        found = self._question("found")
        photos = () if self.empty or not self.part.component else self.part.component.photos
        title = self.words("sheet.photos")
        yield Said(text=strong(title), begins=True)
        yield FillIn(
            field=self._name("photos"),
            label=f"{self.part.name}: {title}",
            value=", ".join(use.file.removeprefix("photos/") for use in photos),
            size="medium",
        )
        yield Said(text=strong(found.title))
        told = self._filled(found).text
        yield FillIn(field=self._name("found"), label=self._label(found), value=told, size="rest", lines=2)
        yield Space(word=self.words("sheet.sketch"))

    @staticmethod
    def _quiet(text: str) -> Said:
        return Said(text=(Span(text=text, style="quiet"),))

    def _name(self, *steps: object) -> str:
        return field_name(self.part.ident, *steps)

    def _label(self, question: Question, *more: str) -> str:
        return joined(", ", f"{self.part.number} {self.part.name}: {question.title}", *more)


def _worded(question: Question, answer: Present) -> str:
    """An answer in words: those of its choice, else as it was written."""
    return {each.id: each.words for each in question.choices}.get(answer.text, answer.text)


def _without(text: str, unit: str) -> str:
    """A value without the unit that is printed behind its cell."""
    return text[: -len(unit)].rstrip() if unit and text.endswith(unit) else text
