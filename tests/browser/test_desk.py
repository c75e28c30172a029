"""A paper goes in at the desk, in a real browser: read, checked while it is typed, and taken along as two files."""

from __future__ import annotations

import re
import shutil
import zipfile
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from axe_playwright_python.sync_playwright import Axe
from browser.desk_pages import EXPORT, PATIENCE, ROOT, field, fill, fill_all, open_desk, with_desk
from desk.drafts import drafts_of, spoilt
from desk.test_session import told_by_the_command, told_by_the_desk
from passageproof.audit.whole import check
from passageproof.reading.evidence import read_evidence
from passageproof.writing.layout import laid_out
from playwright.sync_api import Page, expect
from site_server import SiteServer, serving

pytestmark = pytest.mark.browser

EXAMPLE = ROOT / "tests" / "example"
PASSAGES = {
    "p. 104, Methods": "Invented clinic, recruited 2012 to 2016; 109 teeth treated, 104 due, 98 examined",
    "p. 105, Table 2": "healed, strict, at 12 months: 85 of 98 teeth (87%; 95% CI 79% to 92%)",
}
STUDY = {
    "id": "invented-2012", "species": "human", "design": "cohort", "selection": "consecutive", "unit": "tooth",
    "where": "p. 104, Methods", "setting/operators": "not reported", "setting/centre": "Invented clinic",
    "setting/recruited": "2012 to 2016", "flow/treated": "109", "flow/due": "104", "flow/examined": "98",
    "flow/where": "p. 104, Methods",
}  # fmt: skip
POPULATION = {"dentition": "permanent", "cause": "made during treatment", "treatment": "not reported"}
CLAIM = {
    "id": "overall", "question": "root-perforation", "outcome": "site-healed-strict", "where": "p. 105, Table 2",
    "follow_up/from": "repair", "follow_up/timing": "at", "success_rate": "87%", "events": "85", "total": "98",
}  # fmt: skip


def take_in(page: Page) -> None:
    """The whole paper, in the order of the desk."""
    page.locator("[data-text]").fill(EXPORT)
    page.get_by_role("button", name="Read it").click()
    expect(page.locator("[data-found]")).to_contain_text("will be example2021repair")
    for order, (where, text) in enumerate(PASSAGES.items()):
        page.get_by_role("button", name="Add a passage").click()
        page.locator(f"#w{order}").fill(where)
        page.locator(f"#p{order}").fill(text)
        page.locator(f"#p{order}").blur()
    fill_all(page, ("read",), {"by": "AH", "on": "2026-10-02", "depth": "full text"})
    fill_all(page, ("studies", 0), STUDY)
    study = field(page, "studies", 0, "population")
    for name, value in {
        "dentition": "permanent",
        "cause": "made during treatment",
        "treatment": "not reported",
    }.items():
        study.get_by_label("Name of one more").fill(name)
        study.get_by_role("button", name="Add", exact=True).click()
        fill(page, ("studies", 0, "population", name), value)
    page.get_by_role("button", name="a rate of all").click()
    fill_all(page, ("claims", 0), CLAIM)
    fill(page, ("claims", 0, "follow_up", "at"), "12 months")


@pytest.fixture(scope="module")
def typed(browser: Any, desk_server: SiteServer) -> Iterator[Page]:
    """A desk with one paper on it that the check finds nothing to mend in."""
    context = browser.new_context(viewport={"width": 360, "height": 740}, service_workers="block")
    page = open_desk(context.new_page(), desk_server.url)
    take_in(page)
    expect(page.locator("[data-part=passes]")).to_contain_text("finds nothing to mend", timeout=PATIENCE)
    yield page
    context.close()


