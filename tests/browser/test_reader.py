"""Everything that somebody beside the chair wants is a few taps and little scrolling away."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from playwright.sync_api import Page
from reader import AT_MOST_LONG, AT_MOST_SCREENS, AT_MOST_TAPS, HEIGHT, WIDTH, costs, length, questions_of, table
from site_server import SiteServer

pytestmark = pytest.mark.browser

QUESTIONS = ("root-perforation", "broken-instrument", "exposed-pulp")


def test_every_question_of_the_demonstration_is_read(demo_site: Path) -> None:
    assert set(questions_of(demo_site)) == set(QUESTIONS)


@pytest.mark.parametrize("question", QUESTIONS)
def test_what_is_wanted_costs_three_taps_and_two_screens_at_most(
    demo_server: SiteServer, opened: Callable[..., Page], question: str
) -> None:
    page = opened(viewport={"width": WIDTH, "height": HEIGHT})
    rows = costs(page, demo_server.url, question)
    assert len(rows) >= 9
    dear = [row for row in rows if row.taps > AT_MOST_TAPS or row.screens > AT_MOST_SCREENS]
    assert not dear, table(dear, {})


@pytest.mark.parametrize("question", QUESTIONS)
def test_a_question_page_is_seven_screens_at_most_when_all_is_closed(
    demo_server: SiteServer, opened: Callable[..., Page], question: str
) -> None:
    page = opened(viewport={"width": WIDTH, "height": HEIGHT})
    assert length(page, demo_server.url, question) <= AT_MOST_LONG


@pytest.mark.parametrize("question", QUESTIONS)
def test_the_first_screen_says_what_not_to_do_in_short_lines_and_begins_with_what_to_do(
    demo_server: SiteServer, opened: Callable[..., Page], question: str
) -> None:
    page = opened(viewport={"width": WIDTH, "height": HEIGHT})
    page.goto(f"{demo_server.url}{question}/", wait_until="load")
    lines = [item.inner_text() for item in page.locator("ul.stop").first.locator(".do").all()]
    assert len(lines) == 4
    # Without these two words in front a line reads as its opposite.
    assert all(line.startswith("Do not ") and len(line.split()) <= 9 for line in lines), lines
    bar = page.locator("nav.urgent").bounding_box()
    first_step = page.locator("#now").bounding_box()
    assert bar is not None
    assert first_step is not None
    assert first_step["y"] + first_step["height"] <= bar["y"]
    size = page.locator("ol.now .do").first.evaluate("(part) => parseFloat(getComputedStyle(part).fontSize)")
    assert size >= 20


def test_a_page_says_little_about_its_own_bookkeeping(demo_server: SiteServer, opened: Callable[..., Page]) -> None:
    page = opened(viewport={"width": WIDTH, "height": HEIGHT})
    for question in QUESTIONS:
        page.goto(f"{demo_server.url}{question}/", wait_until="load")
        seen = page.locator("main").inner_text()
        assert seen.count("ratified") <= 8, question
        assert seen.count("invented for demonstration") <= 8, question
