"""What findings.yaml must hold beyond its schema: everything that a component kind declares.

In: the components that could be read, and the plugins. Out: problems with their lines, and the facts (details made
ready) of each component. It grades nothing.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from reporter.collect.check_job import after_visit, before_building, first_day
from reporter.collect.detail_values import fact_of
from reporter.collect.ledger import Ledger, listed, meant
from reporter.collect.same_words import right_word
from reporter.collect.stored import Shelf
from reporter.collect.yaml_file import Loc, YamlFile
from reporter.model.findings import Component, Fact
from reporter.model.plugin import Observation, Plugin
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
        self.sheet.tell(self.ledger, loc, what, do)

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
        here: Loc = ("components", index)
        self._examined(here, component)
        self._done(here, component, papers)
        self._older_than_boat((*here, "installed"), component.installed, "The date of fitting")
        plugin = self.plugins.get(component.kind)
        if plugin is None:
            kinds = f"Kinds: {listed(sorted(self.plugins), len(self.plugins))}."
            do = meant(component.kind, self.plugins, kinds)
            self.tell((*here, "kind"), f"There is no component kind '{component.kind}'.", do)
            return {}
        items, proofs = (
            {each.id: each.words for each in asked} for asked in (plugin.examination, plugin.proof)
        )
        included = component.examined.included
        self._known((*here, "examined", "included"), included, items, "part of the examination")
        self._known((*here, "proved"), component.proved, proofs, "proof")
        self._observed((*here, "observed"), component, plugin)
        return self._facts((*here, "details"), component, plugin)

    def _known(self, loc: Loc, written: Iterable[str], known: Mapping[str, str], noun: str) -> None:
        for number, word in enumerate(written):
            # "all" stands for everything that the declaration asks for.
            if word not in known and not (word == "all" and known):
                listing = with_words("Possible", known) if known else "This kind has none; take it out."
                self.tell((*loc, number), f"'{word}' is no {noun} of this kind.", meant(word, known, listing))

    def _facts(self, here: Loc, component: Component, plugin: Plugin) -> dict[str, Fact]:
        facts: dict[str, Fact] = {}
        for name, detail in component.details.items():
            loc, field = (*here, name), plugin.detail(name)
            if field is None:
                known = [each.id for each in plugin.details]
                what = f"A {plugin.title.lower()} has no detail '{name}'."
                self._undeclared(loc, what, known, f"Details of this kind: {listed(known)}.")
                continue
            fact, fault = fact_of(detail, field, self.today)
            if fault:
                self.tell(loc, *fault)
            if fact:
                facts[name] = fact
                self._older_than_boat(loc, fact.date, field.title)
                if fact.value and fact.value.note:
                    self.sheet.ask(self.ledger, loc, f"{fact.value.note}.")
        return facts

    def _observed(self, here: Loc, component: Component, plugin: Plugin) -> None:
        for name, seen in component.observed.items():
            loc, observation = (*here, name), plugin.observation(name)
            if observation is None:
                known = [each.id for each in plugin.observations]
                what = f"A {plugin.title.lower()} has no observation '{name}'."
                self._undeclared(loc, what, known, f"Observations of this kind: {listed(known)}.")
                continue
            for number, each in enumerate(seen):
                if each.state is State.LEFT and not component.done:
                    self.tell((*loc, number, "state"), *left_without_work(component.id))
                if each.choice not in {choice.id for choice in observation.choices}:
                    what = f"'{each.choice}' is no answer to '{observation.title}'."
                    self.tell((*loc, number, "choice"), what, _hint(each.choice, observation))

    def _undeclared(self, loc: Loc, what: str, known: list[str], listing: str) -> None:
        """A name that the kind does not know; it may be a key of the part itself, written one step too deep."""
        table, name = map(str, loc[-2:])
        beside = f"'{name}' stands beside '{table}', not in it. {listing}"
        self.tell(loc, what, beside if name in Component.model_fields else meant(name, known, listing))

    def _examined(self, here: Loc, component: Component) -> None:
        """What was not seen says why, and tells nothing that only eyes could."""
        loc, extent = (*here, "examined"), component.examined.extent
        if extent is Extent.NOT_SEEN and not component.examined.because:
            do = "Add 'because: ...', as in 'because: afloat'."
            self.tell(loc, "It was not seen, and nothing says why.", do)
        if extent in ABSENT and component.observed:
            what = f"It is '{extent.value.replace('_', ' ')}', yet something was observed on it."
            self.tell(loc, what, "Write 'part_seen', or take the observations out.")

    def _done(self, here: Loc, component: Component, papers: Shelf) -> None:
        """Nothing was fitted or done after the visit, and the papers of what was done are there."""
        self._not_to_come((*here, "installed"), component.installed, "The date of fitting")
        for number, done in enumerate(component.done):
            loc = (*here, "done", number)
            self._not_to_come((*loc, "date"), done.date, "The work of")
            for nth, name in enumerate(done.documents):
                if fault := papers.fault(name):
                    self.tell((*loc, "documents", nth), *fault)

    def _not_to_come(self, loc: Loc, date: PartialDate | dt.date | None, what: str) -> None:
        if date is not None and self.today is not None and first_day(date) > self.today:
            self.tell(loc, *after_visit(what, date, self.today))

    def _older_than_boat(self, loc: Loc, date: PartialDate | None, what: str) -> None:
        """Asks about a date before the boat was built; it may be right, where a part came from another boat."""
        if remark := before_building(date, self.built, what):
            self.sheet.ask(self.ledger, loc, remark)


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
    answers = with_words("Answers", {each.id: each.words for each in observation.choices})
    told = right_word(written, observation)
    return f"{told}{answers}" if told else meant(written, [each.id for each in observation.choices], answers)


def with_words(lead: str, known: Mapping[str, str]) -> str:
    """What can be written, each with its words: "Possible: chain (the chain); ..."."""
    return f"{lead}: {'; '.join(f'{ident} ({words})' for ident, words in known.items())}."
