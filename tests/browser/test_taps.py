"""What happens on a tap: a situation, a recall plan, a search, a filter."""

from __future__ import annotations

import datetime
import math
import re
from collections.abc import Callable
from pathlib import Path

import pytest
from icalendar import Calendar
from playwright.sync_api import Page, expect
from site_server import SiteServer, serving
from waiting import wait_until

pytestmark = pytest.mark.browser

QUESTION = "root-perforation/"


def known(page: Page, field: str) -> list[str]:
    """Values of a field whose answer is to be seen."""
    visible = page.locator(f'.known[data-field="{field}"]:visible')
    return [item.get_attribute("data-value") or "" for item in visible.all()]


def test_cant_tell_is_an_answer_that_says_what_each_other_would_change(
    sample_server: SiteServer, opened: Callable[..., Page]
) -> None:
    page = opened()
    page.goto(sample_server.url + QUESTION)
    assert known(page, "size") == []
    page.locator('.ask[data-field="size"]').get_by_role("button", name="can't tell").click()
    assert known(page, "size") == [""]
    assert known(page, "roots") == []


def test_a_tap_shows_what_is_known_for_the_answer_and_writes_it_into_the_address(
    sample_server: SiteServer, opened: Callable[..., Page]
) -> None:
    page = opened()
    page.goto(sample_server.url + QUESTION)
    page.get_by_role("button", name="over 3 mm").click()
    page.get_by_role("button", name="more than one").click()
    assert known(page, "size") == ["large"]
    assert page.url.endswith("#size=large&roots=many")
    assert page.get_by_role("button", name="over 3 mm").get_attribute("aria-pressed") == "true"


def test_a_shape_of_a_drawing_answers_as_its_words_do(graft_site: Path, opened: Callable[..., Page]) -> None:
    with serving(graft_site, "/guide/") as server:
        page = opened()
        page.goto(server.url + "graft-cloudy/")
        shape = page.locator('.drawn a[data-value="centre"]')
        shape.click()
        assert known(page, "vessel-place") == ["centre"]
        assert page.url.endswith("#vessel-place=centre")
        assert page.get_by_role("button", name="the centre").get_attribute("aria-pressed") == "true"
        assert shape.locator("g").get_attribute("class") == "unit filled"
        page.locator('.drawn a[data-value="middle"]').focus()
        page.keyboard.press("Enter")
        assert known(page, "vessel-place") == ["middle"]
        assert shape.locator("g").get_attribute("class") == "unit"


PLACES = [
    ("root-perforation/", "hole-place", ["above", "crest", "below"], "at the crest"),
    ("broken-instrument/", "fragment-third", ["coronal", "middle", "apical"], "middle third"),
]


@pytest.mark.parametrize("width", [320, 360, 1280])
@pytest.mark.parametrize(("address", "field", "levels", "second"), PLACES)
def test_where_it_lies_is_answered_on_a_drawing_beside_its_words(
    demo_server: SiteServer,
    opened: Callable[..., Page],
    address: str,
    field: str,
    levels: list[str],
    second: str,
    width: int,
) -> None:
    page = opened(viewport={"width": width, "height": 740})
    page.goto(demo_server.url + address)
    ask = page.locator(f'.ask[data-field="{field}"]')
    shapes = ask.locator(".drawn a")
    # What is drawn around the levels answers nothing.
    assert [shape.get_attribute("data-value") for shape in shapes.all()] == levels
    for shape in shapes.all():
        box = shape.bounding_box()
        assert box is not None
        # WCAG 2.2, success criterion 2.5.5: the size of a fingertip.
        assert box["width"] >= 44
        assert box["height"] >= 44
    drawing, first = ask.locator(".drawn").bounding_box(), ask.get_by_role("button").first.bounding_box()
    assert drawing is not None
    assert first is not None
    assert first["x"] >= drawing["x"] + drawing["width"]
    assert drawing["y"] <= first["y"] + first["height"] <= drawing["y"] + drawing["height"]
    assert page.evaluate("document.documentElement.scrollWidth") == width
    shapes.nth(1).click()
    assert known(page, field) == [levels[1]]
    assert ask.get_by_role("button", name=second, exact=True).get_attribute("aria-pressed") == "true"
    # What a screen reader hears of a shape: its words, and whether it is the answer.
    heard = ask.get_by_role("group").get_by_role("link", name=second, exact=True)
    assert heard.get_attribute("aria-current") == "true"
    ask.get_by_role("button", name="can't tell").click()
    assert heard.get_attribute("aria-current") == "false"
    shapes.nth(0).focus()
    page.keyboard.press("Enter")
    assert page.url.endswith(f"#{field}={levels[0]}")


