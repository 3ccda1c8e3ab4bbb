"""Where each mark, disc, plate and inset lands on a photo of 400 by 300 points, worked out by hand.

Letters are 4 points wide here, so that a plate's size is known: 4 for each letter, 10 for each line, 2.6 of white round
the words (8 off the last line's leading). The nearest places of a plate lie 7 points off its target.
"""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from reporter.model.photo import Arrow, Blur, Box, Inset, LabelMark, Mark, Ring, Ruler
from reporter.typeset.marks import Disc, Glass, Oval, Overlay, Plate, Stroke, overlay
from reporter.typeset.places import Area, Places, anywhere, round_spots

SIZE = (400.0, 300.0)
MIDDLE = (200.0, 150.0)
Spot = tuple[float, float]


def lay(
    *marks: Mark, size: Spot = SIZE, keyed: tuple[str, ...] | None = None, letter: float = 4.0
) -> Overlay:
    """The overlay with words that are never broken."""
    return overlay(marks, size, lambda text, _: [text], lambda text: letter * len(text), keyed)


def near(shown: object) -> object:
    """Spots to be compared within a thousandth of a point."""
    return pytest.approx(shown, abs=1e-3)


def disc(laid: Overlay) -> Disc:
    """The only disc."""
    (found,) = (shape for shape in laid.shapes if isinstance(shape, Disc))
    return found


def plate(laid: Overlay) -> Plate:
    """The only plate."""
    (found,) = (shape for shape in laid.shapes if isinstance(shape, Plate))
    return found


def strokes(laid: Overlay) -> list[Stroke]:
    """Lines in painting order."""
    return [shape for shape in laid.shapes if isinstance(shape, Stroke)]


def off_middle(spot: Spot) -> Spot:
    """Distances from the photo's middle; the four quarters are alike there, and any may be taken."""
    return abs(spot[0] - MIDDLE[0]), abs(spot[1] - MIDDLE[1])


def test_a_ring_and_its_number() -> None:
    """A circle: its radius is a share of the width both ways. Its number stands 7.6 off, clear of the square around it."""
    laid = lay(Ring(at=(0.5, 0.5), radius=0.1, callout=7))
    assert laid.shapes[0] == Oval(MIDDLE, (40, 40))
    assert disc(laid).text == "7"
    across, down = sorted(off_middle(disc(laid).centre), reverse=True)
    assert (across, down) == near((47.6 * math.cos(math.radians(15)), 47.6 * math.sin(math.radians(15))))


def test_a_box_and_its_number() -> None:
    """Any two opposite corners; the number at the upper left one, 7.6 out both ways."""
    laid = lay(Box(corner=(0.5, 0.75), opposite=(0.25, 0.5), callout=2))
    assert laid.shapes[0] == Stroke(((100, 150), (200, 150), (200, 225), (100, 225)), closed=True)
    assert disc(laid).centre == near((92.4, 142.4))


def test_an_arrow_and_its_number() -> None:
    """The head is 7 long and 2 times 2.66 wide; the number stands 8.6 from the tail, clear of the shaft."""
    laid = lay(Arrow(tail=(0.25, 0.5), head=(0.75, 0.5), callout=3))
    shaft, head = strokes(laid)
    assert shaft == Stroke(((100, 150), (300, 150)))
    assert (head.closed, head.filled) == (True, True)
    assert [*head.points] == [near(spot) for spot in ((300, 150), (293, 152.66), (293, 147.34))]
    assert disc(laid).centre == near(
        (100 - 8.6 * math.cos(math.radians(15)), 150 + 8.6 * math.sin(math.radians(15)))
    )


def test_two_numbers_keep_a_point_of_air() -> None:
    """The corners of two boxes lie 11.7 apart, half a point more than a disc is wide: too little for both numbers."""
    boxes = [
        Box(corner=(left / 400, 0.5), opposite=(0.6, 0.8), callout=number)
        for number, left in enumerate((100, 111.7), start=1)
    ]
    one, other = (shape.centre for shape in lay(*boxes).shapes if isinstance(shape, Disc))
    assert one == near((92.4, 142.4))
    assert max(abs(one[0] - other[0]), abs(one[1] - other[1])) >= 12.2


