"""What reading a stranger's or a damaged PDF raises, and how one that is locked is told."""

from __future__ import annotations

import zlib
from pathlib import Path

import pikepdf

from reporter.errors import VerificationError

UNREADABLE = (
    pikepdf.PdfError, TypeError, ValueError, KeyError, AttributeError, RuntimeError, zlib.error,
)  # fmt: skip
"""RuntimeError comes of structures that lead round in a circle (RecursionError), and of what qpdf did not expect."""
LOCKED = pikepdf.PasswordError


def locked(path: Path) -> VerificationError:
    """A file that needs a password: nothing of it can be read."""
    message = f"{path} is locked with a password; this program locks no file."
    return VerificationError(message, "Ask for the file as it was first made.")
