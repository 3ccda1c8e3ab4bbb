"""The demonstration case: both folders are in order, grade as the case tells, and show what the format can do.

Expected grades are those of the invented case, written down by hand beside the rule that leads to them; the folder's
own numbers are not copied from a run of the program.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator
from itertools import takewhile

import pytest

from reporter.model.assessment import Assessments
from reporter.model.findings import Component
from reporter.model.history import Changed
from reporter.model.job import Job
from reporter.model.photo import (
    Arrow,
    Blur,
    Box,
    Inset,
    LabelMark,
    Mark,
    OffsetBasis,
    PhotoUse,
    Point,
    Ring,
    Ruler,
)
from reporter.model.terms import Extent, Grade
from reporter.outline import outline
from reporter.outline.outlook import refusals
from reporter.wording import catalogue
from tests.outline.small import ROOT, graded_of, job_of, registry

FOLDERS = {"survey": ROOT / "demo_job", "outgoing": ROOT / "demo_job" / "outgoing"}
ABSENT_KINDS = {"bobstay", "other_steering", "rod"}
"""Kinds that an eleven-metre sloop with wheel, wire and a wire rig does not have."""
UNUSED = {"photos/chain_oiled.jpg"}
"""Sent by the owner, shows work of the year before: kept in the folder, used nowhere."""
SLOW = 3800.0
"""The compact's clock: 1 h 3 min 20 s slow."""

GRADES = {
    # stop: any one broken wire, a crack in a swage, a crack at a stanchion's weld
    "wire-starboard": Grade.STOP, "lifelines": Grade.STOP, "terminal-cap-starboard": Grade.STOP, "stanchions": Grade.STOP,
    # first: split pin missing (by rule stop, judged), one leg of a split pin gone, rust out of a chainplate's
    # seal, a halyard's core showing
    "quadrant": Grade.FIRST, "engine-controls": Grade.FIRST, "chainplate-starboard": Grade.FIRST, "halyards": Grade.FIRST,
    "wheel": Grade.PLAN, "wheel-brake": Grade.PLAN, "chain": Grade.PLAN, "sheave-starboard": Grade.PLAN,
    "rudder-bearing": Grade.PLAN, "spares": Grade.PLAN, "screw-cap-port": Grade.PLAN, "anchor-chain": Grade.PLAN,
    # watch: the port adjuster has 13 mm more take-up left than the starboard one
    "wire-port": Grade.WATCH,
    "pedestal": Grade.WATCH, "emergency-tiller": Grade.WATCH, "locker-stowage": Grade.WATCH,
    "sheave-port": Grade.CLEAR, "pilot-drive": Grade.CLEAR, "boom": Grade.CLEAR,
    # not seen, and not fitted
    "sheave-idlers": Grade.UNSEEN, "rudder-blade": Grade.UNSEEN, "forestay": Grade.UNSEEN, "running-backs": Grade.UNSEEN,
    "swivel": Grade.UNSEEN,
}  # fmt: skip
OUTGOING = Counter({Grade.CLEAR: 7, Grade.PLAN: 5, Grade.WATCH: 3, Grade.UNSEEN: 1})


def job(name: str) -> Job:
    return job_of(FOLDERS[name])


def graded(name: str, template: str = "") -> Assessments:
    return graded_of(FOLDERS[name], template or job(name).sheet.purpose)


def grades(name: str) -> dict[str, Grade]:
    return {part.component.id: part.grade for part in graded(name).components}


def uses(name: str) -> Iterator[tuple[Component, PhotoUse]]:
    for component in job(name).components:
        for use in component.photos:
            yield component, use


@pytest.mark.parametrize("name", FOLDERS)
def test_a_folder_is_in_order_and_nothing_had_to_be_coped_with(name: str) -> None:
    # reading raises with every problem; what was merely coped with stands in the remarks
    assert job(name).remarks == ()


def test_the_survey_grades_as_the_case_tells() -> None:
    found = grades("survey")
    assert {ident: found[ident] for ident in GRADES} == GRADES


