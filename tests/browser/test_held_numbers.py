"""Within answers and ways a thumb that moves the page lands on no report: numbers lead there once that is asked for."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page, expect
from site_server import SiteServer

pytestmark = pytest.mark.browser

PAGE = "root-perforation/#hole-size=middle&bleeding-control=bleeding"
ASK = "Where each number is from"
# What a finger in the middle of each number of a block would touch.
TOUCHED = """(block) => [...block.querySelectorAll("a:has(> data)")].filter((link) => {
    if (!link.checkVisibility()) return false;
    link.scrollIntoView({ block: "center" });
    const box = link.getClientRects()[0];
    const hit = document.elementFromPoint(box.x + box.width / 2, box.y + box.height / 2);
    return link.contains(hit);
}).length"""


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_numbers_of_an_answer_lead_to_their_passages_once_somebody_asks(
    demo_server: SiteServer, opened: Callable[..., Page], scheme: str
) -> None:
    page = opened(color_scheme=scheme)
    page.goto(demo_server.url + PAGE)
    known = page.locator("#known-hole-size-middle")
    button = known.get_by_role("button", name=ASK)
    button.wait_for()
    box = button.bounding_box()
    assert box is not None
    assert box["height"] >= 44
    links = known.locator("a:has(> data.figure)")
    assert links.count() >= 10
    assert known.evaluate(TOUCHED) == 0
    assert links.first.evaluate("(link) => getComputedStyle(link).textDecorationLine") == "none"
    assert Axe().run(page).response["violations"] == []
    # The report that a line names is one tap away all the time.
    assert known.locator("a.reference").first.evaluate("(link) => getComputedStyle(link).pointerEvents") == "auto"
    button.click()
    expect(button).to_have_count(0)
    assert known.evaluate(TOUCHED) > 5
    assert links.first.evaluate("(link) => getComputedStyle(link).textDecorationLine") == "underline"
    links.first.click()
    page.wait_for_url("**/sources/**#**")


def test_numbers_of_ways_side_by_side_are_plain_until_then(
    demo_server: SiteServer, opened: Callable[..., Page]
) -> None:
    page = opened()
    page.goto(demo_server.url + PAGE)
    beside = page.locator("details.beside")
    beside.locator(":scope > summary").click()
    beside.get_by_role("button", name=ASK).wait_for()
    assert beside.evaluate(TOUCHED) == 0
    beside.get_by_role("button", name=ASK).click()
    assert beside.evaluate(TOUCHED) > 10


def test_a_keyboard_finds_every_way_as_it_stands_and_so_does_whoever_has_no_script(
    demo_server: SiteServer, opened: Callable[..., Page]
) -> None:
    page = opened()
    page.goto(demo_server.url + PAGE)
    page.get_by_role("button", name=ASK).first.wait_for()
    page.locator("#known-hole-size-middle a:has(> data.figure)").first.focus()
    page.keyboard.press("Enter")
    page.wait_for_url("**/sources/**#**")
    plain = opened(java_script_enabled=False)
    plain.goto(f"{demo_server.url}root-perforation/")
    known = plain.locator("#known-hole-size-middle")
    assert known.get_by_role("button", name=ASK).count() == 0
    known.locator("a:has(> data.figure)").first.click()
    plain.wait_for_url("**/sources/**#**")


def test_an_answer_tells_each_study_once_and_names_the_answer_it_was_counted_with(
    demo_server: SiteServer, opened: Callable[..., Page]
) -> None:
    page = opened()
    page.goto(f"{demo_server.url}root-perforation/#hole-size=middle")
    known = page.locator("#known-hole-size-middle")
    said = " ".join(known.inner_text().split())
    assert "this answer and another" not in said
    assert "(with up to 1 mm), at 24 months, 5 studies" in said
    # Both sides of the line that runs through the answer stand first, and once.
    assert "under 2 mm 52 of 61 teeth (85%), from 2 mm 19 of 31 teeth (61%)" in said
    assert said.count("19 of 31") == 1
    assert "fewer healed, more than chance alone usually gives" in said
    known.get_by_text("This study in full").click()
    assert "odds ratio 0.38 (95% CI 0.15 to 0.99)" in " ".join(known.inner_text().split())
