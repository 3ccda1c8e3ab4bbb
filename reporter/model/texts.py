"""How long a text of the job folder may be: as long as its place in every document, on every page, can hold.

A longer one is told at collecting, with file, line and key, so that no document fails later for a text that was taken.
`tests/documents/test_long_texts.py` lays out all of them at their longest, as words and as one word.
"""

from __future__ import annotations

from typing import Annotated

from pydantic import Field

Ident = Annotated[str, Field(pattern=r"^[a-z0-9][a-z0-9_.-]{0,47}$")]
Mark = Annotated[str, Field(max_length=40)]
"""Stands on a photo or a drawing."""
Label = Annotated[str, Field(max_length=80)]
"""Stands beside a value, or at the edge of a page."""
Standing = Annotated[str, Field(max_length=120)]
"""Stands under a name that signs."""
ShortText = Annotated[str, Field(min_length=1, max_length=200)]
"""A name or a sentence that must be there."""
Line = Annotated[str, Field(max_length=200)]
"""The same where it may be left out."""
Caption = Annotated[str, Field(max_length=400)]
"""Stands under a photo, which shares the page with it."""
Note = Annotated[str, Field(max_length=800)]
"""Some sentences in a row of a table."""
Prose = Annotated[str, Field(max_length=40_000)]
"""Paragraphs, which run on over pages."""