def test_a_drawing_without_a_script_leads_to_what_is_known(
    demo_server: SiteServer, opened: Callable[..., Page]
) -> None:
    page = opened(java_script_enabled=False)
    page.goto(f"{demo_server.url}root-perforation/")
    page.locator('.drawn a[data-value="below"]').click()
    assert page.url.endswith("#known-hole-place-below")


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_the_answer_on_a_drawing_is_told_by_light_and_dark_and_not_by_hue(
    demo_server: SiteServer, opened: Callable[..., Page], scheme: str
) -> None:
    page = opened(color_scheme=scheme)
    page.goto(f"{demo_server.url}root-perforation/#hole-place=crest")

    def lightness(value: str) -> float:
        # WCAG 2.2, relative luminance.
        fill = page.locator(f'.drawn a[data-value="{value}"] path').evaluate("(shape) => getComputedStyle(shape).fill")
        parts = [int(part) / 255 for part in re.findall(r"\d+", fill)[:3]]
        linear = [part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts]
        return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]

    dark, light = sorted((lightness("crest"), lightness("below")))
    assert (light + 0.05) / (dark + 0.05) >= 4.5


def test_an_address_with_answers_opens_with_them(sample_server: SiteServer, opened: Callable[..., Page]) -> None:
    page = opened()
    page.goto(f"{sample_server.url}{QUESTION}#size=large&roots=many")
    assert known(page, "size") == ["large"]
    assert known(page, "roots") == ["many"]


def test_an_answer_nobody_knows_counts_as_none(sample_server: SiteServer, opened: Callable[..., Page]) -> None:
    page = opened()
    page.goto(f"{sample_server.url}{QUESTION}#size=gigantic&colour=blue")
    assert known(page, "size") == []


def test_my_case_is_one_paragraph_for_the_record_and_an_address(
    demo_server: SiteServer, opened: Callable[..., Page]
) -> None:
    page = opened(permissions=["clipboard-read", "clipboard-write"])
    page.goto(f"{demo_server.url}{QUESTION}#hole-size=large")
    page.get_by_role("button", name="My case").click()
    panel = page.get_by_role("region", name="My case")
    # A hole so wide is a reason to call, which stands first.
    assert panel.locator("p").first.inner_text().startswith("Call ")
    said = panel.locator("p").filter(has_text="Looked up on").inner_text()
    assert said.startswith(
        "There is a hole in the root or the pulp floor. Size of the hole: over 3 mm (measured: ____ mm)."
    )
    assert "evidence of 2026-10-30, release 1.0.0" in said
    # What belongs in no record stands beside it.
    assert "not a forecast" not in said
    assert panel.locator("p", has_text="not a forecast").count() == 1
    assert panel.get_by_text("This tab alone keeps the answers").count() == 1
    assert said.endswith("Done, with what result: ________ invented for demonstration")
    # No number of the evidence, and so none of a person.
    assert panel.locator("data.figure").count() == 0
    assert "%" not in said
    assert panel.locator('a[href*="/sources/"]').count() > 0
    assert panel.get_by_role("link", name="Recall").get_attribute("href") == "recall/"
    panel.get_by_role("button", name="Copy for the record").click()
    panel.get_by_role("button", name="Copied").wait_for()
    assert page.evaluate("navigator.clipboard.readText()").startswith("There is a hole")
    other = opened()
    other.goto(panel.get_by_role("link", name="another device").get_attribute("href") or "")
    assert known(other, "hole-size") == ["large"]
    page.keyboard.press("Escape")
    assert not panel.is_visible()
    assert page.evaluate("[localStorage.length, document.cookie.length]") == [0, 0]
    # The answers alone, for this tab.
    assert page.evaluate("Object.keys(sessionStorage)") == [page.evaluate("location.pathname")]


