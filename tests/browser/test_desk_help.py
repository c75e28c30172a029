"""How the desk helps: lists by question, answers, tables, a paper without an export, exports as files."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from browser.desk_pages import EXPORT, field, open_desk
from playwright.sync_api import Page, expect
from site_server import SiteServer
from writing.test_shaped_exports import SHAPED

pytestmark = pytest.mark.browser


@pytest.fixture(scope="module")
def desk_page(browser: Any, desk_server: SiteServer) -> Any:
    context = browser.new_context(viewport={"width": 360, "height": 740}, service_workers="block")
    page = open_desk(context.new_page(), desk_server.url)
    page.locator("[data-text]").fill(EXPORT)
    page.get_by_role("button", name="Read it").click()
    expect(page.locator("[data-found]")).to_contain_text("will be example2021repair")
    yield page
    context.close()


def draft(page: Page) -> Any:
    return page.evaluate("() => desk.draft")


def put(page: Page, claims: dict[str, Any], passages: list[dict[str, str]]) -> None:
    """A draft in the place of what stands there."""
    page.evaluate(
        """([claims, passages]) => {
          Object.assign(desk.draft.claims, claims);
          desk.draft.passages = passages;
          desk.ways.clear();
          ["passages", "report", "claims"].forEach(desk.draw);
          desk.changed();
        }""",
        [claims, passages],
    )


def test_outcomes_and_factors_of_the_question_come_first(desk_page: Page) -> None:
    put(desk_page, {"claims": [{"id": "a", "question": "", "outcome": "", "factor": ""}]}, [])
    outcome = field(desk_page, "claims", 0, "outcome").locator("select")
    assert outcome.locator("optgroup").count() == 0
    whole = outcome.locator("option").count()
    field(desk_page, "claims", 0, "question").locator("select").select_option("root-perforation")
    groups = outcome.locator("optgroup")
    assert groups.evaluate_all("(all) => all.map((each) => each.label)") == ["of this question", "all others"]
    assert 0 < groups.first.locator("option").count() < whole - 1
    assert outcome.locator("option").count() == whole
    outcome.select_option("site-healed-strict")
    expect(field(desk_page, "claims", 0, "outcome")).to_contain_text("examination and film")
    assert field(desk_page, "claims", 0, "factor").locator("optgroup").count() == 2


def test_the_next_claim_shares_what_it_is_asked_to(desk_page: Page) -> None:
    first = {"id": "all", "question": "root-perforation", "outcome": "site-healed-strict", "events": "1"}
    put(desk_page, {"claims": [{**first, "follow_up": {"from": "repair", "timing": "at", "at": "1 year"}}]}, [])
    desk_page.get_by_label("The next claim").select_option("0")
    desk_page.get_by_role("button", name="a ratio or difference").click()
    made = draft(desk_page)["claims"]["claims"][1]
    assert {made["question"], made["outcome"], made["follow_up"]} == {"root-perforation", "site-healed-strict", "all"}
    assert "events" not in made
    # What the check asks of a ratio stands there.
    assert {"reference", "known_at", "factor"} <= made.keys()
    assert {"event", "event_is", "interval", "adjusted_for"} <= made["contrast"].keys()


PASSAGE = {"where": "p. 5, Table 2", "text": "healed: 85 of 98 teeth (80%)"}
ASKED = {"id": "all", "question": "root-perforation", "outcome": "site-healed-strict", "success_rate": "80%",
         "events": "85", "total": "98", "where": "p. 5, Table 2", "follow_up": "not reported"}  # fmt: skip


def test_a_question_is_answered_by_a_button(desk_page: Page) -> None:
    put(desk_page, {"claims": [ASKED]}, [PASSAGE])
    desk_page.get_by_role("button", name="Show all that is still to mend").click()
    told = field(desk_page, "claims", 0, "success_rate").locator(".told")
    expect(told).to_contain_text("85 of 98 is 87%", timeout=20_000)
    told.get_by_role("button", name="The paper says so").click()
    told.get_by_label("The paper says so, because").fill("the table counts otherwise, see its footnote")
    told.get_by_label("Who looked it up").select_option("AH")
    told.get_by_role("button", name="Answer").click()
    answer = {"rule": "percent-impossible", "printed": "80% of 98", "by": "AH"}
    [given] = draft(desk_page)["claims"]["claims"][0]["acknowledged"]
    assert given.pop("reason").startswith("the table counts")
    assert given == {**answer, "printed": given["printed"]}
    expect(told).to_be_empty(timeout=20_000)


def test_what_is_missing_is_put_in_by_a_touch(desk_page: Page) -> None:
    study = {"id": "made-up", "species": "human", "design": "cohort", "selection": "selected", "unit": "tooth",
             "population": {"cause": "caries"}, "where": "p. 5, Table 2"}  # fmt: skip
    put(desk_page, {"studies": [study], "claims": [ASKED]}, [PASSAGE])
    population = field(desk_page, "studies", 0, "population")
    population.get_by_role("button", name="Dentition: put in not reported").click(timeout=20_000)
    assert draft(desk_page)["claims"]["studies"][0]["population"] == {"cause": "caries", "dentition": "not reported"}


def test_all_that_is_to_mend_is_one_list_with_ways_to_it(desk_page: Page) -> None:
    put(desk_page, {"claims": [{**ASKED, "events": "x", "total": ""}]}, [PASSAGE])
    desk_page.get_by_role("button", name="Show all that is still to mend").click()
    rows = desk_page.locator("[data-part=elsewhere] .told")
    expect(rows.filter(has_text="is not a whole number")).to_have_count(1, timeout=20_000)
    rows.filter(has_text="is not a whole number").get_by_role("button", name="Go there").click()
    expect(field(desk_page, "claims", 0, "events").locator("input")).to_be_focused()


def test_a_paper_without_an_export_is_typed_field_by_field(
    opened: Callable[..., Page], desk_server: SiteServer
) -> None:
    page = open_desk(opened(), desk_server.url)
    page.get_by_text("There is no export").click()
    page.get_by_label("Title", exact=True).fill("A sheet out of a drawer, 50% of it")
    page.get_by_label("Authors, a line each").fill("Example, Anna B\nInvented, Bo")
    page.get_by_label("Year", exact=True).fill("1999")
    page.get_by_label("Pages").fill("131-8")
    page.get_by_role("button", name="Make its entry").click()
    expect(page.locator("[data-found]")).to_contain_text("will be example1999sheet")
    entry = draft(page)["entry"]
    for said in ("title = {A sheet out of a drawer, 50\\% of it}", "{Example, Anna B and Invented, Bo}", "{131--8}"):
        assert said in entry
    # Pages that lead here say that it waits.
    page.goto(f"{desk_server.url}contribute/", wait_until="load")
    expect(page.locator("main")).to_contain_text("a draft of example1999sheet waits there on this device")


FILES = ["ris: in Windows ANSI, as the specification has it", "nbib: a retraction and a correction",
         "csl: particles and a suffix", "bib: accents as they are, capitals kept by braces"]  # fmt: skip


@pytest.mark.parametrize("name", FILES)
def test_a_file_of_a_manager_is_read_as_it_is(desk_page: Page, tmp_path: Path, name: str) -> None:
    shaped = SHAPED[name]
    (tmp_path / shaped.file).write_bytes(shaped.data)
    desk_page.locator("[type=file]").set_input_files(tmp_path / shaped.file)
    found = desk_page.locator("[data-found]")
    expect(found).to_contain_text(shaped.entries[0]["title"].split("{")[0], timeout=20_000)
    for person in shaped.entries[0].get("author", []):
        assert person.split(",")[0] in draft(desk_page)["entry"]
    if "retraction" in name:
        expect(found).to_contain_text("PubMed names a retraction of it")
    if "Windows" in name:
        expect(found).to_contain_text("compare the accents with the paper")


def test_a_wide_table_says_that_it_goes_on(desk_page: Page) -> None:
    put(desk_page, {}, [{"where": "p. 5", "text": "Size | Teeth | Healed | Percent\nsmall | 47 | 39 | 83%"}])
    desk_page.get_by_role("button", name="Lay out as a table").click()
    expect(desk_page.locator(".sideways")).to_be_visible()
    assert json.loads(desk_page.evaluate("() => JSON.stringify(desk.draft.passages.length)")) == 1
