"""Within answers and ways a number shows its passage where it stands: a thumb that slips loses no page."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page, Route, expect
from site_server import SiteServer

pytestmark = pytest.mark.browser

PAGE = "root-perforation/#hole-size=middle&bleeding-control=bleeding"
REPORT = "The report, and who read it"


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_a_number_of_an_answer_shows_its_passage_below_it(
    demo_server: SiteServer, opened: Callable[..., Page], scheme: str
) -> None:
    page = opened(color_scheme=scheme)
    page.goto(demo_server.url + PAGE, wait_until="networkidle")
    known = page.locator("#known-hole-size-middle")
    link = known.locator("a[href*=sources]:has(> data.figure):visible").first
    figure = link.locator("data").first.get_attribute("data-figure")
    link.click()
    shown = known.locator(".peek")
    expect(shown).to_be_focused()
    assert page.url == demo_server.url + PAGE
    # The passage with the very figure that was touched, behind its place in the report.
    assert shown.locator(f"blockquote data[data-figure='{figure}']").count() == 1
    assert shown.locator(".locator").count() == 1
    assert shown.evaluate("(part) => part.scrollWidth <= part.clientWidth")
    assert Axe().run(page).response["violations"] == []
    leads = shown.get_by_role("link", name=REPORT)
    box = leads.bounding_box()
    assert box is not None
    # WCAG 2.2, success criterion 2.5.5: 44 CSS pixels.
    assert box["height"] >= 44
    known.locator("a[href*=sources]:has(> data.figure):visible").nth(3).click()
    expect(page.locator(".peek")).to_have_count(1)
    page.locator(".peek").get_by_role("link", name=REPORT).click()
    page.wait_for_url("**/sources/**#**")


def test_ways_side_by_side_do_the_same(demo_server: SiteServer, opened: Callable[..., Page]) -> None:
    page = opened()
    page.goto(demo_server.url + PAGE, wait_until="networkidle")
    beside = page.locator("details.beside")
    beside.locator(":scope > summary").click()
    beside.locator("a[href*=sources]:has(> data.figure):visible").first.click()
    expect(beside.locator(".peek blockquote")).to_have_count(1)
    assert page.url == demo_server.url + PAGE


def test_where_the_passage_does_not_come_the_number_leads_to_it(
    demo_server: SiteServer, opened: Callable[..., Page]
) -> None:
    def refuse(route: Route) -> None:
        route.abort() if route.request.resource_type == "fetch" else route.continue_()

    page = opened()
    page.goto(demo_server.url + PAGE, wait_until="networkidle")
    link = page.locator("#known-hole-size-middle a[href*=sources]:has(> data.figure):visible").first
    link.wait_for()
    page.route("**/sources/**", refuse)
    link.click()
    page.wait_for_url("**/sources/**#**")


def test_a_keyboard_does_the_same_and_whoever_has_no_script_is_led_there(
    demo_server: SiteServer, opened: Callable[..., Page]
) -> None:
    page = opened()
    page.goto(demo_server.url + PAGE, wait_until="networkidle")
    page.locator("#known-hole-size-middle a[href*=sources]:has(> data.figure):visible").first.focus()
    page.keyboard.press("Enter")
    expect(page.locator(".peek")).to_be_focused()
    plain = opened(java_script_enabled=False)
    plain.goto(f"{demo_server.url}root-perforation/")
    plain.locator("#known-hole-size-middle a[href*=sources]:has(> data.figure)").first.click()
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
