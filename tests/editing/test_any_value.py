"""Any text at any place, by hypothesis: written, read back, taken out again."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from reporter.editing import Edit, EditError, edited, plain, value_in
from tests.editing.making import read
from tests.editing.test_findings import LOOSE

TEXTS = st.lists(
    st.one_of(
        st.sampled_from(" \n\t:#-'\"[]{},&*!|>%@`?~\\"),
        st.sampled_from([": ", " #", "- ", "\n\n", "  ", "word", "long " * 25, "null", "---", "é", "😀"]),
        st.characters(exclude_categories=("Cs", "Cc"), exclude_characters="\ufffe\uffff"),
    ),
    min_size=1,
    max_size=12,
).map("".join)
VALUES = st.recursive(
    TEXTS,
    lambda inner: st.one_of(
        st.lists(inner, min_size=1, max_size=3),
        st.dictionaries(
            st.sampled_from(["kind", "file", "note", "a key", "true"]), inner, min_size=1, max_size=3
        ),
    ),
    max_leaves=8,
)
PLACES = [
    ("components", {"id": "one"}, "new"),
    ("components", {"id": "two"}, "found"),
    ("components", {"id": "two"}, "opinion"),
    ("components", {"id": "two"}, "observed", "noise"),
    ("components", {"id": "two"}, "details", "new"),
    ("components", {"id": "three"}, "new"),
    ("new",),
]


@settings(max_examples=150, deadline=None)
@given(place=st.sampled_from(PLACES), value=VALUES)
def test_a_value_reads_back_as_it_was_given(place: tuple[object, ...], value: object) -> None:
    wanted = plain(value)
    edit = Edit("f", place, value_in(LOOSE, place), wanted)  # type: ignore[arg-type]
    after = edited(LOOSE, [edit])
    assert value_in(after, edit.address) == wanted
    rest = edited(after, [Edit("f", edit.address, wanted, edit.seen)])
    assert read(rest) == read(LOOSE)


@settings(max_examples=100, deadline=None)
@given(first=VALUES, second=VALUES)
def test_one_value_gives_way_to_another(first: object, second: object) -> None:
    text = edited(LOOSE, [Edit("f", ("new",), None, plain(first))])
    after = edited(text, [Edit("f", ("new",), plain(first), plain(second))])
    assert value_in(after, ("new",)) == plain(second)
    assert [line for line in LOOSE.splitlines() if "#" in line and line not in after] == []


@settings(max_examples=100, deadline=None)
@given(cell=TEXTS)
def test_a_cell_reads_back_as_it_was_given(cell: str) -> None:
    address = ({"row": ["a", "play", "", 0]}, "note")
    text = "component,quantity,at,value,note\na,play,,1,\nb,play,,2,x\n"
    wanted = plain(cell)
    try:
        after = edited(text, [Edit("m", address, None, wanted)], table=True)
    except EditError:
        # A cell loses the blanks at its ends; one that is quoted against spreadsheets keeps those in front.
        assert cell != cell.strip()
        return
    assert value_in(after, address, table=True) == wanted
    assert after.endswith("\nb,play,,2,x\n")


@pytest.mark.parametrize(
    "after", ["", "\n", "  # d: 2\n", "\n    # more\n\n  # d: 2\n", "  # d: 2\n# on its own\n"]
)
def test_a_long_text_does_not_take_up_the_comments_beside_it(after: str) -> None:
    """A comment set in as far as a folded text would be read as more of it (YAML 1.2.2, 8.1.1)."""
    wanted = "word " * 40 + "end"
    text = f"a: 1\nb:\n  c: 1  # one\n{after}"
    told = edited(text, [Edit("m", ("note",), None, wanted)], table=False)
    assert value_in(told, ("note",), table=False) == wanted
    assert [line for line in told.splitlines() if "#" in line] == [
        line for line in text.splitlines() if "#" in line
    ]
    assert told.index("# d" if "# d" in after else "c: 1") < told.index("note:")
