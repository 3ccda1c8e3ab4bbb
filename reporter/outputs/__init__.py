"""What the program tells beside its reports, over the same content: lines for a terminal, CSV, calendar, Markdown.

Comes in: graded jobs, kinds, the registry. Goes out: text. It prints and writes nothing itself, and judges nothing.
"""

from __future__ import annotations