def test_the_record_bears_the_day_and_the_time_at_which_it_was_copied(
    demo_server: SiteServer, opened: Callable[..., Page]
) -> None:
    page = opened(permissions=["clipboard-read", "clipboard-write"])
    page.clock.install(time=datetime.datetime(2026, 12, 3, 17, 40))
    page.goto(f"{demo_server.url}{QUESTION}#hole-size=large")
    page.get_by_role("button", name="My case").click()
    panel = page.get_by_role("region", name="My case")
    assert "Looked up on 2026-12-03 at 17:40 in " in panel.inner_text()
    assert "Answered at 17:40. Looked up on" in panel.inner_text()
    page.clock.fast_forward("12:00")
    panel.get_by_role("button", name="Copy for the record").click()
    panel.get_by_role("button", name="Copied").wait_for()
    assert "Answered at 17:40. Looked up on 2026-12-03 at 17:52 in " in page.evaluate("navigator.clipboard.readText()")


@pytest.mark.parametrize("order", [("not seen", "lesion"), ("lesion", "not seen")])
def test_a_reason_of_two_answers_is_in_doubt_until_both_are_given(
    demo_server: SiteServer, opened: Callable[..., Page], order: tuple[str, str]
) -> None:
    page = opened()
    page.goto(f"{demo_server.url}broken-instrument/")
    call = page.locator(".known:visible > p", has_text="You cannot see it and there was a lesion.")
    page.get_by_role("button", name=order[0], exact=True).click()
    expect(call).to_have_text(["Reason to call, if this is so: You cannot see it and there was a lesion."])
    page.get_by_role("button", name=order[1], exact=True).click()
    expect(call).to_have_count(2)
    wait_until(page, "typeof markWays === 'function'")
    assert {said.inner_text() for said in call.all()} == {"Reason to call: You cannot see it and there was a lesion."}
    page.get_by_role("button", name=order[0], exact=True).click()
    assert "if this is so" in call.inner_text()


def test_a_reason_of_one_answer_is_never_in_doubt(demo_server: SiteServer, opened: Callable[..., Page]) -> None:
    page = opened()
    page.goto(
        f"{demo_server.url}{QUESTION}#hole-place=crest&site-probing=deep&hole-size=large&bleeding-control=bleeding"
    )
    told = page.locator(".known:visible > p.warning", has_text="Reason to call")
    expect(told).to_have_count(4)
    assert all(said.startswith("Reason to call: ") for said in told.all_inner_texts())


def test_an_answer_that_is_a_reason_to_call_says_so_first_and_in_my_case(
    demo_server: SiteServer, opened: Callable[..., Page]
) -> None:
    page = opened()
    page.goto(f"{demo_server.url}{QUESTION}")
    page.get_by_role("button", name="still bleeding").click()
    call = "Call the supervisor in the room, or have the desk fetch one."
    told = page.locator(".known:visible > p")
    assert told.nth(1).inner_text().startswith(call)
    assert told.nth(2).inner_text() == "Reason to call: It bleeds on although you press."
    page.get_by_role("button", name="My case").click()
    panel = page.get_by_role("region", name="My case")
    assert panel.locator("p").first.inner_text().startswith(call)
    assert panel.locator("p").nth(1).inner_text() == told.nth(2).inner_text()
    panel.get_by_role("link", name="All reasons to call").click()
    assert not panel.is_visible()
    assert page.locator("#call").is_visible()


