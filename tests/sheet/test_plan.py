"""The plan of a visit: what it says of a boat and of kinds alone, and that it fits two pages."""

from __future__ import annotations

import shutil
import subprocess
from pathlib import Path

import pypdf
import pytest

from reporter import finishing, visiting
from reporter.asking import walk
from reporter.errors import NoSuchError
from reporter.outline.plan_pages import plan_pages
from reporter.outline.visit_plan import PlanSection, VisitPlan
from reporter.outputs.plan_lines import plan_lines
from reporter.wording import catalogue, speaking
from tests.sheet.making import REGISTRY, ROOT, quiet
from tests.validator.verapdf import validate

pytestmark = pytest.mark.slow

DEMO = ROOT / "demo_job"
GUDGEON = ROOT / ".venv/bin/gudgeon"
WORDS = catalogue()


@pytest.fixture(scope="module")
def plan() -> VisitPlan:
    return visiting.plan(DEMO, (), REGISTRY)


def section(plan: VisitPlan, name: str) -> PlanSection:
    return next(each for each in plan.sections() if each.title == WORDS(f"plan.{name}"))


def row(plan: VisitPlan, name: str, lead: str) -> str:
    return dict(section(plan, name).rows)[WORDS(f"plan.{lead}")]


@pytest.fixture(scope="module")
def paper(plan: VisitPlan, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demo's plan as a file."""
    target = tmp_path_factory.mktemp("plan") / "plan.pdf"
    finishing.write(plan_pages(plan, lang="en", page="A4"), DEMO, target, dpi=100, tell=quiet)
    return target


def test_the_demos_plan_fits_two_pages(paper: Path) -> None:
    assert len(pypdf.PdfReader(paper).pages) <= 2


def test_it_is_an_archival_and_accessible_file_by_the_reference_validator(paper: Path) -> None:
    target = paper
    assert validate([target], "ua1")[target.resolve()] == []
    assert validate([target], "3a")[target.resolve()] == []


def test_every_part_stands_in_the_walk_under_the_number_of_the_sheet(plan: VisitPlan) -> None:
    told = " ".join(text for _, text in section(plan, "walk").rows)
    stops = walk(REGISTRY, plan.job, plan.template)
    parts = [part for stop in stops for part in stop.parts]
    assert [part.number for part in parts] == list(range(1, len(parts) + 1))
    assert all(f"{part.number} {part.name}" in told for part in parts)
    items = {item.words for part in parts for item in REGISTRY.plugin(part.kind).examination}
    assert [item for item in items if WORDS.terms(item) not in told] == []


def test_it_says_whom_to_ask_and_for_which_tests(plan: VisitPlan) -> None:
    assert row(plan, "before", "ask").startswith("Ines Carvell")
    assert "Rim pulled hard both ways, rudder held (1, 4)" in row(plan, "before", "under_load")
    assert "Roughness" not in row(plan, "before", "under_load"), "a hand alone is no load"
    assert "nothing is cleaned" in row(plan, "before", "work")
    assert "common practice" in row(plan, "before", "time")


def test_time_is_reckoned_from_the_usual_questions(plan: VisitPlan) -> None:
    """Half a minute an observation, three minutes a reading and place; recomputed by hand for the wheel brake."""
    brake = next(part for part in plan.parts if part.kind == "wheel_brake")
    plugin = REGISTRY.plugin("wheel_brake")
    looks = sum(each.asked == "usual" for each in plugin.observations)
    takes = sum(max(1, len(each.places)) for each in plugin.readings if each.asked == "usual")
    assert plan._minutes(brake) == looks * 0.5 + takes * 3
    assert plan._hours(61) == WORDS("plan.hours", hours="1:15")
    assert plan._hours(60) == WORDS("plan.hours", hours="1:00")


def test_what_last_time_left_stands_there_with_its_numbers(plan: VisitPlan) -> None:
    assert "RT-2026-014" in section(plan, "left").note
    told = dict(section(plan, "left").rows)
    assert "10 renew the wires of both sides" in told["stop"]
    assert "16 all of it, afloat" in told[WORDS("plan.unseen")]
    assert "3 chain elongation" in told[WORDS("plan.near")]


def test_a_visit_that_lies_ahead_looks_at_the_earlier_folder(tmp_path: Path) -> None:
    """Without a finding the last record is the earlier one, and its parts are walked though nobody listed them."""
    folder = shutil.copytree(DEMO, tmp_path / "job")
    (folder / "findings.yaml").write_text("format: 1\ncomponents: []\n")
    (folder / "measurements.csv").unlink()
    plan = visiting.plan(folder, (), REGISTRY)
    assert plan.last is not None
    assert plan.last[0].sheet.report.number in section(plan, "left").note
    assert plan.last[0].sheet.report.number != "RT-2026-014"
    assert {"wheel", "chain"} <= {part.ident for part in plan.parts}
    told = " ".join(text for _, text in section(plan, "walk").rows)
    assert "Wheel and shaft (expected, not listed yet)" in told


def test_tools_are_merged_and_supplies_come_only_where_work_is_allowed(plan: VisitPlan) -> None:
    tools = row(plan, "bring", "tools").split("; ")
    assert len({each.casefold() for each in tools}) == len(tools)
    assert {"torch", "mirror", "magnifier of seven times or more"} <= set(tools)
    assert "magnifier" not in tools, "who brings the stronger one has it"
    assert WORDS("plan.supplies") not in dict(section(plan, "bring").rows)
    assert plan.job is not None
    allowed = plan.job.sheet.permission.model_copy(update={"work": True, "by": "Ines Carvell"})
    sheet = plan.job.sheet.model_copy(update={"permission": allowed})
    working = VisitPlan(
        plan.kinds, WORDS, plan.job.model_copy(update={"sheet": sheet}), plan.template, (), plan.last
    )
    assert "30-weight oil for the chain" in row(working, "bring", "supplies")
    assert "wire, 7x19, 6\u00a0mm, carbon steel" in row(working, "bring", "sized"), "in the boat's own sizes"
    assert "Ines Carvell" in row(working, "before", "work")


def test_each_kind_warns_before_anything_is_touched(plan: VisitPlan) -> None:
    told = " ".join(text for _, text in section(plan, "care").rows)
    kinds = {part.kind for part in plan.parts}
    firsts = [REGISTRY.plugin(kind).cautions[0] for kind in kinds if REGISTRY.plugin(kind).cautions]
    heard = [set(WORDS.terms(each).casefold().split()) & set(told.casefold().split()) for each in firsts]
    assert all(len(words) >= 4 for words in heard)
    assert "chock the rudder before putting a hand near chain and sprocket" in told


def test_kinds_alone_make_a_plan() -> None:
    plan = visiting.plan(None, ("sheave", "chain"), REGISTRY)
    assert [part.kind for part in plan.parts] == ["chain", "sheave"], "in walking order"
    assert WORDS("plan.left") not in [each.title for each in plan.sections()]
    with pytest.raises(NoSuchError):
        visiting.plan(None, ("gearbox",), REGISTRY)


def test_lines_fit_a_terminal_and_say_the_same(plan: VisitPlan) -> None:
    lines = list(plan_lines(plan))
    assert max(map(len, lines)) <= 78
    assert all(each.title in lines for each in plan.sections())


def test_it_speaks_german() -> None:
    plan = visiting.plan(DEMO, (), REGISTRY, "de")
    with speaking("de"):
        text = "\n".join(plan_lines(plan))
    assert "Bevor Sie an Bord gehen" in text
    assert "To be reached" not in text


def test_the_command_takes_a_folder_or_kinds() -> None:
    def run(*arguments: str) -> subprocess.CompletedProcess[str]:
        return subprocess.run([GUDGEON, "plan", *arguments], capture_output=True, text=True, check=False)

    assert run().returncode == 2
    assert run(str(DEMO), "--kinds", "chain").returncode == 2
    assert run("--kinds", "gearbox").returncode == 4
    assert "Steering chain and sprocket" in run("--kinds", "chain").stdout


def test_numbers_lead_the_eye_and_what_is_to_be_reached_is_held_back(plan: VisitPlan) -> None:
    """On paper; the words are those of the terminal."""
    blocks = [block for block in plan_pages(plan, lang="en", page="A4").blocks if block.kind == "paragraph"]
    (helm,) = [block for block in blocks if block.text[0].text == "Steering gear: At the helm: "]
    assert [span.text for span in helm.text if span.style == "strong"][1:] == ["1", "2"]
    quiet = "".join(span.text for span in helm.text if span.style == "quiet")
    assert quiet.startswith("To be reached: the whole travel by hand")
    told = dict(section(plan, "walk").rows)["Steering gear: At the helm"]
    assert "".join(span.text for span in helm.text[1:]) == told
