"""What a person sees of a run while it lasts, and what a pipe does not."""

from __future__ import annotations

import re
from io import StringIO
from pathlib import Path

import pytest
from rich.console import Console

from reporter import finishing, pipeline
from reporter.commands.live import live
from reporter.commands.progress import RunTold, progress
from reporter.wording import catalogue

STEPS = ("1 collect", "2 grade", "3 outline", "4 develop", "5 typeset", "6 archive")


class Seen:
    """A line that remembers."""

    def __init__(self) -> None:
        self.shown: list[tuple[str, int, int]] = []
        self.left: list[str] = []

    def show(self, words: str, done: int, count: int) -> None:
        """Remember it."""
        self.shown.append((words, done, count))

    def leave(self, words: str) -> None:
        """Remember it."""
        self.left.append(words)


def _run(told: RunTold) -> None:
    for step in STEPS:
        told.step(step)
        if step == "4 develop":
            for done in range(1, 41):
                told.photos(done, 40)
    told.end()


@pytest.mark.parametrize("lang", ["en", "de"])
def test_each_step_is_told_with_its_photos_and_leaves_a_line_where_asked(lang: str) -> None:
    words, plain, verbose = catalogue(lang), Seen(), Seen()
    _run(RunTold(plain, words, 6, verbose=False))
    _run(RunTold(verbose, words, 6, verbose=True))
    fourth = {"en": "4 of 6: preparing the photos", "de": "4 von 6: Fotos vorbereiten"}[lang]
    assert [shown for shown in plain.shown if shown[0] == fourth] == [
        (fourth, done, 40 if done else 0) for done in range(41)
    ]
    assert (len(plain.shown), plain.left) == (46, [])
    assert len(verbose.left) == 6
    told = {"en": r" \(40 photos\)", "de": r" \(40 Fotos\)"}[lang]
    assert re.fullmatch(re.escape(fourth) + r", \d+\.\d s" + told, verbose.left[3])
    assert re.fullmatch(r".*, \d+\.\d s", verbose.left[5])


def test_the_line_at_a_terminal_fits_80_columns_and_is_gone_at_the_end() -> None:
    screen = StringIO()
    console = Console(file=screen, force_terminal=True, width=80, color_system=None)
    with live(catalogue("en"), console) as line:
        line.show("4 of 6: preparing the photos", 10, 40)
        line._shown.refresh()
        line.leave("a line that stays, of [bold]no[/bold] markup")
        line.show("5 of 6: laying out the pages", 0, 0)
        line._shown.refresh()
    shown = screen.getvalue()
    lines = re.split(r"[\r\n]+", re.sub(r"\x1b\[[?0-9;]*[a-zA-Z]", "", shown))
    assert max(map(len, lines)) <= 80
    assert any("preparing the photos" in each and "10 of 40 photos" in each for each in lines)
    assert not any("laying out" in each and "photos" in each for each in lines), "the next step counts anew"
    assert "a line that stays, of [bold]no[/bold] markup" in map(str.rstrip, lines)
    assert shown.rstrip("\r\n").endswith("\x1b[2K"), "the line is taken away again"


@pytest.mark.parametrize("lang", ["en", "de"])
@pytest.mark.parametrize("width", [40, 80])
def test_what_is_left_to_do_stays_on_one_line(lang: str, width: int) -> None:
    """The longest there is: of the step with the longest name some minutes are left, of more than a thousand photos."""
    clock, words = [0.0], catalogue(lang)
    screen = StringIO()
    console = Console(
        file=screen, force_terminal=True, width=width, color_system=None, get_time=lambda: clock[0]
    )
    with live(words, console) as line:
        told = RunTold(line, words, 6, verbose=False)
        told.step("4 develop")
        for done in range(1000, 1011):
            told.photos(done, 1200)
            clock[0] += 4.0
        line._shown.refresh()
        drawn = console.render_lines(line._shown.get_renderable())
    assert len(drawn) == 1
    if width == 80:
        (text,) = ("".join(part.text for part in row).rstrip() for row in drawn)
        assert text.endswith(
            {"en": "1010 of 1200 photos, about 13 min left", "de": "1010 von 1200 Fotos, noch etwa 13 min"}[
                lang
            ]
        )


@pytest.mark.parametrize(
    ("every", "lang", "left"),
    [(2.0, "en", "about 3 min left"), (0.5, "en", "about 45 s left"), (2.0, "de", "noch etwa 3 min")],
)
def test_time_left_is_told_in_seconds_and_minutes(every: float, lang: str, left: str) -> None:
    """10 of 100 done, one each 2 s (0.5 s): 180 s (45 s) are left."""
    clock = [0.0]
    console = Console(file=StringIO(), force_terminal=True, width=100, get_time=lambda: clock[0])
    with live(catalogue(lang), console) as line:
        for done in range(11):
            line.show("x", done, 100)
            clock[0] += every
        (task,) = line._shown.tasks
        told = str(line._shown.columns[-1](task))  # type: ignore[operator]
    assert told.split(", ")[1] == left
    assert re.match(r"10 \w+ 100 \w+,", told)


@pytest.mark.parametrize(
    ("quiet", "verbose", "lines"), [(False, False, 0), (False, True, 6), (True, True, 0)]
)
def test_a_pipe_gets_only_what_is_asked_for(
    quiet: bool, verbose: bool, lines: int, capsys: pytest.CaptureFixture[str]
) -> None:
    with progress("", Path("x.pdf"), quiet=quiet, verbose=verbose) as told:
        _run(told)
    out, err = capsys.readouterr()
    assert (out, err.count("\n")) == ("", lines)
    if lines:
        assert err.startswith("1 of 6: reading the folder, ")
    with progress("", Path("x.html"), quiet=False, verbose=True) as told:
        told.step("5 web")
    assert capsys.readouterr().err.startswith("5 of 5: writing the page, ")


def test_every_step_of_a_run_has_its_words() -> None:
    """The pipeline's own names of steps."""
    texts = [Path(str(module.__file__)).read_text("utf-8") for module in (pipeline, finishing)]
    named = re.findall(r'tell\("\d (\w+)"\)', "".join(texts))
    assert set(named) == {"collect", "grade", "outline", "develop", "typeset", "archive", "web"}
    assert all(catalogue(lang)(f"progress.{name}") for name in named for lang in ("en", "de"))