WAYS_BACK = [
    ("a source", ".known:visible a.reference", "a[href*='root-perforation/']"),
    ("the sheets for the patient", "main a[href$='root-perforation/patient/']", ".trail a"),
    ("a factor", ".known:visible .more a", ".trail a"),
    ("something worse", ".urgent-link", "nav.urgent > :text-is('My case')"),
]


@pytest.mark.parametrize(("there", "back"), [way[1:] for way in WAYS_BACK], ids=[way[0] for way in WAYS_BACK])
def test_the_answers_are_still_there_for_whoever_comes_back_by_a_link(
    demo_server: SiteServer, opened: Callable[..., Page], there: str, back: str
) -> None:
    page = opened()
    page.goto(f"{demo_server.url}{QUESTION}#hole-size=large&bleeding-control=bleeding")
    page.locator(there).first.click()
    page.wait_for_load_state("networkidle")
    assert "root-perforation/#" not in page.url
    page.locator(back).first.click()
    page.wait_for_url("**/root-perforation/#hole-size=large&bleeding-control=bleeding")
    assert known(page, "hole-size") == ["large"]
    assert known(page, "bleeding-control") == ["bleeding"]


def test_whoever_opens_the_question_anew_begins_without_answers(
    demo_server: SiteServer, opened: Callable[..., Page]
) -> None:
    page = opened()
    page.goto(f"{demo_server.url}{QUESTION}#hole-size=large")
    page.get_by_role("link", name="All questions").first.click()
    page.get_by_role("link", name="There is a hole").first.click()
    assert known(page, "hole-size") == []
    page.get_by_role("link", name="Words for the patient").click()
    # It is made by the same piece that would tell the case.
    page.get_by_role("button", name="Hand the phone over").wait_for()
    assert page.get_by_text("This case").count() == 0


def test_the_case_goes_along_to_the_sheets_for_the_patient(
    demo_server: SiteServer, opened: Callable[..., Page]
) -> None:
    page = opened()
    page.goto(f"{demo_server.url}{QUESTION}#hole-size=large&bleeding-control=bleeding")
    page.get_by_role("button", name="My case").click()
    page.get_by_role("region", name="My case").get_by_role("link", name="Words for the patient").click()
    case = page.locator("main .carried", has_text="This case")
    case.wait_for()
    assert "How wide is the hole? over 3 mm. Has the bleeding settled? still bleeding." in case.inner_text()
    way = page.get_by_role("link", name="by size of the hole")
    assert way.count() == 1
    way.click()
    heading = page.locator(".by-hole-size > h3, .by-hole-size > h4").first
    expect(heading).to_be_in_viewport()
    page.goto("about:blank")
    page.goto(f"{demo_server.url}{QUESTION}#site-probing=deep")
    page.get_by_role("link", name="Words for the patient").click()
    expect(page.get_by_text("Beside each number stands what is known of each answer")).to_be_visible()


def test_the_address_that_is_copied_bears_the_case_wherever_the_page_stands(
    demo_server: SiteServer, opened: Callable[..., Page]
) -> None:
    page = opened()
    page.goto(f"{demo_server.url}{QUESTION}#hole-size=large")
    page.get_by_role("link", name="Call", exact=True).click()
    assert page.url.endswith("#call")
    page.get_by_role("button", name="My case").click()
    link = page.get_by_role("region", name="My case").get_by_role("link", name="another device")
    assert (link.get_attribute("href") or "").endswith("root-perforation/#hole-size=large")


@pytest.mark.parametrize("door", ["Do now", "Call"])
def test_a_door_of_the_bar_closes_the_case_that_lies_over_it(
    demo_server: SiteServer, opened: Callable[..., Page], door: str
) -> None:
    page = opened()
    page.goto(f"{demo_server.url}{QUESTION}#hole-size=large")
    page.get_by_role("button", name="My case").click()
    page.get_by_role("link", name=door, exact=True).click()
    assert not page.get_by_role("region", name="My case").is_visible()


