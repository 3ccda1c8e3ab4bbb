"""Labels of any script and length: each inside its drawing or in the key, none on another, every leader at its part."""

from __future__ import annotations

import itertools
from collections.abc import Sequence

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from reporter.model.drawing import Drawing, Ellipse, Label, Path, Sign, Words
from reporter.model.terms import Grade
from reporter.typeset.glyphs import Cleaner
from reporter.typeset.lettering import Lettering, letter
from tests.plugins.on_paper import boxes, outside, overlapping, struck_through

NAMES = (
    "Wheel", "舵輪舵輪舵輪舵輪", "Πηδάλιο και άξονας, αριστερά", "Ruderkopfverschraubungssicherungsblechbefestigung an Backbord",
    "ШТУРВАЛЬНАЯ ЦЕПЬ", "עוגן הגה", "a" * 90, "Pedestal, guard and compass", "Łańcuch przekładni", "W M " * 20,
)  # fmt: skip
WORDS = (
    "clear",
    "starboard: stop",
    "not found: first",
    "both sides together: stop, worst of 12",
    "not listed",
)
SIZE = (482.0, 250.0)
HULL = (
    Path(points=((60, 70), (420, 60), (420, 180), (60, 170)), closed=True, fill="wash"),
    Path(points=((20, 120), (460, 125))),
    Ellipse(centre=(240, 120), radii=(30, 30)),
    Words(at=(6, 245), text="Seen from above.", size=7.5),
)
clean = Cleaner().clean


def of(labels: Sequence[Label], size: tuple[float, float] = SIZE) -> Drawing:
    """A drawing with some lines and these labels."""
    return Drawing(width=size[0], height=size[1], shapes=HULL, labels=tuple(labels), alt="")


def printed(drawing: Drawing, lettering: Lettering) -> Drawing:
    """What is seen of both."""
    return drawing.model_copy(
        update={"shapes": (*drawing.shapes, *lettering.shapes), "height": drawing.height + lettering.key}
    )


def leaders(lettering: Lettering) -> list[Path]:
    """The lines from labels to parts."""
    return [shape for shape in lettering.shapes if isinstance(shape, Path)]


def crossing(one: Path, other: Path) -> bool:
    """Whether two straight leaders run over one another."""
    (a, b), (c, d) = one.points, other.points

    def turn(p: tuple[float, float], q: tuple[float, float], r: tuple[float, float]) -> float:
        return (q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0])

    return b != d and turn(a, b, c) * turn(a, b, d) < 0 and turn(c, d, a) * turn(c, d, b) < 0


def hold(drawing: Drawing) -> Lettering:
    """What holds of every drawing."""
    lettering = letter(drawing, 1.0, clean)
    whole = printed(drawing, lettering)
    assert outside(whole) == []
    assert overlapping(whole) == []
    assert struck_through(whole) == []
    ends = {each.at for each in drawing.labels}
    assert all(line.points[-1] in ends for line in leaders(lettering))
    assert not any(crossing(*pair) for pair in itertools.combinations(leaders(lettering), 2))
    graded = sum(each.grade is not None for each in drawing.labels)
    assert sum(isinstance(shape, Sign) for shape in lettering.shapes) == graded
    return lettering


SPOTS = st.tuples(st.floats(10, 470), st.floats(10, 225))
LABELS = st.builds(
    Label,
    text=st.one_of(st.sampled_from(NAMES), st.text(max_size=70)),
    word=st.sampled_from(WORDS),
    grade=st.one_of(st.none(), st.sampled_from(list(Grade))),
    at=SPOTS,
    rooms=st.sampled_from(
        [(), ((4.0, 4.0, 478.0, 58.0),), ((4.0, 4.0, 90.0, 230.0), (4.0, 186.0, 478.0, 234.0))]
    ),
)


@settings(max_examples=25, deadline=None, derandomize=True)
@given(st.lists(LABELS, max_size=14))
def test_any_labels_keep_clear_of_one_another(labels: list[Label]) -> None:
    hold(of(labels))


