"""One primitive change in a YAML text, by the places of its nodes: nothing else of the text is touched.

In: the text (no byte order mark) and an `Op`. Out: `Cut`s of the text. Whether the outcome reads as meant is for the
caller to check: YAML has corners that no list of cases covers.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache
from typing import Any

import yaml

from reporter.editing import writing
from reporter.editing.edit import EditError, Plain
from reporter.editing.plain_data import Op, Path

_HEADER = re.compile(r"[|>][0-9+-]*")


@dataclass(frozen=True)
class Cut:
    """Characters from `start` to `end` that give way to `text`."""

    start: int
    end: int
    text: str


def _unread(mark: Any) -> EditError:
    where = f" from line {mark.line + 1} on" if mark else ""
    msg = f"The file cannot be read{where}, so nothing is changed in it."
    return EditError(msg, "Correct it there first; 'gudgeon check' tells what is wrong.")


@dataclass
class Outline:
    """A YAML text with its nodes."""

    text: str
    root: Any
    newline: str

    @classmethod
    @lru_cache(maxsize=4)
    def of(cls, text: str) -> Outline:
        """EditError when the text cannot be read, or repeats itself by marks: a few lines of those say a billion words."""
        try:
            marked = "*" in text and any(
                isinstance(each, yaml.AliasEvent) for each in yaml.parse(text, Loader=writing.LOADER)
            )
            root = None if marked else yaml.compose(text, Loader=writing.LOADER)
        except yaml.YAMLError as error:
            raise _unread(getattr(error, "problem_mark", None)) from error
        if marked:
            raise _unread(None)
        return cls(text, root, "\r\n" if "\r\n" in text else "\n")

    def node(self, path: Path) -> Any:
        """The node at `path`."""
        here = self.root
        for step in path:
            here = here.value[step] if isinstance(step, int) else _value(here, step)
        return here

    def flows(self, path: Path) -> bool:
        """Whether what stands at `path` is inside brackets."""
        return any(self.node(path[:number]).flow_style for number in range(len(path)))

    def line_start(self, place: int) -> int:
        """Where the line of `place` begins."""
        return self.text.rfind("\n", 0, place) + 1

    def line_end(self, place: int) -> int:
        """Where the line of `place` ends, before its line break."""
        end = self.text.find("\n", place)
        end = len(self.text) if end < 0 else end
        return end - 1 if self.text[end - 1 : end] == "\r" and end > place else end

    def next_line(self, place: int) -> int:
        """Where the line after that of `place` begins; the end of the text where there is none."""
        end = self.text.find("\n", place)
        return len(self.text) if end < 0 else end + 1

    def column(self, place: int) -> int:
        """How far `place` stands from the beginning of its line."""
        return place - self.line_start(place)

    def end(self, node: Any) -> int:
        """Where a node truly ends: a block's own mark runs on over blank lines and comments."""
        start, end = node.start_mark.index, node.end_mark.index
        if isinstance(node, yaml.ScalarNode):
            if node.style not in {"|", ">"}:
                return int(end)
            # A text on lines of its own is marked as ending where the next token begins.
            shown = self.text[start:end].rstrip()
            return max(int(start) + len(shown), int(start))
        if node.flow_style or not node.value:
            return int(end)
        last = node.value[-1]
        return self.end(last[1]) if isinstance(last, tuple) else self.end(last)

    def past_remarks(self, place: int, column: int) -> int:
        """`place`, or the last of the comments below it that are set in further than `column`.

        They belong to what stands above; below a folded text they would be taken for more of it.
        """
        at = self.next_line(place)
        while at < len(self.text):
            line = self.text[at : self.line_end(at)]
            told = line.strip()
            if told and not (told.startswith("#") and line.index("#") > column):
                break
            place = self.line_end(at) if told else place
            at = self.next_line(at)
        return place

    def dash(self, sequence: Any, index: int) -> int:
        """Where the dash of an entry of a block list stands."""
        column = self.column(sequence.start_mark.index)
        # Comments, an anchor or a line break may part the dash from its entry: it is looked for upwards.
        line = self.line_start(sequence.value[index].start_mark.index)
        first = self.line_start(sequence.start_mark.index)
        while line > first and self.text[line + column : line + column + 1] != "-":
            line = self.line_start(line - 1)
        return line + column

    def below(self, lines: list[str], place: int) -> Cut:
        """Lines put in below the line of `place`."""
        end = self.line_end(place)
        last = self.newline if end == len(self.text) else ""
        return Cut(end, end, "".join(self.newline + line for line in lines) + last)