def test_my_case_without_a_script_leads_to_the_questions(
    sample_server: SiteServer, opened: Callable[..., Page]
) -> None:
    page = opened(java_script_enabled=False)
    page.goto(f"{sample_server.url}{QUESTION}")
    page.get_by_role("link", name="My case").click()
    assert page.url.endswith("#situation")
    assert page.locator("#situation").is_visible()


def test_one_tap_clears_all_answers(sample_server: SiteServer, opened: Callable[..., Page]) -> None:
    page = opened()
    page.goto(f"{sample_server.url}{QUESTION}#size=large&roots=many")
    page.get_by_text("Clear all answers").click()
    assert known(page, "size") == []
    assert "#" not in page.url


def test_a_second_tap_takes_an_answer_back(sample_server: SiteServer, opened: Callable[..., Page]) -> None:
    page = opened()
    page.goto(f"{sample_server.url}{QUESTION}#size=large")
    page.get_by_role("button", name="over 3 mm").click()
    assert known(page, "size") == []


def test_a_tooth_says_its_type_and_its_arch(sample_server: SiteServer, opened: Callable[..., Page]) -> None:
    # ISO 3950: 46 is the lower right first molar.
    page = opened()
    page.goto(f"{sample_server.url}{QUESTION}#tooth=46")
    assert known(page, "tooth-type") == ["molar"]
    assert known(page, "arch") == ["mandibular"]


@pytest.mark.parametrize("width", [320, 360, 1280])
def test_numbers_of_the_chart_stand_as_in_a_patient_who_is_looked_at(
    demo_server: SiteServer, opened: Callable[..., Page], width: int
) -> None:
    page = opened(viewport={"width": width, "height": 740})
    page.goto(f"{demo_server.url}{QUESTION}#tooth=46", wait_until="load")
    keys = page.evaluate(
        """() => [...document.querySelectorAll(".bows button")].map((key) => {
            const box = key.getBoundingClientRect();
            return [key.dataset.value, box.x + box.width / 2, box.y + box.height / 2, Math.min(box.width, box.height)];
        })"""
    )
    at = {value: (x, y) for value, x, y, _ in keys}
    assert len(at) == 33
    # WCAG 2.2, success criterion 2.5.5: 44 CSS pixels; the keys are round, so their middles are as far apart.
    assert min(size for *_, size in keys) >= 43.99
    places = list(at.values())
    apart = min(math.dist(one, other) for n, one in enumerate(places) for other in places[:n])
    assert apart >= 43.99
    assert all(0 <= x <= width for x, _ in places)
    # ISO 3950: quadrants clockwise from the patient's upper right, on the left of whoever looks at the patient.
    for quadrant, is_left, is_up in (("1", True, True), ("2", False, True), ("3", False, False), ("4", True, False)):
        for place in "12345678":
            x, y = at[quadrant + place]
            assert (x < at[""][0]) is is_left
            assert (y < at[""][1]) is is_up
    # The front teeth are the furthest out of each bow, the last molars the nearest to the other one.
    assert at["11"][1] < at["13"][1] < at["18"][1] < at["48"][1] < at["43"][1] < at["41"][1]
    assert page.get_by_role("button", name="46 (30)", pressed=True).is_visible()


def calendar(page: Page, server: SiteServer, day: str, folder: Path) -> bytes:
    """The file that the planner makes for a day of treatment."""
    page.goto(f"{server.url}root-perforation/recall/")
    page.get_by_role("button", name="Yes", exact=True).click()
    page.get_by_label("Day of treatment").fill(day)
    with page.expect_download() as download:
        page.get_by_role("button", name="Calendar file").click()
    file = folder / download.value.suggested_filename
    download.value.save_as(file)
    return file.read_bytes()


def test_the_calendar_holds_one_event_a_visit_with_an_alarm(
    sample_server: SiteServer, opened: Callable[..., Page], tmp_path: Path
) -> None:
    # Read back by icalendar, an independent reader of RFC 5545.
    events = Calendar.from_ical(calendar(opened(), sample_server, "2026-01-15", tmp_path)).walk("VEVENT")
    assert [event.decoded("DTSTART") for event in events] == [
        datetime.date(2026, 7, 15),
        datetime.date(2027, 1, 15),
        datetime.date(2030, 1, 15),
    ]
    assert all(len(event.walk("VALARM")) == 1 for event in events)


