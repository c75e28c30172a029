"""A pulp that has not stopped bleeding is an answer of its own, with what follows from it."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from playwright.sync_api import Page, expect
from site_server import SiteServer

pytestmark = pytest.mark.browser

PULP = "exposed-pulp/"
STEPS = ("root-perforation/", "broken-instrument/", PULP)


def test_a_pulp_that_still_bleeds_is_told_whom_to_call_and_no_number(
    demo_server: SiteServer, opened: Callable[..., Page]
) -> None:
    page = opened()
    page.goto(demo_server.url + PULP)
    ask = page.locator('.ask[data-field="pulp-bleeding"]')
    ask.get_by_role("button", name="still bleeding").click()
    known = ask.locator(".known:visible")
    expect(known).to_have_count(1)
    said = " ".join(known.inner_text().split())
    # Common practice, no source: what bleeds on is not sealed in.
    order = [
        "Call the supervisor in the room", "Reason to call: It bleeds on under a fresh pellet.", "Do not seal it in.",
        "take more of the pulp away, or go another way", "Nothing is counted here for this answer",
        "none in people in this guide, searched",
    ]  # fmt: skip
    places = [said.index(words) for words in order]
    assert places == sorted(places)
    assert known.locator("data.figure").count() == 0
    cap = page.locator("#way-cap > summary .warning")
    cap.wait_for(state="attached")
    assert "Your answer (still bleeding) does not meet what this way asks" in cap.inner_text()
    # Whether it stops further down nobody knows before it is tried.
    page.evaluate("() => document.querySelector('details.beside').setAttribute('open', '')")
    row = page.locator("table.ways tbody tr", has=page.locator("th", has_text="Partial pulpotomy"))
    assert "Only trying shows whether it does." in row.inner_text()


def test_one_that_stopped_late_is_another_answer(demo_server: SiteServer, opened: Callable[..., Page]) -> None:
    page = opened()
    page.goto(f"{demo_server.url}{PULP}#pulp-bleeding=late")
    said = page.locator("#known-pulp-bleeding-late").inner_text()
    assert "Reason to call: It stopped only late." in said
    assert "It bleeds on" not in said
    assert "21 of 35" in said


def test_whoever_is_led_to_what_to_do_is_one_tap_from_what_not_to_do(
    demo_server: SiteServer, opened: Callable[..., Page]
) -> None:
    page = opened()
    page.goto(demo_server.url + PULP)
    page.locator("nav.urgent").get_by_role("link", name="Do now").click()
    back = page.get_by_role("link", name="What not to do", exact=True)
    heading, box = page.locator("#now").bounding_box(), back.bounding_box()
    assert heading is not None
    assert box is not None
    # WCAG 2.2, success criterion 2.5.5: 44 CSS pixels.
    assert box["height"] >= 44
    # In the line of the heading, so that no step stands lower.
    assert box["y"] < heading["y"] + heading["height"]
    assert box["x"] > heading["x"] + heading["width"]
    assert 0 <= heading["y"] < 60
    back.click()
    expect(page.locator("ul.stop").first).to_be_in_viewport()


@pytest.mark.parametrize("address", STEPS)
def test_the_mark_of_a_dissent_at_a_step_opens_it(
    demo_server: SiteServer, opened: Callable[..., Page], address: str
) -> None:
    page = opened()
    page.goto(demo_server.url + address)
    page.evaluate("() => document.querySelectorAll('details').forEach((part) => part.setAttribute('open', ''))")
    page.evaluate("() => document.querySelector('#dissent').removeAttribute('open')")
    mark = page.locator("ol.steps").get_by_role("link", name="dissent", exact=True)
    expect(mark).to_have_count(1)
    mark.click()
    expect(page.locator("p.dissent").first).to_be_visible()
