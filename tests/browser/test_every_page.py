"""Every page in a real browser: quiet, nothing from elsewhere, accessible, no sideways scroll, read without script."""

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

SIZES = {"phone": (360, 740), "desk": (1280, 800)}
VIEWS = [pytest.param(size, scheme, id=f"{size}-{scheme}") for size, scheme in (("phone", "light"), ("desk", "dark"))]


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


@pytest.mark.parametrize(("size", "scheme"), VIEWS)
def test_the_console_is_quiet_and_nothing_comes_from_elsewhere(
    served: Served, opened: Callable[..., Page], size: str, scheme: str
) -> None:
    width, height = SIZES[size]
    page = opened(viewport={"width": width, "height": height}, color_scheme=scheme)
    faults: list[str] = []
    page.on(
        "console", lambda message: faults.append(f"{page.url}: {message.text}") if message.type == "error" else None
    )
    page.on("pageerror", lambda error: faults.append(f"{page.url}: {error}"))
    page.on("request", lambda asked: faults.append(asked.url) if not asked.url.startswith(served.server.url) else None)
    for address in served.pages:
        page.goto(served.server.url + address, wait_until="load")
    assert not faults, "\n".join(faults)


@pytest.mark.parametrize("half", [0, 1])  # two cores share the pages
def test_axe_finds_nothing_on_a_phone(served: Served, opened: Callable[..., Page], half: int) -> None:
    assert not violations(served, opened, served.pages[half::2], "phone", "light", None)


def test_axe_finds_no_weak_contrast_in_the_dark(served: Served, opened: Callable[..., Page]) -> None:
    # Of all rules this one alone depends on the scheme.
    assert not violations(served, opened, served.pages, "phone", "dark", ["color-contrast"])


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


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_axe_finds_nothing_on_a_desk(served: Served, opened: Callable[..., Page], scheme: str) -> None:
    # What differs on a wide screen is a matter of the kind of page.
    kinds = list(one_of_each_kind(served.server.folder).values())
    assert not violations(served, opened, kinds, "desk", scheme, None)


def violations(
    served: Served, opened: Callable[..., Page], pages: list[str], size: str, scheme: str, rules: list[str] | None
) -> list[str]:
    """What axe-core finds. rules: those alone; None: WCAG 2.0 to 2.2, levels A and AA, and best practices."""
    width, height = SIZES[size]
    page = opened(viewport={"width": width, "height": height}, color_scheme=scheme)
    options = {"runOnly": rules} if rules else {}
    faults = []
    for address in pages:
        page.goto(served.server.url + address, wait_until="load")
        for found in Axe().run(page, options=options).response["violations"]:
            faults.append(f"{address}: {found['id']}: {found['nodes'][0]['html'][:200]} ({len(found['nodes'])})")
    return faults


def test_nothing_scrolls_sideways_at_320_pixels(served: Served, opened: Callable[..., Page]) -> None:
    # WCAG 2.2, success criterion 1.4.10 Reflow: 320 CSS pixels.
    page = opened(viewport={"width": 320, "height": 640})
    wide = []
    for address in served.pages:
        page.goto(served.server.url + address, wait_until="load")
        width = page.evaluate("document.documentElement.scrollWidth")
        if width > 320:
            wide.append(f"{address}: {width}")
    assert not wide, "\n".join(wide)


def test_what_is_tapped_is_large_enough(served: Served, opened: Callable[..., Page]) -> None:
    # WCAG 2.2, success criterion 2.5.5 (level AAA): 44 CSS pixels, for everything but links in running text.
    page = opened()
    small = []
    for address in served.pages:
        page.goto(served.server.url + address, wait_until="load")
        small += page.evaluate(
            """() => [...document.querySelectorAll(".urgent > a, .top a, .target, button, summary, main input")]
                .filter((part) => part.getClientRects().length)
                .map((part) => [part, part.getBoundingClientRect()])
                .filter(([, box]) => box.height < 44 || box.width < 44)
                .map(([part, box]) => `${location.pathname}: ${part.outerHTML.slice(0, 80)} ${box.height}`)"""
        )
    assert not small, "\n".join(small)


def test_every_row_that_a_part_opens_is_large_enough(served: Served, opened: Callable[..., Page]) -> None:
    # WCAG 2.2, success criterion 2.5.5: rows behind doors too, each tapped as a whole; on a phone.
    page = opened(viewport={"width": 360, "height": 740})
    small: list[str] = []
    rows = 0
    for address in served.pages:
        page.goto(served.server.url + address, wait_until="load")
        found = page.evaluate(
            """() => {
                for (const part of document.querySelectorAll("details")) part.open = !part.closest(".studies");
                const every = [...document.querySelectorAll("summary, .studies li")];
                const height = (part) => (part.closest(".studies li") || part).getBoundingClientRect().height;
                const rows = every.filter((part) => part.checkVisibility());
                return rows.map((part) => [part.outerHTML.slice(0, 80), height(part)]);
            }"""
        )
        rows += len(found)
        small += [f"{address}: {text} {height}" for text, height in found if height < 44]
    assert rows > 0
    assert not small, "\n".join(small)


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


def test_every_link_stands_out_from_its_text_by_more_than_colour(served: Served, opened: Callable[..., Page]) -> None:
    page = opened()
    plain = []
    for address in served.pages:
        page.goto(served.server.url + address, wait_until="load")
        plain += page.evaluate(
            """() => [...document.querySelectorAll("main :is(p, li, td, dd) a:not(.target)")]
                .filter((link) => !link.hasAttribute("aria-current"))
                .filter((link) => !getComputedStyle(link).textDecorationLine.includes("underline"))
                .map((link) => `${location.pathname}: ${link.outerHTML.slice(0, 80)}`)"""
        )
    assert not plain, "\n".join(plain)