def test_the_last_day_of_a_month_stays_within_a_shorter_month(
    sample_server: SiteServer, opened: Callable[..., Page], tmp_path: Path
) -> None:
    # Half a year after 31 August is the last of February, 2028 being a leap year.
    first = Calendar.from_ical(calendar(opened(), sample_server, "2027-08-31", tmp_path)).walk("VEVENT")[0]
    assert first.decoded("DTSTART") == datetime.date(2028, 2, 29)


@pytest.fixture
def planner(sample_server: SiteServer, opened: Callable[..., Page]) -> Page:
    page = opened()
    page.goto(f"{sample_server.url}root-perforation/recall/", wait_until="load")
    return page


# Counted by hand on a calendar: the month's last day where the wanted day is missing.
@pytest.mark.parametrize(
    ("day", "months", "expected"),
    [
        ("2026-08-31", 6, "2027-02-28"),
        ("2026-08-31", 12, "2027-08-31"),
        ("2026-08-31", 24, "2028-08-31"),
        ("2026-08-31", 48, "2030-08-31"),
        ("2027-08-31", 6, "2028-02-29"),
        ("2024-02-29", 12, "2025-02-28"),
        ("2024-02-29", 48, "2028-02-29"),
        ("2026-12-31", 2, "2027-02-28"),
    ],
)
def test_months_are_clamped_to_their_last_day(planner: Page, day: str, months: int, expected: str) -> None:
    assert planner.evaluate("([day, months]) => monthsLater(day, months)", [day, months]) == expected


def test_folding_counts_octets_and_cuts_no_character(planner: Page) -> None:
    # RFC 5545, section 3.1: 52 characters, yet 92 octets in UTF-8.
    text = "DESCRIPTION:" + "é" * 40
    folded = planner.evaluate("(text) => folded(text)", text).encode()
    assert [len(line) <= 75 for line in folded.split(b"\r\n")] == [True, True]
    assert folded.decode().replace("\r\n ", "") == text


def test_stops_of_the_text_are_escaped_and_read_back(planner: Page, tmp_path: Path) -> None:
    # RFC 5545, section 3.3.11: backslash, semicolon, comma and line break.
    typed = "a, b; c \\ d\ne"
    made = planner.evaluate(
        """(typed) => {
            const plan = {question: "q", visits: [[6, "6 months"]], record: [typed], failing: [typed], mark: ""};
            return calendar(plan, visitsOf(plan, "2026-01-15", true, new Set()));
        }""",
        typed,
    )
    event = Calendar.from_ical(made).walk("VEVENT")[0]
    assert event["DESCRIPTION"] == f"Record: {typed}\nIt may be failing: {typed}"


def test_neither_the_file_nor_the_address_names_a_tooth_or_a_patient(
    sample_server: SiteServer, opened: Callable[..., Page], tmp_path: Path
) -> None:
    page = opened()
    page.goto(f"{sample_server.url}{QUESTION}#tooth=46")
    text = calendar(page, sample_server, "2026-01-15", tmp_path).decode()
    assert "tooth=46" not in text
    assert "#46" not in text
    assert not {"ATTENDEE", "ORGANIZER", "LOCATION"} & {line.split(":")[0].split(";")[0] for line in text.split("\r\n")}
    assert "2026-01-15" not in page.url
    assert "tooth" not in page.url


def test_the_calendar_keeps_to_the_form_of_rfc_5545(
    sample_server: SiteServer, opened: Callable[..., Page], tmp_path: Path
) -> None:
    text = calendar(opened(), sample_server, "2026-01-15", tmp_path)
    # Section 3.1: lines end in CRLF and hold at most 75 octets; sections 3.6.1 and 3.8.4.7: a UID and a DTSTAMP each.
    lines = text.split(b"\r\n")
    assert lines[-1] == b""
    assert b"\n" not in b"".join(lines)
    assert max(len(line) for line in lines) <= 75
    assert text.count(b"UID:") == text.count(b"DTSTAMP:") == text.count(b"BEGIN:VEVENT")


