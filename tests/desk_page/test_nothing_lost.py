"""Nothing that the page called saved is lost, and nothing that it could not save is called so.

Two windows, an editor that writes an old copy, a server that is killed amid edits, a computer that sleeps.
"""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Dialog, Locator, Route, expect

from tests.desk_page.hands import Hands
from tests.desk_page.slices import raw

pytestmark = pytest.mark.slow

CHAIN = "part", "chain"


def answer(hands: Hands, question: str, words: str) -> Locator:
    """The button of an answer."""
    place = hands.page.locator(f"[data-question='{question}']")
    button: Locator = place.locator(".choice", has_text=re.compile(f"^{re.escape(words)}"))
    return button


def on_disk(folder: Path, part: str = "chain") -> dict[str, Any]:
    """The part as findings.yaml holds it now."""
    found = raw(folder / "findings.yaml")["components"]
    return next(each for each in found if each["id"] == part)


def test_each_of_two_windows_sees_and_keeps_what_the_other_did(start: Any, windows: Any, demo: Path) -> None:
    one = windows.first(start(demo))
    one.go(*CHAIN)
    other = windows.another(one)
    other.go(*CHAIN)
    one.tap(answer(one, "observed.lubrication", "oiled to the pins"))
    other.tap(answer(other, "observed.stiff_links", "links that stay stiff"))
    for hands in (one, other):
        hands.all_saved()
        expect(answer(hands, "observed.lubrication", "oiled to the pins")).to_have_attribute(
            "aria-pressed", "true"
        )
        expect(answer(hands, "observed.stiff_links", "links that stay stiff")).to_have_attribute(
            "aria-pressed", "true"
        )
    told = on_disk(demo)["observed"]
    assert (told["lubrication"], told["stiff_links"]) == ("oiled", "stiff")


def test_what_two_windows_changed_is_asked_at_once_with_both_values(
    start: Any, windows: Any, demo: Path
) -> None:
    """The second window works on what it saw before the first one wrote: it slept."""
    one = windows.first(start(demo))
    one.go(*CHAIN)
    other = windows.another(one)
    other.go(*CHAIN)
    expect(answer(other, "observed.lubrication", "oiled to the pins")).to_be_visible()
    other.page.context.set_offline(False)
    other.page.route("**/api/**", lambda route: route.abort())
    one.tap(answer(one, "observed.lubrication", "oiled to the pins"))
    one.all_saved()
    other.tap(answer(other, "observed.lubrication", "stiff old grease that holds dirt"))
    expect(other.page.locator("#saved")).to_have_text("No connection: 1 not saved yet")
    other.page.unroute("**/api/**")
    dialog = other.page.get_by_role("dialog", name="Changed twice")
    expect(dialog).to_be_visible()
    expect(dialog).to_contain_text("oiled")
    expect(dialog).to_contain_text("greased")
    assert on_disk(demo)["observed"]["lubrication"] == "oiled", "nobody has overruled anybody yet"
    other.tap(dialog.get_by_role("button", name="Put yours"))
    other.all_saved()
    assert on_disk(demo)["observed"]["lubrication"] == "greased"
    expect(answer(one, "observed.lubrication", "stiff old grease that holds dirt")).to_have_attribute(
        "aria-pressed", "true"
    )


def test_the_other_answer_stays_when_somebody_says_so(start: Any, windows: Any, demo: Path) -> None:
    one = windows.first(start(demo))
    one.go(*CHAIN)
    other = windows.another(one)
    other.go(*CHAIN)
    expect(answer(other, "observed.lubrication", "oiled to the pins")).to_be_visible()
    other.page.route("**/api/**", lambda route: route.abort())
    one.tap(answer(one, "observed.lubrication", "oiled to the pins"))
    one.all_saved()
    other.tap(answer(other, "observed.lubrication", "stiff old grease that holds dirt"))
    other.page.unroute("**/api/**")
    dialog = other.page.get_by_role("dialog", name="Changed twice")
    expect(dialog).to_be_visible()
    other.tap(dialog.get_by_role("button", name="Keep theirs"))
    other.all_saved()
    expect(answer(other, "observed.lubrication", "oiled to the pins")).to_have_attribute(
        "aria-pressed", "true"
    )
    assert on_disk(demo)["observed"]["lubrication"] == "oiled"


