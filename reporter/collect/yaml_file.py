"""YAML text to a `YamlFile`: plain dicts, lists and strings, with the line of every entry.

In: the text of one file. Out: a sheet, or None with a problem in the ledger. Every scalar stays the string that was
written; the schema decides later what it is. Doubled keys, anchors, aliases, tags and merge keys are refused, and so is
what is nested too deeply. The file is read as events, so nothing is built before it has been looked at.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import Any

import yaml

from reporter.collect.ledger import Ledger
from reporter.collect.letters import all_seen, tell_unseen
from reporter.collect.yaml_words import in_plain_words

DEEPEST = 24
BLANKS = " \t\n\u00a0\u2007\u202f\u200b\u2060\ufeff"
"""What a text can be made of and still say nothing."""
Loc = tuple[str | int, ...]


@dataclass
class YamlFile:
    """One YAML file as read. `lines` maps a location to its line; `empty` holds keys with nothing after them."""

    file: str
    data: dict[str, Any] = field(default_factory=dict)
    lines: dict[Loc, int] = field(default_factory=dict)
    empty: set[Loc] = field(default_factory=set)
    texts: dict[Loc, str] = field(default_factory=dict)
    """Every text, by its place."""
    comments: dict[int, str] = field(default_factory=dict)
    """By line: a comment that looks like a text, such as the "#14" of "berth #14"."""
    numbers: dict[Loc, str | int] = field(default_factory=dict)
    """Of a sheet that entries were taken out of: the last step to each entry that is left, as it is in the file."""

    def found(self, loc: Loc) -> Loc:
        """The longest part of `loc` that the file has; steps that only the schema knows are left out."""
        here: Loc = ()
        for step in loc:
            if (*here, step) in self.lines:
                here = (*here, step)
        return here

    def line(self, loc: Loc) -> int:
        """The line of the nearest entry at or above `loc`."""
        return self.lines.get(self.found(loc), 1)

    def value(self, loc: Loc) -> Any:
        """What stands at the nearest entry at or above `loc`."""
        here: Any = self.data
        for step in self.found(loc):
            here = here[step]
        return here

    def tell(self, ledger: Ledger, loc: Loc, what: str, do: str) -> None:
        """Note a problem at the nearest entry at or above `loc`."""
        ledger.tell(self.file, self.line(loc), self.key(self.found(loc)), what, do, loc)

    def ask(self, ledger: Ledger, loc: Loc, what: str) -> None:
        """Remark on that entry what may be right all the same."""
        ledger.remark(f"{self.file}, line {self.line(loc)}: {what}")

    def put(self, loc: Loc, text: str) -> None:
        """Another text at an entry that is there."""
        here: Any = self.data
        for step in loc[:-1]:
            here = here[step]
        here[loc[-1]] = self.texts[loc] = text

    def key(self, loc: Loc) -> str:
        """`loc` as a person would say it: list entries by their id or name, or counted from one."""
        words: list[str] = []
        here: Any = self.data
        for place, step in enumerate(loc, 1):
            here = here[step] if _has(here, step) else None
            if step == "components" and len(loc) > 1:
                continue  # every line of findings.yaml is about one
            step = self.numbers.get(loc[:place], step)  # noqa: PLW2901
            words.append(_called(step, here) if isinstance(step, int) else step)
        return " › ".join(words)


def _has(node: Any, step: str | int) -> bool:
    return (isinstance(node, dict) and step in node) or (
        isinstance(node, list) and isinstance(step, int) and step < len(node)
    )


def _called(step: int, entry: Any) -> str:
    ident = entry.get("id") or entry.get("file") if isinstance(entry, dict) else None
    return ident if isinstance(ident, str) and ident else f"entry {step + 1}"


class _RefusedError(Exception):
    """Raised inside this module for what YAML allows and a job file may not hold."""

    def __init__(self, line: int, what: str, do: str, key: str = "") -> None:
        super().__init__(what)
        self.told = (line, key, what, do)


@dataclass
class _Open:
    """A mapping or list that is being read."""

    loc: Loc
    node: dict[str, Any] | list[Any]
    key: str | None = None

    def child(self) -> Loc:
        return (
            *self.loc,
            self.key if isinstance(self.node, dict) and self.key is not None else len(self.node),
        )


def read_yaml(text: str, file: str, ledger: Ledger) -> YamlFile | None:
    """The sheet of a YAML text; None when it cannot be read, which the ledger then tells with its line."""
    sheet = YamlFile(file)
    try:
        # libyaml takes 500 components in under 0.1 s; the pure loader, ten times slower, is for systems without it
        _build(iter(yaml.parse(text, Loader=getattr(yaml, "CBaseLoader", yaml.BaseLoader))), sheet)
    except _RefusedError as refused:
        ledger.tell(file, *refused.told)
    except yaml.YAMLError as error:
        ledger.tell(file, *in_plain_words(error, text))
    else:
        _find_comments(text, sheet, ledger)
        for loc, each in sheet.texts.items():
            if not all_seen(each):
                tell_unseen(each, ledger, file, sheet.line(loc), sheet.key(loc), loc)
        return sheet
    return None


_COMMENT = re.compile(r"""(?:[^'"#]|'[^']*'|"[^"]*")*?\s(#[^\s#=*~-]\S*)""")
"""A line with something before a "#" that its text follows at once: more like a number than like a comment."""


def _find_comments(text: str, sheet: YamlFile, ledger: Ledger) -> None:
    """Remark what YAML leaves out of a line without a word."""
    lines = text.split("\n")
    keys = {sheet.lines[loc]: loc for loc in [*sheet.texts, *sheet.empty]}
    for line, loc in sorted(keys.items()):
        if line <= len(lines) and (found := _COMMENT.match(lines[line - 1])):
            sheet.comments[line] = found[1]
            ledger.remark(
                f"{sheet.file}, line {line}: {sheet.key(loc)}: '{found[1]}' is a comment and was not read; "
                "put the whole text in quotes if it belongs to it."
            )


def _build(events: Iterator[yaml.Event], sheet: YamlFile) -> None:
    """Read the one document into `sheet`."""
    root: _Open | None = None
    stack: list[_Open] = []
    for event in events:
        line = event.start_mark.line + 1 if event.start_mark else 0
        if isinstance(event, yaml.DocumentStartEvent) and root:
            raise _RefusedError(
                line,
                "A second document begins here ('---').",
                "Keep everything in one document: take '---' out.",
            )
        if isinstance(event, yaml.MappingEndEvent | yaml.SequenceEndEvent):
            stack.pop()
        elif isinstance(event, yaml.NodeEvent):
            _refuse_extras(event, line)
            opened = _enter(event, line, stack[-1], sheet) if stack else _begin(event, line, sheet)
            root = root or opened
            stack.extend([opened] if opened else [])
            if len(stack) > DEEPEST:
                raise _RefusedError(
                    line, "This is nested too deeply.", "Check the brackets and the indentation around here."
                )
    if root is None:
        raise _RefusedError(0, "This file is empty.", "Fill it in; the demonstration job shows how.")


def _refuse_extras(event: yaml.NodeEvent, line: int) -> None:
    tag = getattr(event, "tag", None)
    if isinstance(event, yaml.AliasEvent):
        mark = f"*{event.anchor}"
    elif event.anchor is not None:
        mark = f"&{event.anchor}"
    elif tag is not None:
        mark = "!"
    else:
        return
    what = f"A text that begins with '{mark}' has a special meaning in this kind of file."
    raise _RefusedError(line, what, "Put the text in quotes, or take the mark out.")


def _begin(event: yaml.NodeEvent, line: int, sheet: YamlFile) -> _Open | None:
    """The one mapping that a file is."""
    if isinstance(event, yaml.MappingStartEvent):
        return _Open((), sheet.data)
    if isinstance(event, yaml.ScalarEvent) and _is_empty(event):
        return None
    raise _RefusedError(
        line, "The file does not begin with a 'key: value' line.", "Begin it with 'format: 1'."
    )


def _enter(event: yaml.NodeEvent, line: int, parent: _Open, sheet: YamlFile) -> _Open | None:
    """Put one event where it belongs; what it opens is returned."""
    if isinstance(parent.node, dict) and parent.key is None:
        parent.key = _new_key(event, line, parent, sheet)
        return None
    loc = parent.child()
    sheet.lines[loc] = line if isinstance(parent.node, list) else sheet.lines[loc]
    value: Any = None
    opened = None
    if isinstance(event, yaml.ScalarEvent):
        value = _scalar(event, line, loc, sheet, parent)
    else:
        value = {} if isinstance(event, yaml.MappingStartEvent) else []
        opened = _Open(loc, value)
    _put(value, loc, parent, sheet)
    return opened


def _put(value: Any, loc: Loc, parent: _Open, sheet: YamlFile) -> None:
    if isinstance(parent.node, list):
        parent.node.append(value)
        return
    assert parent.key is not None  # noqa: S101 - a mapping's value follows its key
    if value is None:
        # It has its line, so that it can be told where to fill it in, and no place in the data.
        sheet.empty.add(loc)
    else:
        parent.node[parent.key] = value
    parent.key = None


def _new_key(event: yaml.NodeEvent, line: int, parent: _Open, sheet: YamlFile) -> str:
    if not isinstance(event, yaml.ScalarEvent):
        raise _RefusedError(
            line,
            "A list or a mapping stands where a key is due.",
            "Put the text in quotes if it begins with [ or {.",
        )
    key = event.value
    loc = (*parent.loc, key)
    if not key:
        raise _RefusedError(
            line, "There is no key before the colon.", "Write the key, or put the text in quotes."
        )
    if key == "<<":
        raise _RefusedError(line, "'<<' takes over entries from elsewhere.", "Write the entries out.")
    if loc in sheet.lines:
        first = sheet.lines[loc]
        raise _RefusedError(
            line, f"The key '{key}' is already there in line {first}.", "Keep one of the two.", sheet.key(loc)
        )
    sheet.lines[loc] = line
    return key


def _scalar(event: yaml.ScalarEvent, line: int, loc: Loc, sheet: YamlFile, parent: _Open) -> str | None:
    """The text as written; None for a key with nothing after it."""
    if not _is_empty(event):
        sheet.texts[loc] = event.value
        return str(event.value)
    if isinstance(parent.node, list):
        raise _RefusedError(
            line,
            "This list entry is empty.",
            "Fill it in, or take the dash or comma out.",
            sheet.key(loc[:-1]),
        )
    return None


def _is_empty(event: yaml.ScalarEvent) -> bool:
    # "" in quotes is what a person leaves who fills in a form; ~ and null are YAML's own words for nothing
    return not event.value.strip(BLANKS) or (
        event.implicit[0] and event.value in {"~", "null", "Null", "NULL"}
    )
