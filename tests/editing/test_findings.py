"""Edits of findings.yaml: the data change as the same edit of plain data does, and no other line changes."""

from __future__ import annotations

import difflib
import random
from pathlib import Path

import pytest

from reporter.editing import ConflictError, Edit, EditError, edited, value_in
from tests.editing import making
from tests.effort import tries

DEMO = (Path(__file__).parents[2] / "demo_job/findings.yaml").read_text("utf-8")
LOOSE = (
    """\
%YAML-free line of a person # kept
""".replace("%YAML-free line of a person # kept\n", "# a person's own manner\n")
    + """\
format:  1
components:
- {id: one , kind: chain,examined: seen, photos: [a.jpg]}
# a banner above two

- kind: sheave     # first key is not the id
  id: two
  examined: {extent: part_seen
     , how: [eye]}   # in two lines
  observed:
      wear : "none"
      noise:
      - {choice: quiet, at: port}
      -   choice: loud   # a word
          at: starboard
  found: plain text that goes on
    in a second line
  opinion: |
    kept
      as it stands

    to the end
  private: 'it''s mine'
  photos:
  - a.jpg       # bare
  -   file: "b c.jpg"
      caption: >-
        folded
        text
      marks: []

# an end
- id: three
  # inside three
  kind: rope
  examined: not_seen"""
)


def changed_lines(before: str, after: str) -> list[str]:
    """Lines that are gone, in the order of the file."""
    return [
        line[2:] for line in difflib.ndiff(before.splitlines(), after.splitlines()) if line.startswith("- ")
    ]


@pytest.mark.slow
@pytest.mark.parametrize("seed", range(2))
@pytest.mark.parametrize("text", [DEMO, LOOSE], ids=["demo", "loose"])
def test_random_edits_each_mean_what_they_say(text: str, seed: int) -> None:
    rng = random.Random(seed)  # noqa: S311
    data = making.read(text)
    for _ in range(tries(50, 20)):
        edit = making.random_edit(rng, data)
        after = edited(text, [edit])
        assert making.read(after) == making.done(data, edit.address, edit.wanted), edit


@pytest.mark.slow
@pytest.mark.parametrize(("newline", "mark"), [("\n", ""), ("\r\n", "\ufeff")], ids=["lf", "crlf"])
def test_many_edits_one_upon_another(newline: str, mark: str) -> None:
    rng = random.Random(11)  # noqa: S311
    text = mark + DEMO.replace("\n", newline)
    data = making.read(text)
    for _ in range(tries(200, 60)):
        edit = making.random_edit(rng, data)
        text = edited(text, [edit])
        data = making.done(data, edit.address, edit.wanted)
    assert making.read(text) == data
    assert text.startswith(mark)
    assert (text.count("\n") == text.count("\r\n")) == (newline == "\r\n")


def test_no_line_outside_the_part_changes() -> None:
    """Every line that goes stands in the edited part; every comment outside it is still there, in its order."""
    rng = random.Random(3)  # noqa: S311
    data = making.read(DEMO)
    parts = DEMO.split("\n  - id: ")
    for _ in range(15):
        edit = making.random_edit(rng, data)
        if len(edit.address) < 3:
            continue
        step = edit.address[1]
        assert isinstance(step, dict)
        ident = step["id"]
        own = next(part for part in parts if part.startswith(f"{ident}\n"))
        gone = changed_lines(DEMO, edited(DEMO, [edit]))
        assert not [line for line in gone if line not in own], edit


@pytest.mark.parametrize("ident", [part["id"] for part in making.read(DEMO)["components"]])
def test_a_part_taken_out_takes_no_comment_of_its_neighbours_along(ident: str) -> None:
    address = ("components", {"id": ident})
    after = edited(DEMO, [Edit("findings.yaml", address, value_in(DEMO, address), None)])
    own = next(part for part in DEMO.split("\n  - id: ") if part.startswith(f"{ident}\n"))
    own = own[: own.rstrip().rfind("\n\n  # ---")] if "\n\n  # ---" in own else own
    banners = [line for line in DEMO.splitlines() if line.startswith("  # ---")]
    assert [line for line in after.splitlines() if line.startswith("  # ---")] == banners
    assert not [line for line in changed_lines(DEMO, after) if line.strip() and line not in f"  - id: {own}"]


