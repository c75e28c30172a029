"""The recall planner says why nothing came, and moves visits to days on which the clinic is open."""

from __future__ import annotations

import datetime
import shutil
from collections.abc import Callable
from pathlib import Path

import pytest
from icalendar import Calendar
from passageproof.build import build_files
from passageproof.publishing import publish
from playwright.sync_api import Page, expect
from site_server import SiteServer, serving

pytestmark = pytest.mark.browser

EXAMPLE = Path(__file__).parents[1] / "example"


@pytest.fixture
def planner(sample_server: SiteServer, opened: Callable[..., Page]) -> Page:
    page = opened()
    page.goto(f"{sample_server.url}root-perforation/recall/", wait_until="load")
    press(page, "Yes")
    return page


def press(page: Page, *days: str) -> None:
    for day in days:
        page.get_by_role("button", name=day, exact=True).click()


def saved(page: Page, to: Path) -> list[Calendar]:
    with page.expect_download() as download:
        page.get_by_role("button", name="Calendar file").click()
    download.value.save_as(to / "made.ics")
    return list(Calendar.from_ical((to / "made.ics").read_bytes()).walk("VEVENT"))


@pytest.mark.parametrize(
    ("typed", "closed", "said"),
    [
        ("", (), "type the day of treatment first"),
        ("0026-01-15", (), "look at the year"),
        (
            "2026-01-15",
            ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday"),
            "leave one day of the week open",
        ),
    ],
    ids=["no day", "no year", "never open"],
)
def test_a_calendar_that_does_not_come_says_why(planner: Page, typed: str, closed: tuple[str, ...], said: str) -> None:
    planner.get_by_label("Day of treatment").fill(typed)
    press(planner, *closed)
    planner.get_by_role("button", name="Calendar file").click()
    expect(planner.get_by_role("status").filter(has_text=said)).to_be_visible()
    assert planner.locator(".visits time").count() == 0


def test_what_was_said_goes_once_a_day_is_typed(planner: Page) -> None:
    planner.get_by_role("button", name="Calendar file").click()
    expect(planner.get_by_text("No calendar was made")).to_be_visible()
    planner.get_by_label("Day of treatment").fill("2026-01-15")
    expect(planner.get_by_text("No calendar was made")).not_to_be_visible()


def test_every_visit_says_its_day_of_the_week(planner: Page) -> None:
    planner.get_by_label("Day of treatment").fill("2026-01-15")
    # By Python's calendar: 2026-07-15 is a Wednesday.
    assert datetime.date(2026, 7, 15).strftime("%A") == "Wednesday"
    expect(planner.locator(".visits li").first).to_have_text("6 months Wednesday 2026-07-15")


def test_a_visit_on_a_closed_day_goes_to_the_next_open_one(planner: Page, tmp_path: Path) -> None:
    # 2026-01-18 and six months is Saturday, 2026-07-18.
    assert datetime.date(2026, 7, 18).weekday() == 5
    planner.get_by_label("Day of treatment").fill("2026-01-18")
    expect(planner.locator(".visits li").first).to_have_text("6 months Saturday 2026-07-18")
    press(planner, "Saturday", "Sunday")
    expect(planner.locator(".visits li").first).to_have_text(
        "6 months Monday 2026-07-20 (due on Saturday 2026-07-18, a day marked as closed)"
    )
    events = saved(planner, tmp_path)
    assert events[0].decoded("DTSTART") == datetime.date(2026, 7, 20)
    assert events[0].decoded("DTEND") == datetime.date(2026, 7, 21)
    assert str(events[0]["DESCRIPTION"]).startswith("Due on 2026-07-18, a day marked as closed")
    assert all(event.decoded("DTSTART").weekday() < 5 for event in events)
    expect(planner.get_by_text("The calendar file is among your downloads")).to_be_visible()
    # Open again: the day is the one that was due.
    press(planner, "Saturday")
    expect(planner.locator(".visits li").first).to_have_text("6 months Saturday 2026-07-18")


@pytest.mark.parametrize("with_script", [True, False])
def test_closed_days_that_nobody_set_are_asked_for_and_none_is_taken_for_granted(
    demo_server: SiteServer, opened: Callable[..., Page], with_script: bool
) -> None:
    page = opened(java_script_enabled=with_script)
    page.goto(f"{demo_server.url}root-perforation/recall/", wait_until="load")
    expect(page.get_by_text("Closed days not set here; ask the desk.")).to_be_visible()
    assert "clinic is closed" not in page.locator("main").inner_text()
    assert page.locator("[data-closed][aria-pressed=true]").count() == 0