def test_what_an_old_copy_took_away_is_offered_and_put_back(start: Any, windows: Any, demo: Path) -> None:
    """An editor elsewhere saves the file as it was before."""
    old = (demo / "findings.yaml").read_bytes()
    hands = windows.first(start(demo))
    hands.go(*CHAIN)
    hands.tap(answer(hands, "observed.lubrication", "oiled to the pins"))
    hands.all_saved()
    (demo / "findings.yaml").write_bytes(old)
    offer = hands.page.get_by_role("region", name="Changed by another program")
    expect(offer).to_contain_text("Lubrication")
    expect(offer).to_contain_text("oiled")
    expect(answer(hands, "observed.lubrication", "the chain is dry")).to_have_attribute(
        "aria-pressed", "true"
    )
    hands.tap(offer.get_by_role("button", name="Put it back"))
    expect(offer).to_have_count(0)
    expect(answer(hands, "observed.lubrication", "oiled to the pins")).to_have_attribute(
        "aria-pressed", "true"
    )
    assert on_disk(demo)["observed"]["lubrication"] == "oiled"


def test_a_killed_server_loses_nothing_that_was_called_saved(start: Any, windows: Any, demo: Path) -> None:
    """Kill -9 amid edits; a new start on the same port; what waited in the window is then sent."""
    server = start(demo)
    hands = windows.first(server)
    hands.go("part", "pedestal")
    saved: dict[str, str] = {}
    for turn in range(3):
        note = f"turn {turn}"
        hands.write(hands.page.locator("[data-question='place'] input"), note)
        if turn < 2:
            hands.all_saved()
            saved["place"] = note
    server.kill()
    assert on_disk(demo, "pedestal")["place"] in {saved["place"], "turn 2"}
    hands.write(hands.page.locator("[data-question='name'] input"), "Pedestal, kept")
    expect(hands.page.locator("#saved")).to_contain_text("not saved yet")
    assert on_disk(demo, "pedestal").get("name") != "Pedestal, kept"
    server.start()
    again = windows.another(hands)
    again.page.goto(server.url)
    hands.all_saved()
    told = on_disk(demo, "pedestal")
    assert (told["place"], told["name"]) == ("turn 2", "Pedestal, kept")


def test_edits_made_without_a_connection_wait_and_arrive(start: Any, windows: Any, demo: Path) -> None:
    """As after sleep, or out of reach of the network; the window may even be loaded again in between."""
    hands = windows.first(start(demo))
    hands.go(*CHAIN)
    expect(answer(hands, "observed.lubrication", "oiled to the pins")).to_be_visible()
    hands.page.context.set_offline(True)
    hands.tap(answer(hands, "observed.lubrication", "oiled to the pins"))
    hands.tap(answer(hands, "observed.stiff_links", "links that stay stiff"))
    expect(hands.page.locator("#saved")).to_have_text("No connection: 2 not saved yet")
    assert on_disk(demo)["observed"]["lubrication"] == "dry"
    hands.page.context.set_offline(False)
    hands.all_saved()
    told = on_disk(demo)["observed"]
    assert (told["lubrication"], told["stiff_links"]) == ("oiled", "stiff")
    expect(answer(hands, "observed.lubrication", "oiled to the pins")).to_have_attribute(
        "aria-pressed", "true"
    )


