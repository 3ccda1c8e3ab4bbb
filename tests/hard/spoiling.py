"""How a text or a file is spoilt: pure functions of a source of chance and the content, so that a case can be repeated."""

from __future__ import annotations

import random
import re
from collections.abc import Callable

NASTY = (
    "", " ", "~", "null", "''", "#", "# 1", "#1", "-", "?", ":", "[]", "{}", "[[]]", "{a: {}}", "- - -", "*a", "&a x", "!!int 1",
    "!!python/object:os.system x", "|", ">", "%", "@", "`", "<<: *a", "0", "-0", "-1", "1e308", "-1e308", "1e309", "nan", ".inf",
    "0x1F", "0o17", "1_000", "9" * 400, "-" + "9" * 40, "0.0000000001", "1,5", "1.234,5 mm", "12 parsec", "1e9 mm", "-3 mm",
    "3 mm ± 900 mm", "0001-01-01", "9999-12-31", "2026-02-30", "2026-13", "12.05.2026", "24:61", "+99:00", "Mars/Olympus",
    "\t", "a\tb", "\x1b[31m", "\x07", "\u202e", "\u200b", "\ufeff", "\u2028", "\x85", "\xa0", "\u0301", "\U0001f6a2", "船", "ﷺ",
    "../../etc/passwd", "/etc/passwd", "photos", "a" * 300, "word " * 3000, "=1+1", "@SUM(1)", "<b>x</b>", "%s{0}{x}", "\\",
    "yes", "no", "true", "good", "clear", "stop", "seen", "all", "de", "en", "public",
)  # fmt: skip
"""Values that people, spreadsheets and other programs put where a plain one belongs."""
_VALUE = re.compile(r"(?m)(?<=: )[^\n]+$|(?<=[\[, ])[^\[\]{},:\n]+(?=[\],}])|(?<=,)[^,\n]*(?=[,\n])")
_LONG = 200_000
"""Characters from which on a text has grown enough: what looks for places in it would take minutes."""
Text = Callable[[random.Random, str], str]


def text(chance: random.Random, content: bytes) -> bytes:
    """A text with one to four slips in it, seldom spoilt as bytes as well."""
    told = content.decode("utf-8")
    for _ in range(chance.randint(1, 4)):
        if len(told) < _LONG:
            told = chance.choice(SLIPS)(chance, told)
    spoilt = told.encode("utf-8", "surrogatepass")
    return chance.choice(WHOLE)(chance, spoilt) if chance.random() < 0.2 else spoilt


def file(chance: random.Random, content: bytes) -> bytes:
    """A file of bytes with bits flipped, cut off, or with pieces lost, doubled or put in elsewhere."""
    return chance.choice(BYTES)(chance, content)


def _spot(chance: random.Random, content: str | bytes) -> tuple[int, int]:
    begin = chance.randint(0, len(content))
    return begin, min(len(content), begin + int(chance.expovariate(1 / 20)))


def _drop_lines(chance: random.Random, told: str) -> str:
    lines = told.splitlines(keepends=True)
    first = chance.randint(0, len(lines))
    del lines[first : first + chance.choice((1, 1, 1, 2, 5, 30))]
    return "".join(lines)


def _double_lines(chance: random.Random, told: str) -> str:
    lines = told.splitlines(keepends=True)
    first = chance.randint(0, len(lines))
    some = lines[first : first + chance.choice((1, 1, 3, 10))]
    lines[first:first] = some * chance.choice((1, 1, 1, 2, 40))
    return "".join(lines)


def _move_lines(chance: random.Random, told: str) -> str:
    lines = told.splitlines(keepends=True)
    first = chance.randint(0, len(lines))
    some = lines[first : first + chance.choice((1, 2, 6))]
    del lines[first : first + len(some)]
    place = chance.randint(0, len(lines))
    return "".join([*lines[:place], *some, *lines[place:]])


def _indent(chance: random.Random, told: str) -> str:
    lines = told.splitlines(keepends=True)
    first = chance.randint(0, len(lines))
    for number in range(first, min(len(lines), first + chance.choice((1, 1, 4)))):
        spaces = chance.choice(("", " ", "  ", "      ", "\t"))
        lines[number] = spaces + (lines[number].lstrip(" ") if chance.random() < 0.5 else lines[number])
    return "".join(lines)


def _nasty_value(chance: random.Random, told: str) -> str:
    found = list(_VALUE.finditer(told))
    if not found:
        return chance.choice(NASTY)
    spot = chance.choice(found)
    return told[: spot.start()] + chance.choice(NASTY) + told[spot.end() :]


def _swap_values(chance: random.Random, told: str) -> str:
    found = list(_VALUE.finditer(told))
    if len(found) < 2:
        return told
    first, second = sorted(chance.sample(found, 2), key=lambda each: each.start())
    middle = told[first.end() : second.start()]
    return told[: first.start()] + second[0] + middle + first[0] + told[second.end() :]


def _nasty_anywhere(chance: random.Random, told: str) -> str:
    begin, end = _spot(chance, told)
    return told[:begin] + chance.choice(NASTY) + told[end:]


