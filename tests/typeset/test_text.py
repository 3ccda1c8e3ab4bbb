"""Text: what the fonts lack is replaced visibly, and no line is too long."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from reporter.collect.letters import lacking, printed
from reporter.model.report import Heading, Paragraph, plain
from reporter.typeset.glyphs import _ALIKE, Cleaner, _known, text_width
from reporter.typeset.setting import Run, set_lines
from reporter.typeset.styles import BODY
from reporter.typeset.tags import Tag
from tests.typeset.conftest import LayOut
from tests.typeset.reading import elements, text

TAG = Tag("P")


def test_lacking_characters_are_replaced_and_listed(lay_out: LayOut) -> None:
    pages, found = lay_out(Paragraph(text=plain("山田 and 😀 and 山")), Heading(level=2, text="\u0627"))
    assert text(next(elements(pages.tree, "P")), found) == "[U+5C71 U+7530] and [U+1F600] and [U+5C71]"
    assert set(pages.substituted) == {"山", "田", "😀", "\u0627"}


@pytest.mark.parametrize(
    ("given_text", "printed"),
    [
        ("a\x00b\x0bc\x7fd\x9fe", "abcde"),
        ("half \ud83d pair", "half  pair"),
        ("zero\u200bwidth\u202eturned\ufe0f", "zerowidthturned"),
        ("1\u20095\u2009mm, 3\u201116", "1\u202f5\u202fmm, 3-16"),
        ("e\u0301", "é"),
        ("one\r\ntwo\u2028three", "one\ntwo\nthree"),
        ("Ωμέγα Привет Şişe Żółw ½ ± ≤ √ ×", "Ωμέγα Привет Şişe Żółw ½ ± ≤ √ ×"),
    ],
)
def test_cleaning(given_text: str, printed: str) -> None:
    cleaner = Cleaner()
    assert cleaner.clean(given_text) == printed
    assert not cleaner.substituted


def test_what_is_told_of_a_folder_is_what_the_fonts_lack() -> None:
    """The ranges that reading a folder knows are the fonts' own; what is left out unseen is told by neither."""
    assert printed() == (_known() | set(_ALIKE))
    every = "aé舵א😀\u200f\u0301\ufe0f—"
    cleaner = Cleaner()
    cleaner.clean(every)
    assert lacking(every) == "".join(cleaner.substituted) == "舵א😀"


@given(st.text(max_size=60))
def test_cleaned_text_is_stable_and_printable(raw: str) -> None:
    """No code may end up without a glyph: ISO 14289-1, 7.21.7 and ISO 19005-3, 6.2.11.7.2."""
    cleaned = Cleaner().clean(raw)
    again = Cleaner()
    assert again.clean(cleaned) == cleaned
    assert not again.substituted


@given(st.text("ab -–/\n1é", max_size=200), st.floats(12, 300))
def test_lines_hold_the_measure_and_every_word(raw: str, measure: float) -> None:
    lines = set_lines([Run(raw[:50], BODY, TAG), Run(raw[50:], BODY.but(face="Bold"), TAG)], measure)
    assert all(line.width <= measure + 1e-6 for line in lines)
    for line in lines:
        assert line.width == pytest.approx(
            sum(text_width(piece.text, piece.run.kind) for piece in line.pieces)
        )
    printed = "".join(piece.text for line in lines for piece in line.pieces)
    assert printed.replace(" ", "") == raw.replace(" ", "").replace("\n", "")


def test_words_at_line_ends_do_not_run_together() -> None:
    lines = set_lines([Run("one two three four five six", BODY, TAG)], 40)
    printed = "".join(piece.text + piece.trail for line in lines for piece in line.pieces)
    assert printed == "one two three four five six"
    assert len(lines) > 2
