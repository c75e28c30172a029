"""What was answered changes what each way to go on says: at its head, and beside its numbers."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
import yaml
from guide.compendium import VOCABULARY, report, written
from passageproof.build import build_files
from passageproof.publishing import publish
from playwright.sync_api import Locator, Page
from site_server import SiteServer, serving
from waiting import wait_until

pytestmark = pytest.mark.browser

UNMET = "does not meet what this way asks"
UNKNOWN = "not known for this way"
ROOT = Path(__file__).parents[2]
EVIDENCE = ROOT / "evidence" / "claims"
GRAFTS = ROOT / "tests" / "other_trade" / "evidence" / "claims"
# The factor whose levels are the ways of a question.
WAYS = {
    "teeth": {"broken-instrument": "fragment-plan", "exposed-pulp": "pulp-treatment"},
    "grafts": {"graft-cloudy": "graft-kind", "wound-leak": "wound-closure"},
}
FLOOD = "Your answer (<i>flood</i>)"


def row_of(page: Page, way: str) -> Locator:
    page.evaluate("document.querySelector('details.beside').open = true")
    return page.locator("table.ways tbody tr", has=page.locator("th", has_text=way))


@pytest.mark.parametrize(
    ("answers", "way", "said"),
    [
        (
            "root-perforation/#bleeding-control=bleeding", "Repair now",
            f"Your answer (still bleeding) {UNMET}: A hole that is seen and dry.",
        ),
        (
            "exposed-pulp/#pulp-bleeding=late", "Cap it",
            f"Your answer (over 6 minutes) {UNMET}: A pulp that soon stops bleeding under a moist pellet.",
        ),
        (
            "broken-instrument/#fragment-seen=hidden", "Take it out",
            f"Your answer (not seen) {UNMET}: A fragment that is seen through the microscope.",
        ),
    ],
    ids=["still bleeding", "over six minutes", "not seen"],
)  # fmt: skip
def test_a_way_whose_condition_an_answer_breaks_says_so_at_its_head(
    demo_server: SiteServer, opened: Callable[..., Page], answers: str, way: str, said: str
) -> None:
    page = opened()
    page.goto(demo_server.url + answers)
    head = page.locator("details.way > summary", has_text=way)
    head.locator(".warning").wait_for()
    assert said in head.inner_text()
    assert said in row_of(page, way).locator("th").inner_text()
    others = page.locator("details.way > summary").filter(has_not_text=way)
    assert all(UNMET not in other for other in others.all_inner_texts())


def test_what_an_answer_has_against_a_way_stands_above_the_steps_of_the_visit_too(
    demo_server: SiteServer, opened: Callable[..., Page]
) -> None:
    page = opened()
    page.goto(f"{demo_server.url}root-perforation/#bleeding-control=bleeding")
    page.locator("#steps > .warning").wait_for(state="attached")
    page.evaluate("document.querySelector('#steps').open = true")
    told = page.locator("#steps").inner_text()
    said = f"Repair now: Your answer (still bleeding) {UNMET}: A hole that is seen and dry."
    assert told.index(said) < told.index("Find the hole under magnification") < told.index("Seal with the cement")
    assert page.locator("#steps > p").get_by_role("link", name="Ways to go on").get_attribute("href") == "#ways"
    page.get_by_role("button", name="bleeding settled").click()
    assert page.locator("#steps .answered").count() == 0


def test_the_mark_goes_with_the_answer(demo_server: SiteServer, opened: Callable[..., Page]) -> None:
    page = opened()
    page.goto(f"{demo_server.url}root-perforation/#bleeding-control=bleeding&hole-size=large")
    page.locator("details.way .warning").first.wait_for()
    way = page.locator("#way-repair-now")
    assert "Not so here: you answered over 3 mm" in way.locator(".for").text_content()
    assert "So you answered." in way.locator(".against").text_content()
    page.get_by_role("button", name="bleeding settled").click()
    page.get_by_role("button", name="up to 1 mm").click()
    assert page.get_by_text(UNMET).count() == 0
    assert "So you answered." not in way.locator(".against").text_content()
    assert "Not so here: you answered bleeding settled" in way.locator(".against").text_content()
    assert "Not so here" not in way.locator(".for").text_content()
    page.get_by_role("button", name="Clear all answers").click()
    assert page.locator(".answered").count() == 0


def together(page: Page, way: str) -> str:
    """What the row of a way says of several ways together."""
    said = row_of(page, way).locator("td.answered > .together").all_inner_texts()
    return " ".join(" ".join(said).split())


def alone(page: Page, way: str) -> str:
    """What its row says of the answers beside that."""
    said = row_of(page, way).locator("td.answered > :not(.together)").all_inner_texts()
    return " ".join(" ".join(said).split())


def test_a_number_of_several_ways_together_stands_in_the_row_of_each_of_them_and_says_so(
    demo_server: SiteServer, opened: Callable[..., Page]
) -> None:
    page = opened()
    page.goto(f"{demo_server.url}exposed-pulp/#pulp-bleeding=late")
    page.locator("#way-cap .answered").first.wait_for(state="attached")
    for way in ("Cap it", "partial pulpotomy", "full pulpotomy", "Root canal treatment"):
        assert "21 of 35" not in alone(page, way)
        assert UNKNOWN not in alone(page, way)
    # What no way knows is said once, above them all.
    said = page.locator("#ways ~ p.answered, section:has(> #ways) > p.answered").all_inner_texts()
    assert [" ".join(part.split()) for part in said] == [
        "Not known for any one way: How soon did it stop bleeding? over 6 minutes."
    ]
    for way in ("Cap it", "partial pulpotomy"):
        assert row_of(page, way).locator("td.answered").get_attribute("data-column") == "By your answers"
        said = together(page, way)
        assert said.startswith("Several ways together (Cap it; Partial pulpotomy, its top), of none alone")
        assert "pulp kept healthy; over 6 minutes: 21 of 35 teeth (60%)" in said
    assert not together(page, "full pulpotomy")
    assert not together(page, "Root canal treatment")
    page.get_by_role("button", name="up to 6 minutes").click()
    assert "21 of 35" not in together(page, "Cap it").partition("; up to 6 minutes")[0]


def test_the_number_of_a_study_that_laid_ways_side_by_side_is_of_none_of_them(
    demo_server: SiteServer, opened: Callable[..., Page]
) -> None:
    # "first root canal treatment, retreatment and surgery" names one of its ways; its table has four.
    page = opened()
    page.goto(f"{demo_server.url}broken-instrument/#fragment-third=apical")
    page.locator("#way-surgery .answered").first.wait_for(state="attached")
    assert "58 of 72" not in alone(page, "surgery")
    assert f"{UNKNOWN}: In which third of the root does it lie? apical third." in alone(page, "surgery")
    said = together(page, "surgery")
    assert all(way in said for way in ("Leave it", "Pass beside it", "Take it out", "Reach it by surgery", "58 of 72"))
    # Where everybody of a study went one way its number is that way's own.
    told = "apical third: fragment out of the canal; apical third: 45 of 84 canals (54%)"
    assert told in row_of(page, "Take it out").inner_text()
    way = page.locator("#way-surgery > .answered").text_content() or ""
    assert way.index(UNKNOWN) < way.index("of none alone") < way.index("58 of 72")


@pytest.mark.parametrize(("trade", "least"), [("teeth", 1), ("grafts", 0)])
def test_no_row_of_any_way_shows_a_number_of_other_ways(
    demo_site: Path, graft_site: Path, opened: Callable[..., Page], trade: str, least: int
) -> None:
    folder, site = (EVIDENCE, demo_site) if trade == "teeth" else (GRAFTS, graft_site)
    page = opened()
    shown = []
    with serving(site) as server:
        for question, factor in WAYS[trade].items():
            several = {
                claims.stem
                for claims in folder.glob("*.yaml")
                for claim in yaml.safe_load(claims.read_text("utf-8")).get("claims", [])
                if claim.get("factor") == factor and len(claim.get("levels", [])) > 1
            }
            assert several
            page.goto(f"{server.url}{question}/", wait_until="load")
            page.mouse.wheel(0, 400)
            wait_until(page, "typeof markWays === 'function'")
            for button in page.locator(".situation .ask > ul button:not([data-sets])").all():
                button.evaluate("(part) => part.click()")
                sources = page.locator("table.ways td.answered > :not(.together) a[href*='sources/']").evaluate_all(
                    "(links) => links.map((link) => link.pathname.split('/').at(-2))"
                )
                assert not several.intersection(sources), (question, button.text_content())
                shown.extend(sources)
    assert len(shown) >= least


def test_without_a_script_the_ways_stand_as_they_are_written(
    demo_server: SiteServer, opened: Callable[..., Page]
) -> None:
    def ways(page: Page) -> list[str]:
        page.goto(f"{demo_server.url}exposed-pulp/#pulp-bleeding=late")
        return [str(way.get_attribute("id")) for way in page.locator("details.way").all()]

    plain = opened(java_script_enabled=False)
    assert ways(plain) == ways(opened())
    assert plain.locator(".answered").count() == 0
    assert plain.locator("table.ways td", has_text="soon stops bleeding").count() == 1


LEVELS = """\
  wet:
    title: Blood & <b>more</b>
    role: prognostic
    levels: [{id: dry, title: dry & clean}, {id: damp, title: damp}, {id: flood, title: <i>flood</i>}]
