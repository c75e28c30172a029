"""What waits, on a phone: rows as high as a finger, one kind alone, every address, and days that the reader's clock has
passed."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from playwright.sync_api import Page, expect
from site_server import SiteServer

pytestmark = pytest.mark.browser

PHONE = {"width": 360, "height": 740}
ANCHORS = (
    "by-date", "to-mend", "withdrawn", "not-checked", "not-set", "long-sentences", "to-read", "one-reader",
    "not-in-full", "not-read", "located", "to-judge", "not-judged", "not-ratified", "to-know", "own-authors",
    "interests", "asked", "unused-passages",
)  # fmt: skip
"""Addresses that have led somewhere since the page was first published."""


@pytest.fixture
def upkeep(demo_server: SiteServer, opened: Callable[..., Page]) -> Page:
    page = opened(viewport=PHONE)
    page.goto(demo_server.url + "upkeep/", wait_until="load")
    return page


def test_rows_are_as_high_as_a_finger_and_nothing_moves_sideways(upkeep: Page) -> None:
    upkeep.evaluate("for (const part of document.querySelectorAll('details')) part.open = true")
    heights = upkeep.evaluate(
        "[...document.querySelectorAll('.waits tbody tr')].map((row) => row.getBoundingClientRect().height)"
    )
    assert len(heights) > 30
    assert min(heights) >= 44
    assert upkeep.evaluate("document.documentElement.scrollWidth") <= 360


def test_one_kind_stands_alone_until_its_word_is_tapped_again(upkeep: Page) -> None:
    word = upkeep.get_by_role("button", name="one person")
    word.click()
    assert upkeep.locator(".guide .part:visible > summary").all_inner_texts() == ["Read by one person only"]
    expect(upkeep.locator("#one-reader tbody tr").first).to_be_visible()
    assert upkeep.locator(".guide > section:visible").count() == 1
    word.click()
    expect(upkeep.locator("#not-ratified")).to_be_visible()


@pytest.mark.parametrize("anchor", ANCHORS)
def test_an_address_that_worked_before_still_leads_to_its_part(anchor: str, upkeep: Page) -> None:
    upkeep.evaluate(f"location.hash = {anchor!r}")
    expect(upkeep.locator(f"[id={anchor!r}]")).to_be_in_viewport()


@pytest.mark.parametrize(("now", "has_passed"), [("2026-11-20", False), ("2026-11-21", True)])
def test_a_day_that_has_passed_is_told_by_the_readers_clock(
    now: str, has_passed: bool, demo_server: SiteServer, opened: Callable[..., Page]
) -> None:
    page = opened(viewport=PHONE)
    page.clock.set_fixed_time(f"{now}T12:00:00")
    page.goto(demo_server.url + "upkeep/", wait_until="load")
    due = page.locator(".due", has_text="check due 2026-11-20")
    assert ("this day has passed" in due.inner_text()) == has_passed
