"""A kind's file: what is wrong in it is told with its line; the schema accepts every built-in one."""

from __future__ import annotations

import re
import tomllib
from pathlib import Path

import jsonschema
import pytest

from reporter.errors import PluginError
from reporter.kinds import kind_schema, parse_kind, unexplained
from reporter.registry import check, find, load

SYSTEMS = load(find()).systems
ROOT = Path(__file__).parents[2]
FILES = sorted(
    file
    for file in (ROOT / "plugins").rglob("*.toml")
    if file.stem.count(".") == 0 and file.parent.name != "drawings"
)
HINGE = """title = "Hinge"
system = "steering"
station = "helm"
load_path = false

[detail.make]
title = "Make"
holds = "choice"
choices.bronze = "bronze"

[reading.gap]
title = "Gap"
dimension = "length"
unit = "mm"
method = "feeler gauge"
plausible = [0, 20]
only_if = { make = ["bronze"] }

[observation.leaf]
title = "Leaves"
choices.whole = { words = "whole", grade = "clear" }
choices.cracked = { words = "cracked", grade = "plan", task = "replace" }

[task]
replace = { words = "Replace the hinge", remedy = "replace" }
"""

STRICTER = {"magnifier of seven times or more", "steel rule to 0.5 mm"}
"""The tools that stand beside a lesser one of the same name, since what they are for asks for more."""


def tools_of(file: Path) -> list[str]:
    """What a kind's file has brought, of the whole part and of each group, in its order."""
    data = tomllib.loads(file.read_text("utf-8"))
    together = data.get("together", {}).values()
    return [tool for held in (data, *together) for tool in held.get("tools", ())]


def refused(text: str) -> str:
    """The message for a kind's file of this text."""
    with pytest.raises(PluginError) as caught:
        check({"hinge": parse_kind(text, "hinge", "", "hinge.toml")}, SYSTEMS)
    return caught.value.message


@pytest.mark.slow
@pytest.mark.parametrize("file", FILES, ids=lambda file: file.stem)
def test_the_schema_accepts_every_kind_as_written(file: Path) -> None:
    jsonschema.validate(tomllib.loads(file.read_text("utf-8")), {**kind_schema(), "required": []})


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ('grade = "plan"', 'grade = "soon"'),
        ("plausible = [0, 20]", "plausible = 20"),
        ('remedy = "replace"', 'remedy = "pray"'),
        ('holds = "choice"', 'holds = "guess"'),
        ("load_path = false", "load_path = false\ncolour = 1"),
        ('method = "feeler gauge"\n', ""),
    ],
)
def test_the_schema_refuses_what_the_program_refuses(old: str, new: str) -> None:
    text = HINGE.replace(old, new)
    assert text != HINGE
    refused(text)
    with pytest.raises(jsonschema.ValidationError):
        jsonschema.validate(tomllib.loads(text), kind_schema())


@pytest.mark.parametrize(
    ("old", "new", "told"),
    [
        ('grade = "plan"', 'grade = "soon"', "hinge.toml, line 21: observation.leaf.choices.1.grade"),
        ('unit = "mm"', "", "hinge.toml, line 11: reading.gap.unit"),
        ('task = "replace"', 'task = "mend"', "asks for the task 'mend'"),
        ('{ make = ["bronze"] }', '{ maker = ["bronze"] }', "depends on the detail 'maker'"),
        ('{ make = ["bronze"] }', '{ make = ["brass"] }', "depends on make being brass"),
        ('station = "helm"', 'station = "attic"', "has no station 'attic'"),
        ("load_path = false", 'load_path = false\nuse = ["nothing"]', "no shared block called 'nothing'"),
        ("[reading.gap]", "[reading.gap", "line 11"),
    ],
)
def test_what_is_wrong_is_told_where_it_stands(old: str, new: str, told: str) -> None:
    assert told in refused(HINGE.replace(old, new, 1))


def test_a_whole_kind_is_accepted_and_its_missing_help_is_named() -> None:
    plugin = parse_kind(HINGE, "hinge", "", "hinge.toml")
    check({"hinge": plugin}, SYSTEMS)
    assert [line.split()[0] for line in unexplained(plugin)] == ["gap", "leaf"]


def test_a_shared_block_lies_beneath_the_kinds_own_words() -> None:
    """An entry named by the kind keeps its place and changes only what it says."""
    from reporter.kinds.shared import merged

    block = {"detail": {"size": {"title": "Size", "unit": "mm"}, "metal": {"title": "Metal"}}}
    own = {"detail": {"age": {"title": "Age"}, "size": {"title": "Diameter"}}}
    both = merged(block, own)["detail"]
    assert list(both) == ["age", "size", "metal"]
    assert both["size"] == {"title": "Diameter", "unit": "mm"}


@pytest.mark.parametrize(
    "file",
    [*FILES, *sorted((ROOT / "reporter/kinds/shared").glob("[a-z_]*.toml"))],
    ids=lambda file: file.stem,
)
def test_german_is_complete_and_its_placeholders_agree(file: Path) -> None:
    from reporter.kinds.shared import leaves, texts

    if "." in file.stem:
        return
    english = dict(texts(tomllib.loads(file.read_text("utf-8"))))
    beside = file.with_name(f"{file.stem}.de.toml")
    german = dict(leaves(tomllib.loads(beside.read_text("utf-8")))) if english else {}
    assert set(german) == set(english)
    for path, text in english.items():
        named = [set(re.findall(r"\{(\w+)", str(each))) for each in (text, german[path])]
        assert named[0] == named[1], path
        assert "[" not in str(german[path]).strip("[]"), path


def test_a_tool_has_one_name() -> None:
    """Who packs from the plan of a visit reads each tool once: no two in one entry, no second name, no plural beside it."""
    tools = {tool for file in FILES for tool in tools_of(file)}
    words = {tool: set(tool.casefold().split()) for tool in tools}
    assert not [tool for tool in tools if " and " in tool]
    assert not [tool for tool in tools if tools & set(tool.split(" or ")) - {tool}]
    assert not [tool for tool in tools if {f"{tool}s", tool.replace("]", "s]")} & tools - {tool}]
    assert not [(less, more) for less in tools for more in tools - STRICTER if words[less] < words[more]]
    assert tools >= STRICTER


def test_a_tool_has_one_name_in_german_too() -> None:
    pairs = {
        pair
        for file in FILES
        for pair in zip(tools_of(file), tools_of(file.with_suffix(".de.toml")), strict=True)
    }
    english, german = zip(*pairs, strict=True)
    assert len(set(english)) == len(set(german)) == len(pairs) > 50


def test_no_plural_is_made_with_an_s_that_the_other_usage_spells_otherwise() -> None:
    """“[spanner]s” would be “wrenchs” to an American reader; such a term has its plural beside it."""
    words = tomllib.loads((ROOT / "reporter/wording/en.toml").read_text("utf-8"))
    hissing = [row["uk"] for row in words["usage"] if row["us"].endswith(("ch", "sh", "s", "x"))]
    assert "spanner" in hissing
    texts = [file.read_text("utf-8") for file in FILES]
    assert not [term for term in hissing for text in texts if f"[{term}]s" in text]
