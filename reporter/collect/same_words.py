"""Other words for what a kind declares: taken where they mean the same, answered with the right word where they say less.

In: a part as written and its kind. Out: the part with declared ids in place of their own words (`words`) and of those that
the kind's file names beside a choice (`also`); the hint for a word that is no answer. No vague word becomes a finding.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from functools import cache

from reporter.model.findings import Component
from reporter.model.plugin import Choice, Observation, Plugin

NOTHING_WRONG = frozenset(
    {
        "good", "ok", "okay", "fine", "well", "clean", "clear", "perfect", "intact", "undamaged", "in_order", "normal", "as_new",
        "firm", "still", "solid", "tight", "free", "whole", "straight", "even", "dry", "smooth", "sound", "yes", "grey", "gray",
        "bright", "fast", "locked", "round", "works", "gut", "in_ordnung", "fest", "sauber",
    }
)  # fmt: skip
"""What people write where nothing is wrong, whatever was asked: too little to say which answer they mean."""


def tidy(word: str) -> str:
    """The word without capitals, with one kind of gap: "Surface rust" and "surface_rust" are the same."""
    return "_".join(word.casefold().replace("-", " ").replace("_", " ").split())


@cache
def _known(pairs: tuple[tuple[str, str, tuple[str, ...]], ...]) -> dict[str, str]:
    """Every way to write a choice -> its id; what would mean two of them means none."""
    found: dict[str, set[str]] = {}
    for ident, words, also in pairs:
        for each in (words, *also):
            found.setdefault(tidy(each), set()).add(ident)
    ids = {tidy(ident): ident for ident, _, _ in pairs}
    return {word: next(iter(idents)) for word, idents in found.items() if len(idents) == 1} | ids


def _meant(word: str, pairs: Iterable[tuple[str, str, tuple[str, ...]]]) -> str:
    pairs = tuple(pairs)
    return word if any(word == ident for ident, _, _ in pairs) else _known(pairs).get(tidy(word), word)


def _of(choices: Iterable[Choice]) -> tuple[tuple[str, str, tuple[str, ...]], ...]:
    return tuple((each.id, each.words, each.also) for each in choices)


def as_declared(component: Component, plugin: Plugin) -> Component:
    """The part with the ids that its kind declares, where other words for the same were written."""
    observed = {
        name: tuple(
            each.model_copy(update={"choice": _meant(each.choice, _of(observation.choices))})
            for each in answers
        )
        if (observation := plugin.observation(name))
        else answers
        for name, answers in component.observed.items()
    }
    details = {
        name: each.model_copy(update={"value": _meant(each.value, _plain(field.choices))})
        if (field := plugin.detail(name)) and field.holds == "choice"
        else each
        for name, each in component.details.items()
    }
    items = _plain({each.id: each.words for each in plugin.examination})
    proofs = _plain({each.id: each.words for each in plugin.proof})
    included = tuple(_meant(each, items) for each in component.examined.included)
    return component.model_copy(
        update={
            "observed": observed,
            "details": details,
            "examined": component.examined.model_copy(update={"included": included}),
            "proved": tuple(_meant(each, proofs) for each in component.proved),
        }
    )


def _plain(words: Mapping[str, str]) -> tuple[tuple[str, str, tuple[str, ...]], ...]:
    return tuple((ident, said, ()) for ident, said in words.items())


def right_word(written: str, observation: Observation) -> str:
    """What to write of a question that was answered with "good" or the like; "" for any other word."""
    if tidy(written) not in NOTHING_WRONG:
        return ""
    clear = [each for each in observation.choices if each.grade == "clear"]
    told = "; ".join(f"{each.id} ({each.words})" for each in clear)
    return f"'{written}' says too little here. Where nothing is wrong: {told}. " if told else ""