def _rename_key(chance: random.Random, told: str) -> str:
    keys = list(re.finditer(r"(?m)\w+(?=:)", told))
    if not keys:
        return told
    spot, other = chance.choice(keys), chance.choice(keys)[0]
    return told[: spot.start()] + chance.choice((other, other.upper(), spot[0][1:])) + told[spot.end() :]


def _nest(chance: random.Random, told: str) -> str:
    found = list(_VALUE.finditer(told))
    depth = chance.choice((3, 30, 300, 3000))
    opening, closing = chance.choice((("[", "]"), ("{a: ", "}"), ("- ", "")))
    nested = opening * depth + "x" + closing * depth
    spot = chance.choice(found).span() if found else (0, 0)
    return told[: spot[0]] + nested + told[spot[1] :]


def _aliases(chance: random.Random, told: str) -> str:
    """Each anchor holds the one before nine times over."""
    levels = chance.choice((2, 6, 9))
    bomb = "a0: &a0 [x, x, x, x, x, x, x, x, x]\n"
    bomb += "".join(f"a{n}: &a{n} [{', '.join([f'*a{n - 1}'] * 9)}]\n" for n in range(1, levels))
    return bomb + told if chance.random() < 0.5 else f"{told}\n{bomb}"


def _grow(chance: random.Random, told: str) -> str:
    """Two megabytes: a comment, a word, rows, entries."""
    size = 2_000_000
    kind = chance.choice(("comment", "word", "lines", "blanks"))
    if kind == "lines":
        line = chance.choice(told.splitlines(keepends=True) or ["\n"])
        return told + line * (size // len(line) if chance.random() < 0.3 else 200)
    return told + {"comment": f"\n# {'x' * size}\n", "word": "x" * size, "blanks": "\n" * size}[kind]


SLIPS: tuple[Text, ...] = (
    _drop_lines, _drop_lines, _double_lines, _double_lines, _move_lines, _move_lines, _indent, _indent, _rename_key, _rename_key,
    _nasty_value, _nasty_value, _nasty_value, _nasty_value, _nasty_value, _nasty_value, _swap_values, _swap_values, _swap_values,
    _nasty_anywhere, _nasty_anywhere, _nest, _aliases, _grow,
)  # fmt: skip
"""Named as often as they are to be drawn."""


def _flip(chance: random.Random, content: bytes) -> bytes:
    spoilt = bytearray(content)
    for _ in range(chance.choice((1, 1, 2, 8, 60)) if spoilt else 0):
        spoilt[chance.randrange(len(spoilt))] ^= 1 << chance.randrange(8)
    return bytes(spoilt)


def _flip_early(chance: random.Random, content: bytes) -> bytes:
    """Headers stand at the beginning."""
    head = chance.choice((32, 256, 2000))
    return _flip(chance, content[:head]) + content[head:]


def _cut(chance: random.Random, content: bytes) -> bytes:
    return content[: chance.choice((0, 1, chance.randint(0, len(content)), chance.randint(0, len(content))))]


def _lose(chance: random.Random, content: bytes) -> bytes:
    begin, end = _spot(chance, content)
    return content[:begin] + content[end:]


def _put_in(chance: random.Random, content: bytes) -> bytes:
    begin, end = _spot(chance, content)
    other, _ = _spot(chance, content)
    size = chance.choice((1, 4, 30, 2000))
    middle = chance.choice(
        (content[other : other + size], b"\0" * size, b"\xff" * size, chance.randbytes(size))
    )
    return content[:begin] + middle + content[end:]


def _number(chance: random.Random, content: bytes) -> bytes:
    """Another number where digits stand: sizes, counts and places of objects."""
    found = list(re.finditer(rb"(?<![\w.])\d{1,10}(?![\w.])", content))
    if not found:
        return _flip(chance, content)
    spot = chance.choice(found)
    number = chance.choice(
        (b"0", b"-1", b"1", b"65535", b"2147483648", b"99999999999", b"%d" % chance.randrange(99))
    )
    return content[: spot.start()] + number + content[spot.end() :]


BYTES = (_flip, _flip, _flip_early, _flip_early, _cut, _lose, _put_in, _put_in, _number)


def _endings(_chance: random.Random, content: bytes) -> bytes:
    return content.replace(b"\n", b"\r\n")


def _old_endings(_chance: random.Random, content: bytes) -> bytes:
    return content.replace(b"\n", b"\r")


def _mark(chance: random.Random, content: bytes) -> bytes:
    return chance.choice((b"\xef\xbb\xbf", b"\xff\xfe", b"\xfe\xff")) + content


def _wide(chance: random.Random, content: bytes) -> bytes:
    return content.decode("utf-8", "replace").encode(
        chance.choice(("utf-16", "utf-16-le", "utf-32", "utf-7"))
    )


def _nul(chance: random.Random, content: bytes) -> bytes:
    begin, end = _spot(chance, content)
    return content[:begin] + b"\0" * chance.choice((1, 1, 4000)) + content[end:]


WHOLE = (_endings, _old_endings, _mark, _wide, _nul, _flip, _cut)
