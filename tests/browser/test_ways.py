"""The ways to go on side by side in a real browser: a row each, stacked on a phone, a table on a desk."""

from __future__ import annotations

import itertools
import re
from collections.abc import Callable

import pytest
from playwright.sync_api import Page
from site_server import SiteServer

pytestmark = pytest.mark.browser

QUESTIONS = ("root-perforation", "broken-instrument", "exposed-pulp")
COLUMNS = ["Way", "What it asks", "Healed", "Kept", "What can go wrong", "How sure", "Visits"]

# Names of a row's cells as a sighted reader is shown them: beside each cell on a phone, else by its column.
NAMES = """(row) => [...row.querySelectorAll("td")].map((cell) => getComputedStyle(cell, "::before").content)"""


def table_of(page: Page, server: SiteServer, question: str) -> None:
    page.goto(f"{server.url}{question}/", wait_until="load")
    page.evaluate("document.querySelector('details.beside').open = true")


# What a line is of, where the line above it is of others.
SAYS_WHOSE = re.compile("other patients|those under Healed")


@pytest.mark.parametrize("question", QUESTIONS)
@pytest.mark.parametrize("width", [320, 360, 1280])
def test_each_way_is_one_row_and_nothing_moves_sideways(
    demo_server: SiteServer, opened: Callable[..., Page], width: int, question: str
) -> None:
    page = opened(viewport={"width": width, "height": 740})
    table_of(page, demo_server, question)
    ways = [" ".join(text.split()) for text in page.locator("details.way > summary").all_text_contents()]
    rows = page.locator("table.ways tbody tr")
    assert [" ".join(text.split()) for text in rows.locator("th").all_text_contents()] == ways
    assert page.evaluate("document.documentElement.scrollWidth") <= width
    box = page.locator(".table-box:has(table.ways)")
    assert box.evaluate("(part) => part.scrollWidth - part.clientWidth") <= 1
    edges = rows.evaluate_all(
        "(rows) => rows.flatMap((row) => [...row.cells].map((cell) => cell.getBoundingClientRect().right))"
    )
    assert max(edges) <= width


@pytest.mark.parametrize("width", [320, 360])
def test_on_a_phone_each_cell_stands_below_the_one_before_and_says_its_name(
    demo_server: SiteServer, opened: Callable[..., Page], width: int
) -> None:
    page = opened(viewport={"width": width, "height": 740})
    table_of(page, demo_server, "exposed-pulp")
    for row in page.locator("table.ways tbody tr").all():
        tops = row.evaluate("(row) => [...row.cells].map((cell) => cell.getBoundingClientRect().top)")
        assert tops == sorted(set(tops))
        said = " ".join(row.evaluate(NAMES))
        assert all(name in said for name in COLUMNS[1:]), said


def test_on_a_desk_the_ways_are_columns_of_one_table_that_stands_open(
    demo_server: SiteServer, opened: Callable[..., Page]
) -> None:
    page = opened(viewport={"width": 1280, "height": 800})
    page.goto(f"{demo_server.url}exposed-pulp/", wait_until="load")
    page.locator("table.ways").wait_for(state="visible")
    heads = page.locator("table.ways thead th")
    assert heads.all_inner_texts() == COLUMNS
    lefts = heads.evaluate_all("(cells) => cells.map((cell) => cell.getBoundingClientRect().left)")
    assert lefts == sorted(set(lefts))
    assert all(name in ("none", "normal") for name in page.locator("table.ways tbody tr").first.evaluate(NAMES))


def test_without_a_script_the_table_is_one_tap_away(demo_server: SiteServer, opened: Callable[..., Page]) -> None:
    page = opened(java_script_enabled=False)
    page.goto(f"{demo_server.url}root-perforation/", wait_until="load")
    assert not page.locator("table.ways").is_visible()
    page.get_by_text("Side by side, with numbers").click()
    assert page.locator("table.ways").is_visible()


@pytest.mark.parametrize("question", QUESTIONS)
def test_the_mark_stands_once_in_the_table_and_a_blank_says_so(
    demo_server: SiteServer, opened: Callable[..., Page], question: str
) -> None:
    page = opened()
    table_of(page, demo_server, question)
    assert page.locator("table.ways").inner_text().count("invented for demonstration") == 1
    has_blank = page.locator("table.ways td").filter(has_text="not known").count() > 0
    # Of an exposed pulp something is known for each way and each column.
    assert has_blank is (question != "exposed-pulp")
    assert [text for text in page.locator("table.ways td").all_text_contents() if not text.strip()] == []


@pytest.mark.parametrize("question", QUESTIONS)
def test_two_numbers_of_different_studies_in_one_cell_say_so(
    demo_server: SiteServer, opened: Callable[..., Page], question: str
) -> None:
    page = opened()
    table_of(page, demo_server, question)
    cells = page.locator("table.ways td").evaluate_all(
        """(cells) => cells.map((cell) => [...cell.querySelectorAll(":scope > div")].map((part) => [
            part.textContent,
            [...part.querySelectorAll("a.reference")].map((link) => link.pathname).join(),
            part.querySelector("a:has(> .figure)") !== null,
        ]))"""
    )
    silent = []
    for cell in cells:
        lines = [(text, source) for text, source, has_number in cell if has_number]
        for (_, before), (text, source) in itertools.pairwise(lines):
            if before and source and before != source and not SAYS_WHOSE.search(text):
                silent.append(text)
    assert silent == []
    assert "Other studies are other patients" in page.locator("table.ways caption").inner_text()
