"""Every kind has its page, made from its declaration: nothing declared is left out."""

from __future__ import annotations

import pytest

from reporter.model.plugin import Observation, Quantity
from reporter.outputs.kind_page import kind_page
from reporter.registry import find, load
from reporter.wording import catalogue

PLUGINS = load(find()).plugins


@pytest.mark.parametrize("kind", sorted(PLUGINS))
def test_the_page_tells_everything_declared(kind: str) -> None:
    plugin, words = PLUGINS[kind], catalogue()
    page = kind_page(plugin, words)
    ids = [each.id for each in plugin.examination] + [each.id for each in plugin.details]
    ids += [each.id for each in plugin.readings] + [each.id for each in plugin.proof]
    ids += [each.id for each in plugin.observations] + [limit.id for limit in plugin.limits]
    ids += [task.id for task in plugin.tasks]
    ids += [choice.id for each in plugin.observations for choice in each.choices]
    assert [
        ident
        for ident in ids
        if f"`{ident}`" not in page and f"`{ident}`," not in page and f"(`{ident}`" not in page
    ] == []
    assert all(limit.source.title in page for limit in plugin.limits)
    assert all(words.terms(caution) in page for caution in plugin.cautions)
    asked: list[Observation | Quantity] = [*plugin.observations, *plugin.readings]
    told = [each.help for each in asked] + [plugin.consequence]
    told += [text for group in plugin.together for text in (group.words, *group.tools)]
    told += [place for each in asked for place in each.places]
    assert [text for text in told if words.terms(text) not in page] == []


def test_the_page_speaks_of_conditions_repeats_and_photos() -> None:
    page = kind_page(PLUGINS["chain"], catalogue())
    assert "A photo with the gauge in it is wanted." in page
    assert any("Only where" in kind_page(each, catalogue()) for each in PLUGINS.values())
    repeated = [each for each in PLUGINS.values() if any(one.repeats > 1 for one in each.readings)]
    assert all("readings at each place" in kind_page(each, catalogue()) for each in repeated)