@pytest.mark.parametrize("count", [20, pytest.param(60, marks=pytest.mark.slow)])
def test_sixty_parts_with_the_longest_names_are_all_told(count: int) -> None:
    labels = [
        Label(
            text=NAMES[number % len(NAMES)],
            word=WORDS[number % len(WORDS)],
            grade=list(Grade)[number % 6],
            at=(12 + 37 * (number % 13), 70 + 24 * (number // 13)),
        )
        for number in range(count)
    ]
    lettering = hold(of(labels))
    assert lettering.key < 300
    told = "".join(shape.text.replace(" ", "") for shape in lettering.shapes if isinstance(shape, Words))
    assert (
        sum(isinstance(shape, Words) and shape.text == "Wheel" for shape in lettering.shapes) == count // 10
    )
    assert told.count("worstof12") == sum("of 12" in each.word for each in labels)


def test_a_name_is_never_cut_where_another_line_or_the_key_holds_it() -> None:
    rows = [
        Label(text=name, word="clear", grade=Grade.CLEAR, at=(40 + 90 * place, 120))
        for place, name in enumerate(NAMES[3:8])
    ]
    lettering = hold(of(rows))
    assert not any("…" in shape.text for shape in lettering.shapes if isinstance(shape, Words))


def test_a_label_stands_in_its_best_room_and_a_long_name_takes_two_lines() -> None:
    room = (100.0, 76.0, 206.0, 116.0)
    label = Label(
        text="Upper rudder bearing, stock and gland",
        word="plan",
        grade=Grade.PLAN,
        at=(360, 120),
        rooms=(room,),
    )
    lettering = hold(of([label]))
    texts = [box for text, box in boxes(printed(of([label]), lettering)) if text != "Seen from above."]
    assert len(texts) == 4, "two lines of name, the word, the sign"
    for left, top, right, bottom in texts:
        assert room[0] <= left
        assert room[1] <= top
        assert right <= room[2]
        assert bottom <= room[3]


def test_the_first_room_goes_before_a_nearer_one() -> None:
    rooms = ((100.0, 76.0, 206.0, 112.0), (100.0, 132.0, 206.0, 160.0))
    label = Label(text="Wheel", word="plan", grade=Grade.PLAN, at=(150, 130), rooms=rooms)
    lettering = hold(of([label]))
    (name,) = (shape for shape in lettering.shapes if isinstance(shape, Words) and shape.text == "Wheel")
    assert name.at[1] < 112


def test_of_two_that_want_one_place_the_more_urgent_has_it() -> None:
    room = ((210.0, 4.0, 266.0, 25.0),)
    pair = [
        Label(text=name, word="stop", grade=Grade.STOP, at=(240, 60), rooms=room, priority=rank)
        for name, rank in (("Second", 0), ("First", 1))
    ]
    lettering = letter(of(pair), 1.0, clean)
    spot = {shape.text: shape.at for shape in lettering.shapes if isinstance(shape, Words)}
    assert spot["First"][1] < 26
    assert spot["Second"][1] > 26


def test_the_same_labels_give_the_same_places() -> None:
    labels = [
        Label(text=name, word="plan", grade=Grade.PLAN, at=(30 + 45 * place, 120))
        for place, name in enumerate(NAMES)
    ]
    assert letter(of(labels), 1.0, clean) == letter(of(labels), 1.0, clean)


def test_the_words_keep_their_size_whatever_the_scale() -> None:
    label = Label(text="Wheel", word="clear", grade=Grade.CLEAR, at=(240, 120))
    for scale in (0.5, 1.0, 1.4):
        lettering = letter(of([label]), scale, clean)
        assert {shape.size for shape in lettering.shapes if isinstance(shape, Words)} == {8.0}
        assert all(line.points[-1] == (240 * scale, 120 * scale) for line in leaders(lettering))


def test_no_room_at_all_is_told_in_the_key() -> None:
    lettering = letter(
        of([Label(text="Wheel", word="stop", grade=Grade.STOP, at=(5, 5))], (200.0, 12.0)), 1.0, clean
    )
    assert lettering.key > 0
    assert {"Wheel", "stop"} <= {shape.text for shape in lettering.shapes if isinstance(shape, Words)}
