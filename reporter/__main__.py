"""`python -m reporter` is refused: it would put the current folder, which may be a job folder, on the import path."""

from __future__ import annotations

import sys

if not sys.flags.safe_path:
    sys.exit(
        "Use the command 'gudgeon' (or python -P -m reporter): plain 'python -m' would run code from this folder."
    )

from reporter.cli import main

main()
