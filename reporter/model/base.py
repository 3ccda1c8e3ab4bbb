"""The one base of every noun: frozen, closed to unknown keys, compared by value."""

from __future__ import annotations

from pydantic import BaseModel, ConfigDict


class Noun(BaseModel):
    """A frozen value; an unknown key is an error, never ignored."""

    model_config = ConfigDict(frozen=True, extra="forbid", arbitrary_types_allowed=True, defer_build=True)