def test_the_steering_has_one_stop_and_one_first_on_its_load_path() -> None:
    steering = [part for part in graded("survey").components if part.system == "steering" and part.load_path]
    counts = Counter(part.grade for part in steering)
    assert (counts[Grade.STOP], counts[Grade.FIRST]) == (1, 1)


def test_the_outgoing_record_grades_as_the_case_tells() -> None:
    assert Counter(grades("outgoing").values()) == OUTGOING


def test_the_inspector_has_judged_better_once_and_worse_never() -> None:
    """The half pin of the engine controls was called a stopgap once and judged worse; now the rule itself knows it."""
    moved = {
        part.component.id: part.grade.rank - part.computed.rank
        for part in graded("survey").components
        if part.judgement and part.computed is not Grade.UNSEEN
    }
    assert moved == {"quadrant": -1}


def test_one_reading_is_close_to_its_limit_and_the_report_says_what_would_settle_it() -> None:
    actions = {action.id for part in graded("survey").components for action in part.actions}
    assert "chain.settle_1" in actions


def test_every_installed_kind_is_in_the_survey() -> None:
    own = {
        each.name
        for each in registry().found
        if (each.group, each.distribution) == ("gudgeon.plugins", "gudgeon")
    }
    assert own - {component.kind for component in job("survey").components} == ABSENT_KINDS


def test_not_seen_and_not_fitted_are_both_shown() -> None:
    extents = Counter(component.examined.extent for component in job("survey").components)
    assert extents[Extent.NOT_SEEN] >= 2
    assert extents[Extent.NOT_FITTED] >= 1


def test_what_time_tells_has_one_of_each() -> None:
    history = graded("survey", "handover").history
    changed = {change.component: change.changed for change in history.changes}
    assert changed["wire-starboard"] is Changed.WORSE
    assert changed["sheave-port"] is Changed.RENEWED
    assert changed["sheave-idlers"] is Changed.NOT_SEEN
    states = Counter(each.state for each in history.carried)
    assert states["done"] >= 1
    assert states["declined"] >= 1


def test_wear_of_the_chain_is_forecast_and_broken_wires_are_not() -> None:
    forecasts = graded("survey", "handover").history.forecasts
    dated = {each.run.subject for each in forecasts if not each.refused}
    assert "elongation" in dated
    refused = [each for each in forecasts if each.refused]
    rows = list(refusals(tuple(refused), catalogue("en")))
    assert len(rows) == len({each.refused for each in refused}) < len(refused), "a reason is told once"
    told = dict(rows)
    assert all(each.run.title in told[each.refused] and each.run.at in told[each.refused] for each in refused)
    assert not any("broken" in each.run.subject for each in forecasts)


@pytest.mark.parametrize("name", FOLDERS)
def test_no_picture_is_used_twice_and_none_lies_idle_but_one(name: str) -> None:
    used = Counter(use.file for _, use in uses(name))
    assert [file for file, count in used.items() if count > 1] == []
    idle = {photo.name for photo in job(name).photos} - set(used)
    assert idle == (UNUSED if name == "survey" else set())


@pytest.mark.parametrize("name", FOLDERS)
def test_every_mark_lies_in_its_photo(name: str) -> None:
    outside = [
        (use.file, mark)
        for _, use in uses(name)
        for mark in use.marks
        for x, y in corners(mark, aspect(name, use.file))
        if not (-0.001 <= x <= 1.001 and -0.001 <= y <= 1.001)
    ]
    assert outside == []


def aspect(name: str, file: str) -> float:
    photo = job(name).photo(file)
    assert photo is not None
    return photo.width / photo.height