def test_a_paper_goes_in_and_its_files_pass_the_check_as_they_are(typed: Page, desk_demo: Path, tmp_path: Path) -> None:
    assert typed.locator(".told:not(:empty)").all_inner_texts() == []
    with typed.expect_download() as download:
        typed.get_by_role("button", name="Save both files in one").click()
    download.value.save_as(tmp_path / "both.zip")
    shutil.copytree(desk_demo / "root" / "evidence", tmp_path / "evidence")
    before = check(read_evidence(tmp_path))
    with zipfile.ZipFile(tmp_path / "both.zip") as both:
        assert sorted(both.namelist()) == [
            "evidence/claims/example2021repair.yaml", "evidence/sources/example2021repair.bib",
        ]  # fmt: skip
        both.extractall(tmp_path)
    after = check(read_evidence(tmp_path))
    assert after.passes
    assert after.problems == before.problems
    # 109, 104, 98; 85, 98, 87% and the 12 months.
    assert after.quoted == before.quoted + 7
    claims = (tmp_path / "evidence/claims/example2021repair.yaml").read_text("utf-8")
    assert laid_out(claims) == claims


def test_numbers_are_marked_in_their_passage_with_the_words_that_tie_them(typed: Page) -> None:
    read = typed.locator("[data-passage='1'] .read")
    assert read.locator("mark").all_inner_texts() == ["12", "85", "98", "87%"]
    read.locator("summary").click()
    expect(read).to_contain_text("what was counted: “healed”")
    read.locator("summary").click()


def test_its_page_is_shown_before_it_is_there(typed: Page) -> None:
    page = typed.locator("[data-part=page]")
    expect(page).to_contain_text("Repair of holes in an invented clinic")
    assert set(page.locator("data.figure").all_inner_texts()) >= {"85", "98", "87%"}


MISTAKES = [
    (("claims", 0, "events"), "84", "is not in the passage"),
    (("claims", 0, "total"), "109", "is not in the passage"),
    (("claims", 0, "success_rate"), "87", "did you mean 87%"),
    (("claims", 0, "success_rate"), "0,87", ""),
    (("claims", 0, "events"), "eighty-five", "whole number"),
    (("claims", 0, "id"), "Over all", ""),
    (("claims", 0, "follow_up", "at"), "12", ""),
    (("claims", 0, "follow_up", "at"), "24 months", "is not in the passage"),
    (("studies", 0, "flow", "due"), "98", ""),
    (("read", "on"), "2 October 2026", ""),
    (("read", "on"), "2027-01-01", "later than the evidence date"),
    (("studies", 0, "setting", "recruited"), "2012 to 2061", ""),
]


@pytest.mark.parametrize(("path", "value", "words"), MISTAKES)
def test_a_mistake_is_told_at_its_field_once_it_was_left(
    typed: Page, path: tuple[str | int, ...], value: str, words: str
) -> None:
    box = field(typed, *path)
    control = box.locator("input").last
    sound = control.input_value()
    control.fill(value)
    control.blur()
    told = box.locator(".told").last
    try:
        expect(told).to_contain_text(words or value, timeout=20_000)
        assert told.locator(".mend").first.inner_text().strip(), "it should say how to mend it"
        expect(control).to_have_attribute("aria-invalid", "true")
    finally:
        control.fill(sound)
        control.blur()
    expect(told).to_be_empty(timeout=20_000)


def test_nothing_is_told_of_a_field_before_it_was_left(opened: Callable[..., Page], desk_server: SiteServer) -> None:
    page = open_desk(opened(), desk_server.url)
    page.locator("[data-text]").fill(EXPORT)
    page.get_by_role("button", name="Read it").click()
    expect(page.locator("[data-part=sum]")).to_contain_text("to mend or fill in")
    assert page.locator(".told:not(:empty)").count() == 0
    page.get_by_role("button", name="Show all that is still to mend").click()
    assert page.locator(".told:not(:empty)").count() > 0
    # The same draft is there after the page was closed, until somebody throws it away.
    open_desk(page, desk_server.url)
    expect(page.locator("[data-part=sum]")).to_contain_text("to mend or fill in")
    page.on("dialog", lambda dialog: dialog.accept())
    page.get_by_role("button", name="Throw this draft away").click()
    page.wait_for_load_state("load")
    open_desk(page, desk_server.url)
    expect(page.locator("[data-part=sum]")).to_contain_text("Begin with the entry")