@pytest.mark.parametrize("word", making.WORDS)
@pytest.mark.parametrize(
    "address",
    [
        ("components", {"id": "two"}, "found"),
        ("components", {"id": "two"}, "opinion"),
        ("components", {"id": "two"}, "private"),
        ("components", {"id": "two"}, "observed", "wear"),
        ("components", {"id": "two"}, "examined", "because"),
        ("components", {"id": "one"}, "name"),
        ("components", {"id": "two"}, "photos", {"photo": "b c.jpg"}, "caption"),
        ("components", {"id": "two"}, "photos", {"photo": "a.jpg"}, "caption"),
        ("components", {"id": "three"}, "place"),
        ("components", {"id": "three"}, "examined", "because"),
        ("components", {"id": "two"}, "observed", "noise"),
    ],
    ids=lambda address: "-".join(map(str, address[2:])),
)
def test_any_text_can_stand_anywhere(word: str, address: tuple[object, ...]) -> None:
    edit = Edit("findings.yaml", address, value_in(LOOSE, address), word)  # type: ignore[arg-type]
    after = edited(LOOSE, [edit])
    assert value_in(after, edit.address) == word
    assert edited(after, [Edit("findings.yaml", edit.address, word, edit.seen)]) != after


def test_what_is_said_behind_a_value_stays() -> None:
    edits = [
        Edit("f", ("components", {"id": "two"}, "kind"), "sheave", "rope"),
        Edit("f", ("components", {"id": "two"}, "observed", "noise", 1, "choice"), "loud", "long " * 40),
        Edit(
            "f",
            ("components", {"id": "two"}, "photos", {"photo": "a.jpg"}, "caption"),
            None,
            "now with words",
        ),
    ]
    after = edited(LOOSE, edits)
    assert {"# first key is not the id", "# a word", "# bare"} <= {
        "#" + line.split("#", 1)[1] for line in after.splitlines() if "#" in line
    }


def test_the_last_entry_gone_takes_its_key_along_but_leaves_a_list_at_the_top() -> None:
    text = "format: 1\ncomponents:\n  - id: a\n    kind: chain\n    examined: seen\n    observed:\n      wear: none\n"
    after = edited(text, [Edit("f", ("components", {"id": "a"}, "observed", "wear"), "none", None)])
    assert "observed" not in after
    address = ("components", {"id": "a"})
    after = edited(after, [Edit("f", address, value_in(after, address), None)])
    assert after == "format: 1\ncomponents: []\n"
    begun = edited(
        after, [Edit("f", ("components", {"id": "b"}), None, {"kind": "chain", "examined": "seen"})]
    )
    assert making.read(begun) == {
        "format": "1",
        "components": [{"id": "b", "kind": "chain", "examined": "seen"}],
    }


def test_a_value_that_moved_on_is_a_conflict_and_one_that_is_there_already_is_none() -> None:
    address = ("components", {"id": "three"}, "kind")
    with pytest.raises(ConflictError) as caught:
        edited(LOOSE, [Edit("f", address, "chain", "block")])
    assert caught.value.conflicts[0].now == "rope"
    assert edited(LOOSE, [Edit("f", address, "chain", "rope")]) == LOOSE


def test_what_cannot_be_read_is_left_alone() -> None:
    for text in ["format: 1\nformat: 2\n", "a: [1\n", "- a\n"]:
        with pytest.raises(EditError):
            edited(text, [Edit("f", ("name",), None, "x")])


def test_a_text_that_repeats_itself_by_marks_is_left_alone() -> None:
    """Ten lines, each ten times the one before, say more than a computer holds."""
    ten = ["a0: &a0 [x, x]", *(f"a{n}: &a{n} [{', '.join([f'*a{n - 1}'] * 10)}]" for n in range(1, 11))]
    with pytest.raises(EditError, match="cannot be read"):
        edited("\n".join(ten) + "\n", [Edit("f", ("name",), None, "x")])
    assert "name: x" in edited("a: '*a0'\nb: 2 * 3\n", [Edit("f", ("name",), None, "x")])