def test_leaving_with_something_unsaved_is_asked_about(start: Any, windows: Any, demo: Path) -> None:
    hands = windows.first(start(demo))
    hands.go(*CHAIN)
    hands.page.context.set_offline(True)
    hands.tap(answer(hands, "observed.lubrication", "oiled to the pins"))
    expect(hands.page.locator("#saved")).to_contain_text("1 not saved yet")
    asked: list[str] = []

    def stay(dialog: Dialog) -> None:
        asked.append(dialog.type)
        dialog.dismiss()

    hands.page.on("dialog", stay)
    with hands.page.expect_event("dialog"):
        hands.page.close(run_before_unload=True)
    assert asked == ["beforeunload"]
    assert not hands.page.is_closed()
    hands.page.context.set_offline(False)
    hands.all_saved()


def test_what_waits_outlives_a_reload(start: Any, windows: Any, demo: Path) -> None:
    hands = windows.first(start(demo))
    hands.go(*CHAIN)
    hands.page.route("**/api/edit", lambda route: route.abort())
    hands.tap(answer(hands, "observed.lubrication", "oiled to the pins"))
    expect(hands.page.locator("#saved")).to_contain_text("1 not saved yet")
    hands.page.on("dialog", lambda dialog: dialog.accept())
    hands.page.reload()
    hands.page.unroute("**/api/edit")
    expect(answer(hands, "observed.lubrication", "oiled to the pins")).to_have_attribute(
        "aria-pressed", "true"
    )
    hands.all_saved()
    assert on_disk(demo)["observed"]["lubrication"] == "oiled"


def test_undo_and_redo_outlive_a_restart(start: Any, windows: Any, demo: Path) -> None:
    server = start(demo)
    hands = windows.first(server)
    hands.go(*CHAIN)
    hands.tap(answer(hands, "observed.lubrication", "oiled to the pins"))
    hands.all_saved()
    server.kill()
    server.start()
    later = windows.first(server)
    later.go(*CHAIN)
    later.tap(later.page.get_by_role("button", name="Undo"))
    expect(answer(later, "observed.lubrication", "the chain is dry")).to_have_attribute(
        "aria-pressed", "true"
    )
    assert on_disk(demo)["observed"]["lubrication"] == "dry"
    later.tap(later.page.get_by_role("button", name="Redo"))
    expect(answer(later, "observed.lubrication", "oiled to the pins")).to_have_attribute(
        "aria-pressed", "true"
    )
    assert on_disk(demo)["observed"]["lubrication"] == "oiled"


def test_a_field_that_is_left_as_it_was_waits_for_nothing(start: Any, windows: Any, demo: Path) -> None:
    hands = windows.first(start(demo))
    hands.go(*CHAIN)
    field = hands.page.locator("[data-question='place'] input")
    was = field.input_value()
    field.fill("something else")
    expect(hands.page.locator("#saved")).to_have_text("Not saved yet")
    field.fill(was)
    field.blur()
    hands.all_saved()
    assert on_disk(demo)["place"] == was


def test_what_is_typed_goes_along_when_somebody_leaves_the_view(start: Any, windows: Any, demo: Path) -> None:
    hands = windows.first(start(demo))
    hands.go(*CHAIN)
    hands.page.locator("[data-question='place'] input").fill("under the compass")
    hands.go("walk")
    hands.all_saved()
    assert on_disk(demo)["place"] == "under the compass"


def test_an_answer_that_was_lost_on_its_way_is_no_conflict(start: Any, windows: Any, demo: Path) -> None:
    """The server took the edit, the window never heard so and goes on writing."""
    hands = windows.first(start(demo))
    hands.go(*CHAIN)
    field = hands.page.locator("[data-question='place'] input")

    silent = [True]

    def take_and_be_silent(route: Route) -> None:
        if not silent[0]:
            return route.continue_()
        route.fetch()
        return route.abort()

    hands.page.route("**/api/edit", take_and_be_silent)
    hands.write(field, "one")
    expect(hands.page.locator("#saved")).to_contain_text("not saved yet")
    hands.write(field, "two")
    silent[0] = False
    hands.all_saved()
    expect(hands.page.get_by_role("dialog")).to_have_count(0)
    assert on_disk(demo)["place"] == "two"