def corners(mark: Mark, wide: float) -> Iterator[Point]:
    """The points that a mark reaches to; radii are fractions of the photo's width."""
    if isinstance(mark, Ring | Inset):
        (x, y), radius = mark.at, mark.radius
        yield from ((x - radius, y - radius * wide), (x + radius, y + radius * wide))
    elif isinstance(mark, Box | Blur):
        yield from (mark.corner, mark.opposite)
    elif isinstance(mark, Arrow):
        yield from (mark.tail, mark.head)
    elif isinstance(mark, Ruler):
        yield from (mark.start, mark.end)
    else:
        yield mark.at


@pytest.mark.parametrize("name", FOLDERS)
def test_callouts_are_repeated_in_the_words_and_labels_are_short(name: str) -> None:
    for component, use in uses(name):
        words = f"{use.caption} {component.found}"
        for mark in use.marks:
            if mark.callout is not None:
                assert re.search(rf"\({mark.callout}\)", words), (use.file, mark.callout)
            assert not isinstance(mark, LabelMark) or len(mark.text) <= 24, mark


def test_every_kind_of_mark_is_shown_but_the_blur() -> None:
    kinds = {mark.kind for name in FOLDERS for _, use in uses(name) for mark in use.marks}
    assert kinds == {"ring", "box", "arrow", "line", "label", "inset"}


@pytest.mark.parametrize("name", FOLDERS)
def test_private_notes_stay_in_the_folder(name: str) -> None:
    private = [component.private.strip() for component in job(name).components if component.private]
    assert bool(private) == (name == "survey")
    template = registry().template(job(name).sheet.purpose)
    report = outline(job(name), graded(name), template, registry())
    told = report.model_dump_json(exclude={"attachments"}) + "".join(
        each.content.decode("utf-8") for each in report.attachments
    )
    assert [text for text in private if text[:30] in told] == []


def test_two_cameras_and_one_slow_clock() -> None:
    photos = job("survey").photos
    assert {photo.camera for photo in photos} == {"Example Phone", "Example Compact", ""}
    for photo in photos:
        if photo.taken is None:
            continue
        compact = photo.camera == "Example Compact"
        basis = OffsetBasis.ASSUMED if compact else OffsetBasis.WRITTEN
        assert (photo.taken.correction, photo.taken.offset_basis) == (SLOW if compact else 0.0, basis)
        assert photo.taken.offset_minutes == 60


def test_corrected_times_lie_within_the_visit() -> None:
    times = [photo.taken.time for photo in job("survey").photos if photo.taken]
    day = job("survey").sheet.inspection.last_day
    assert {time.date() for time in times} == {day}
    assert (min(times).hour, max(times).hour) == (9, 14)


def test_one_photo_has_a_position_one_used_one_no_time_and_one_a_serial_number() -> None:
    from PIL import Image

    photos = job("survey").photos
    assert [photo.name for photo in photos if photo.has_position] == ["photos/wheel_hub.jpg"]
    timeless = {photo.name for photo in photos if photo.taken is None}
    assert timeless - UNUSED == {"photos/emergency_tiller.jpg"}
    serials = []
    for photo in photos:
        with Image.open(FOLDERS["survey"] / photo.name) as image:
            if image.getexif().get_ifd(0x8769).get(0xA431):
                serials.append(photo.name)
    assert serials == ["photos/wire_broken.jpg"]


def test_the_phones_of_the_outgoing_record_are_of_its_own_days() -> None:
    days = set(job("outgoing").sheet.inspection.dates)
    assert {photo.taken.time.date() for photo in job("outgoing").photos if photo.taken} <= days


def test_the_soonest_forecasts_come_first_and_are_drawn() -> None:
    template = registry().template("handover")
    blocks = outline(job("survey"), graded("survey", "handover"), template, registry()).blocks
    at = next(place for place, block in enumerate(blocks) if getattr(block, "anchor", "") == "forecast")
    section = list(takewhile(lambda block: block.kind != "heading", blocks[at + 1 :]))
    told = [block for block in section if block.kind == "figure" or "strong" in str(block)]
    assert [block.kind for block in told[:5]] == ["paragraph", "figure", "paragraph", "figure", "paragraph"]
    assert "Steering chain" in str(told[0]), "within the year"
