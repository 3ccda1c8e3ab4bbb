"""Component kinds as data: one TOML file tells a kind whole.

Comes in: the text of a kind's file. Goes out: a `Plugin`. It opens no job folder and judges nothing; the one piece of
code that a file may name (`assess`) is imported when it is first called.
"""

from reporter.kinds.reading import parse_kind, read_kind

__all__ = ["parse_kind", "read_kind"]
