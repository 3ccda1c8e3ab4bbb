"""The words of the program: every id that code asks for exists, none is idle, no banned claim, both usages."""

from __future__ import annotations

import ast
import re
import string
from pathlib import Path
from typing import get_args

import pytest

from reporter.model.plugin import Plugin
from reporter.model.sheet import Conditions, Particulars
from reporter.model.terms import Access, Basis, Extent, Grade, LimitBasis, Remedy, SourceStatus
from reporter.registry import find, load
from reporter.wording import Catalogue, catalogue, date, exact, number, quantity
from reporter.wording.numbers import with_unit

ROOT = Path(__file__).parents[1]
BANNED = re.compile(
    r"\b(safe|seaworthy|sound|fit for purpose|passed|certified|guaranteed?|complies with|as new|will last|no defects?)\b",
    re.IGNORECASE,
)


def _code() -> list[Path]:
    return [*(ROOT / "reporter").rglob("*.py"), *(ROOT / "plugins/drawings").glob("*.py")]


def asked_for() -> tuple[set[str], set[str]]:
    """Ids that code names in full, and the beginnings of ids that it completes at run time."""
    code = [file for folder in ("reporter", "plugins") for file in (ROOT / folder).rglob("*.py")]
    text = "\n".join(file.read_text("utf-8") for file in code)
    text += "\n".join(file.read_text("utf-8") for file in (ROOT / "templates").glob("*.toml"))
    quoted = set(re.findall(r"[\"']([a-z_]+\.[A-Za-z0-9_-]+)[\"']", text))
    begun = set(re.findall(r"f[\"']([a-z_]+\.[a-z_]*)\{", text))
    return quoted, begun


SCRIPTS = "\n".join(file.read_text("utf-8") for file in sorted((ROOT / "reporter/desk/static").glob("*.js")))


def said_by_scripts() -> set[str]:
    """Ids of the words that the desk's page says."""
    return {f"desk.{word}" for word in re.findall(r'\bsay\("([a-z_]+)"', SCRIPTS)}


def columns_named() -> set[str]:
    """Ids of the heads of tables: `table` names each column after its section and its share."""
    found: set[str] = set()
    for file in (ROOT / "reporter/outline").glob("*.py"):
        text = file.read_text("utf-8")
        for call in ast.walk(ast.parse(text)):
            if isinstance(call, ast.Call) and isinstance(call.func, ast.Name) and call.func.id == "table":
                section, names = ast.literal_eval(call.args[1]), [each.arg for each in call.keywords]
                if None in names:  # shares that stand in a dictionary
                    names = re.findall(r'"(\w+)": \d', text)
                found |= {f"{section}.{name}" for name in names}
    return found


def test_every_word_is_used_and_none_is_missing() -> None:
    quoted, begun = asked_for()
    quoted |= {
        f"head.{ident}"
        for file in (ROOT / "reporter/outline").glob("*.py")
        for ident in re.findall(r'heading\(context, "([a-z_]+)"', file.read_text("utf-8"))
    }
    quoted |= said_by_scripts() | columns_named()
    ids = set(catalogue().ids)
    sections = {ident.split(".")[0] for ident in ids}
    asked = {
        ident
        for ident in quoted
        if ident.split(".")[0] in sections
        and not ident.endswith((".toml", ".py", ".pdf", ".csv", ".json", ".yaml"))
    }
    assert asked - ids == set()
    begun |= {"glossary."}  # all of that section is looked through
    begun |= {f"desk.{start}" for start in re.findall(r"say\(`(\w+_)\$\{", SCRIPTS)}
    quoted |= {f"desk.{word}" for word in re.findall(r'"([a-z_]+)"', SCRIPTS)}
    quoted |= {f"{ident}_one" for ident in quoted}  # of one thing, where several are told otherwise
    idle = {ident for ident in ids - quoted if not any(ident.startswith(start) for start in begun)}
    assert idle == set(), "words that nothing prints"


@pytest.mark.parametrize(
    ("section", "members"),
    [
        ("grade", Grade), ("grade_meaning", Grade), ("due", Grade), ("remedy", Remedy), ("access", Access),
        ("basis", Basis), ("limit_basis", LimitBasis), ("status", SourceStatus),
    ],
)  # fmt: skip
def test_every_member_has_its_word(section: str, members: type[Grade]) -> None:
    words = catalogue()
    assert [member for member in members if not words.has(f"{section}.{member}")] == []


