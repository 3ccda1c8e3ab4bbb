"""Says things: a saying, a kind's word, a figure or a list becomes text in one language, usage and system of units.

Comes in: what `reporter.model.saying` holds. Goes out: text. It knows the kinds only as holders of words.
"""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Mapping
from typing import Any

from reporter.engineering import units
from reporter.model.assessment import Term, Working
from reporter.model.plugin import Observation, Plugin
from reporter.model.quantity import PartialDate
from reporter.model.saying import Amount, Either, Material, Named, Saying, Series, SourceFigure
from reporter.wording.catalogue import Catalogue, Listed
from reporter.wording.numbers import NO_BREAK, date, exact, quantity, with_unit

BRACE = re.compile(r"\{(\w+)\}")
_SIZE = re.compile(r"(?<=\d) (?=\S+$)")
"""The space between a size and its unit, as a person wrote it: "6 mm"; a line must not end there."""
TABLES = {
    "reading": "readings",
    "derived": "derived",
    "observation": "observations",
    "detail": "details",
    "need": "needs",
    "examination": "examination",
    "proof": "proof",
    "task": "tasks",
    "care": "care",
    "limit": "limits",
}
"""Table of a kind's file -> field of `Plugin` that holds its entries."""
SOURCE = "source"
"""Step of a path below which the words are those of a source: the file of a kind in another language leaves them out."""


class Speaker:
    """One voice: a catalogue, the kinds in the same language, and whether figures are told in imperial units."""

    def __init__(self, words: Catalogue, kinds: Mapping[str, Plugin], *, imperial: bool) -> None:
        self.words = words
        self.imperial = imperial
        self._kinds = kinds

    def __call__(self, part: Any) -> str:
        """The text of `part`; a plain string is somebody's own words and comes back with its terms resolved."""
        if isinstance(part, str):
            return self.words.terms(part)
        if isinstance(part, Saying):
            return self._message(part)
        if isinstance(part, Named | Material):
            return self.words.terms(self._declared(part))
        if isinstance(part, Either):
            return self(part.in_imperial if self.imperial else part.in_metric)
        if isinstance(part, Series):
            return self._series(part)
        return self._figure(part)

    def working(self, working: Working) -> Working:
        """A sum whose title and symbols are told in this language; a side that a symbol belongs to stands behind it."""
        inputs = tuple(self._term(term, working.id) for term in working.inputs)
        title = self.words.either(f"formula.{working.id}.title", working.title)
        result = self._term(working.result, working.id)
        return working.model_copy(update={"title": title, "inputs": inputs, "result": result})

    def _term(self, term: Term, formula: str) -> Term:
        meaning = self.words.either(f"formula.{formula}.{term.symbol}", term.meaning)
        if term.side:
            meaning = f"{meaning}: {self.words.either(f'side.{term.side}', term.side)}"
        return term.model_copy(update={"meaning": meaning})

    def _message(self, saying: Saying) -> str:
        put = {key: self._put(value) for key, value in saying.put.items()}
        if saying.kind:
            return self.words.filled(self._kinds[saying.kind].says[saying.say], put)
        return self.words(saying.say, **put)

    def _put(self, value: Any) -> object:
        if isinstance(value, int):
            return value
        if isinstance(value, Series) and value.by == "and":
            return Listed(self(each) for each in value.parts)
        return self(value)

    def _series(self, series: Series) -> str:
        parts = [self(each) for each in series.parts]
        return str(Listed(parts)) if series.by == "and" else series.by.join(dict.fromkeys(parts))

    def _declared(self, part: Named | Material) -> str:
        if isinstance(part, Material):
            return self._material(part)
        word = _word(self._kinds[part.named], part.path)
        return self.words.cited(word) if SOURCE in part.path else word

    def _material(self, material: Material) -> str:
        known = {ident: _SIZE.sub(NO_BREAK, self(each)) for ident, each in material.known.items()}
        phrases = _word(self._kinds[material.kind], ("task", material.task, "parts", str(material.place)))
        told = (each for each in phrases.split(", ") if known.keys() >= set(BRACE.findall(each)))
        return ", ".join(BRACE.sub(lambda found: known[found[1]], each) for each in told)

    def _figure(self, part: Any) -> str:
        if isinstance(part, Amount):
            unit = (part.imperial if self.imperial else "") or part.unit
            return quantity(part.amount, unit, expanded=part.expanded, decimals=part.decimals)
        if isinstance(part, SourceFigure):
            return self._written(part)
        if isinstance(part, dt.date | PartialDate):
            return date(part)
        return exact(float(part))

    def _written(self, part: SourceFigure) -> str:
        shown = with_unit(exact(part.figure), part.unit)
        unit = part.imperial if self.imperial else part.metric
        if not unit or unit == part.unit:
            return shown
        return f"{shown} ({quantity(units.to_base(part.figure, part.unit), unit)})"


def _word(plugin: Plugin, path: tuple[str, ...]) -> str:
    """The word of a declaration: a field of the kind, or of the entry of one of its tables."""
    found: Any = plugin
    steps = list(path)
    if path[0] in TABLES:
        ident = f"{plugin.kind}.{path[1]}" if path[0] == "limit" else path[1]
        found = plugin.entries(TABLES[path[0]])[ident]
        steps = steps[2:]
    while steps:
        step = steps.pop(0)
        if isinstance(found, tuple):
            found = found[int(step)]
        elif isinstance(found, Mapping):
            found = found[step]
        elif step == "choices" and isinstance(found, Observation):
            found = found.choice(steps.pop(0))
        else:
            found = getattr(found, step)
    return str(found)
