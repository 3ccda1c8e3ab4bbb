"""Hands for the desk's page: they read what is wanted from plain data and do it by taps, strokes and typing alone.

Comes in: a page, and parts as a hand-written folder holds them. The page's own questions say how each is answered;
nothing here knows a kind.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from typing import Any

from playwright.sync_api import CDPSession, Locator, Page, expect

Raw = Any
TWO_PLACES = {
    "arrow": ("tail", "head"),
    "line": ("start", "end"),
    "box": ("corner", "opposite"),
    "blur": ("corner", "opposite"),
}
SORTS = {
    "arrow": "Arrow",
    "line": "Length",
    "box": "Box",
    "blur": "Blur",
    "ring": "Ring",
    "inset": "Enlarged spot",
    "label": "Label",
}


def several(raw: Raw) -> list[Raw]:
    return [] if raw is None else raw if isinstance(raw, list) else [raw]


def main_of(raw: Raw, main: str) -> str:
    return str(raw.get(main, "")) if isinstance(raw, dict) else str(raw)


class Hands:
    """One person at one window of the page."""

    def __init__(self, page: Page, url: str) -> None:
        self.page = page
        self.url = url
        self._touch: CDPSession | None = None

    # ---------------------------------------------------------------- going and waiting

    def go(self, *steps: str) -> None:
        """Goes to a view by its address, as a link does."""
        self.page.evaluate("hash => { location.hash = hash }", "#/" + "/".join(steps))
        expect(self.page.locator("main h1").first).to_be_visible()

    def all_saved(self) -> None:
        """Waits until the page says that everything is saved."""
        expect(self.page.locator("#saved")).to_have_text("All saved")

    def asked(self, path: str) -> Any:
        """What the server tells this window."""
        return self.page.evaluate("path => fetch(path).then(answer => answer.json())", path)

    def tap(self, place: Locator) -> None:
        """A finger on it."""
        place.tap()

    def write(self, field: Locator, text: str) -> None:
        """Types into a field and leaves it."""
        field.fill(text)
        field.blur()

    def open_up(self, details: Locator) -> None:
        """Opens what is folded away."""
        if details.get_attribute("open") is None:
            self.tap(details.locator("summary").first)

    # ---------------------------------------------------------------- photos and parts

    def bring(self, files: Iterable[str]) -> None:
        """Photos by the file picker."""
        self.go("photos")
        names = list(files)
        self.page.locator("input[type=file]").set_input_files(names)
        expect(self.page.locator(".arriving .there")).to_have_count(len(names))

    def begin(self, system: str, title: str) -> None:
        """A part from the list of its system."""
        self.go("walk")
        self.tap(self.page.locator(f"section:has(#system-{system}) .row.more"))
        self.tap(
            self.page.locator(
                "dialog .row", has=self.page.locator(f".row-title:text-matches('^{re.escape(title)}')")
            ).first
        )
        expect(self.page.locator(".question").first).to_be_visible()

    def give(self, files: Iterable[str], part: str) -> None:
        """Photos to a part, chosen by their boxes."""
        self.go("photos")
        for file in files:
            self.tap(
                self.page.locator(".tile", has=self.page.locator(f"img[alt='{file}']")).locator(".tick-box")
            )
        self.tap(self.page.locator(".at-hand button.main"))
        self.tap(self.page.locator("dialog .target", has_text=re.compile(f"^{re.escape(part)}")).first)

    def make(self, what: str) -> Any:
        """Makes a document and saves it: the download."""
        self.go("out")
        self.tap(self.page.get_by_role("button", name=what))
        save = self.page.locator(".made a")
        expect(save).to_be_visible()
        with self.page.expect_download() as coming:
            save.click()
        return coming.value

    # ---------------------------------------------------------------- one part's questions

    def fill_sheet(self, wanted: Mapping[str, Raw]) -> None:
        """Every answer of job.yaml."""
        self.go("sheet")
        expect(self.page.locator(".question").first).to_be_visible()
        for question in (each for block in self.asked("/api/sheet")["blocks"] for each in block["questions"]):
            self.answer(question, wanted, [])
        self.all_saved()

    def fill(self, part: str, wanted: Mapping[str, Raw], rows: list[Mapping[str, str]]) -> None:
        """Every answer of a part: `wanted` as findings.yaml holds it, `rows` as measurements.csv does."""
        self.go("part", part)
        expect(self.page.locator(".question").first).to_be_visible()
        form = self.asked(f"/api/part/{part}")["form"]
        # Details first: what else is asked hangs on them.
        for question in (each for block in form["blocks"] for each in block["questions"]):
            self.answer(
                question, wanted, [row for row in rows if question["id"] == f"readings.{row['quantity']}"]
            )
        self.all_saved()

    def answer(
        self, question: Mapping[str, Any], wanted: Mapping[str, Raw], rows: list[Mapping[str, str]]
    ) -> None:
        """One answer, in the way its question is answered; nothing where nothing is wanted."""
        raw: Raw = wanted
        for step in question["id"].split("."):
            raw = raw.get(step) if isinstance(raw, dict) else None
        if raw is None and not rows:
            return
        place = self.page.locator(f"[data-question='{question['id']}']")
        if not place.is_visible():
            self.open_up(self.page.locator("details.more", has=place))
        ways = {
            "choices": self.several_of,
            "included": self.several_of,
            "work": self.entries,
            "rows": self.entries,
        }
        if rows:
            self.readings(place, rows)
        elif way := ways.get(question["sort"]):
            way(place, question, raw)
        elif question["sort"] in {"choice", "yesno", "examined"}:
            for index, each in enumerate(several(raw)):
                self.choice(place, question, index, each)
        else:
            self.words(place, question, raw)

    def words(self, place: Locator, question: Mapping[str, Any], raw: Raw) -> None:
        """Words, a number, a date, or one to a line."""
        main = question.get("main") or ""
        text = "\n".join(raw) if isinstance(raw, list) else main_of(raw, main).strip()
        if question["sort"] == "photo":
            place.locator("select").select_option(text)
            return
        self.write(place.locator("input, textarea").first, text)
        if isinstance(raw, dict):
            self.extras(place.locator("details.extras"), raw, main)

    def choice(self, place: Locator, question: Mapping[str, Any], index: int, raw: Raw) -> None:
        """One of some answers, the one of that place in the list."""
        main = question.get("main") or ""
        if index:
            self.tap(place.get_by_role("button", name="At another place too"))
        told = {each["id"]: each["words"] for each in question.get("choices", [])} or {
            "true": "yes",
            "false": "no",
        }
        words = told[main_of(raw, main)]
        answer = place.locator(".answers > .answer").nth(index)
        button = (
            answer.locator(".choices")
            .first.locator(".choice", has_text=re.compile(f"^{re.escape(words)}"))
            .first
        )
        if button.get_attribute("aria-pressed") == "false":
            self.tap(button)
        if isinstance(raw, dict):
            self.extras(answer.locator("details.extras"), raw, main)

    def extras(self, details: Locator, raw: Mapping[str, Raw], main: str) -> None:
        """What stands beside an answer: basis, place, side, note, photos."""
        if not set(raw) - {main}:
            return
        self.open_up(details)
        for key, value in raw.items():
            if key == main:
                continue
            if key == "photos":
                for file in value:
                    self.tap(details.locator(".choice", has_text=file))
            elif key in {"side", "state", "basis"}:
                details.locator(f"select[id$='-{key}']").select_option(value)
            else:
                self.write(details.locator(f"[id$='-{key}']"), value.strip())

    def several_of(self, place: Locator, question: Mapping[str, Any], raw: Raw) -> None:
        """Several of some answers."""
        if raw == ["all"]:
            self.tap(place.get_by_role("button", name="All of it"))
            return
        words = {each["id"]: each["words"] for each in question["choices"]}
        for each in raw:
            self.tap(place.locator(".choice", has_text=re.compile(f"^{re.escape(words[each])}$")))

    def entries(self, place: Locator, question: Mapping[str, Any], raw: Raw) -> None:
        """Entries with columns."""
        for index, entry in enumerate(several(raw)):
            if place.locator(".entry").count() <= index:
                self.tap(place.get_by_role("button", name="Add", exact=True))
            for column in question["columns"]:
                if column["id"] not in entry:
                    continue
                field = place.locator(f"[id$='-{index}-{column['id']}']")
                if not field.is_visible():
                    self.open_up(place.locator(".entry").nth(index).locator("details.more"))
                value = entry[column["id"]]
                if column["sort"] in {"choice", "yesno"}:
                    field.select_option(value)
                else:
                    self.write(field, ", ".join(value) if isinstance(value, list) else value.strip())

    def readings(self, place: Locator, rows: list[Mapping[str, str]]) -> None:
        """Each reading in the next free cell of its place and side; then what stands beside it."""
        for row in rows:
            sides = {"port": "port", "starboard": "starboard"}
            label = ", ".join(each for each in (row["at"], sides.get(row["side"], "")) if each)
            group = (
                place.locator(".cells:not(:has(.cells-label))")
                if not label
                else place.locator(".cells", has=place.page.locator(f'.cells-label:text-is("{label}")'))
            )
            said = f"{row['value']} {row['unit']}".strip()
            if not group.count():
                self.tap(place.get_by_role("button", name="At another place", exact=True))
                self.write(place.locator("[id$='-where']"), row["at"])
                group = place.locator(".cells.elsewhere")
            cells = group.first.locator("input")
            self.write(next(cell for cell in cells.all() if not cell.input_value()), said)
            expect(place.locator("details.extras .fields")).to_have_count(rows.index(row) + 1)
        details = place.locator("details.extras")
        beside = {"uncertainty": "u", "instrument": "i", "note": "n"}
        if not any(row[key] for row in rows for key in beside):
            return
        self.open_up(details)
        shown = [re.sub(r"\s+", " ", each.inner_text()) for each in details.locator(".fields > strong").all()]
        for row in rows:
            head = f"{row['value']} {row['unit']} {row['at']}".strip()
            index = next(
                at
                for at, text in enumerate(shown)
                if re.sub(r"\s+", " ", text).strip() == re.sub(r"\s+", " ", head)
            )
            shown[index] = ""
            fields = details.locator(".fields").nth(index)
            for key, short in beside.items():
                if row[key] and short == "i":
                    fields.locator(f"[id$='-{short}']").select_option(row[key])
                elif row[key]:
                    self.write(fields.locator(f"[id$='-{short}']"), row[key])

    # ---------------------------------------------------------------- marks

    def mark_up(self, file: str, part: str, use: Mapping[str, Raw]) -> None:
        """Caption, weight and every mark of a photo, drawn by a finger."""
        self.at_photo(file, part)
        if use.get("caption"):
            self.write(self.page.locator(".marking-right textarea").first, use["caption"].strip())
        shows = {"context": "where it stands", "close_up": "from near by", "paper": "a paper"}
        if use.get("shows"):
            self.tap(self.page.get_by_role("button", name=shows[use["shows"]]))
        if use.get("decides"):
            self.tap(self.page.get_by_role("button", name="It decides"))
        for index, mark in enumerate(use.get("marks", [])):
            self.mark(mark)
            expect(self.page.locator(".mark")).to_have_count(index + 1)
            self.numbered(index, mark)

    def at_photo(self, file: str, part: str) -> None:
        """Goes to a photo of a part, and waits until it is there."""
        self.go("photo", file, part)
        expect(self.page.locator(f".stage img[src*='{file}']")).to_be_visible()
        self.page.evaluate("() => document.querySelector('.stage img').decode()")

    def mark(self, mark: Mapping[str, Raw]) -> None:
        """One mark by strokes, and by its field of words where it has them."""
        kind = mark["kind"]
        tool = self.page.locator(".tool", has_text=re.compile(f"^{SORTS[kind]}$"))
        self.tap(tool)
        expect(tool).to_have_attribute("aria-pressed", "true")
        if kind in TWO_PLACES:
            first, second = (tuple(map(float, mark[key])) for key in TWO_PLACES[kind])
            self.stroke(first, second)
        elif kind == "label":
            at = tuple(map(float, mark["at"]))
            self.stroke(at, at)
            self.page.locator("#label-words").fill(mark["text"])
            self.page.locator("#label-words").press("Enter")
        else:
            x, y = map(float, mark["at"])
            # Towards the rim on a slant, so that width and height both count.
            box, wide = self.box(), float(mark["radius"])
            self.stroke((x, y), (x + 0.6 * wide, y + 0.8 * wide * box["width"] / box["height"]))

    def numbered(self, index: int, mark: Mapping[str, Raw]) -> None:
        """The mark's number and words as wanted, in its fields."""
        chosen = self.page.locator(".mark").nth(index)
        expect(chosen.locator(".fields")).to_be_visible()
        number = chosen.get_by_label("Number", exact=True)
        if number.input_value() != str(mark.get("callout", "")):
            self.write(number, str(mark.get("callout", "")))
        if mark.get("length"):
            self.write(chosen.get_by_label("Length, as read off the gauge"), mark["length"])
        if mark.get("zoom"):
            self.write(chosen.get_by_label("Times larger"), mark["zoom"])

    def look_nearer(self, steps: int) -> None:
        """Looks nearer by so many steps, or farther by as many below nought."""
        for _ in range(abs(steps)):
            self.tap(self.page.get_by_role("button", name="Zoom in" if steps > 0 else "Zoom out", exact=True))

    def box(self) -> dict[str, float]:
        """Where the photo is on the screen."""
        self.page.locator(".stage").scroll_into_view_if_needed()
        box = self.page.locator(".stage img").bounding_box()
        assert box
        return {"x": box["x"], "y": box["y"], "width": box["width"], "height": box["height"]}

    def stroke(self, start: tuple[float, ...], end: tuple[float, ...]) -> None:
        """A finger from one fraction of the photo to another; on one place it is a tap."""
        box = self.box()

        def at(spot: tuple[float, ...]) -> dict[str, float]:
            return {"x": box["x"] + spot[0] * box["width"], "y": box["y"] + spot[1] * box["height"]}

        ways = (
            []
            if start == end
            else [
                tuple(a + (b - a) * part for a, b in zip(start, end, strict=True)) for part in (0.3, 0.7, 1)
            ]
        )
        self.fingers("touchStart", at(start))
        for way in ways:
            self.fingers("touchMove", at(way))
        self.fingers("touchEnd")

    def fingers(self, what: str, *spots: dict[str, float]) -> None:
        """What fingers do, as the browser's own input."""
        self._touch = self._touch or self.page.context.new_cdp_session(self.page)
        self._touch.send("Input.dispatchTouchEvent", {"type": what, "touchPoints": list(spots)})