def test_a_slanting_arrows_head_lies_along_it() -> None:
    """3, 4, 5: the foot of the head lies 7 back along the shaft, 2.66 to either side."""
    _, head = strokes(lay(Arrow(tail=(0.25, 0.25), head=(0.4, 0.5166666666666667))))
    back = (160 - 7 * 0.6, 155 - 7 * 0.8)
    assert [*head.points] == [
        near(spot)
        for spot in (
            (160, 155),
            (back[0] - 2.66 * 0.8, back[1] + 2.66 * 0.6),
            (back[0] + 2.66 * 0.8, back[1] - 2.66 * 0.6),
        )
    ]


def test_a_line_its_end_ticks_and_its_length() -> None:
    """Ticks reach 4.5 to either side. The plate (29.2 by 13.2) hangs at a slant, off the line's own 5 points."""
    laid = lay(Ruler(start=(0.25, 0.5), end=(0.75, 0.5), length=" 254 mm "))
    assert [shape.points for shape in strokes(laid)] == [
        ((100, 150), (300, 150)),
        ((100, 154.5), (100, 145.5)),
        ((300, 154.5), (300, 145.5)),
    ]
    shown = plate(laid)
    assert shown.lines == ("254 mm",)
    assert (shown.area.right - shown.area.left, shown.area.bottom - shown.area.top) == near((29.2, 13.2))
    slant = math.sqrt(0.5)
    assert off_middle(shown.area.middle) == near((slant * (7 + 14.6), slant * (7 + 6.6)))


def test_a_lines_number_stands_past_its_beginning() -> None:
    """8.6 past it, or past the other end where that is taken; a line without a length has no plate."""
    line = Ruler(start=(0.25, 0.5), end=(0.75, 0.5), length="  ", callout=4)
    assert disc(lay(line)).centre == near((91.4, 150))
    assert not any(isinstance(shape, Plate) for shape in lay(line).shapes)
    assert disc(lay(Box(corner=(0.1, 0.3), opposite=(0.3, 0.7)), line)).centre == near((308.6, 150))


def test_a_label_and_the_line_to_its_place() -> None:
    """A plate of 37.2 by 13.2 beside the place, 22.5 degrees off the level; a line from its edge, and a dot."""
    laid = lay(LabelMark(at=(0.5, 0.5), text="dry link"))
    turn = math.radians(22.5)
    assert off_middle(plate(laid).area.middle) == near(
        (math.cos(turn) * (7 + 18.6), math.sin(turn) * (7 + 6.6))
    )
    gap = math.cos(turn) * 25.6 - 18.6
    (leader,) = strokes(laid)
    assert off_middle(leader.points[0]) == near((gap, 0))
    assert leader.points[1] == MIDDLE
    assert Oval(MIDDLE, (1.2, 1.2)) in laid.shapes


def test_a_labels_number_stands_before_its_words() -> None:
    assert plate(lay(LabelMark(at=(0.5, 0.5), text="dry link", callout=5))).lines == ("5 dry link",)


def test_an_inset_and_the_line_to_its_source() -> None:
    """Two times 20 points twice enlarged are 80. The upper left corner would hide the source: the left edge is next."""
    laid = lay(Inset(at=(0.25, 0.25), radius=0.05, zoom=2))
    assert laid.shapes[0] == Oval((100, 75), (20, 20))
    (glass,) = (shape for shape in laid.shapes if isinstance(shape, Glass))
    assert glass == Glass(Area(4.5, 110, 84.5, 190), 0)
    (line,) = strokes(laid)
    far = math.hypot(55.5, 75)
    assert line.points[0] == near((100 - 20 * 55.5 / far, 75 + 20 * 75 / far))
    assert line.points[1] == near((44.5 + 40 * 55.5 / far, 150 - 40 * 75 / far))


def test_an_inset_takes_no_more_than_its_share() -> None:
    """At most 0.36 of the shorter side, however much it enlarges."""
    (glass,) = (
        shape for shape in lay(Inset(at=(0.9, 0.9), radius=0.05, zoom=6)).shapes if isinstance(shape, Glass)
    )
    assert glass.area.right - glass.area.left == near(108)


