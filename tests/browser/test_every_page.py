"""Every page in a real browser: quiet, nothing from elsewhere, accessible, no sideways scroll, read without script.

Each page is loaded once, in the light and on a phone, and asked everything there; then it is made narrower, darkened
and widened in place, as a device is turned or dims. What differs on a wide screen is a matter of the kind of page: one
of each kind is loaded there, in both schemes.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path
from typing import NamedTuple

import pytest
from axe_playwright_python.sync_playwright import Axe
from look import one_of_each_kind
from playwright.sync_api import Page
from site_server import SiteServer, serving

pytestmark = pytest.mark.browser

PHONE, DESK = {"width": 360, "height": 740}, {"width": 1280, "height": 800}


class Served(NamedTuple):
    """A site under a web server and the addresses of all its pages."""

    server: SiteServer
    pages: list[str]


@pytest.fixture(scope="module", params=["sample_site", "demo_site"])
def served(request: pytest.FixtureRequest) -> Iterator[Served]:
    folder: Path = request.getfixturevalue(request.param)
    pages = [file.relative_to(folder).as_posix().removesuffix("index.html") for file in sorted(folder.rglob("*.html"))]
    # Without an address of its own the page for unknown addresses stands at the root of a host.
    with serving(folder) as server:
        yield Served(server, pages)


# Two cores share the pages.
PARTS = [("sample_site", 0, 1), *(("demo_site", part, 4) for part in range(4))]


@pytest.mark.parametrize(("served", "part", "parts"), PARTS, indirect=["served"])
def test_every_page_holds_on_a_phone_in_the_dark_and_widened(
    served: Served, opened: Callable[..., Page], part: int, parts: int
) -> None:
    page = opened(viewport=PHONE, color_scheme="light")
    faults = heard(page, served)
    rows = 0
    for address in served.pages[part::parts]:
        page.set_viewport_size(PHONE)
        page.emulate_media(color_scheme="light")
        page.goto(served.server.url + address, wait_until="load")
        faults += [f"{address}: {fault}" for fault in (*violations(page), *too_small(page), *plain_links(page))]
        page.set_viewport_size({"width": 320, "height": 640})
        faults += [f"{address}: {fault}" for fault in wider_than(page, 320)]
        page.set_viewport_size(PHONE)
        page.emulate_media(color_scheme="dark")
        # Of all rules this one alone depends on the scheme.
        faults += [f"{address}, dark: {fault}" for fault in violations(page, ["color-contrast"])]
        found = opened_rows(page)
        rows += len(found)
        faults += [f"{address}: {text} {height}" for text, height in found if height < 44]
        page.set_viewport_size(DESK)
    assert rows > 0
    assert not faults, "\n".join(faults)


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_every_kind_of_page_holds_on_a_desk(served: Served, opened: Callable[..., Page], scheme: str) -> None:
    page = opened(viewport=DESK, color_scheme=scheme)
    faults = heard(page, served)
    for address in one_of_each_kind(served.server.folder).values():
        page.goto(served.server.url + address, wait_until="load")
        faults += [f"{address}: {fault}" for fault in violations(page)]
    assert not faults, "\n".join(faults)


def heard(page: Page, served: Served) -> list[str]:
    """Fills with the errors of the console and of scripts, and with whatever is asked for elsewhere."""
    faults: list[str] = []
    page.on(
        "console", lambda message: faults.append(f"{page.url}: {message.text}") if message.type == "error" else None
    )
    page.on("pageerror", lambda error: faults.append(f"{page.url}: {error}"))
    page.on("request", lambda asked: faults.append(asked.url) if not asked.url.startswith(served.server.url) else None)
    return faults


def violations(page: Page, rules: list[str] | None = None) -> list[str]:
    """What axe-core finds. rules: those alone; None: WCAG 2.0 to 2.2, levels A and AA, and best practices."""
    if not page.evaluate("'axe' in window"):
        page.evaluate(Axe().axe_script)
    found = page.evaluate(
        """async (rules) => {
            // A colour may be on its way to that of another scheme.
            await Promise.all(document.getAnimations().map((each) => each.finished));
            const found = await axe.run({resultTypes: ["violations"], ...rules && {runOnly: rules}});
            return found.violations.map(
                (each) => `${each.id}: ${each.nodes[0].html.slice(0, 200)} (${each.nodes.length})`);
        }""",
        rules,
    )
    assert isinstance(found, list)
    return found


def wider_than(page: Page, width: int) -> list[str]:
    """WCAG 2.2, success criterion 1.4.10 Reflow: nothing scrolls sideways at 320 CSS pixels."""
    found = page.evaluate("document.documentElement.scrollWidth")
    return [f"{found} pixels wide"] if found > width else []


def too_small(page: Page) -> list[str]:
    """WCAG 2.2, success criterion 2.5.5 (level AAA): 44 CSS pixels, for everything but links in running text."""
    found: list[str] = page.evaluate(
        """() => [...document.querySelectorAll(".urgent > a, .top a, .target, button, summary, main input")]
            .filter((part) => part.getClientRects().length)
            .map((part) => [part, part.getBoundingClientRect()])
            .filter(([, box]) => box.height < 44 || box.width < 44)
            .map(([part, box]) => `${part.outerHTML.slice(0, 80)} ${box.height}`)"""
    )
    return found


def opened_rows(page: Page) -> list[tuple[str, float]]:
    """The same criterion of rows behind doors too, each tapped as a whole: every row and its height."""
    found: list[tuple[str, float]] = page.evaluate(
        """() => {
            for (const part of document.querySelectorAll("details")) part.open = !part.closest(".studies");
            const every = [...document.querySelectorAll("summary, .studies li")];
            const height = (part) => (part.closest(".studies li") || part).getBoundingClientRect().height;
            const rows = every.filter((part) => part.checkVisibility());
            return rows.map((part) => [part.outerHTML.slice(0, 80), height(part)]);
        }"""
    )
    return found


def plain_links(page: Page) -> list[str]:
    """Links that stand out from their text by nothing but colour: WCAG 2.2, success criterion 1.4.1."""
    found: list[str] = page.evaluate(
        """() => [...document.querySelectorAll("main :is(p, li, td, dd) a:not(.target)")]
            .filter((link) => !link.hasAttribute("aria-current"))
            .filter((link) => !getComputedStyle(link).textDecorationLine.includes("underline"))
            .map((link) => link.outerHTML.slice(0, 80))"""
    )
    return found


def test_an_opened_box_has_the_paper_of_its_page_in_the_dark(demo_site: Path, opened: Callable[..., Page]) -> None:
    # Axe sees of what is shut its title alone.
    page = opened(color_scheme="dark")
    with serving(demo_site) as server:
        page.goto(server.url + "upkeep/", wait_until="load")
    papers = page.evaluate(
        """() => [document.body, ...document.querySelectorAll("main details")]
            .map((box) => getComputedStyle(box).backgroundColor)"""
    )
    assert len(papers) > 1
    assert set(papers[1:]) == {papers[0]}


def test_every_page_can_be_read_without_a_script(served: Served, opened: Callable[..., Page]) -> None:
    with_script, without = opened(), opened(java_script_enabled=False)
    unread = []
    for address in served.pages:
        without.goto(served.server.url + address, wait_until="load")
        main = without.locator("main")
        # What follows from a chart is one tap away.
        hidden = without.locator("main .known:not(details.ask .known):not(:visible)").count()
        if not main.inner_text().strip() or hidden:
            unread.append(address)
    with_script.goto(served.server.url, wait_until="load")
    assert not unread, "\n".join(unread)
