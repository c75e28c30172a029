"""On paper: the tray card is small, sheets stand alone, nothing closed is lost, the mark of the demo goes across."""

from __future__ import annotations

import re
from collections.abc import Callable

import pytest
from playwright.sync_api import Page
from site_server import SiteServer

pytestmark = pytest.mark.browser

QUESTION = "root-perforation/"
# ISO 216: A6 is 105 mm by 148 mm; a PDF counts in points of 1/72 inch.
A6 = (298, 420)


def sizes(pdf: bytes) -> list[tuple[int, int]]:
    """Width and height of every page, in whole points."""
    boxes = re.findall(rb"/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]", pdf)
    return [(round(float(width)), round(float(height))) for width, height in boxes]


def alone(page: Page, sheet: str) -> None:
    """The page as it stands while this sheet is printed alone."""
    page.evaluate(
        """(sheet) => {
            document.querySelectorAll("details").forEach((part) => (part.open = true));
            document.querySelector(sheet).classList.add("now");
            document.body.classList.add("alone");
        }""",
        sheet,
    )


@pytest.mark.parametrize("question", ["root-perforation", "broken-instrument", "exposed-pulp"])
def test_the_tray_card_fills_both_sides_of_one_small_sheet_at_most(
    demo_server: SiteServer, opened: Callable[..., Page], question: str
) -> None:
    page = opened()
    page.goto(f"{demo_server.url}{question}/", wait_until="load")
    alone(page, ".sheet.tray")
    printed = sizes(page.pdf(prefer_css_page_size=True))
    assert set(printed) == {A6}
    assert len(printed) <= 2


def test_the_tray_card_holds_what_a_tray_needs(demo_server: SiteServer, opened: Callable[..., Page]) -> None:
    page = opened()
    page.goto(demo_server.url + QUESTION, wait_until="load")
    alone(page, ".sheet.tray")
    page.emulate_media(media="print")
    shown = page.locator("body").inner_text()
    for wanted in (
        "There is a hole in the root or the pulp floor",
        "something worse is happening", "Do not put a file", "Have ready",
        "contact not set by this programme", "2026-10-30", "invented for demonstration",
    ):  # fmt: skip
        assert wanted in shown
    assert "step by step" not in shown


def test_a_sheet_printed_alone_brings_nothing_else(demo_server: SiteServer, opened: Callable[..., Page]) -> None:
    page = opened()
    page.goto(f"{demo_server.url}{QUESTION}patient/", wait_until="load")
    alone(page, ".sheet.chair")
    page.emulate_media(media="print")
    seen = page.locator("main :is(h1, h2):visible").all_text_contents()
    assert seen == ["During treatment"]
    assert len(sizes(page.pdf(format="A4"))) == 1


def test_only_what_a_patient_is_given_is_marked_not_for_use(
    demo_server: SiteServer, opened: Callable[..., Page]
) -> None:
    page = opened()
    marked = []
    for address in (QUESTION, f"{QUESTION}patient/", f"{QUESTION}recall/"):
        page.goto(demo_server.url + address, wait_until="load")
        marked += page.evaluate(
            "[...document.querySelectorAll('.sheet:has(.across)')].map((part) => part.classList[1])"
        )
    assert set(marked) == {"before", "chair", "afterwards"}


def test_the_mark_goes_across_the_paper(demo_server: SiteServer, opened: Callable[..., Page]) -> None:
    page = opened()
    page.goto(f"{demo_server.url}{QUESTION}patient/", wait_until="load")
    page.emulate_media(media="print")
    style = page.evaluate("({...getComputedStyle(document.querySelector('.across'), '::after')})")
    assert style["position"] == "fixed"
    assert "not for use with a patient" in style["content"]


def test_what_is_closed_is_printed_without_a_script_too(demo_server: SiteServer, opened: Callable[..., Page]) -> None:
    page = opened(java_script_enabled=False)
    page.goto(demo_server.url + QUESTION, wait_until="load")
    on_screen = len(page.pdf(format="A4"))
    words = page.get_by_text("The hole can be seen, reached and kept clean today.")
    assert not words.is_visible()
    page.emulate_media(media="print")
    assert words.is_visible()
    assert on_screen > 0


def test_what_was_closed_is_closed_again_after_printing(demo_server: SiteServer, opened: Callable[..., Page]) -> None:
    page = opened()
    page.goto(demo_server.url + QUESTION, wait_until="load")
    count = "document.querySelectorAll('details:not([open])').length"
    before = page.evaluate(count)
    assert before > 0
    page.evaluate("dispatchEvent(new Event('beforeprint'))")
    assert page.evaluate(count) == 0
    page.evaluate("dispatchEvent(new Event('afterprint'))")
    assert page.evaluate(count) == before
