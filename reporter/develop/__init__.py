"""The fourth stage: from the photos that a report uses to copies, insets and plates.

`develop` makes them, `reckon` tells the room that they take; `kept_pictures` is the folder in which they are kept from one run
to the next.
"""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from reporter.develop.developing import develop as develop
    from reporter.develop.kept import kept_pictures as kept_pictures
    from reporter.develop.room import reckon as reckon

_STANDS_IN = {"develop": "developing", "kept_pictures": "kept", "reckon": "room"}


def __getattr__(name: str) -> object:
    """Fetches a public name when it is asked for: a worker imports this package without the model."""
    if name not in _STANDS_IN:
        message = f"module {__name__!r} has no attribute {name!r}"
        raise AttributeError(message)
    return getattr(import_module(f"{__name__}.{_STANDS_IN[name]}"), name)
