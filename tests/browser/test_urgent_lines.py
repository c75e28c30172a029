"""The urgent page while somebody scrolls it or taps its links: no line of text lies on another."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Page, expect
from site_server import SiteServer, serving
from waiting import wait_until

pytestmark = pytest.mark.browser

HEIGHT = 740
WIDTHS = (320, 360, 1280)

# Every line of text in view: its words and its box. Boxes are as high as the font, which may be higher than the line,
# so only the middle half of each is looked at. A line that is under the bar is scrolled away, not covered.
LINES_ON_ONE_ANOTHER = """() => {
    const bar = document.querySelector("nav.urgent");
    const edge = bar.getBoundingClientRect().top;
    const lines = [];
    const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
    while (walker.nextNode()) {
        const node = walker.currentNode, part = node.parentElement;
        if (!node.data.trim() || part.closest("script, style, [hidden]") || !part.checkVisibility()) continue;
        const range = document.createRange();
        range.selectNodeContents(node);
        for (const box of range.getClientRects()) {
            const middle = box.top + box.height / 2;
            const isUnderBar = !bar.contains(part) && middle > edge - 2;
            if (box.width < 2 || middle < 0 || middle > innerHeight || isUnderBar) continue;
            lines.push({part, box, middle, words: node.data.trim().slice(0, 60)});
        }
    }
    const faults = [];
    lines.forEach((one, index) => {
        const seen = document.elementFromPoint(one.box.left + one.box.width / 2, one.middle);
        if (seen && !seen.contains(one.part) && !one.part.contains(seen))
            faults.push(`"${one.words}" lies under <${seen.tagName.toLowerCase()} class="${seen.className}">`);
        for (const other of lines.slice(index + 1)) {
            const wide = Math.min(one.box.right, other.box.right) - Math.max(one.box.left, other.box.left);
            const apart = Math.abs(one.middle - other.middle);
            if (wide > 2 && apart < (one.box.height + other.box.height) / 4)
                faults.push(`"${one.words}" lies on "${other.words}"`);
        }
    });
    return {faults, lines: lines.length};
}"""


@pytest.fixture(scope="module")
def demo_server(demo_site: Path) -> Iterator[SiteServer]:
    with serving(demo_site) as server:
        yield server


def doors(page: Page) -> list[str]:
    """The address of each emergency on the page."""
    return [f"#{part.get_attribute('id')}" for part in page.locator("main details.danger").all()]


def faults_in_view(page: Page, when: str) -> list[str]:
    """What lies on what in the part of the page that is in view now."""
    found: dict[str, Any] = page.evaluate(LINES_ON_ONE_ANOTHER)
    assert found["lines"] > 3, f"{when}: nearly no text is in view"
    return [f"{when}: {fault}" for fault in found["faults"]]


@pytest.mark.parametrize("width", WIDTHS)
def test_no_line_lies_on_another_behind_any_door(
    demo_server: SiteServer, opened: Callable[..., Page], width: int
) -> None:
    page = opened(viewport={"width": width, "height": HEIGHT})
    page.goto(f"{demo_server.url}urgent/", wait_until="load")
    names = doors(page)
    assert len(names) == 6
    faults = []
    for name in names:
        page.goto("about:blank")
        page.goto(f"{demo_server.url}urgent/{name}", wait_until="load")
        assert page.locator("main details.danger[open]").count() == 1
        heading = page.locator(f"{name} h2, h2{name}").first.bounding_box()
        bar = page.locator("nav.urgent").bounding_box()
        assert heading is not None
        assert bar is not None
        assert round(bar["y"] + bar["height"]) == HEIGHT
        assert 0 <= heading["y"] < bar["y"] - heading["height"], f"{name}: its heading is out of view"
        faults += faults_in_view(page, name)
    assert not faults, "\n".join(faults)


@pytest.mark.parametrize("width", WIDTHS)
def test_no_line_lies_on_another_while_the_page_is_scrolled(
    demo_server: SiteServer, opened: Callable[..., Page], width: int
) -> None:
    page = opened(viewport={"width": width, "height": HEIGHT})
    page.goto(f"{demo_server.url}urgent/", wait_until="load")
    for summary in page.locator("main details > summary").all():
        summary.click()
    whole = page.evaluate("document.documentElement.scrollHeight")
    faults = []
    for top in range(0, whole - HEIGHT + 1, HEIGHT // 3):
        page.evaluate("top => scrollTo(0, top)", top)
        faults += faults_in_view(page, f"scrolled by {top} pixels")
    assert not faults, "\n".join(faults)


def test_one_emergency_a_view(demo_server: SiteServer, opened: Callable[..., Page]) -> None:
    page = opened(viewport={"width": 360, "height": HEIGHT})
    page.goto(f"{demo_server.url}urgent/", wait_until="load")
    # All of them stand on the first screen, and the page is short until one is opened.
    last = page.locator("main details.danger").last.bounding_box()
    bar = page.locator("nav.urgent").bounding_box()
    assert last is not None
    assert bar is not None
    assert last["y"] + last["height"] <= bar["y"]
    for summary in page.locator("main details.danger > summary").all():
        summary.click()
        assert page.locator("main details.danger[open]").count() == 1
        assert page.evaluate("document.documentElement.scrollHeight") <= 4 * HEIGHT


@pytest.mark.parametrize("width", WIDTHS)
def test_a_tap_on_any_emergency_brings_what_to_do_first_into_view(
    demo_server: SiteServer, opened: Callable[..., Page], width: int
) -> None:
    page = opened(viewport={"width": width, "height": HEIGHT})
    page.goto(f"{demo_server.url}urgent/", wait_until="networkidle")
    bar = page.locator("nav.urgent").bounding_box()
    assert bar is not None
    # The last first: what was open above it closes by the next tap.
    for name in reversed(doors(page)):
        page.locator(f"{name} > summary").click()
        wait_until(page, f"document.querySelector('{name}').getBoundingClientRect().top < 40")
        for part in (f"{name} > summary", f"{name} li"):
            box = page.locator(part).first.bounding_box()
            assert box is not None
            assert 0 <= box["y"] < box["y"] + box["height"] <= bar["y"], (name, part)


@pytest.mark.parametrize("width", WIDTHS)
def test_the_bar_of_an_emergency_calls_and_leads_back_to_the_case_one_came_from(
    demo_server: SiteServer, opened: Callable[..., Page], width: int
) -> None:
    page = opened(viewport={"width": width, "height": HEIGHT})
    page.goto(f"{demo_server.url}root-perforation/#hole-place=crest", wait_until="load")
    page.get_by_role("link", name="something worse is happening").first.click()
    bar = page.locator("nav.urgent")
    expect(bar.get_by_role("link", name="My case", exact=True)).to_be_visible()
    bar.get_by_role("link", name="Call", exact=True).click()
    expect(page.locator("#call p.warning")).to_be_in_viewport()
    page.locator("#bleeding > summary").click()
    expect(page.get_by_text("Do not lift the swab to look.")).to_be_in_viewport()
    bar.get_by_role("link", name="Call", exact=True).click()
    expect(page.get_by_text("Call a senior colleague as soon as pressing has failed once.")).to_be_in_viewport()
    for door in bar.get_by_role("link").all():
        box = door.bounding_box()
        assert box is not None
        assert min(box["width"], box["height"]) >= 44
    bar.get_by_role("link", name="Do now", exact=True).click()
    expect(page.get_by_text("Press firmly with a moist swab")).to_be_in_viewport()
    bar.get_by_role("link", name="My case", exact=True).click()
    # What was answered there is there still.
    page.wait_for_url("**/root-perforation/#hole-place=crest")


def test_the_bar_of_an_emergency_opened_by_itself_leads_to_all_questions(
    demo_server: SiteServer, opened: Callable[..., Page]
) -> None:
    for with_script in (True, False):
        page = opened(java_script_enabled=with_script)
        page.goto(f"{demo_server.url}urgent/#bleeding", wait_until="networkidle")
        bar = page.locator("nav.urgent")
        bar.get_by_role("link", name="Call", exact=True).click()
        expect(page.locator("#call p.warning, #call-bleeding ~ p.warning").locator("visible=true")).to_be_in_viewport()
        bar.get_by_role("link", name="My case", exact=True).click()
        expect(page.locator("body")).to_have_attribute("data-page", "front")


def test_without_a_script_an_emergency_opens_from_its_address(
    demo_server: SiteServer, opened: Callable[..., Page]
) -> None:
    page = opened(java_script_enabled=False)
    page.goto(f"{demo_server.url}urgent/#bleeding", wait_until="load")
    assert page.get_by_text("Press firmly with a moist swab").is_visible()
    assert not page.get_by_text("Turn off every source of air.").is_visible()


def test_every_danger_is_printed(demo_server: SiteServer, opened: Callable[..., Page]) -> None:
    page = opened()
    page.goto(f"{demo_server.url}urgent/", wait_until="load")
    page.emulate_media(media="print")
    for name in doors(page):
        assert page.locator(f"{name} h2, h2{name}").first.is_visible(), f"{name} is left out on paper"


@pytest.mark.parametrize("name", ["irrigant-extruded", "collapse-or-allergy", "bleeding", "air-under-skin"])
def test_whoever_taps_the_name_of_an_emergency_sees_what_to_do_without_scrolling(
    demo_server: SiteServer, opened: Callable[..., Page], name: str
) -> None:
    page = opened(viewport={"width": 360, "height": HEIGHT})
    page.goto(f"{demo_server.url}urgent/", wait_until="load")
    page.locator(f"#{name} > summary").click()
    step = page.locator(f"#{name} ol.until-help > li > .do").first
    expect(step).to_be_in_viewport()
    bar = page.locator("nav.urgent")
    edges = [part.bounding_box() for part in (step, bar)]
    assert edges[0] is not None
    assert edges[1] is not None
    assert edges[0]["y"] + edges[0]["height"] <= edges[1]["y"]
    # The places of the bar stay within the list that is open.
    for door, part in (("Call", "call"), ("Do now", "now")):
        bar.get_by_role("link", name=door, exact=True).click()
        expect(page.locator(f"#{part}-{name}")).to_be_in_viewport()
        assert page.locator(f"#{name}").get_attribute("open") is not None
