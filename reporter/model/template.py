"""A report template: which sections, what it expects, what it discloses. Data only; a user can copy one.

Beside it the rules by which a version of a report leaves things out, and for which readers the program has such versions.
"""

from __future__ import annotations

from collections import Counter
from typing import Literal, get_args

from pydantic import Field, field_validator

from reporter.model.base import Noun

Rule = Literal["names", "author", "places", "boat", "told", "photos", "data"]
"""names: all people but the author, and lines that say by whom; author: the author too; places: where she lies and lay; boat: her
name and numbers; told: what somebody said, and what is known only so; photos: those that hold people or plates; data: the
attached data."""

RULES: tuple[Rule, ...] = get_args(Rule)
AUDIENCES: dict[str, tuple[Rule, ...]] = {
    "buyer": ("names", "told", "photos"),
    "public": ("names", "author", "places", "boat", "told", "photos", "data"),
}
"""Who gets which version. A buyer must know who looked at which boat; the public needs neither."""
VERSION = "version for: "
"""How the keyword of a file begins that names its readers."""


SectionName = Literal[
    "first_page",
    "contents",
    "at_a_glance",
    "particulars",
    "circumstances",
    "actions",
    "components",
    "not_seen",
    "opening_up",
    "sums",
    "boat",
    "photo_register",
    "method",
    "terms",
    "signatures",
    "history",
    "completion",
    "inventory",
    "incidents",
    "forecast",
    "schedule",
    "deviation",
    "opinion",
    "open_jobs",
    "shown",
    "supplies",
    "elsewhere",
    "about",
    "glossary",
]


SigningRole = Literal["author", "owner", "skipper_out", "skipper_in", "client", "underwriter", "witness"]


class Expectation(Noun):
    """What the template expects to be listed under one system for these steering gears or rigs ("any" for all)."""

    system: str
    when: tuple[str, ...] = ("any",)
    kinds: tuple[str, ...]


class Template(Noun):
    """A purpose of reporting.

    `title` and the other `*_id` keys are ids in the catalogue. `as_found_only` refuses work done without the owner's
    permission. `facts` are further lines of the first page, `signed_by` the roles that sign, `decision` whether the
    receiving party accepts, accepts with conditions or declines. `leaves_out` names the rules of what no report of this kind
    tells. `discloses` lists which data sets are attached to the
    PDF. `forecasts` lets wear be forecast. `due` sets other words for when an action of a grade is due (grade -> id in
    the catalogue). With `evidence` "serious" only parts graded `stop` or `first` are told with photos, bars and sums in
    place; the others are told in short.
    """

    id: str
    title_id: str
    owner_title_id: str = ""
    reader_id: str = ""
    sections: tuple[SectionName, ...]
    expects: tuple[Expectation, ...] = ()
    leaves_out: tuple[Rule, ...] = ()
    discloses: tuple[Literal["job", "findings", "measurements", "assessments", "photo_register"], ...] = ()
    facts: tuple[Literal["parties", "log", "rig_age", "mast_out", "last_check"], ...] = ()
    signed_by: tuple[SigningRole, ...] = ("author",)
    decision: bool = False
    as_found_only: bool = False
    shows_score: bool = True
    forecasts: bool = False
    due: dict[Literal["watch", "plan", "first", "stop", "unseen"], str] = {}
    recommends: tuple[Literal["watch", "plan", "first", "stop", "unseen"], ...] = Field(
        default=("watch", "plan", "first", "stop", "unseen")
    )
    evidence: Literal["serious", "all"] = "all"
    photo_sizes: dict[Literal["stop", "first", "other"], Literal["full", "column", "half"]] = {}
    dots_per_inch: int = 220

    @field_validator("sections", "discloses", "facts", "signed_by")
    @classmethod
    def _each_once(cls, names: tuple[str, ...]) -> tuple[str, ...]:
        twice = [name for name, count in Counter(names).items() if count > 1]
        if twice:
            raise ValueError(f"{', '.join(twice)}: once is enough")
        return names
