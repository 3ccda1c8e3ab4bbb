"""The readers' questions in DEVELOPERS.md: read from its table, looked up in the documents, their pages written anew.

    python -m tests.documents.questions --renew

writes every document of the demo, finds each answer, and puts the page on which it stands into the table. Without
`--renew` it only tells what differs. An answer that stands on several pages keeps the page that the table gives when
it is one of them, else it gets the first.
"""

from __future__ import annotations

import re
import sys
from collections.abc import Mapping
from pathlib import Path
from tempfile import TemporaryDirectory

from pypdfium2 import PdfDocument

from tests.documents.conftest import ROOT, written

TABLE = ROOT / "DEVELOPERS.md"
ROW = re.compile(r"^\| (\w[\w ]*) \| (.+?) \| `([\w ]+)` \| (\d+) \| “(.+?)” \|$", re.MULTILINE)
Row = tuple[str, str, str, int, str]
"""Who asks what, in which document it is answered, on which page, and how the answer begins."""


def rows(text: str = "") -> list[Row]:
    """The rows of the table."""
    found = ROW.findall(text or TABLE.read_text("utf-8"))
    return [(who, asks, document, int(page), answer) for who, asks, document, page, answer in found]


def squeezed(text: str) -> str:
    """Text without spaces: where a line ends is no matter."""
    return "".join(text.split())


def page_texts(file: Path) -> list[str]:
    """The text of each page without spaces."""
    document = PdfDocument(file)
    texts = [squeezed(page.get_textpage().get_text_bounded().replace("\x02", "-")) for page in document]
    document.close()
    return texts


def stands_on(pages: list[str], answer: str) -> list[int]:
    """The pages on which an answer stands, from 1."""
    return [number for number, text in enumerate(pages, start=1) if squeezed(answer) in text]


def renewed(text: str, pages: Mapping[str, list[str]]) -> tuple[str, list[str]]:
    """The table's text with today's pages, and the questions that nothing answers any more."""
    lost: list[str] = []

    def line(found: re.Match[str]) -> str:
        who, asks, document, page, answer = found.groups()
        places = stands_on(pages[document], answer)
        if not places:
            lost.append(f"{who}: {asks}: “{answer}” stands nowhere in {document}")
            return found[0]
        number = int(page) if int(page) in places else places[0]
        return f"| {who} | {asks} | `{document}` | {number} | “{answer}” |"

    return ROW.sub(line, text), lost


def main() -> int:
    """Tells what differs, and with `--renew` writes it; 1 when an answer is lost, or pages differ and are not renewed."""
    with TemporaryDirectory() as place:
        pages = {each.name: page_texts(each.file) for each in written(Path(place))}
    before = TABLE.read_text("utf-8")
    after, lost = renewed(before, pages)
    moved = [f"{new[0]}: {new[1]}: page {old[3]} is now {new[3]}"
             for old, new in zip(rows(before), rows(after), strict=True) if old != new]  # fmt: skip
    sys.stdout.write("\n".join([*moved, *lost, f"{len(rows(after))} questions."]) + "\n")
    if "--renew" in sys.argv:
        TABLE.write_text(after, "utf-8")
        return bool(lost)
    return bool(lost or moved)


if __name__ == "__main__":
    raise SystemExit(main())