def test_the_calendar_carries_the_mark_of_the_demonstration_and_the_same_uid_each_time(
    sample_server: SiteServer, opened: Callable[..., Page], tmp_path: Path
) -> None:
    page = opened()
    first, second = (
        Calendar.from_ical(calendar(page, sample_server, "2026-01-15", tmp_path)).walk("VEVENT") for _ in range(2)
    )
    assert [event["UID"] for event in first] == [event["UID"] for event in second]
    assert all("invented for demonstration" in event["SUMMARY"] for event in first)
    assert all("invented for demonstration" in event["DESCRIPTION"] for event in first)


def test_the_search_finds_by_the_beginnings_of_words_in_any_order(
    sample_server: SiteServer, opened: Callable[..., Page]
) -> None:
    page = opened()
    page.goto(sample_server.url)
    page.get_by_role("link", name="Search").click()
    page.get_by_role("searchbox").fill("okaf marl")
    page.locator(".results").get_by_role("link", name="Marlow and Okafor").click()
    page.get_by_role("heading", name="Marlow and Okafor").wait_for()


def test_a_filter_narrows_the_rows_and_a_second_tap_brings_them_back(
    sample_server: SiteServer, opened: Callable[..., Page]
) -> None:
    page = opened()
    page.goto(f"{sample_server.url}root-perforation/conference/")
    rows = page.locator("tbody tr:visible")
    before = rows.count()
    page.get_by_role("button", name="trial").click()
    assert rows.count() == 0
    page.get_by_role("button", name="trial").click()
    assert rows.count() == before


def test_a_review_that_fell_due_is_said_by_the_readers_own_clock(
    sample_server: SiteServer, opened: Callable[..., Page]
) -> None:
    page = opened()
    page.clock.set_fixed_time("2028-10-02T12:00:00Z")
    page.goto(sample_server.url + QUESTION)
    page.get_by_text("The review of this page was due on 2028-10-01").wait_for()


def test_printing_opens_what_is_closed_and_leaves_the_choices_out(
    sample_server: SiteServer, opened: Callable[..., Page]
) -> None:
    page = opened()
    page.goto(f"{sample_server.url}{QUESTION}#size=large")
    page.emulate_media(media="print")
    assert page.locator(".choices button:visible").count() == 0
    assert page.locator(".known:visible").count() == 1


@pytest.mark.parametrize("below", ["hole-size/", "over-time/", "patient/", "recall/", "conference/"])
def test_a_page_below_a_question_keeps_the_doors_of_its_question(
    demo_server: SiteServer, opened: Callable[..., Page], below: str
) -> None:
    page = opened()
    page.goto(f"{demo_server.url}root-perforation/{below}", wait_until="load")
    for door, place in (("Do now", "now"), ("Call", "call")):
        found = page.locator("nav.urgent").get_by_role("link", name=door)
        box = found.bounding_box()
        assert box is not None
        assert box["height"] >= 44
        assert box["width"] >= 44
        assert page.evaluate("(link) => link.href", found.element_handle()) == (
            f"{demo_server.url}root-perforation/#{place}"
        )


@pytest.mark.parametrize("address", ["", "root-perforation/", "exposed-pulp/"])
def test_links_that_lead_on_are_as_high_as_a_finger(
    demo_server: SiteServer, opened: Callable[..., Page], address: str
) -> None:
    page = opened()
    page.goto(demo_server.url + address, wait_until="load")
    page.evaluate("document.querySelectorAll('details').forEach((part) => (part.open = true))")
    heights = page.locator(".ways-on a, .more > a").evaluate_all(
        "(links) => links.map((link) => link.getBoundingClientRect().height).filter(Boolean)"
    )
    assert len(heights) >= 4
    assert min(heights) >= 44
