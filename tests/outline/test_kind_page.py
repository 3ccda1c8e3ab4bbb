"""Every kind has its page, made from its declaration: nothing declared is left out."""

from __future__ import annotations

import pytest

from reporter.outline.kind_page import kind_page
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
    ids += [choice.id for each in plugin.observations for choice in each.choices]
    assert [
        ident
        for ident in ids
        if f"`{ident}`" not in page and f"`{ident}`," not in page and f"(`{ident}`" not in page
    ] == []
    assert all(limit.source.title in page for limit in plugin.limits)
    assert all(words.terms(caution) in page for caution in plugin.cautions)