def test_days_that_local_yaml_has_as_closed_are_named_and_no_visit_falls_on_one(
    opened: Callable[..., Page], tmp_path: Path
) -> None:
    shutil.copytree(EXAMPLE, tmp_path / "root")
    (tmp_path / "root" / "evidence" / "local.yaml").write_text("closed: [Saturday, Sunday]\n", "utf-8")
    publish(tmp_path / "root", tmp_path / "site", build_files(tmp_path / "root"))
    with serving(tmp_path / "site") as server:
        page = opened()
        page.goto(f"{server.url}root-perforation/recall/", wait_until="load")
        expect(page.get_by_text("Closed here: Saturday, Sunday.")).to_be_visible()
        press(page, "Yes")
        # Six months from 2026-01-18 is Saturday, 2026-07-18.
        page.get_by_label("Day of treatment").fill("2026-01-18")
        first = page.locator(".visits li").first
        expect(first).to_have_text("6 months Monday 2026-07-20 (due on Saturday 2026-07-18, a day marked as closed)")
        press(page, "Saturday")
        expect(first).to_have_text("6 months Saturday 2026-07-18")


@pytest.fixture
def unanswered(sample_server: SiteServer, opened: Callable[..., Page]) -> Page:
    page = opened()
    page.goto(f"{sample_server.url}root-perforation/recall/", wait_until="load")
    return page


def test_nothing_is_counted_before_it_was_said_whether_it_is_finished(unanswered: Page) -> None:
    unanswered.get_by_label("Day of treatment").fill("2026-01-15")
    assert unanswered.locator(".visits time").count() == 0
    press(unanswered, "Calendar file")
    expect(unanswered.get_by_text("say first whether it is finished")).to_be_visible()
    press(unanswered, "Yes")
    expect(unanswered.locator(".visits li").first).to_have_text("6 months Wednesday 2026-07-15")


def test_who_has_not_finished_gets_the_nearest_visit_first_and_no_other(unanswered: Page, tmp_path: Path) -> None:
    # Common practice, no source: an open site is seen again within days, and recall begins once it is closed.
    press(unanswered, "No, not yet")
    nearest = unanswered.locator("[data-nearest]")
    expect(nearest).to_have_text("Next visit, not finished yet: within days")
    press(unanswered, "Calendar file")
    expect(unanswered.get_by_text("type the day of the next visit first")).to_be_visible()
    # By Python's calendar a Saturday.
    assert datetime.date(2026, 1, 17).weekday() == 5
    press(unanswered, "Saturday", "Sunday")
    unanswered.get_by_label("Day of the next visit").fill("2026-01-17")
    said = "Next visit, not finished yet: Monday 2026-01-19 (due on Saturday 2026-01-17, a day marked as closed)"
    expect(nearest).to_have_text(said)
    above, below = nearest.bounding_box(), unanswered.locator(".visits").bounding_box()
    assert above is not None
    assert below is not None
    assert above["y"] < below["y"]
    assert unanswered.locator(".visits time").count() == 0
    (event,) = saved(unanswered, tmp_path)
    assert event.decoded("DTSTART") == datetime.date(2026, 1, 19)
    assert str(event["SUMMARY"]).startswith("Next visit, not finished yet")
    assert "count from the day it is finished" in str(event["DESCRIPTION"])
    # The day of one visit is never taken for the day of the treatment.
    press(unanswered, "Yes")
    expect(nearest).to_be_hidden()
    assert unanswered.get_by_label("Day of treatment").input_value() == ""
    assert unanswered.locator(".visits time").count() == 0


def test_without_a_script_both_are_told(demo_server: SiteServer, opened: Callable[..., Page]) -> None:
    page = opened(java_script_enabled=False)
    page.goto(f"{demo_server.url}root-perforation/recall/", wait_until="load")
    expect(page.get_by_text("Not finished today? The next visit is within days;")).to_be_visible()
    expect(page.locator(".visits li").first).to_be_visible()
    expect(page.get_by_role("button", name="Yes", exact=True)).to_have_count(0)
    assert "if not finished: within days" in (page.locator(".sheet").text_content() or "")


@pytest.mark.parametrize("width", [320, 360])
def test_the_days_of_the_week_can_be_tapped_on_a_phone(
    demo_server: SiteServer, opened: Callable[..., Page], width: int
) -> None:
    page = opened(viewport={"width": width, "height": 740})
    page.goto(f"{demo_server.url}root-perforation/recall/", wait_until="load")
    for button in page.get_by_role("group", name="Days without visits").get_by_role("button").all():
        box = button.bounding_box()
        assert box is not None
        assert min(box["width"], box["height"]) >= 44
    assert page.evaluate("document.documentElement.scrollWidth") == width


def test_the_day_of_treatment_is_most_often_today(demo_server: SiteServer, opened: Callable[..., Page]) -> None:
    page = opened()
    page.clock.install(time=datetime.datetime(2026, 12, 3, 17, 40))
    page.goto(f"{demo_server.url}root-perforation/recall/")
    press(page, "Yes", "Today")
    assert page.get_by_label("Day of treatment").input_value() == "2026-12-03"
    assert all(day.strip() for day in page.locator(".visits .day").all_inner_texts())


def test_a_number_of_two_digits_stands_within_the_edge(demo_server: SiteServer, opened: Callable[..., Page]) -> None:
    page = opened()
    page.goto(f"{demo_server.url}root-perforation/recall/")
    visits = page.locator("ol.visits")
    assert visits.locator("li").count() >= 10
    assert visits.evaluate("(list) => parseFloat(getComputedStyle(list).paddingLeft)") >= 30