def test_three_hundred_drafts_are_told_as_the_command_tells_them(opened: Callable[..., Page], tmp_path: Path) -> None:
    folder = with_desk(EXAMPLE / "evidence", tmp_path)
    with serving(folder / "site") as server:
        page = open_desk(opened(), server.url)
        for draft in spoilt(drafts_of(EXAMPLE), 300):
            answer = page.evaluate("(draft) => ask('whole', draft)", draft)
            assert told_by_the_desk(answer) == told_by_the_command(folder / "root", draft)


def test_it_opens_without_a_network_once_it_was_open(opened: Callable[..., Page], desk_server: SiteServer) -> None:
    page = opened(service_workers="allow")
    page.goto(f"{desk_server.url}contribute/desk/", wait_until="load")
    page.evaluate("() => navigator.serviceWorker.ready.then(() => true)")
    open_desk(page, desk_server.url)
    page.context.set_offline(True)
    open_desk(page, desk_server.url)
    expect(page.locator("[data-part=sum]")).to_contain_text("Begin with the entry")


@pytest.mark.parametrize("width", [320, 360, 1280])
@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_the_whole_desk_can_be_reached_and_read(typed: Page, width: int, scheme: Any) -> None:
    typed.set_viewport_size({"width": width, "height": 740})
    typed.emulate_media(color_scheme=scheme)
    assert typed.evaluate("() => document.documentElement.scrollWidth") <= width
    small = typed.locator("[data-sheet] :is(button, select, input:not([type=radio])):visible").evaluate_all(
        "(boxes) => boxes.filter((box) => box.getBoundingClientRect().height < 43.5).map((box) => box.outerHTML)"
    )
    assert small == []
    found = Axe().run(typed)
    assert found.violations_count == 0, found.generate_report()
    typed.set_viewport_size({"width": 360, "height": 740})


def test_a_table_whose_columns_fell_together_is_laid_out_again(
    opened: Callable[..., Page], desk_server: SiteServer
) -> None:
    page = open_desk(opened(), desk_server.url)
    page.get_by_role("button", name="Add a passage").click()
    page.locator("#p0").fill("Size\nn\nhealed\nup to 3 mm\n52\n47\nover 3 mm\n20\n13")
    page.get_by_role("button", name="Lay out as a table").click()
    page.get_by_label("Columns").fill("3")
    page.get_by_label("Row 2, column 3").fill("14")
    page.get_by_role("button", name="Put it into the passage").click()
    assert page.locator("#p0").input_value() == "Size | n | healed\nup to 3 mm | 52 | 47\nover 3 mm | 20 | 14"


def test_where_no_runtime_was_fetched_the_page_says_where_checking_happens(demo_site: Path) -> None:
    text = (demo_site / "contribute/desk/index.html").read_text("utf-8")
    assert "checking happens in the pull request" in " ".join(text.split())
    assert "data-desk" not in text
    # It promises no field that is not there, and leads on to where a paper is typed in.
    assert "while you type" not in text
    assert re.search(r'<a class="target" href="\.\./">Add a claim', text)
    assert not (demo_site / "contribute/desk/python").exists()


def test_a_report_is_read_a_second_time(opened: Callable[..., Page], desk_server: SiteServer) -> None:
    page = open_desk(opened(), desk_server.url)
    page.get_by_text("Or read a paper of this guide a second time").click()
    page.get_by_label("Which one").select_option("aalbek2011furcal")
    expect(page.locator("[data-part=second]")).to_contain_text("A second reading of aalbek2011furcal", timeout=PATIENCE)
    first = field(page, "claims", 0, "events").locator("input")
    expect(first).to_have_value("")
    expect(page.get_by_role("button", name="Save both files in one")).to_be_hidden()
    page.get_by_role("button", name="Compare with the first reading").click()
    expect(page.locator("[data-part=compared]")).to_contain_text("fields are empty")
    expect(page.locator("[data-part=compared]")).not_to_contain_text("in the first")
    expect(page.locator("[data-part=files]")).to_contain_text("second-readings/aalbek2011furcal.yaml")


@pytest.fixture
def desk_page(opened: Callable[..., Page], desk_server: SiteServer) -> Page:
    page = open_desk(opened(), desk_server.url)
    page.locator("[data-text]").fill(EXPORT)
    page.get_by_role("button", name="Read it").click()
    return page


