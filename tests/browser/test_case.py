"""The case of one patient: what was answered, on every page of its question, closed by a mark, and asked for again."""

from __future__ import annotations

import datetime
from collections.abc import Callable

import pytest
from playwright.sync_api import Page, expect
from site_server import SiteServer

QUESTION = "root-perforation/"
ANSWERED = f"{QUESTION}#hole-size=large&bleeding-control=bleeding"
SAID = "How wide is the hole? over 3 mm. Has the bleeding settled? still bleeding."


def test_the_phones_way_back_closes_a_passage_first_and_keeps_the_answers(
    demo_server: SiteServer, opened: Callable[..., Page]
) -> None:
    page = opened()
    page.goto(demo_server.url)
    page.get_by_role("link", name="There is a hole").first.click()
    page.get_by_role("button", name="over 3 mm").click()
    numbers = page.locator(".known:visible a[href*='sources/']:has(> data)")
    numbers.first.click()
    page.locator(".peek").wait_for()
    numbers.last.click()
    expect(page.locator(".peek")).to_have_count(1)
    page.get_by_role("button", name="still bleeding").click()
    page.go_back()
    expect(page.locator(".peek")).to_have_count(0)
    for name in ("over 3 mm", "still bleeding"):
        expect(page.get_by_role("button", name=name)).to_have_attribute("aria-pressed", "true")
    assert page.url.endswith("#hole-size=large&bleeding-control=bleeding")
    # Where no passage is open it leads where it always did.
    page.go_back()
    assert page.url == demo_server.url


@pytest.mark.parametrize("width", [320, 360, 1280])
def test_the_panel_has_a_mark_to_close_it_that_stays_in_sight(
    demo_server: SiteServer, opened: Callable[..., Page], width: int
) -> None:
    page = opened(viewport={"width": width, "height": 740})
    page.goto(demo_server.url + ANSWERED)
    page.get_by_role("button", name="My case").click()
    panel = page.get_by_role("region", name="My case")
    close = panel.get_by_role("button", name="Close")
    for far in (0, 10_000):
        panel.evaluate("(panel, far) => panel.scrollTop = far", far)
        expect(close).to_be_in_viewport()
        box = close.bounding_box()
        assert box is not None
        assert min(box["width"], box["height"]) >= 44
    close.click()
    assert not panel.is_visible()
    expect(page.get_by_role("button", name="My case")).to_be_focused()


def test_whom_to_call_is_said_once_before_every_reason_with_what_to_do_first(
    demo_server: SiteServer, opened: Callable[..., Page]
) -> None:
    page = opened()
    page.goto(f"{demo_server.url}{ANSWERED}&site-complaints=present")
    page.get_by_role("button", name="My case").click()
    said = page.get_by_role("region", name="My case").locator("p.warning, p.caution").all_inner_texts()
    assert [text.partition(" ")[0] for text in said] == ["Call", "Reason", "Reason", "Reason", "Open"]
    page.get_by_role("region", name="My case").get_by_role("link", name="urgent page").click()
    page.wait_for_url("**/urgent/")


def come_back_by_the_list(page: Page, server: SiteServer) -> None:
    """Answer, leave for all questions, and open the same one again."""
    page.goto(server.url + ANSWERED)
    page.get_by_role("link", name="All questions").first.click()
    page.get_by_role("link", name="There is a hole").first.click()


def test_whoever_comes_by_the_list_of_questions_may_bring_the_answers_back(
    demo_server: SiteServer, opened: Callable[..., Page]
) -> None:
    page = opened()
    come_back_by_the_list(page, demo_server)
    offer = page.locator(".situation > .earlier")
    offer.wait_for()
    assert SAID in offer.inner_text()
    # Until then nothing is answered: the next patient is another.
    assert page.locator(".known:visible").count() == 0
    page.get_by_role("button", name="My case").click()
    panel = page.get_by_role("region", name="My case")
    assert SAID in panel.inner_text()
    assert "Nothing answered." in panel.inner_text()
    panel.get_by_role("button", name="Bring these answers back").click()
    page.wait_for_url(f"**/{ANSWERED}")
    assert page.locator(".known:visible").count() == 2
    assert page.locator(".earlier").count() == 0


def test_what_was_answered_before_is_gone_once_another_case_has_begun(
    demo_server: SiteServer, opened: Callable[..., Page]
) -> None:
    page = opened()
    come_back_by_the_list(page, demo_server)
    page.locator(".situation > .earlier").wait_for()
    page.get_by_role("button", name="up to 1 mm").click()
    assert page.locator(".earlier").count() == 0
    assert "still bleeding" not in str(page.evaluate("Object.values(sessionStorage)"))


