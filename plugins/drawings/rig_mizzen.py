"""The mizzen of a ketch or yawl from the side, abaft the main boom: mast, boom, and the stays that the job lists.

Comes in: the sizes, the parts of the mizzen by place, and a frame. Goes out: shapes, points, labels. Its sizes are usual
proportions and serve the picture only. A part to be put right first has a label of its own, so that none is lost in a number.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from reporter.contract import XY, DrawingWords, Grade, Label, Room, Shape

from . import rig_shapes as shapes
from .naming import Parts, named

FROM_STEM, HIGH, BOOM, STEP, SPREADERS = 0.8, 0.62, 0.2, 0.035, 0.55
"""Of the length overall: where she stands, her boom, how far abaft her foot her shrouds stand; of the main mast: her height;
of her own height: her spreaders."""
SHROUDS = ("cap_shroud", "intermediate", "rigging_screw", "chainplate", "lower_ends", "upper_ends")
PREFIX = "mizzen_"


def anchors(foot: XY, head: XY, overall: float, stern: XY) -> dict[str, XY]:
    """The points of the mizzen's places, in a view with her foot and head on the page and this length overall in points."""
    deck = (foot[0] + STEP * overall, foot[1])
    gooseneck = shapes.along(foot, head, 0.14)
    boom_end = (gooseneck[0] + BOOM * overall, gooseneck[1])
    fore = (foot[0] - 0.14 * overall, foot[1])
    at = {
        "foot": foot, "head": head, "deck": deck, "gooseneck": gooseneck, "boom_end": boom_end, "fore": fore,
        "mast": shapes.along(foot, head, 0.7), "mast_foot": foot, "boom": shapes.along(gooseneck, boom_end, 0.6),
        "spreader": shapes.along(foot, head, SPREADERS), "cap_shroud": shapes.along(deck, head, 0.6),
        "intermediate": shapes.along(deck, head, 0.75), "lower": shapes.along(deck, _roots(foot, head), 0.6),
        "upper_ends": head, "lower_ends": deck, "rigging_screw": deck, "chainplate": deck,
        "forestay": shapes.along(fore, head, 0.4), "inner_forestay": shapes.along(fore, head, 0.3), "stem": fore,
        "backstay": shapes.along(stern, head, 0.4), "backstay_gear": shapes.along(stern, head, 0.1), "stern": stern,
    }  # fmt: skip
    return {f"{PREFIX}{name}": point for name, point in at.items()}


def _roots(foot: XY, head: XY) -> XY:
    return shapes.along(foot, head, SPREADERS)


def drawn(places: Mapping[str, Parts], at: Mapping[str, XY]) -> Iterator[Shape]:
    """Mast, boom and shrouds, dashed where they are not listed; other stays where they are."""
    point = {name.removeprefix(PREFIX): each for name, each in at.items() if name.startswith(PREFIX)}
    shrouds = any(places.get(place) for place in SHROUDS)
    yield shapes.stay(point["deck"], point["head"], dashed=not shrouds, weight="fine")
    if places.get("lower"):
        yield shapes.stay(point["deck"], point["spreader"], dashed=False, weight="fine")
    for place, foot in (("forestay", "fore"), ("inner_forestay", "fore"), ("backstay", "stern")):
        if places.get(place):
            yield shapes.stay(point[foot], point["head"], dashed=False, weight="fine")
    yield shapes.spar(point["gooseneck"], point["boom_end"], 2.4, dashed=not places.get("boom"))
    yield shapes.spar(point["foot"], point["head"], 2.8, dashed=not places.get("mast"))


def spot(place: str, at: Mapping[str, XY]) -> XY:
    """Where a part of the mizzen is shown; one that no place tells stands at her mast."""
    return at.get(f"{PREFIX}{place}", at[f"{PREFIX}mast"])


def labels(
    places: Mapping[str, Parts], titles: Mapping[str, str], at: Mapping[str, XY], rooms: tuple[Room, ...],
    told: DrawingWords,
) -> Iterator[Label]:  # fmt: skip
    """What comes first by its own name, the rest of each place together."""
    for place, parts in places.items():
        alone = [part for part in parts if part.grade in {Grade.STOP, Grade.FIRST}]
        rest = tuple(part for part in parts if part not in alone)
        title = told.say("drawing.of_mizzen", title=titles.get(place, told.say("drawing.part_mast")))
        for group in (*((part,) for part in alone), *((rest,) if rest else ())):
            yield named(group, title, spot(place, at), rooms, told)
