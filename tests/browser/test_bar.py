"""The bar at the foot of the screen: the same places in the same order on every page, and each leads somewhere."""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect
from site_server import SiteServer

pytestmark = pytest.mark.browser

PLACES = ["something worse is happening", "Do now", "My case", "Call"]
BAR = re.compile(r'<nav class="urgent"[^>]*>(.*?)</nav>', re.DOTALL)
LINK = re.compile(r'<a [^>]*href="([^"]*)"[^>]*>([^<]*)</a>')
QUESTION = "root-perforation/"
# What each place leads to where no question is open.
ANSWERS = {
    "Do now": "Do now: which question is it?",
    "My case": "A case begins on the page of its question",
    "Call": "Call the supervisor in the room",
}


def test_every_page_has_the_same_places_in_the_same_order(demo_site: Path) -> None:
    files = sorted(demo_site.rglob("*.html"))
    assert len(files) > 100
    for file in files:
        bar = BAR.search(file.read_text("utf-8"))
        assert bar is not None, file
        assert [said for _, said in LINK.findall(bar[1])] == PLACES, file


def test_every_place_of_every_bar_is_there(demo_site: Path) -> None:
    for file in sorted(demo_site.rglob("index.html")):
        bar = BAR.search(file.read_text("utf-8"))
        assert bar is not None
        for address, said in LINK.findall(bar[1]):
            path, _, anchor = address.partition("#")
            target = (file.parent / path).resolve() / "index.html" if path else file
            assert target.is_file(), (file, said)
            assert not anchor or f' id="{anchor}"' in target.read_text("utf-8"), (file, said)


@pytest.mark.parametrize("address", [f"{QUESTION}patient/", f"{QUESTION}hole-size/", f"{QUESTION}recall/"])
def test_pages_below_a_question_lead_to_its_parts(
    demo_server: SiteServer, opened: Callable[..., Page], address: str
) -> None:
    page = opened(java_script_enabled=False)
    for said, anchor in (("Do now", "now"), ("My case", "situation"), ("Call", "call")):
        page.goto(demo_server.url + address, wait_until="load")
        page.locator("nav.urgent").get_by_role("link", name=said, exact=True).click()
        page.wait_for_url(f"**/{QUESTION}#{anchor}")
        expect(page.locator(f"#{anchor}")).to_be_in_viewport()


@pytest.mark.parametrize("address", ["sources/dovrell2017crest/", "gaps/", "upkeep/", "search/"])
def test_pages_of_no_question_lead_to_the_list_of_all(
    demo_server: SiteServer, opened: Callable[..., Page], address: str
) -> None:
    page = opened(java_script_enabled=False)
    for said, answer in ANSWERS.items():
        page.goto(demo_server.url + address, wait_until="load")
        page.locator("nav.urgent").get_by_role("link", name=said, exact=True).click()
        expect(page.locator("body")).to_have_attribute("data-page", "front")
        expect(page.get_by_text(answer).first).to_be_in_viewport()


@pytest.mark.parametrize("script", [True, False], ids=["script", "no script"])
def test_each_place_of_the_front_page_arrives_at_what_answers_it(
    demo_server: SiteServer, opened: Callable[..., Page], script: bool
) -> None:
    page = opened(java_script_enabled=script)
    for said, answer in ANSWERS.items():
        page.goto(demo_server.url, wait_until="load")
        page.evaluate("scrollTo(0, 1500)")
        page.locator("nav.urgent").get_by_role("link", name=said, exact=True).click()
        expect(page.get_by_text(answer).first).to_be_in_viewport()
    page.locator("nav.urgent").get_by_role("link", name="Do now", exact=True).click()
    page.get_by_role("link", name="The pulp of a permanent tooth lies open").first.click()
    expect(page.locator("body")).to_have_attribute("data-page", "question")


def test_the_front_page_leads_back_to_each_case_of_this_tab(
    demo_server: SiteServer, opened: Callable[..., Page]
) -> None:
    page = opened()
    page.goto(demo_server.url, wait_until="load")
    assert page.get_by_text("Answered at").count() == 0
    page.goto(f"{demo_server.url}{QUESTION}#hole-size=large", wait_until="load")
    page.goto(f"{demo_server.url}gaps/", wait_until="load")
    page.locator("nav.urgent").get_by_role("link", name="My case").click()
    said = page.get_by_text("Answered at")
    # Another patient may sit there now.
    expect(said).to_be_hidden()
    page.get_by_text("Earlier in this tab, maybe another patient").click()
    expect(said).to_be_in_viewport()
    expect(said).to_contain_text("over 3 mm")
    said.get_by_role("link").click()
    page.wait_for_url(f"**/{QUESTION}#hole-size=large")


def test_all_cases_of_this_tab_are_forgotten_by_one_tap(demo_server: SiteServer, opened: Callable[..., Page]) -> None:
    page = opened()
    page.goto(f"{demo_server.url}{QUESTION}#hole-size=large", wait_until="load")
    page.goto(f"{demo_server.url}exposed-pulp/#pulp-bleeding=late", wait_until="load")
    page.goto(demo_server.url, wait_until="load")
    page.get_by_text("Earlier in this tab, maybe another patient").click()
    assert page.get_by_text("Answered at").count() == 2
    page.get_by_role("button", name="Forget all").click()
    assert page.get_by_text("Earlier in this tab").count() == 0
    assert page.evaluate("sessionStorage.length") == 0


def test_a_source_leads_back_to_the_question_from_which_it_was_opened(
    demo_server: SiteServer, opened: Callable[..., Page]
) -> None:
    page = opened()
    page.goto(f"{demo_server.url}{QUESTION}#hole-size=large", wait_until="load")
    page.locator(".known:visible a.reference").first.click()
    page.wait_for_url("**/sources/**")
    page.locator("nav.urgent").get_by_role("link", name="Do now").click()
    page.wait_for_url(f"**/{QUESTION}#hole-size=large")
    page.go_back(wait_until="load")
    page.locator("nav.urgent").get_by_role("link", name="My case").click()
    page.wait_for_url(f"**/{QUESTION}#hole-size=large")
    expect(page.locator("#situation")).to_be_in_viewport()


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("width", [320, 360, 1280])
@pytest.mark.parametrize("address", ["", QUESTION, f"{QUESTION}patient/", "sources/", "urgent/", "upkeep/"])
def test_every_place_can_be_tapped_at_every_width_and_stands_where_it_stood(
    demo_server: SiteServer, opened: Callable[..., Page], address: str, width: int, scheme: str
) -> None:
    page = opened(viewport={"width": width, "height": 740}, color_scheme=scheme)
    page.goto(demo_server.url + address, wait_until="load")
    boxes = [part.bounding_box() for part in page.locator("nav.urgent > *").all()]
    assert len(boxes) == 4
    for box in boxes:
        assert box is not None
        assert min(box["width"], box["height"]) >= 44
        assert round(box["y"] + box["height"]) == 740
    assert page.evaluate("document.documentElement.scrollWidth") == width


@pytest.mark.parametrize("address", ["", QUESTION, "urgent/", "upkeep/"])
def test_no_place_takes_the_bar_from_the_others_on_a_wide_screen(
    demo_server: SiteServer, opened: Callable[..., Page], address: str
) -> None:
    page = opened(viewport={"width": 1280, "height": 800}, color_scheme="dark")
    page.goto(demo_server.url + address, wait_until="load")
    boxes = [part.bounding_box() for part in page.locator("nav.urgent > *:not(.case)").all()]
    assert len(boxes) == 4
    for box in boxes:
        assert box is not None
        assert 1280 / 6 <= box["width"] <= 1280 / 3