@pytest.mark.parametrize(
    ("below", "found"),
    [
        ("recall/", "The plan does not know these answers. Ask whether this case needs earlier visits"),
        ("conference/", "What was found by these answers: Size of the hole, Bleeding controlled."),
    ],
)
def test_pages_below_the_question_know_the_case(
    demo_server: SiteServer, opened: Callable[..., Page], below: str, found: str
) -> None:
    page = opened()
    page.goto(demo_server.url + ANSWERED)
    page.get_by_role("button", name="My case").click()
    page.goto(demo_server.url + QUESTION + below)
    case = page.locator("main .carried", has_text="This case")
    case.wait_for()
    assert SAID in case.inner_text()
    assert found in page.locator("main").inner_text()
    for link in page.locator(".carried + p a").all():
        link.click()
        part = page.locator(page.url[page.url.index("#") :])
        assert part.evaluate("(part) => part.open")


def test_a_tooth_is_told_among_the_studies_by_what_follows_from_its_number(
    demo_server: SiteServer, opened: Callable[..., Page]
) -> None:
    page = opened()
    page.goto(f"{demo_server.url}exposed-pulp/#tooth=36")
    page.get_by_role("button", name="My case").click()
    page.goto(f"{demo_server.url}exposed-pulp/conference/")
    expect(page.get_by_text("What was found by these answers: Kind of tooth")).to_be_visible()


def test_a_case_that_nothing_was_compared_by_says_so_among_the_studies(
    demo_server: SiteServer, opened: Callable[..., Page]
) -> None:
    page = opened()
    page.goto(f"{demo_server.url}broken-instrument/#arch=maxillary")
    page.get_by_role("button", name="My case").click()
    page.goto(f"{demo_server.url}broken-instrument/conference/")
    expect(page.get_by_text("Nothing here was found by these answers.")).to_be_visible()


def test_the_record_asks_for_what_only_the_person_at_the_chair_knows(
    demo_server: SiteServer, opened: Callable[..., Page]
) -> None:
    page = opened()
    page.goto(demo_server.url + ANSWERED)
    page.get_by_role("button", name="My case").click()
    said = page.get_by_role("region", name="My case").locator("p", has_text="Looked up on").inner_text()
    for blank in (
        "It happened at ____",
        "Called: ________ at ____",
        "Told the patient: ________",
        "Who agreed, patient or guardian: ________",
    ):
        assert blank in said
    assert "Others not answered." in said


def test_answers_that_are_brought_back_keep_the_time_at_which_they_were_given(
    demo_server: SiteServer, opened: Callable[..., Page]
) -> None:
    page = opened()
    page.clock.install(time=datetime.datetime(2026, 12, 3, 17, 4))
    page.goto(demo_server.url + ANSWERED)
    page.clock.fast_forward("07:00")
    page.get_by_role("link", name="All questions").first.click()
    page.get_by_role("link", name="There is a hole").first.click()
    page.locator(".situation > .earlier").get_by_role("button").click()
    page.get_by_role("button", name="My case").click()
    said = page.get_by_role("region", name="My case").locator("p", has_text="Looked up on").inner_text()
    assert "Answered at 17:04. Looked up on 2026-12-03 at 17:11" in said
    assert "Size of the hole: over 3 mm (measured: ____ mm). Bleeding controlled: still bleeding." in said


def test_an_age_or_a_time_that_an_answer_is_a_band_of_is_left_blank_to_be_written_in(
    demo_server: SiteServer, opened: Callable[..., Page]
) -> None:
    page = opened()
    page.goto(f"{demo_server.url}exposed-pulp/#pulp-patient-age=younger&pulp-bleeding=late&root-end=open")
    page.get_by_role("button", name="My case").click()
    said = page.get_by_role("region", name="My case").locator("p", has_text="Looked up on").inner_text()
    assert "under 40 years (measured: ____ years)" in said
    assert "over 6 minutes (measured: ____ minutes)" in said
    # What is no band of a measure asks for none.
    assert "Root end: open." in said


def test_what_is_copied_for_the_record_is_in_reach_before_anything_is_read(
    demo_server: SiteServer, opened: Callable[..., Page]
) -> None:
    page = opened(viewport={"width": 360, "height": 740})
    page.goto(f"{demo_server.url}{ANSWERED}&site-complaints=present")
    page.get_by_role("button", name="My case").click()
    panel = page.get_by_role("region", name="My case")
    expect(panel.get_by_role("button", name="Copy for the record")).to_be_in_viewport()
    title = panel.get_by_text("My case", exact=True).bounding_box()
    assert title is not None
    assert title["x"] == 16


def test_where_nothing_is_answered_my_case_leads_to_the_first_question_and_offers_no_record(
    demo_server: SiteServer, opened: Callable[..., Page]
) -> None:
    page = opened(viewport={"width": 360, "height": 740})
    page.goto(demo_server.url + QUESTION, wait_until="load")
    page.get_by_role("button", name="My case").click()
    panel = page.get_by_role("region", name="My case")
    assert "Looked up on" not in panel.inner_text()
    first = panel.get_by_role("link").first
    assert first.inner_text() == "Answer what you see"
    first.click()
    expect(page.locator(".ask").first).to_be_in_viewport()
    page.get_by_role("button", name="over 3 mm").click()
    page.get_by_role("button", name="My case").click()
    assert "Size of the hole: over 3 mm" in panel.inner_text()
