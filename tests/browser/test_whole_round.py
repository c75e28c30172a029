"""The whole round of a resident on a phone of 360 by 740, with a script and without."""

from __future__ import annotations

import datetime
from collections.abc import Callable
from pathlib import Path

import pytest
from icalendar import Calendar
from offline import copied, visited
from passageproof.rendering.offline import service_worker
from playwright.sync_api import Locator, Page, expect
from site_server import serving

pytestmark = pytest.mark.browser

TITLE = "There is a hole in the root or the pulp floor"
THUMB = 44


def tap(target: Locator) -> None:
    """A tap with a thumb: what is tapped is at least 44 CSS pixels each way (WCAG 2.2, criterion 2.5.5)."""
    target.scroll_into_view_if_needed()
    box = target.bounding_box()
    assert box is not None
    assert min(box["width"], box["height"]) >= THUMB, target
    target.tap()


def in_view(page: Page, target: Locator) -> bool:
    """True where it stands on the screen without scrolling."""
    box = target.bounding_box()
    return box is not None and box["y"] >= 0 and box["y"] + box["height"] <= page.viewport_size["height"]  # type: ignore[index]


def test_the_whole_round_with_thumbs(
    demo_site: Path, tmp_path: Path, opened: Callable[..., Page], sample_site: Path
) -> None:
    site = copied(demo_site, tmp_path / "site")
    with serving(site, "/guide/") as server:
        page = opened(service_workers="allow", has_touch=True, is_mobile=True)
        foreign: list[str] = []
        page.context.on(
            "request",
            lambda asked: None if asked.url.startswith((server.url, "blob:")) else foreign.append(asked.url),
        )
        visited(page, server.url)

        # The first tap shows what not to do now.
        tap(page.get_by_role("link", name=TITLE, exact=True))
        assert in_view(page, page.get_by_role("heading", name="Do not", exact=True))
        assert in_view(page, page.locator(".stop .do").nth(2))
        assert in_view(page, page.get_by_role("link", name="something worse is happening"))

        # Every further answer is one tap and shows its line at once; what is not answered counts as "can't tell".
        expect(page.locator('[aria-pressed="true"]')).to_have_count(0)
        tap(page.get_by_role("button", name="over 3 mm"))
        known = page.locator("#known-hole-size-large")
        expect(known).to_be_visible()
        expect(known).to_contain_text("fewer healed at the site in")
        expect(known).to_contain_text("certainty: moderate")
        tap(page.locator("summary", has_text="Tooth, for the record?"))
        tap(page.get_by_role("button", name="46 (30)"))
        expect(page.locator("#known-tooth-type-molar")).to_be_visible()
        expect(page.locator("#known-arch-mandibular")).to_be_visible()
        assert page.url.endswith("#hole-size=large&tooth=46")
        expect(page.locator("#known-site-probing-unknown")).not_to_be_visible()

        # A figure is one tap from its passage, and one more from the report.
        figure = known.locator("a[href*=sources]:has(> .figure)").first
        name = figure.locator("data").first.get_attribute("data-figure")
        figure.tap()
        expect(page.locator(f'.peek data[data-figure="{name}"]')).to_be_visible()
        tap(page.get_by_role("link", name="The report, and who read it"))
        expect(page.locator(f':target data[data-figure="{name}"]')).to_be_visible()
        page.go_back()
        expect(known).to_be_visible()

        # A sheet for the talk, printed alone.
        page.get_by_role("link", name="Words for the patient").tap()
        page.wait_for_url("**/patient/")
        page.evaluate(
            "() => { window.print = () => (window.printed = document.querySelector('.only h2').textContent) }"
        )
        tap(page.get_by_role("button", name="Print this sheet alone").first)
        assert page.evaluate("window.printed") == "During treatment"

        # A calendar file.
        page.goto(f"{server.url}root-perforation/recall/")
        tap(page.get_by_role("button", name="Yes", exact=True))
        page.get_by_label("Day of treatment").fill("2026-08-31")
        with page.expect_download() as download:
            tap(page.get_by_role("button", name="Calendar file"))
        download.value.save_as(tmp_path / "recall.ics")
        events = Calendar.from_ical((tmp_path / "recall.ics").read_bytes()).walk("VEVENT")
        assert events[0].decoded("DTSTART") == datetime.date(2027, 2, 28)

        # The network goes: the page comes again, and the search finds.
        page.goto(f"{server.url}root-perforation/#hole-size=large")
        page.context.set_offline(True)
        page.reload()
        page.get_by_text("You are reading a copy kept on this device").wait_for()
        expect(page.locator("#known-hole-size-large")).to_be_visible()
        tap(page.get_by_role("link", name="Search"))
        page.get_by_role("searchbox").fill("hole in the floor")
        page.locator(".results").get_by_role("link", name=TITLE, exact=True).tap()
        expect(page.get_by_role("heading", name="Do not", exact=True)).to_be_visible()

        # Back on the network after a publication: the first visit shows the new text.
        publish_change(site)
        page.context.set_offline(False)
        page.goto(f"{server.url}root-perforation/", wait_until="load")
        expect(page.locator(".stop .do").first).to_have_text("Do not put anything into the hole.")

        # Nothing was stored but the copies of pages and, for this tab, the answers that may be asked for again.
        assert page.evaluate("[localStorage.length, document.cookie.length]") == [0, 0]
        kept = page.evaluate("Object.keys(sessionStorage)")
        assert kept == [f"earlier {page.evaluate('location.pathname')}"]
        assert page.evaluate("indexedDB.databases().then((list) => list.length)") == 0
        assert foreign == []


