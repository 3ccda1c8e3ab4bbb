"""Plain data as YAML text, in the manner of a person: short things on one line, long texts folded.

Every scalar is tried out with the reader of YAML before it is used, and written in quotes where it would be misread.
"""

from __future__ import annotations

import json
import re
import textwrap
from dataclasses import dataclass, field

import yaml

from reporter.editing.edit import Plain

LOADER: type = getattr(yaml, "CBaseLoader", yaml.BaseLoader)
"""libyaml's, where it is there: ten times as quick."""
WIDTH = 118
LONGEST_LINE = 96
"""A longer text is folded, a longer list or mapping is written on lines of its own."""
NULLS = {"~", "null", "Null", "NULL"}
OPENED = {"id", "file", "what"}
"""An entry that has one of these grows: it is written on lines of its own."""
GROWING = {"components", "photos", "marks", "actions"}
_ESCAPED = re.compile("[\x7f-\x9f\u2028\u2029\ufeff]")


@dataclass(frozen=True)
class Written:
    """A value as text: what follows the key or dash on its line, and the lines below."""

    head: str
    body: list[str] = field(default_factory=list)


def written(value: Plain, indent: int, style: str = "", *, grows: bool = False) -> Written:
    """`value` for block style, its lower lines at `indent`; `style` is the quote or sign of the text it replaces."""
    if isinstance(value, str):
        return _folded(value, indent, style) or Written(one_line(value, style))
    flow = in_flow(value)
    if len(flow) + indent <= LONGEST_LINE and _is_closed(value) and not grows:
        return Written(flow)
    lines = _entries(value, indent) if isinstance(value, dict) else _items(value, indent)
    return Written("", lines)


def entry(key: str, value: Plain, indent: int, style: str = "") -> list[str]:
    """The lines of `key: value` in a mapping at `indent`."""
    told = written(value, indent + 2, style, grows=key in GROWING)
    return [f"{' ' * indent}{one_line(key)}:{' ' if told.head else ''}{told.head}", *told.body]


def item(value: Plain, indent: int) -> list[str]:
    """The lines of one entry of a list whose dashes stand at `indent`."""
    told = written(value, indent + 2)
    if told.head:
        return [f"{' ' * indent}- {told.head}", *told.body]
    first, *rest = told.body
    return [f"{' ' * indent}- {first[indent + 2 :]}", *rest]


def in_flow(value: Plain) -> str:
    """`value` on one line, as it may stand between brackets."""
    if isinstance(value, dict):
        return "{" + ", ".join(f"{one_line(k, flow=True)}: {in_flow(v)}" for k, v in value.items()) + "}"
    if isinstance(value, list):
        return "[" + ", ".join(map(in_flow, value)) + "]"
    return one_line(value, flow=True)


def one_line(text: str, style: str = "", *, flow: bool = False) -> str:
    """`text` as a scalar on one line: in the quotes it had, else bare where that reads the same, else in quotes."""
    if style == "'" and text.isprintable():
        return "'" + text.replace("'", "''") + "'"
    if style != '"' and _reads_bare(text, flow=flow):
        return text
    quoted = json.dumps(text, ensure_ascii=False)
    return _ESCAPED.sub(lambda found: f"\\u{ord(found[0]):04x}", quoted)


def _reads_bare(text: str, *, flow: bool) -> bool:
    if text in NULLS or not text.isprintable() or text != text.strip():
        return False
    tries = (
        [f"[{text}, 1]", f"{{a: {text}}}", f"{{{text}: 1}}"]
        if flow
        else [f"k: {text}", f"- {text}", f"{text}: 1"]
    )
    wanted = [[text, "1"], {"a": text}, {text: "1"}] if flow else [{"k": text}, [text], {text: "1"}]
    # A text that is a value and no key may hold what a key may not, but nothing is lost by quoting it.
    return all(_reads(each) == data for each, data in zip(tries, wanted, strict=True))


def _reads(text: str) -> Plain:
    try:
        return yaml.load(text, Loader=LOADER)  # noqa: S506 - the base loader builds nothing but texts
    except (yaml.YAMLError, ValueError):
        return None


def _folded(text: str, indent: int, style: str) -> Written | None:
    """A long text or one of several lines, on lines of its own; None where it is short or would be misread."""
    if len(text) + indent <= LONGEST_LINE and "\n" not in text and style not in {">", "|"}:
        return None
    kept = text.endswith("\n")
    inner = text[:-1] if kept else text
    sign = style if style == "|" else ">"
    lines = inner.split("\n") if sign == "|" else _wrapped(inner, max(WIDTH - indent, 40))
    head = sign + ("" if kept else "-")
    body = [f"{' ' * indent}{line}" if line else "" for line in lines]
    tried = _reads("\n".join([f"{' ' * (indent - 1)}k: {head}" if indent > 1 else f"k: {head}", *body, ""]))
    return Written(head, body) if tried == {"k": text} else None


def _wrapped(text: str, width: int) -> list[str]:
    """Lines of a folded text: a new line within it is an empty line more."""
    lines: list[str] = []
    for number, paragraph in enumerate(text.split("\n")):
        lines += [""] if number else []
        lines += textwrap.wrap(paragraph, width, break_long_words=False, break_on_hyphens=False)
    return lines


def _is_closed(value: Plain) -> bool:
    """Whether a value may stand on one line: nothing in it is likely to grow."""
    if isinstance(value, dict):
        return not OPENED & set(value) and all(_is_leaf(each) for each in value.values())
    return isinstance(value, str) or all(isinstance(each, str) for each in value)


def _is_leaf(value: Plain) -> bool:
    return isinstance(value, str) or (
        isinstance(value, list) and all(isinstance(each, str) for each in value)
    )


def _entries(value: dict[str, Plain], indent: int) -> list[str]:
    return [line for key, each in value.items() for line in entry(key, each, indent)]


def _items(value: list[Plain], indent: int) -> list[str]:
    return [line for each in value for line in item(each, indent)]