def test_an_inset_that_touches_its_source_has_no_line() -> None:
    """In a corner their middles lie 38.9 apart, and the two radii are 25 and 18."""
    assert strokes(lay(Inset(at=(0.5, 0.5), radius=0.25, zoom=2), size=(100, 100))) == []


def test_what_is_blurred_has_no_outline_and_keeps_nothing_away() -> None:
    """The pixels are destroyed already: a label is put as if the rectangle were not there."""
    label = LabelMark(at=(0.5, 0.5), text="dry link")
    assert lay(Blur(corner=(0, 0), opposite=(1, 1)), label) == lay(label)


def test_words_are_broken_to_the_first_then_to_the_second_width() -> None:
    """At most 0.42 of the photo's width; where no such plate is free, 0.26; then a letter beside the place."""
    asked: list[float] = []

    def wrap(text: str, measure: float) -> list[str]:
        asked.append(measure)
        return [text]

    words = "x" * 80
    laid = overlay([LabelMark(at=(0.5, 0.5), text=words)], SIZE, wrap, lambda text: 6.0 * len(text))
    assert asked == near([168, 104])
    assert laid.keyed == (("a", words),)
    assert laid.is_clean
    assert disc(laid).text == "a"
    # All twelve spots 9.6 off touch the place itself; the next are 7 points from the first of these.
    assert off_middle(disc(laid).centre) == near((math.sqrt(0.5) * (9.6 + 7 + 5.6),) * 2)


def test_given_letters_are_kept_and_all_other_words_are_set() -> None:
    """At a smaller size a label keeps the letter that the caption explains; one that has none is set, clean or not."""
    marks = [LabelMark(at=(0.2, 0.5), text="one"), LabelMark(at=(0.8, 0.5), text="two")]
    laid = lay(*marks, keyed=("two",))
    assert plate(laid).lines == ("one",)
    assert laid.keyed == (("a", "two"),)
    assert laid.is_clean
    wide, narrow = LabelMark(at=(0.5, 0.5), text="x" * 80), LabelMark(at=(0.2, 0.2), text="one")
    for crowded in (lay(wide, narrow, keyed=(), letter=6), lay(narrow, wide, keyed=(), letter=6)):
        assert crowded.keyed == ()
        assert not crowded.is_clean


def test_more_labels_than_letters_begin_again() -> None:
    texts = [f"{number:03}" for number in range(28)]
    laid = lay(*(LabelMark(at=(0.5, 0.5), text=text) for text in texts), keyed=tuple(texts))
    assert [letter for letter, _ in laid.keyed] == [*"abcdefghijklmnopqrstuvwxyzab"]


def test_a_target_that_fills_the_photo_does_not_drive_labels_away() -> None:
    """Up to 0.3 of the photo nothing may cover what is pointed at; a larger box only prefers to be seen."""
    inside = LabelMark(at=(0.5, 0.5), text="dry link")
    held = Area(100, 75, 300, 225)  # a quarter of the photo
    assert plate(lay(Box(corner=(0.25, 0.25), opposite=(0.75, 0.75)), inside)).area.overlap(held) == 0
    whole = lay(Box(corner=(0, 0), opposite=(1, 1)), inside)
    assert whole.keyed == ()
    assert plate(whole).area.overlap(Area(0, 0, *SIZE)) > 0


ROOM = Area(10, 20, 110, 80)


def test_the_whole_room_is_looked_through_from_corner_to_corner() -> None:
    """19 by 19 places of the size asked for, left to right and then down."""
    found = list(anywhere(ROOM, (28, 24)))
    assert len(found) == 361
    assert found[0] == Area(10, 20, 38, 44)
    assert found[1] == Area(14, 20, 42, 44)
    assert found[19] == Area(10, 22, 38, 46)
    assert found[-1] == Area(82, 56, 110, 80)


def test_places_near_a_target_leave_the_gap_of_their_ring() -> None:
    """Straight up, right, down and left of the target the edge lies 7 points off, then 14."""
    near_it = list(Places(Area(-500, -500, 500, 500))._near((20, 10), (0, 0)))
    assert len(near_it) == 6 * 16
    up, right = near_it[14], near_it[2]
    assert (right.left, right.top, right.right, right.bottom) == near((7, -5, 27, 5))
    assert (up.left, up.top, up.right, up.bottom) == near((-10, -17, 10, -7)) or up.bottom == near(-7)
    assert [near_it[16 * ring + 2].left for ring in range(6)] == near([7, 14, 24, 38, 58, 84])


