"""What a first visit costs on bad wi-fi, and what stays when the wi-fi is gone."""

from __future__ import annotations

import gzip
import re
from collections.abc import Callable
from pathlib import Path

import pytest
from look import one_of_each_kind
from offline import copied, visited, withdraw
from passageproof.build import Built
from passageproof.publishing import publish
from playwright.sync_api import Error, Page
from site_server import serving
from waiting import wait_until

pytestmark = pytest.mark.browser

READING_KINDS = (
    "front", "question", "factor", "over-time", "patient", "recall", "conference", "source", "urgent", "gaps",
    "changes", "methods",
)  # fmt: skip


@pytest.mark.parametrize("kind", READING_KINDS)
def test_a_first_visit_asks_for_four_files_and_25_kilobytes_at_most(
    demo_site: Path, opened: Callable[..., Page], kind: str
) -> None:
    pages = sorted(
        (len(gzip.compress(text.encode(), 6)), address) for address, text in pages_of(demo_site, kind).items()
    )
    # The one in the middle; what the longest costs is a test of its own.
    _, address = pages[len(pages) // 2]
    with serving(demo_site) as server:
        page = opened()
        page.goto(server.url + address, wait_until="networkidle")
        asked = [entry for entry in server.asked if not entry.path.endswith(("favicon.ico", "mark.svg"))]
    assert len(asked) <= 4, [entry.path for entry in asked]
    assert sum(entry.size for entry in asked) <= 25 * 1024, [(entry.path, entry.size) for entry in asked]


@pytest.mark.parametrize("kind", READING_KINDS)
def test_the_longest_page_of_a_kind_costs_25_kilobytes_at_most(demo_site: Path, kind: str) -> None:
    heavy = {}
    for address, text in pages_of(demo_site, kind).items():
        script = re.search(r"javascripts/\w+\.js", text)
        sheet = re.search(r"stylesheets/\w+\.css", text)
        assert script is not None
        assert sheet is not None
        heavy[address] = len(gzip.compress(text.encode(), 6)) + sum(
            compressed(demo_site / file[0]) for file in (sheet, script)
        )
    assert {address: size for address, size in heavy.items() if size > 25 * 1024} == {}


def test_the_words_of_the_first_screen_do_not_wait_for_the_look(demo_site: Path, opened: Callable[..., Page]) -> None:
    with serving(demo_site) as server:
        page = opened()
        # Bad wi-fi: the style sheet is asked for and never comes.
        page.route("**/question.css", lambda route: None)
        page.goto(f"{server.url}root-perforation/", wait_until="commit")
        wait_until(page, "performance.getEntriesByName('first-contentful-paint').length === 1")
        assert page.get_by_text("Do not let hypochlorite or air into the hole.").first.is_visible()
        assert page.get_by_role("link", name="something worse is happening").is_visible()
        page.unroute_all(behavior="ignoreErrors")


@pytest.mark.parametrize("kind", READING_KINDS)
def test_a_reading_page_asks_for_one_sheet_once(demo_site: Path, kind: str) -> None:
    for address, text in pages_of(demo_site, kind).items():
        assert text.count('rel="stylesheet"') == 1, address
        assert "<!--look-->" not in text, address


def compressed(file: Path) -> int:
    """Bytes of a file as a static host sends it."""
    return len(gzip.compress(file.read_bytes(), 6))


def pages_of(site: Path, kind: str) -> dict[str, str]:
    """Pages of one kind: address below the site and text."""
    texts = {
        file.relative_to(site).as_posix().removesuffix("index.html"): file.read_text("utf-8")
        for file in site.rglob("*.html")
    }
    return {address: text for address, text in texts.items() if f'data-page="{kind}"' in text}


def test_every_reading_page_opens_offline_after_one_visit(sample_site: Path, opened: Callable[..., Page]) -> None:
    with serving(sample_site, "/guide/") as server:
        page = opened(service_workers="allow")
        visited(page, server.url)
        page.context.set_offline(True)
        for kind, address in one_of_each_kind(sample_site).items():
            if address != "404.html":
                page.goto(server.url + address, wait_until="load")
                assert page.locator("body").get_attribute("data-page") == kind


def test_an_offline_page_says_how_old_its_copy_is(sample_site: Path, opened: Callable[..., Page]) -> None:
    with serving(sample_site, "/guide/") as server:
        page = opened(service_workers="allow")
        visited(page, server.url)
        page.context.set_offline(True)
        page.goto(f"{server.url}root-perforation/", wait_until="load")
        page.get_by_text("You are reading a copy kept on this device, from today. Evidence of 2026-10-30").wait_for()


def test_the_foot_says_that_a_copy_is_kept_once_it_is(sample_site: Path, opened: Callable[..., Page]) -> None:
    with serving(sample_site, "/guide/") as server:
        page = opened()
        page.goto(f"{server.url}root-perforation/", wait_until="networkidle")
        assert page.locator("footer .kept").count() == 0
        page = opened(service_workers="allow")
        visited(page, server.url)
        page.goto(f"{server.url}root-perforation/", wait_until="load")
        kept = page.locator("footer .kept")
        kept.wait_for()
        assert kept.inner_text() == "Kept on this device: read offline, version of 2026-10-30."
        # On a page of the contributors it stands in line with the others of the foot.
        page.goto(f"{server.url}upkeep/", wait_until="load")
        kept.wait_for()
        assert (
            len(set(page.locator("footer p").evaluate_all("(all) => all.map((one) => one.getBoundingClientRect().x)")))
            == 1
        )


def test_an_unknown_address_offline_still_leads_to_the_urgent_page(
    sample_site: Path, opened: Callable[..., Page]
) -> None:
    with serving(sample_site, "/guide/") as server:
        page = opened(service_workers="allow")
        visited(page, server.url)
        page.context.set_offline(True)
        page.goto(f"{server.url}nowhere/", wait_until="load")
        page.get_by_text("something worse is happening").click()
        page.get_by_role("heading", name="Something worse is happening").wait_for()


def test_what_is_taken_along_is_there_offline_or_says_that_it_needs_the_network(
    demo_site: Path, opened: Callable[..., Page]
) -> None:
    with serving(demo_site, "/guide/") as server:
        page = opened(service_workers="allow")
        visited(page, server.url)
        page.context.set_offline(True)
        page.goto(f"{server.url}root-perforation/conference/", wait_until="load")
        for link in ("data/sources.bib", "data/claims.csv"):
            found = page.locator(f'a[href$="{link}"]').first
            assert found.is_visible()
            text = page.evaluate("(url) => fetch(url).then((answer) => answer.text())", f"{server.url}{link}")
            assert text == (demo_site / link).read_text("utf-8")
        page.goto(f"{server.url}data/figures.jsonl", wait_until="load")
        page.get_by_text("this file is not kept on this device: it needs the network").wait_for()


def test_the_search_works_offline(sample_site: Path, opened: Callable[..., Page]) -> None:
    with serving(sample_site, "/guide/") as server:
        page = opened(service_workers="allow")
        visited(page, server.url)
        page.context.set_offline(True)
        page.goto(f"{server.url}search/", wait_until="load")
        page.get_by_role("searchbox").fill("okaf marl")
        page.locator(".results").get_by_role("link", name="Marlow and Okafor").wait_for()


def test_a_stalled_network_gives_the_kept_copy(sample_site: Path, opened: Callable[..., Page]) -> None:
    with serving(sample_site, "/guide/") as server:
        page = opened(service_workers="allow")
        visited(page, server.url)
        server.is_stalled.set()
        page.goto(f"{server.url}urgent/", wait_until="load")
        page.get_by_text("You are reading a copy kept on this device").wait_for()


def test_a_new_publication_shows_on_the_next_visit(
    sample_site: Path, tmp_path: Path, opened: Callable[..., Page]
) -> None:
    site = copied(sample_site, tmp_path / "site")
    with serving(site, "/guide/") as server:
        page = opened(service_workers="allow")
        visited(page, server.url)
        changed = (site / "urgent" / "index.html").read_text("utf-8").replace("gone beyond the root", "gone too far")
        (site / "urgent" / "index.html").write_text(changed, "utf-8")
        page.goto(f"{server.url}urgent/", wait_until="load")
        page.get_by_role("heading", name="Irrigant has gone too far").wait_for()


def test_a_lasting_copy_below_the_guide_is_left_alone_and_asks_for_the_newest_standing(
    sample_site: Path, sample_built: Built, tmp_path: Path, opened: Callable[..., Page]
) -> None:
    site = copied(sample_site, tmp_path / "site")
    assert sample_built.guide is not None
    release = sample_built.guide.release
    (tmp_path / "root" / "evidence").mkdir(parents=True)
    publish(tmp_path / "root", site / f"v{release}", sample_built, is_copy=True)
    withdraw(site, "marlow2019furcal", "2026-11-02")
    with serving(site, "/guide/") as server:
        page = opened(service_workers="allow")
        visited(page, server.url)
        page.goto(f"{server.url}v{release}/root-perforation/", wait_until="load")
        page.get_by_text(f"This is the lasting copy of release {release}").wait_for()
        page.get_by_text(
            f"the newest guide is here. It is of {sample_built.guide.evidence_date.isoformat()}"
        ).wait_for()
        page.get_by_text("a report on this page was retracted (2026-11-02)").wait_for()
        # Nothing of it is kept: offline the newest guide answers, and never another publication.
        assert page.evaluate("async () => (await navigator.serviceWorker.getRegistrations()).length") == 1
        page.context.set_offline(True)
        with pytest.raises(Error):
            page.reload(wait_until="load")
        other = page.context.new_page()
        other.goto(f"{server.url}root-perforation/", wait_until="load")
        other.get_by_role("heading", level=1).wait_for()
        assert other.get_by_text("lasting copy").count() == 0