def test_every_extent_and_condition_has_its_word() -> None:
    words = catalogue()
    assert all(words.has(f"component.extent_{extent}") for extent in Extent)
    assert all(
        words.has(f"lay.{each}") for each in get_args(Conditions.model_fields["afloat"].annotation) if each
    )
    gears = get_args(Particulars.model_fields["steering_gear"].annotation)
    assert gears
    assert all(words.has(f"steering.{each}") for each in gears if each)


def claims(text: str) -> list[str]:
    """Banned claims in `text`; "no measure of safety" is the one allowed mention, and denials of a claim are not claims."""
    return [found.group() for found in BANNED.finditer(text)]


def test_the_catalogue_claims_nothing_it_must_not() -> None:
    words = (ROOT / "reporter/wording/en.toml").read_text("utf-8")
    lines = [line for line in words.splitlines() if not line.startswith("#")]
    assert claims("\n".join(lines)) == []


def texts_of(plugin: Plugin) -> list[str]:
    """Every text of a plugin that a reader may see."""
    said = [plugin.title, plugin.purpose, *plugin.cautions, *plugin.tools, *plugin.supplies]
    said += [item.words for item in plugin.examination] + [item.words for item in plugin.proof]
    said += [text for each in plugin.details for text in (each.title, each.help, *each.choices.values())]
    said += [text for each in plugin.readings for text in (each.title, each.method, each.help)]
    said += [text for each in plugin.observations for text in (each.title, each.help)]
    said += [choice.words for each in plugin.observations for choice in each.choices]
    said += [text for task in plugin.tasks for text in (task.words, *task.parts)]
    said += [plugin.consequence, *(text for each in plugin.together for text in (each.words, *each.tools))]
    said += plugin.says.values()
    return said + [text for limit in plugin.limits for text in (limit.note, limit.written_for, limit.of)]


def test_no_plugin_claims_what_it_must_not() -> None:
    for plugin in load(find()).plugins.values():
        assert claims("\n".join(texts_of(plugin))) == [], plugin.kind


def test_trade_terms_follow_the_chosen_usage() -> None:
    assert catalogue("en", "uk").terms("fit a new [split pin]") == "fit a new split pin"
    assert catalogue("en", "us").terms("fit a new [split pin]") == "fit a new cotter pin"


def test_every_bracketed_term_is_known() -> None:
    """A term in brackets that the usage list lacks would be printed with its brackets."""
    for plugin in load(find()).plugins.values():
        left = [text for text in texts_of(plugin) if re.search(r"\[[a-z ]+\]", catalogue().terms(text))]
        assert left == [], plugin.kind


def test_every_placeholder_is_a_plain_name() -> None:
    words = catalogue()
    for ident in words.ids:
        for _, field, _, _ in string.Formatter().parse(words._words[ident]):
            assert field is None or re.fullmatch(r"[a-z]*", field), ident


def test_a_list_reads_like_a_sentence() -> None:
    assert [Catalogue.listed(list("abc"[:count])) for count in (0, 1, 2, 3)] == [
        "",
        "a",
        "a and b",
        "a, b and c",
    ]


@pytest.mark.parametrize(
    ("value", "expanded", "expected"),
    [
        (0.5905, 0.1968, "0.59"),
        (254.0, 0.5, "254.0"),
        (1234.5, 20, "1234"),
        (12345.6, 200, "12\u00a0350"),
        (-0.04, 0.2, "\u22120.04"),
        (3, 0, "3"),
    ],
)
def test_numbers_have_the_figures_that_their_uncertainty_deserves(
    value: float, expanded: float, expected: str
) -> None:
    """GUM (JCGM 100:2008) 7.2.6: at most two significant figures of U; the value to the same place."""
    assert number(value, expanded=expanded) == expected


def test_units_stand_as_they_are_written() -> None:
    assert with_unit("1", "links") == "1\u00a0link"
    assert with_unit("35", "°") == "35°"
    assert with_unit("2", "") == "2"
    assert exact(1.5) == "1.5"
    # What a difference of equal numbers leaves in the last bit.
    assert exact(0.1 + 0.2 - 0.3) == number(0.1 + 0.2 - 0.3) == "0"
    assert quantity(0.0127, "mm") == "12.7\u00a0mm"


def test_dates_are_written_out() -> None:
    import datetime as dt

    from reporter.model.quantity import PartialDate

    assert date(dt.date(2027, 5, 12)) == "12\u00a0May\u00a02027"
    assert date(PartialDate(year=2016)) == "2016"
