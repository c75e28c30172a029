"""Never stale: the age of a copy, a review that fell due, a withdrawal and a newer release that arrive later."""

from __future__ import annotations

import datetime
import json
from collections.abc import Callable
from pathlib import Path

import pytest
from offline import copied, visited, withdraw
from passageproof.rendering.frame import FRESH_DAYS
from playwright.sync_api import Page, expect
from site_server import SiteServer, serving

pytestmark = pytest.mark.browser

QUESTION = "root-perforation/"
RETRACTED = "Withdrawn since: a report on this page was retracted (2026-11-02)"


def kept_for(page: Page, server: SiteServer, days: int) -> None:
    """The question page offline, so many days after the first visit by the reader's clock."""
    visited(page, server.url)
    page.context.set_offline(True)
    later = datetime.datetime.now(datetime.UTC) + datetime.timedelta(days=days, minutes=5)
    page.clock.set_fixed_time(later)
    page.goto(server.url + QUESTION, wait_until="load")


def test_a_copy_past_the_stated_age_asks_to_be_refreshed(sample_site: Path, opened: Callable[..., Page]) -> None:
    with serving(sample_site, "/guide/") as server:
        page = opened(service_workers="allow")
        kept_for(page, server, FRESH_DAYS + 1)
        notice = page.locator("main > .notice").first
        expect(notice).to_contain_text(f"{FRESH_DAYS + 1} days old")
        expect(notice).to_contain_text(f"A copy is good for {FRESH_DAYS} days: refresh this one before you rely on it.")
        page.context.set_offline(False)
        notice.get_by_role("button", name="Refresh now").click()
        expect(page.get_by_text("You are reading a copy")).to_have_count(0)


def test_a_copy_within_the_stated_age_only_says_how_old_it_is(sample_site: Path, opened: Callable[..., Page]) -> None:
    with serving(sample_site, "/guide/") as server:
        page = opened(service_workers="allow")
        kept_for(page, server, FRESH_DAYS)
        expect(page.locator("main > .notice")).to_contain_text(f"{FRESH_DAYS} days old")
        expect(page.get_by_text("refresh this one")).to_have_count(0)


def test_every_page_and_the_notes_for_contributors_state_the_age(demo_site: Path) -> None:
    stated = f'<span class="convention">{FRESH_DAYS} days</span>'
    silent = [file.name for file in demo_site.rglob("*.html") if stated not in file.read_text("utf-8")]
    assert silent == []
    notes = (Path(__file__).parents[2] / "DEVELOPERS.md").read_text("utf-8")
    assert f"{FRESH_DAYS} days" in notes


def test_a_review_that_fell_due_stands_at_the_top(sample_server: SiteServer, opened: Callable[..., Page]) -> None:
    page = opened()
    page.clock.set_fixed_time("2028-10-02T12:00:00Z")
    page.goto(sample_server.url + QUESTION)
    first = page.locator("main > *").first
    expect(first).to_contain_text("The review of this page was due on 2028-10-01")
    expect(first).to_have_role("status")


def test_what_stands_below_a_question_is_due_with_it(sample_server: SiteServer, opened: Callable[..., Page]) -> None:
    page = opened()
    page.clock.set_fixed_time("2028-10-02T12:00:00Z")
    page.goto(f"{sample_server.url}{QUESTION}size/")
    expect(page.locator("main > *").first).to_contain_text("was due on 2028-10-01")


def test_on_the_day_itself_no_review_is_overdue(sample_server: SiteServer, opened: Callable[..., Page]) -> None:
    page = opened()
    page.clock.set_fixed_time("2028-10-01T12:00:00Z")
    page.goto(sample_server.url + QUESTION)
    expect(page.locator(".notice")).to_have_count(0)


def test_a_retraction_marks_what_it_touches_at_the_next_visit(
    sample_site: Path, tmp_path: Path, opened: Callable[..., Page]
) -> None:
    site = copied(sample_site, tmp_path / "site")
    with serving(site, "/guide/") as server:
        page = opened(service_workers="allow")
        visited(page, server.url)
        withdraw(site, "marlow2019furcal", "2026-11-02")
        for address in ("", QUESTION, f"{QUESTION}size/", "about/"):
            page.goto(server.url + address, wait_until="load")
            page.get_by_text(RETRACTED).wait_for()
            expect(page.locator("main a:has(.figure) + strong").first).to_have_text(" (withdrawn)")


def test_a_retraction_leaves_other_pages_alone(sample_site: Path, tmp_path: Path, opened: Callable[..., Page]) -> None:
    site = copied(sample_site, tmp_path / "site")
    with serving(site, "/guide/") as server:
        page = opened(service_workers="allow")
        visited(page, server.url)
        withdraw(site, "marlow2019furcal", "2026-11-02")
        with page.expect_response("**/data/standing.json"):
            page.goto(f"{server.url}gaps/", wait_until="load")
        expect(page.locator(".notice")).to_have_count(0)


def test_a_kept_page_is_marked_when_the_network_comes_back(
    sample_site: Path, tmp_path: Path, opened: Callable[..., Page]
) -> None:
    site = copied(sample_site, tmp_path / "site")
    with serving(site, "/guide/") as server:
        page = opened(service_workers="allow")
        visited(page, server.url)
        page.context.set_offline(True)
        page.goto(server.url + QUESTION, wait_until="load")
        page.get_by_text("You are reading a copy").wait_for()
        withdraw(site, "marlow2019furcal", "2026-11-02")
        expect(page.get_by_text(RETRACTED)).to_have_count(0)
        page.context.set_offline(False)
        page.get_by_text(RETRACTED).wait_for()


def test_a_retraction_heard_of_once_marks_kept_pages_offline_too(
    sample_site: Path, tmp_path: Path, opened: Callable[..., Page]
) -> None:
    site = copied(sample_site, tmp_path / "site")
    with serving(site, "/guide/") as server:
        page = opened(service_workers="allow")
        visited(page, server.url)
        withdraw(site, "marlow2019furcal", "2026-11-02")
        page.goto(server.url, wait_until="load")
        page.get_by_text(RETRACTED).wait_for()
        page.context.set_offline(True)
        page.goto(server.url + QUESTION, wait_until="load")
        page.get_by_text(RETRACTED).wait_for()


def test_a_newer_release_is_reported_to_a_page_that_is_still_open(
    sample_site: Path, tmp_path: Path, opened: Callable[..., Page]
) -> None:
    site = copied(sample_site, tmp_path / "site")
    with serving(site, "/guide/") as server:
        page = opened(service_workers="allow")
        visited(page, server.url)
        page.goto(server.url + QUESTION, wait_until="load")
        path = site / "data" / "standing.json"
        path.write_text(json.dumps(json.loads(path.read_text("utf-8")) | {"release": "1.3.0"}), "utf-8")
        page.context.set_offline(True)
        page.context.set_offline(False)
        page.get_by_text("There is a newer release of this guide.").wait_for()
