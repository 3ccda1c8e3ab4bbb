"""What findings.yaml must hold beyond its schema: everything that a component kind declares.

In: the components that could be read, and the plugins. Out: problems with their lines, and the facts (details made
ready) of each component. It grades nothing.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from reporter.collect.check_job import before_building, first_day
from reporter.collect.detail_values import fact_of
from reporter.collect.ledger import Ledger, listed, meant
from reporter.collect.same_words import right_word
from reporter.collect.stored import Shelf
from reporter.collect.yaml_file import Loc, YamlFile
from reporter.model.job import Component, Fact
from reporter.model.plugin import Choice, Observation, Plugin
from reporter.model.quantity import PartialDate
from reporter.model.terms import Extent, State

ABSENT = {Extent.NOT_SEEN, Extent.NOT_FITTED, Extent.NOT_FOUND}


@dataclass
class ComponentCheck:
    """The checks of one findings.yaml."""

    sheet: YamlFile
    plugins: Mapping[str, Plugin]
    ledger: Ledger
    today: dt.date | None = None
    built: PartialDate | None = None

    def tell(self, loc: Loc, what: str, do: str) -> None:
        """Note a problem at `loc` of the sheet."""
        self.ledger.tell(
            self.sheet.file, self.sheet.line(loc), self.sheet.key(self.sheet.found(loc)), what, do, loc
        )

    def ids(self) -> None:
        """No two components share an id (read off the sheet, so that unreadable ones count as well)."""
        seen: dict[str, int] = {}
        for index, ident in raw_ids(self.sheet):
            loc = ("components", index, "id")
            if ident in seen:
                what = f"The id '{ident}' is used by the component in line {seen[ident]} as well."
                self.tell(loc, what, "Give every component an id of its own.")
            seen.setdefault(ident, self.sheet.line(loc))

    def component(self, index: int, component: Component, papers: Shelf) -> dict[str, Fact]:
        """Check one component against its kind; returns its facts."""
        self._examined(index, component)
        self._dates(index, component)
        self._papers(index, component, papers)
        plugin = self.plugins.get(component.kind)
        if plugin is None:
            what = f"There is no component kind '{component.kind}'."
            do = meant(
                component.kind, self.plugins, f"Kinds: {listed(sorted(self.plugins), len(self.plugins))}."
            )
            self.tell(("components", index, "kind"), what, do)
            return {}
        items = {each.id: each.words for each in plugin.examination}
        self._known(
            ("components", index, "examined", "included"),
            component.examined.included,
            items,
            "part of the examination",
        )
        proofs = {each.id: each.words for each in plugin.proof}
        self._known(("components", index, "proved"), component.proved, proofs, "proof")
        self._observed(index, component, plugin)
        return self._facts(index, component, plugin)

    def _known(self, loc: Loc, written: Iterable[str], known: Mapping[str, str], noun: str) -> None:
        for number, word in enumerate(written):
            # "all" stands for everything that the declaration asks for.
            if word not in known and not (word == "all" and known):
                listing = _with_words(known) or "This kind has none; take it out."
                self.tell((*loc, number), f"'{word}' is no {noun} of this kind.", meant(word, known, listing))

    def _facts(self, index: int, component: Component, plugin: Plugin) -> dict[str, Fact]:
        facts: dict[str, Fact] = {}
        for name, detail in component.details.items():
            loc = ("components", index, "details", name)
            field = plugin.detail(name)
            if field is None:
                known = [each.id for each in plugin.details]
                what = f"A {plugin.title.lower()} has no detail '{name}'."
                hint = _outside(name, "details")
                listing = f"Details of this kind: {listed(known)}."
                self.tell(loc, what, f"{hint}{listing}" if hint else meant(name, known, listing))
                continue
            fact, fault = fact_of(detail, field, self.today)
            if fault:
                self.tell(loc, *fault)
            if fact:
                facts[name] = fact
                self._older_than_boat(loc, fact.date, field.title)
                if fact.value and fact.value.note:
                    self.ledger.remark(f"{self.sheet.file}, line {self.sheet.line(loc)}: {fact.value.note}.")
        return facts

    def _observed(self, index: int, component: Component, plugin: Plugin) -> None:
        for name, seen in component.observed.items():
            loc = ("components", index, "observed", name)
            observation = plugin.observation(name)
            if observation is None:
                known = [each.id for each in plugin.observations]
                what = f"A {plugin.title.lower()} has no observation '{name}'."
                hint = _outside(name, "observed")
                listing = f"Observations of this kind: {listed(known)}."
                self.tell(loc, what, f"{hint}{listing}" if hint else meant(name, known, listing))
                continue
            choices = {choice.id: choice for choice in observation.choices}
            for number, each in enumerate(seen):
                if each.state is State.LEFT and not component.done:
                    self.tell((*loc, number, "state"), *left_without_work(component.id))
                if each.choice not in choices:
                    what = f"'{each.choice}' is no answer to '{observation.title}'."
                    self.tell(
                        (*loc, number, "choice"),
                        what,
                        _hint(each.choice, observation),
                    )

    def _examined(self, index: int, component: Component) -> None:
        """What was not seen says why, and tells nothing that only eyes could."""
        loc = ("components", index, "examined")
        extent = component.examined.extent
        said = extent.value.replace("_", " ")
        if extent is Extent.NOT_SEEN and not component.examined.because:
            self.tell(
                loc, "It was not seen, and nothing says why.", "Add 'because: ...', as in 'because: afloat'."
            )
        if extent in ABSENT and component.observed:
            what = f"It is '{said}', yet something was observed on it."
            self.tell(loc, what, "Write 'part_seen', or take the observations out.")

    def _dates(self, index: int, component: Component) -> None:
        here: Loc = ("components", index)
        dated = [((*here, "installed"), component.installed, "The date of fitting")]
        dated += [
            ((*here, "done", number, "date"), done.date, "The work of")
            for number, done in enumerate(component.done)
        ]
        for loc, date, what in dated:
            if date is not None and self.today is not None and first_day(date) > self.today:
                self.tell(
                    loc,
                    f"{what} {date} lies after the inspection ({self.today}).",
                    "Correct one of the two dates.",
                )

        self._older_than_boat((*here, "installed"), component.installed, "The date of fitting")

    def _older_than_boat(self, loc: Loc, date: PartialDate | None, what: str) -> None:
        """Asks about a date before the boat was built; it may be right, where a part came from another boat."""
        if remark := before_building(date, self.built, what):
            self.ledger.remark(f"{self.sheet.file}, line {self.sheet.line(loc)}: {remark}")

    def _papers(self, index: int, component: Component, papers: Shelf) -> None:
        for number, done in enumerate(component.done):
            for nth, name in enumerate(done.documents):
                fault = papers.fault(name)
                if fault:
                    self.tell(("components", index, "done", number, "documents", nth), *fault)


def left_without_work(ident: str) -> tuple[str, str]:
    """What is wrong with a fact as left on a part that nobody worked on: it would take a finding back unsaid."""
    return (
        f"This is told as left, and nothing says what was done to '{ident}'.",
        "Write the work under 'done' of that part in findings.yaml, or take 'left' out: what was found stays as found.",
    )


def raw_ids(sheet: YamlFile) -> list[tuple[int, str]]:
    """Position and id of every component that has a readable id, whatever else is wrong with it."""
    components = sheet.data.get("components")
    entries = enumerate(components) if isinstance(components, list) else ()
    return [
        (index, each["id"])
        for index, each in entries
        if isinstance(each, dict) and isinstance(each.get("id"), str)
    ]


def with_papers_named(component: Component, papers: Shelf) -> Component:
    """The component with its documents named as the files are."""
    done = tuple(
        each.model_copy(update={"documents": tuple(papers.find(name) or name for name in each.documents)})
        for each in component.done
    )
    return component.model_copy(update={"done": done})


def _hint(written: str, observation: Observation) -> str:
    """What to write instead: the answer where nothing is wrong, the one that was nearly written, and all there are."""
    answers = _answers(observation.choices)
    told = right_word(written, observation)
    return f"{told}{answers}" if told else meant(written, [each.id for each in observation.choices], answers)


def _outside(name: str, inside: str) -> str:
    """The hint at a key of the part itself that was written inside another one."""
    return f"'{name}' stands beside '{inside}', not in it. " if name in Component.model_fields else ""


def _answers(choices: Iterable[Choice]) -> str:
    return "Answers: " + "; ".join(f"{each.id} ({each.words})" for each in choices) + "."


def _with_words(known: Mapping[str, str]) -> str:
    return (
        "Possible: " + "; ".join(f"{ident} ({words})" for ident, words in known.items()) + "."
        if known
        else ""
    )