def _value(mapping: Any, key: str) -> Any:
    return next(value for name, value in mapping.value if name.value == key)


def cuts(outline: Outline, op: Op, style: str | None = None) -> list[Cut]:
    """What has to be cut and put in for `op`; `style` replaces the manner in which a text was written."""
    if not op.path or not isinstance(outline.root, yaml.MappingNode):
        raise EditError("The file does not begin with a 'key: value' line.", "Begin it with 'format: 1'.")
    if op.do == "remove":
        return _removed(outline, op.path)
    if op.do == "insert":
        return _inserted(outline, op.path, op.value)
    return _replaced(outline, op.path, op.value, style)


def _replaced(outline: Outline, path: Path, value: Plain, style: str | None) -> list[Cut]:
    node = outline.node(path)
    start = node.start_mark.index
    if outline.flows(path):
        flow = writing.in_flow(value)
        return [Cut(start, node.end_mark.index, flow if node.end_mark.index > start else f" {flow}")]
    manner = getattr(node, "style", None) or "" if style is None else style
    told = _told(outline, path, value, manner)
    if isinstance(node, yaml.ScalarNode) and node.style in {"|", ">"}:
        return _block_text(outline, node, told)
    if isinstance(node, yaml.CollectionNode) and not node.flow_style:
        return _block(outline, path, node, told)
    return _inline(outline, start, node.end_mark.index, told)


def _told(outline: Outline, path: Path, value: Plain, style: str) -> writing.Written:
    """The value written below its key or behind its dash, level with what stood there."""
    parent = outline.node(path[:-1])
    indent = outline.column(parent.start_mark.index) + 2
    if not isinstance(parent, yaml.SequenceNode):
        return writing.written(value, indent, style)
    indent = max(indent, outline.column(outline.node(path).start_mark.index))
    told = writing.written(value, indent, style)
    if told.head:
        return told
    first, *rest = told.body
    return writing.Written(first[indent:], rest)


def _inline(outline: Outline, start: int, end: int, told: writing.Written) -> list[Cut]:
    """In place of a text on its line; what is said behind it stays."""
    head = told.head
    if start == end:
        head = f" {head}" if head else ""
    elif not head:
        # What follows stands on lines below: no blank is left behind the colon.
        start = len(outline.text[:start].rstrip(" "))
    cuts = [Cut(start, end, head)]
    return [*cuts, outline.below(told.body, end)] if told.body else cuts


def _block_text(outline: Outline, node: Any, told: writing.Written) -> list[Cut]:
    """In place of a folded or literal text; what is said behind its sign stays."""
    start = node.start_mark.index
    sign = _HEADER.match(outline.text, start)
    assert sign is not None  # noqa: S101 - the node's style says that it begins so
    first, last = outline.line_end(start), outline.end(node)
    body = "".join(outline.newline + line for line in told.body)
    if not told.head:
        start = len(outline.text[:start].rstrip(" "))
    return [Cut(start, sign.end(), told.head), Cut(first, max(first, last), body)]


def _block(outline: Outline, path: Path, node: Any, told: writing.Written) -> list[Cut]:
    """In place of a list or mapping on lines of its own; what is said within it goes with it."""
    start, end = node.start_mark.index, outline.end(node)
    parent = outline.node(path[:-1])
    if isinstance(parent, yaml.SequenceNode):
        return [Cut(start, end, told.head + "".join(outline.newline + line for line in told.body))]
    key = next(pair[0] for pair in parent.value if pair[0].value == path[-1])
    colon = outline.text.index(":", key.end_mark.index) + 1
    gone = Cut(outline.line_start(start), outline.next_line(end), "")
    lines = told.body
    cuts = [Cut(colon, colon, f" {told.head}" if told.head else "")]
    return [*cuts, outline.below(lines, colon), gone] if lines else [*cuts, gone]


