"""Pages for contributors stand in the theme's frame and look as all others do."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from playwright.sync_api import Page, expect
from site_server import SiteServer

pytestmark = pytest.mark.browser

CONTRIBUTORS = ("upkeep/", "contribute/", "data/")
SEEN = (
    "fontFamily", "fontSize", "fontWeight", "lineHeight", "letterSpacing", "color", "backgroundColor", "marginTop",
    "marginBottom", "paddingTop", "paddingLeft", "borderTopWidth", "borderTopColor", "borderBottomWidth",
    "textDecorationLine",
)  # fmt: skip
# What stands on every page of the guide, by what it is.
PARTS = {
    "text": "main p:not([class]):not(:has(a))",
    "title": "h1",
    "heading": "main section > h2",
    "item": "main section li",
    "link": "main :is(li, p) > a:not(:has(data))",
    "page": "body",
    "bar": "nav.urgent > .urgent-link",
    "foot": "footer p:not(.contact, .paper)",
}


def looks(page: Page) -> dict[str, dict[str, str]]:
    """How each part looks, and where it begins from the left, unless it stands within a line."""
    found: dict[str, dict[str, str]] = {
        name: page.locator(selector).first.evaluate(
            """(part, seen) => {
                const style = getComputedStyle(part);
                const found = Object.fromEntries(seen.map((name) => [name, style[name]]));
                return { ...found, left: String(Math.round(part.getBoundingClientRect().left)) };
            }""",
            SEEN,
        )
        for name, selector in PARTS.items()
    }
    del found["link"]["left"]
    return found


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("width", [360, 1100])
def test_type_colours_and_spacing_are_those_of_a_reading_page(
    demo_server: SiteServer, opened: Callable[..., Page], width: int, scheme: str
) -> None:
    page = opened(viewport={"width": width, "height": 740}, color_scheme=scheme)
    page.goto(f"{demo_server.url}methods/", wait_until="load")
    reading = looks(page)
    for address in CONTRIBUTORS:
        page.goto(demo_server.url + address, wait_until="load")
        found = looks(page)
        for name in PARTS:
            assert found[name] == reading[name], (address, name)


@pytest.mark.parametrize("with_script", [True, False])
@pytest.mark.parametrize("address", CONTRIBUTORS)
def test_all_pages_are_listed_below_the_text_and_nothing_stands_at_its_side(
    demo_server: SiteServer, opened: Callable[..., Page], address: str, with_script: bool
) -> None:
    page = opened(java_script_enabled=with_script)
    page.goto(demo_server.url + address, wait_until="load")
    pages = page.get_by_role("navigation", name="All pages")
    for other in ("Upkeep", "Add a claim", "Take the data along", "How numbers are made"):
        expect(pages.get_by_role("link", name=other)).to_be_visible()
    assert page.locator(".md-sidebar").count() == 0
    expect(page.get_by_role("link", name="All questions")).to_be_visible()


@pytest.mark.parametrize("address", ["", "sources/", "sources/dovrell2017crest/", *CONTRIBUTORS])
def test_the_urgent_door_stands_at_the_foot_of_the_screen_wherever_the_page_is(
    demo_server: SiteServer, opened: Callable[..., Page], address: str
) -> None:
    page = opened()
    page.goto(demo_server.url + address, wait_until="load")
    for place in ("0", "document.documentElement.scrollHeight / 2", "document.documentElement.scrollHeight"):
        page.evaluate(f"scrollTo(0, {place})")
        box = page.get_by_role("link", name="something worse is happening").first.bounding_box()
        assert box is not None
        assert round(box["y"] + box["height"]) == 740


# House rule: whoever looks one thing up finds its door within a few screens; what is behind a door is closed.
@pytest.mark.parametrize(
    ("address", "most"),
    [("contribute/", 5), ("methods/", 3), ("upkeep/", 5), ("changes/", 4), ("data/", 5), ("gaps/", 7), ("search/", 2)],
)
def test_a_page_about_the_guide_is_a_few_screens_of_a_phone_while_closed(
    demo_server: SiteServer, opened: Callable[..., Page], address: str, most: int
) -> None:
    page = opened(viewport={"width": 360, "height": 740})
    page.goto(demo_server.url + address, wait_until="load")
    assert page.evaluate("document.documentElement.scrollHeight") <= most * 740


@pytest.mark.parametrize("with_script", [True, False])
def test_the_address_of_a_field_opens_the_doors_before_it(
    demo_server: SiteServer, opened: Callable[..., Page], with_script: bool
) -> None:
    page = opened(java_script_enabled=with_script)
    page.goto(f"{demo_server.url}contribute/#field-events-in-claim", wait_until="load")
    expect(page.locator("[id='field-events-in-claim']")).to_be_in_viewport()
    page.goto(f"{demo_server.url}contribute/#rule-figure-not-in-passage", wait_until="load")
    expect(page.get_by_text("is not in the passage that its")).to_be_visible()