def test_a_place_that_is_taken_is_left_for_the_next() -> None:
    """The spots given come first; a clash is told where nothing at all is free."""
    places = Places(ROOM)
    spots = [(30.0, 40.0), (60.0, 40.0)]
    assert places.best((10, 10), spots[0], spots) == (Area(25, 35, 35, 45), False)
    places.forbid(Area(24, 34, 36, 46))
    assert places.best((10, 10), spots[0], spots) == (Area(55, 35, 65, 45), False)
    places.forbid(ROOM)
    assert places.best((10, 10), spots[0], spots)[1]


def test_a_line_is_covered_only_where_nothing_else_is_free() -> None:
    """Squares of 5 points along it, its ends among them."""
    places = Places(ROOM)
    places.avoid_line((20, 50), (30, 50))
    assert places._unwelcome == [Area.round((x, 50), 2.5) for x in (20, 25, 30)]
    slanting = Places(ROOM)
    slanting.avoid_line((20, 30), (26, 38))
    assert slanting._unwelcome == [Area.round(spot, 2.5) for spot in ((20, 30), (23, 34), (26, 38))]
    assert places._cost(Area(20, 50, 30, 60), (25, 55)) == near((0, 2.5 * 10))
    assert places._cost(Area(20, 50, 30, 60), (25, 65)) == near((0, 2.5 * 10 + 5))
    assert places._cost(Area(0, 50, 10, 60), (5, 55)) == near((100, 0))


def test_rectangles() -> None:
    """The plain geometry, by hand."""
    area = Area(0, 0, 10, 4)
    assert (area.middle, area.size) == ((5, 2), 40)
    assert list(area.rim) == [(0, 0), (10, 0), (10, 4), (0, 4), (5, 0), (10, 2), (5, 4), (0, 2)]
    assert area.overlap(Area(8, 3, 20, 20)) == 2
    assert area.overlap(Area(10, 0, 20, 4)) == area.overlap(Area(0, 4, 10, 8)) == 0
    assert area.overlap(Area(-4, -4, 1, 1)) == 1
    assert area.nearest((12, -3)) == (10, 0)
    assert area.nearest((3, 9)) == (3, 4)
    assert area.holds(area)
    assert not any(area.holds(area.grown(by)) for by in (0.1, 1))
    assert Area(0, 0, 10, 10).pushed_into(ROOM) == Area(10, 20, 20, 30)
    assert Area(105, 75, 115, 85).pushed_into(ROOM) == Area(100, 70, 110, 80)
    assert Area(0, 0, 300, 10).pushed_into(ROOM) == Area(10, 20, 310, 30)


def test_spots_round_a_place_begin_at_the_upper_right_and_go_clockwise() -> None:
    first, second, *_ = spots = list(round_spots((100, 50), 10))
    assert len(spots) == 12
    assert first == near((100 + 10 * math.sqrt(0.5), 50 - 10 * math.sqrt(0.5)))
    assert second == near((100 + 10 * math.cos(math.radians(15)), 50 - 10 * math.sin(math.radians(15))))


@settings(max_examples=30)
@given(
    st.lists(st.builds(Inset, at=st.tuples(*[st.floats(0, 1)] * 2), radius=st.floats(0.01, 0.1), zoom=st.floats(1.5, 6)),
             min_size=2, max_size=4, unique_by=lambda mark: mark.at),
    st.sampled_from([0.66, 1.0, 1.5]),
)  # fmt: skip
def test_a_magnified_piece_covers_no_others_source(marks: list[Inset], ratio: float) -> None:
    """Two discs are clear of one another when their middles lie as far apart as both radii together."""
    width, height = 400.0, 400.0 * ratio
    pieces = [each for each in lay(*marks, size=(width, height)).shapes if isinstance(each, Glass)]
    assert len(pieces) == len(marks)
    for piece in pieces:
        reach = (piece.area.right - piece.area.left) / 2
        for number, mark in enumerate(marks):
            far = math.dist(piece.area.middle, (mark.at[0] * width, mark.at[1] * height))
            assert number == piece.number or far > reach + mark.radius * width - 0.01