def publish_change(site: Path) -> None:
    """A new publication in the same place: other words in the stop list, and the worker of what is published now."""
    path = site / "root-perforation" / "index.html"
    text = path.read_text("utf-8")
    changed = text.replace("Do not put a file into the hole.", "Do not put anything into the hole.")
    assert changed != text
    path.write_text(changed, "utf-8")
    worker = Path(__file__).parents[2] / "builder" / "theme" / "service-worker.js"
    files = [file for file in site.rglob("*") if file.is_file() and file.name != "service-worker.js"]
    paths = [file.relative_to(site).as_posix() for file in files]
    filled = service_worker(worker.read_text("utf-8"), paths, lambda path: (site / path).open("rb"))
    (site / "service-worker.js").write_text(filled, "utf-8")


def test_the_same_reading_without_a_script(demo_site: Path, opened: Callable[..., Page]) -> None:
    with serving(demo_site, "/guide/") as server:
        page = opened(java_script_enabled=False, has_touch=True, is_mobile=True)
        page.goto(server.url)
        tap(page.get_by_role("link", name=TITLE, exact=True))
        assert in_view(page, page.get_by_role("heading", name="Do not", exact=True))
        tap(page.get_by_role("link", name="over 3 mm", exact=True))
        known = page.locator("#known-hole-size-large:target")
        expect(known).to_contain_text("fewer healed at the site in")
        # A choice of a tooth leads to what is known of its kind.
        tap(page.locator("summary", has_text="Tooth, for the record?"))
        tap(page.get_by_role("link", name="46 (30)"))
        expect(page.locator("#known-tooth-type-molar:target")).to_be_visible()
        known = page.locator("#known-hole-size-large")
        known.locator('a[href*="sources/"]:has(> .figure)').first.tap()
        expect(page.locator(":target data.figure").first).to_be_visible()
        page.go_back()
        # What is closed opens by itself: an option by its title, workings by the way to them.
        page.locator("summary", has_text="Repair now").tap()
        expect(page.get_by_text("The hole can be seen, reached and kept clean today.")).to_be_visible()
        known.locator('a[href^="#workings-"]:has(> .figure)').first.tap()
        expect(page.locator("details.workings:target")).to_be_visible()
        page.get_by_role("link", name="Words for the patient").tap()
        page.locator("summary", has_text="Before treatment").first.tap()
        expect(page.locator(".sheet.before .answer").first).to_be_visible()
        page.go_back()
        page.get_by_role("link", name="Recall: when to see the tooth again").tap()
        expect(page.locator(".visits li").first).to_have_text("6 months")
        tap(page.get_by_role("link", name="Search"))
        expect(page.get_by_role("main").get_by_role("link", name=TITLE, exact=True)).to_be_visible()
        tap(page.locator(".urgent-link", has_text="something worse is happening"))
        expect(page.get_by_role("heading", name="Something worse is happening")).to_be_visible()


def test_sections_stand_in_the_same_order_with_and_without_a_script(
    demo_site: Path, opened: Callable[..., Page]
) -> None:
    def order(**options: object) -> list[str]:
        page = opened(**options)
        page.goto(server.url + "root-perforation/", wait_until="load")
        return page.locator("main :is(h1, h2, h3)").all_text_contents()

    with serving(demo_site) as server:
        with_script, without = order(), order(java_script_enabled=False)
    assert with_script == without
    assert with_script[:5] == [TITLE, "Do not", "Do now", "Call", "Is it really this?"]
