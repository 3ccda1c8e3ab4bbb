"""Text that PDF strings and XMP can both hold."""

from __future__ import annotations

import re

_NOT_XML = re.compile("[^\t\n\r\u0020-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")


def storable(text: str) -> str:
    """Leave out what XML cannot carry (XML 1.0, production 2); every run of white space becomes one space.

    The Info dictionary and the XMP packet must say the same, so both are given this text.
    """
    return " ".join(_NOT_XML.sub(" ", text).split())
