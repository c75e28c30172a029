"""An emergency leaves a record, and what is said to whoever is hurt can be handed over by itself."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from playwright.sync_api import Page, expect
from site_server import SiteServer

pytestmark = pytest.mark.browser

EMERGENCIES = (
    "collapse-or-allergy", "irrigant-extruded", "altered-sensation", "swallowed-or-inhaled", "air-under-skin",
    "bleeding",
)  # fmt: skip
BACK = "Back: the phone is the clinician's again"


@pytest.mark.parametrize("name", EMERGENCIES)
def test_an_emergency_with_its_record_is_four_screens_at_most(
    demo_server: SiteServer, opened: Callable[..., Page], name: str
) -> None:
    page = opened(viewport={"width": 360, "height": 740})
    page.goto(f"{demo_server.url}urgent/#{name}", wait_until="load")
    assert page.evaluate("document.documentElement.scrollHeight") / 740 <= 4


def test_what_only_the_person_there_knows_is_left_blank_and_copied_with_the_time(
    demo_server: SiteServer, opened: Callable[..., Page]
) -> None:
    page = opened(permissions=["clipboard-read", "clipboard-write"])
    page.goto(f"{demo_server.url}urgent/#irrigant-extruded")
    danger = page.locator("#irrigant-extruded")
    danger.get_by_role("heading", name="For the record").click()
    said = danger.locator(".record").inner_text()
    assert said.startswith("Hypochlorite past the root. Noticed at ____.")
    for blank in ("What, and how much: ____", "Called: ________ at ____", "Told the patient: ____", "Written by ____"):
        assert blank in said
    danger.get_by_role("button", name="Copy for the record").click()
    danger.get_by_role("button", name="Copied").wait_for()
    copied = page.evaluate("navigator.clipboard.readText()")
    assert copied.startswith(f"{said} Looked up on ")
    assert ", evidence of 2026-10-30, release 1.0.0." in copied
    assert copied.endswith("invented for demonstration")


def test_the_record_stands_without_a_script(demo_server: SiteServer, opened: Callable[..., Page]) -> None:
    page = opened(java_script_enabled=False)
    page.goto(f"{demo_server.url}urgent/#bleeding")
    page.locator("#record-bleeding > summary").click()
    expect(page.locator("#bleeding .record")).to_be_visible()


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_whoever_is_handed_the_phone_reads_what_is_said_to_them_and_nothing_else(
    demo_server: SiteServer, opened: Callable[..., Page], scheme: str
) -> None:
    page = opened(color_scheme=scheme)
    page.goto(f"{demo_server.url}urgent/#irrigant-extruded")
    before = page.locator("body").inner_text()
    page.locator("#irrigant-extruded").get_by_role("button", name="Hand the phone over").click()
    seen = page.locator("body").inner_text().split("\n")
    assert [line for line in seen if line.strip()] == [
        "Some cleaning liquid went out of your root. I am sorry.",
        "It hurts now. It may swell and turn blue in the next days.",
        "Tell me at once if it gets hard to breathe, swallow or see.",
        BACK,
        "An invented example. It does not speak about you.",
    ]
    # The phone's own way back shows nothing of what is not theirs.
    page.evaluate("history.back()")
    expect(page.get_by_text("Do not rinse with hypochlorite").first).to_be_hidden()
    expect(page.get_by_role("button", name=BACK)).to_be_visible()
    page.get_by_role("button", name=BACK).click()
    assert page.locator("body").inner_text() == before