"""
FOLLOW = "{from: repair, timing: at, at: 24 months, tolerance: 6 months, where: 'p. 2'}"
QUESTION = """\
id: hole
title: There is a hole
factors: [wet, size]
situation:
  - {factor: wet, ask: How wet is it?}
  - {factor: size, ask: How wide?}
  - {tooth: FDI, ask: Which tooth?}
options:
  - id: cap
    title: Cap it
    is: {factor: way, level: cap}
    asks:
      - {words: "Dry & <u>clean</u>.", basis: {kind: common practice}, is: {factor: wet, level: dry}}
      - {words: "An upper tooth.", basis: {kind: common practice}, is: {factor: arch, level: maxillary}}
  - id: full
    title: Take the pulp
    is: {factor: way, level: full}
    asks:
      - words: Anything but a flood.
        basis: {kind: common practice}
        is: [{factor: wet, level: dry}, {factor: wet, level: damp}]
  - {id: out, title: Take it out}
"""


@pytest.fixture(scope="module")
def small(tmp_path_factory: pytest.TempPathFactory) -> Iterator[SiteServer]:
    """Levels that look like markup, a condition of two answers, one that follows from a chart, a way without number."""
    folder: Path = tmp_path_factory.mktemp("answered")
    capped = report(
        "marlow2019",
        f"""
        - {{id: all, question: hole, outcome: healed, events: 30, total: 40, where: 'p. 3', follow_up: {FOLLOW}}}
        - id: by-wet
          question: hole
          outcome: healed
          factor: wet
          known_at: before
          reference: dry & clean
          levels: [{{level: dry & clean, events: 24, total: 30}}, {{level: <i>flood</i>, events: 6, total: 10}}]
          where: 'p. 4'
          follow_up: {FOLLOW}
        """,
        "[p. 2] at 24 months, give or take 6 months", "[p. 3] healed: 30 of 40 teeth",
        "[p. 4] dry & clean: 24 of 30 healed; <i>flood</i>: 6 of 10", treatment="direct cap",
    )  # fmt: skip
    whole = report(
        "arden2021",
        f"- {{id: all, question: hole, outcome: healed, events: 50, total: 60, where: 'p. 3', follow_up: {FOLLOW}}}",
        "[p. 2] at 24 months, give or take 6 months", "[p. 3] healed: 50 of 60 teeth",
        study="southquay", treatment="full pulpotomy",
    )  # fmt: skip
    vocabulary = VOCABULARY.replace("factors:\n", f"factors:\n{LEVELS}")
    written(capped | whole | {"questions/hole.yaml": QUESTION, "vocabulary.yaml": vocabulary}, folder)
    built = build_files(folder)
    assert built.guide is not None, [str(problem) for problem in built.problems if problem.is_open]
    publish(folder, folder / "site", built)
    with serving(folder / "site") as server:
        yield server


@pytest.mark.parametrize(
    ("answers", "cap", "full"),
    [
        ("wet=dry", [], []),
        ("wet=damp", ["Your answer (damp)"], []),
        ("wet=flood", [FLOOD], [FLOOD]),
        ("tooth=46", ["Your answer (mandibular)"], []),
        ("tooth=16", [], []),
        ("wet=flood&tooth=46", [FLOOD, "Your answer (mandibular)"], [FLOOD]),
        ("size=large", [], []),
    ],
)  # fmt: skip
def test_of_several_answers_any_will_do_and_silence_breaks_nothing(
    small: SiteServer, opened: Callable[..., Page], answers: str, cap: list[str], full: list[str]
) -> None:
    page = opened()
    page.goto(f"{small.url}hole/#{answers}")
    wait_until(page, "Object.values(sessionStorage).some((kept) => kept.includes('[['))")
    for way, expected in (("cap", cap), ("full", full), ("out", [])):
        heads = page.locator(f"#way-{way} > summary .warning").all_inner_texts()
        assert [said.partition(f" {UNMET}")[0] for said in heads] == expected
    assert page.evaluate("document.documentElement.scrollWidth") <= 360


def test_a_number_of_one_way_is_never_lent_to_another(small: SiteServer, opened: Callable[..., Page]) -> None:
    page = opened()
    page.goto(f"{small.url}hole/#wet=flood")
    page.locator("#way-cap > summary .answered").wait_for()
    cap, full, out = (" ".join(row_of(page, way).inner_text().split()) for way in ("Cap it", "Take the pulp", "out"))
    assert "<i>flood</i>: 6 of 10 teeth" in cap
    assert "all patients of a study above" in cap
    assert "6 of 10" not in full
    assert f"{UNKNOWN}: How wet is it? <i>flood</i>." in full
    # Where a way has no number nothing is said of what its numbers do not know.
    assert UNKNOWN not in out