def draft(page: Page) -> Any:
    return page.evaluate("() => desk.draft")


def test_what_is_taken_away_goes_from_the_screen_and_can_be_put_back(desk_page: Page) -> None:
    for name in ("aaa", "bbb", "ccc"):
        desk_page.get_by_role("button", name="a rate of all").click()
        fill(desk_page, ("claims", len(draft(desk_page)["claims"]["claims"]) - 1, "id"), name)
    desk_page.get_by_role("button", name="Take away Claims 2").click()
    ids = desk_page.locator("[data-part=claims] [data-path$=',\"id\"]'] input")
    assert ids.evaluate_all("(boxes) => boxes.map((box) => box.value)") == ["aaa", "ccc"]
    assert [each["id"] for each in draft(desk_page)["claims"]["claims"]] == ["aaa", "ccc"]
    desk_page.get_by_role("button", name="Put it back").click()
    assert ids.evaluate_all("(boxes) => boxes.map((box) => box.value)") == ["aaa", "bbb", "ccc"]
    # So does a block with all that was typed in it.
    fill(desk_page, ("studies", 0, "flow", "treated"), "109")
    desk_page.get_by_role("button", name="Leave out Flow").click()
    assert "flow" not in draft(desk_page)["claims"]["studies"][0]
    desk_page.get_by_role("button", name="Put it back").click()
    expect(field(desk_page, "studies", 0, "flow", "treated").locator("input")).to_have_value("109")


def test_each_way_to_type_a_field_stays_as_it_was_chosen(desk_page: Page) -> None:
    desk_page.get_by_role("button", name="a ratio or difference").click()
    adjusted = field(desk_page, "claims", 0, "contrast", "adjusted_for")
    adjusted.locator("input").last.fill("age")
    desk_page.get_by_role("button", name="a rate of all").click()
    assert draft(desk_page)["claims"]["claims"][0]["contrast"]["adjusted_for"] == ["age"]
    expect(adjusted.locator("input").last).to_have_value("age")
    fill(desk_page, ("claims", 0, "id"), "ratio")
    fill(desk_page, ("claims", 1, "follow_up", "from"), "repair")
    way = field(desk_page, "claims", 1, "follow_up").get_by_label("How Follow up is typed")
    way.select_option("as in another claim")
    fill(desk_page, ("claims", 1, "follow_up"), "ratio")
    assert draft(desk_page)["claims"]["claims"][1]["follow_up"] == "ratio"
    way.select_option("with its own fields")
    expect(field(desk_page, "claims", 1, "follow_up", "from").locator("input")).to_have_value("repair")


def test_the_word_that_was_meant_is_put_in_by_a_touch(desk_page: Page) -> None:
    desk_page.get_by_role("button", name="a rate of all").click()
    fill(desk_page, ("claims", 0, "success_rate"), "87")
    desk_page.get_by_role("button", name="Put in 87%").click(timeout=20_000)
    assert draft(desk_page)["claims"]["claims"][0]["success_rate"] == "87%"


def test_a_passage_that_is_renamed_keeps_what_stands_in_it(desk_page: Page) -> None:
    desk_page.get_by_role("button", name="Add a passage").click()
    desk_page.locator("#w0").fill("p. 104, Methods")
    desk_page.locator("#w0").blur()
    fill(desk_page, ("studies", 0, "where"), "p. 104, Methods")
    desk_page.locator("#w0").fill("p. 105, Methods")
    assert draft(desk_page)["claims"]["studies"][0]["where"] == "p. 105, Methods"


def test_on_a_wide_screen_fields_begin_at_the_left_edge_of_their_block(
    opened: Callable[..., Page], desk_server: SiteServer
) -> None:
    page = open_desk(opened(viewport={"width": 1280, "height": 800}), desk_server.url)
    flow = field(page, "studies", 0, "flow")
    edge, first, width = flow.evaluate(
        """(block) => {
          const first = block.querySelector(".field").getBoundingClientRect();
          return [block.getBoundingClientRect().left, first.left, first.width];
        }"""
    )
    assert first - edge < 40
    assert width > 300
