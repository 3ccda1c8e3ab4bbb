"""A good job folder with two made-up component kinds, and the means to spoil it.

The kinds exist only here: what collecting does must follow from a declaration, not from the kinds that are installed.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from pathlib import Path
from types import SimpleNamespace
from typing import TYPE_CHECKING, cast

import pytest

from reporter.model.assessment import Assessment
from reporter.model.citation import Citation, Limit
from reporter.model.photo import PhotoFile
from reporter.model.plugin import (
    Choice,
    DetailField,
    ExaminationItem,
    Observation,
    Plugin,
    ProofItem,
    Quantity,
)
from reporter.model.template import Template
from reporter.model.terms import Dimension, Grade, LimitBasis, LimitKind, Sense, SourceStatus

if TYPE_CHECKING:
    from reporter.collect.check_job import Installed
    from reporter.model.sheet import CameraClock

GOOD = {
    "job.yaml": """\
format: 1
purpose: trial
report:
  number: T-1
vessel:
  name: Invented
  built: 2004
  beam: 3.65 m
  displacement: 6900 kg
people:
  - role: author
    name: A. Tester
inspection:
  dates: [2026-05-11, 2026-05-12]
  place: a berth
  time_zone: +01:00
instruments:
  - id: rule
    kind: steel rule
    resolution: 0.5 mm
""",
    "findings.yaml": """\
format: 1
components:
  - id: port-belt
    kind: belt
    details:
      pitch: 12.7 mm
      material: {value: steel, basis: stamped}
      teeth: 13
      fitted: {value: 2016, basis: told}
    examined:
      extent: seen
      how: [hand, eye]
      included: [all_round]
    observed:
      rust: surface
      joint:
        - choice: tight
          at: upper end
    found: Little worn.
    proved: [direction]
    photos:
      - belt.jpg
  - id: cloth
    kind: rope
    examined: part_seen
""",
    "measurements.csv": """\
component,quantity,at,state,side,value,unit,uncertainty,instrument,note
port-belt,span,top,found,,254.5,mm,0.5,rule,
port-belt,span,bottom,found,,10 in,,,,
port-belt,pitches,,,,20,,,,
""",
    "photos/belt.jpg": "not looked into here",
}


def _limit(ident: str, value: float) -> Limit:
    source = Citation(title="invented for a test", status=SourceStatus.MEMORY, basis=LimitBasis.PRACTICE)
    return Limit(
        id=ident, quantity="stretch", value=value, unit="%", sense=Sense.AT_MOST, then=Grade.PLAN,
        kind=LimitKind.CONDITION, source=source,
    )  # fmt: skip


BELT = Plugin(
    kind="belt",
    title="Drive belt",
    system="steering",
    load_path=True,
    station="pedestal",
    examination=(ExaminationItem(id="all_round", words="the whole belt"), ExaminationItem(id="pins", words="both pins")),
    proof=(ProofItem(id="direction", words="helm to starboard gives rudder to starboard"),),
    details=(
        DetailField(id="pitch", title="Pitch", holds="length", unit="mm", plausible=(6, 40)),
        DetailField(id="teeth", title="Teeth", holds="count", plausible=(6, 60)),
        DetailField(id="fitted", title="Fitted", holds="date"),
        DetailField(id="pull", title="Marked strength", holds="force", unit="kN", plausible=(1, 90)),
        DetailField(id="material", title="Material", holds="choice",
                    choices={"steel": "plain steel", "stainless": "stainless steel"}),
        DetailField(id="maker", title="Marks on it", holds="words"),
    ),
    readings=(
        Quantity(id="span", title="Span", dimension=Dimension.LENGTH, unit="mm", method="rule", plausible=(50, 400)),
        Quantity(id="pitches", title="Pitches", dimension=Dimension.COUNT, unit="", method="counted", plausible=(4, 60)),
        Quantity(id="slack", title="Slack", dimension=Dimension.LENGTH, unit="mm", method="rule", plausible=(0, 60),
                 per_side=True),
        Quantity(id="flex", title="Flex", dimension=Dimension.LENGTH, unit="mm", method="rule", plausible=(0, 60),
                 only_if={"material": ("stainless",)}),
        Quantity(id="tension", title="Tension", dimension=Dimension.FORCE, unit="N", method="gauge", plausible=(10, 5000)),
    ),
    observations=(
        Observation(id="rust", title="Rust", choices=(
            Choice(id="none", words="no rust", grade=Grade.CLEAR),
            Choice(id="surface", words="rust that a cloth takes off", grade=Grade.WATCH),
            Choice(id="pitted", words="pits", grade=Grade.FIRST))),
        Observation(id="joint", title="Joint", choices=(
            Choice(id="tight", words="tight", grade=Grade.CLEAR), Choice(id="loose", words="loose", grade=Grade.STOP))),
    ),
    limits=(_limit("belt.stretch", 3.0), _limit("belt.stretch_early", 1.5)),
    assess=lambda _: Assessment(),
)  # fmt: skip
ROPE = Plugin(
    kind="rope", title="Rope", system="steering", load_path=True, station="pedestal",
    limits=(_limit("rope.stretch", 5.0),), assess=lambda _: Assessment(),
)  # fmt: skip


def read_names(
    files: list[Path], folder: Path, *, time_zone: str, clocks: Sequence[CameraClock] = ()
) -> list[PhotoFile]:
    """Photo files by name only; one called broken.jpg cannot be shown."""
    del time_zone, clocks
    problem = "it is cut off: copy it from the camera again"
    return [
        PhotoFile(
            name=each.relative_to(folder).as_posix(), sha256="0" * 64, size_bytes=each.stat().st_size,
            problem=problem if each.name == "broken.jpg" else "",
        )
        for each in files
    ]  # fmt: skip


@pytest.fixture(scope="session")
def installed() -> Installed:
    """Two kinds and one template."""
    template = Template(id="trial", title_id="trial", sections=("first_page",))
    return cast(
        "Installed", SimpleNamespace(plugins={"belt": BELT, "rope": ROPE}, templates={"trial": template})
    )


@pytest.fixture(scope="session")
def photos() -> Callable[..., list[PhotoFile]]:
    """A photo reader that opens nothing."""
    return read_names


@pytest.fixture(scope="session")
def good() -> Mapping[str, str]:
    """The files of a good folder, as text."""
    return GOOD


Write = Callable[..., Path]


@pytest.fixture
def folder(tmp_path: Path) -> Write:
    """Writes a good folder with some files replaced (None: left out) and returns it."""

    def write(changes: Mapping[str, str | bytes | None] | None = None, name: str = "job") -> Path:
        root = tmp_path / name
        for path, content in {**GOOD, **(changes or {})}.items():
            if content is not None:
                target = root / path
                target.parent.mkdir(parents=True, exist_ok=True)
                target.write_bytes(content if isinstance(content, bytes) else content.encode())
        return root

    return write
