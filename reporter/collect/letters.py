"""Characters that a report cannot print, or nobody can see: told with their place while the folder is read.

In: the texts of a folder, the names of its files. Out: remarks; a problem for what steers a terminal or turns the order of
reading. What has no width is remarked alone, since Arabic, Persian or Indian scripts and pictures in text need some of it.
The fonts themselves are typesetting's business; which characters they hold
stands here as ranges, and a test holds them against the fonts.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Iterator, Sequence
from functools import cache
from typing import TYPE_CHECKING

from reporter.collect.ledger import Ledger
from reporter.model.unseen_characters import CONTROL, TURNING, WIDTHLESS, code_point

if TYPE_CHECKING:
    from reporter.collect.csv_table import CsvRow
    from reporter.collect.yaml_file import Loc, YamlFile


def all_seen(text: str) -> bool:
    """True of nearly every text; what is not plain ASCII is to be looked at."""
    return text.isascii() and text.isprintable()


def tell_unseen(
    text: str,
    ledger: Ledger,
    file: str,
    line: int,
    key: str,
    loc: Loc | None = None,
    *,
    part: str | None = None,
    rename: bool = False,
) -> bool:
    """Tell what cannot be seen in `text`; whether it is refused. `rename`: it is the name of the file itself."""
    if all_seen(text):
        return False
    do = "Give the file a name without it." if rename else "Delete it and type the text again."
    if found := CONTROL.search(text):
        ledger.tell(
            file, line, key, f"There is a control character here ({code_point(found[0])}).", do, loc, part
        )
        return True
    if found := TURNING.search(text):
        what = f"A character here is not seen and turns the order of the letters ({code_point(found[0])})."
        ledger.tell(file, line, key, what, do, loc, part)
        return True
    if found := WIDTHLESS.search(text):
        what = f"{key or file} holds a character without width ({code_point(found[0])}): is it meant?"
        ledger.remark(f"{file}, line {line}: {what}" if line else what)
    return False


MOST_TOLD, MOST_SHOWN = 12, 8
_INVISIBLE = {"Cc", "Cf", "Mn", "Cs"}
"""General categories of what is left out unseen, or belongs to the character before it."""
_RANGES = """
9-A 20-7E A0-AC AE-17E 180 18F 192-193 1A0-1A1 1AF-1B0 1C2 1CD-1DC 1E2-1E3 1E6-1E7 1EA-1EB 1F4-1F5
1F8-1F9 1FC-1FD 218-21B 237 243 250-25C 25E-268 26A 26C-276 278-27B 27D-27E 280-284 288-292 294-295
298-299 29C-29D 29F 2A1-2A2 2B0 2B2-2B3 2B7-2B9 2BB-2BC 2BE-2BF 2C1 2C6-2CC 2D0-2D1 2D8-2DE 2E0-2E3
300-30C 30F 311-313 318-320 323-32A 32C 32E-331 334 339-33D 342 345 361 374-375 37A 37E 384-38A 38C
38E-3A1 3A3-3CE 3D0-3D1 3D5 3D7 3D9 3DB 3DD 3E1 400-45F 462-463 472-475 490-493 496-49B 4A0-4A3
4AA-4AB 4AE-4B3 4B6-4B7 4BA-4BB 4C0-4C2 4CF-4D1 4D4-4D9 4E2-4E3 4E6-4E9 4EE-4EF 4F2-4F3 1D43
1D47-1D49 1D4D 1D4F-1D50 1D52 1D56-1D58 1D5B 1D9C 1DA0 1DBB 1E06-1E07 1E0C-1E0F 1E16-1E17 1E20-1E21
1E24-1E25 1E2A-1E2B 1E32-1E3B 1E3E-1E49 1E52-1E53 1E58-1E63 1E6C-1E6F 1E80-1E85 1E8E-1E8F 1E92-1E97
1E9E 1EA0-1EF9 1F00-1F15 1F18-1F1D 1F20-1F45 1F48-1F4D 1F50-1F57 1F59 1F5B 1F5D 1F5F-1F7D 1F80-1FB4
1FB6-1FC4 1FC6-1FD3 1FD6-1FDB 1FDD-1FEF 1FF2-1FF4 1FF6-1FFE 2006-2007 2009-200A 2010-2016 2018-201A
201C-201E 2020-2022 2026 2028-2029 202F-2030 2032-2033 2035 2039-203A 203C-203F 2044 2047-2049
2070-2071 2074-2079 207D-2089 208D-208E 2094 20A1 20A4 20A6-20A7 20A9 20AB-20AC 20AE 20B1-20B2
20B4-20B5 20B8-20BA 20BD 2113 2116-2117 2120 2122 2126 212E 2150-215E 2189 2190-2193 2202 2205-2206
220F 2211-2212 2215 2219-221A 221E 222B 2248 2260 2264-2265 2300 231C-231F 25A0 25B2-25B3 25B6-25B7
25BC-25BD 25C0-25C1 25C6 25C9-25CA 25CC 25CF 2610-2611 266A 2713 2752 27E6-27E7 2E22-2E25 2E3A-2E3B
FB00-FB04 FEFF 1F16A-1F16B
"""


def lacking(text: str) -> str:
    """The characters of `text` that the fonts of a PDF have no picture of, each once; "" when there are none."""
    if text.isascii():
        return ""
    wanted = dict.fromkeys(unicodedata.normalize("NFC", text))
    return "".join(
        each for each in wanted if each not in printed() and unicodedata.category(each) not in _INVISIBLE
    )


@cache
def printed() -> frozenset[str]:
    """Every character that the fonts hold, and those for which another picture stands."""
    found: set[str] = set()
    for each in _RANGES.split():
        first, _, last = each.partition("-")
        found.update(map(chr, range(int(first, 16), int(last or first, 16) + 1)))
    return frozenset(found)


def tell_of_sheet(sheet: YamlFile, ledger: Ledger) -> None:
    """Remarks every entry of a sheet that holds such characters."""
    others = {loc: text for loc, text in sheet.texts.items() if not text.isascii()}
    places = ((sheet.line(loc), sheet.key(loc), text) for loc, text in others.items())
    _tell(sheet.file, places, ledger)


def tell_of_rows(file: str, rows: Sequence[CsvRow], ledger: Ledger) -> None:
    """The same of a table, cell by cell."""
    _tell(file, ((row.line, column, text) for row in rows for column, text in row.cells.items()), ledger)


def _tell(file: str, places: Iterator[tuple[int, str, str]], ledger: Ledger) -> None:
    found = [(line, key, missing) for line, key, text in places if (missing := lacking(text))]
    for line, key, missing in found[:MOST_TOLD]:
        shown, more = missing[:MOST_SHOWN], "…" if len(missing) > MOST_SHOWN else ""
        codes = " ".join(f"U+{ord(each):04X}" for each in shown)
        ledger.remark(
            f"{file}, line {line} · {key}: the fonts of a PDF lack {shown}{more}; printed is [{codes}{more}]."
        )
    if len(found) > MOST_TOLD:
        ledger.remark(
            f"{file}: {len(found) - MOST_TOLD} more entries hold characters that the fonts of a PDF lack."
        )