def _inserted(outline: Outline, path: Path, value: Plain) -> list[Cut]:
    parent = outline.node(path[:-1])
    step = path[-1]
    if not parent.value:
        whole = {step: value} if isinstance(step, str) else [value]
        return _replaced(outline, path[:-1], whole, None)
    if parent.flow_style:
        return [_into_flow(parent, step, value)]
    column = outline.column(parent.start_mark.index)
    if isinstance(step, str):
        # Below the comments of what stands above, which a folded text would take up.
        place = outline.past_remarks(outline.end(parent), column)
        return [outline.below(writing.entry(step, value, column), place)]
    lines = writing.item(value, column)
    if step < len(parent.value):
        place = outline.line_start(outline.dash(parent, step))
        return [Cut(place, place, "".join(line + outline.newline for line in lines))]
    apart = [""] if _stand_apart(outline, parent) else []
    return [outline.below([*apart, *lines], outline.past_remarks(outline.end(parent), column))]


def _stand_apart(outline: Outline, sequence: Any) -> bool:
    """Whether a blank line stands between the last two entries of a list."""
    if len(sequence.value) < 2:  # noqa: PLR2004
        return False
    between = outline.text[outline.end(sequence.value[-2]) : outline.dash(sequence, len(sequence.value) - 1)]
    return any(not line.strip() for line in between.splitlines()[1:-1])


def _into_flow(parent: Any, step: str | int, value: Plain) -> Cut:
    told = writing.in_flow(value)
    if isinstance(step, str):
        told = f"{writing.one_line(step, flow=True)}: {told}"
    elif step < len(parent.value):
        place = parent.value[step].start_mark.index
        return Cut(place, place, f"{told}, ")
    last = parent.value[-1]
    place = (last[1] if isinstance(last, tuple) else last).end_mark.index
    return Cut(place, place, f", {told}")


def _removed(outline: Outline, path: Path) -> list[Cut]:
    parent, step = outline.node(path[:-1]), path[-1]
    index = step if isinstance(step, int) else [key.value for key, _ in parent.value].index(step)
    if parent.flow_style:
        return [_out_of_flow(parent, index)]
    if isinstance(parent, yaml.SequenceNode):
        start, end = outline.dash(parent, index), outline.end(parent.value[index])
    else:
        key, value = parent.value[index]
        start, end = key.start_mark.index, max(key.end_mark.index, outline.end(value))
    if not outline.text[outline.line_start(start) : start].strip():
        return [Cut(outline.line_start(start), outline.next_line(end), "")]
    return [_first_of_entry(outline, parent, index, start)]


def _first_of_entry(outline: Outline, parent: Any, index: int, start: int) -> Cut:
    """The first key of an entry, which stands on the line of the dash: the next one moves up."""
    if isinstance(parent, yaml.SequenceNode) or index + 1 >= len(parent.value):
        raise EditError("This cannot be taken out of the file as it is written.", "Edit the file by hand.")
    following = parent.value[index + 1][0].start_mark.index
    line = outline.line_start(following)
    comments = outline.text[outline.next_line(outline.end(parent.value[index][1])) : line]
    # A comment between the two keeps its line: the mapping then begins below the dash.
    return Cut(
        start,
        following,
        "" if not comments.strip() else outline.newline + comments + outline.text[line:following],
    )


def _out_of_flow(parent: Any, index: int) -> Cut:
    spans = [
        (each[0].start_mark.index, max(each[0].end_mark.index, each[1].end_mark.index))
        if isinstance(each, tuple)
        else (each.start_mark.index, each.end_mark.index)
        for each in parent.value
    ]
    if index + 1 < len(spans):
        return Cut(spans[index][0], spans[index + 1][0], "")
    return Cut(spans[index - 1][1], spans[index][1], "")
