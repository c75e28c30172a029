"""Reachable: the order of the keyboard, focus beside the bar, what a screen reader hears, large text, own colours."""

from __future__ import annotations

import itertools
from collections.abc import Callable
from pathlib import Path

import pytest
from look import one_of_each_kind
from playwright.sync_api import Page, expect
from site_server import SiteServer

pytestmark = pytest.mark.browser

QUESTION = "root-perforation/"


def test_the_urgent_door_is_the_first_stop_of_the_keyboard(
    demo_server: SiteServer, demo_site: Path, opened: Callable[..., Page]
) -> None:
    page = opened()
    for kind, address in one_of_each_kind(demo_site).items():
        page.goto(demo_server.url + address, wait_until="load")
        page.keyboard.press("Tab")
        assert page.evaluate("document.activeElement.textContent") == "something worse is happening", kind


def test_the_second_stop_of_the_keyboard_skips_to_the_text(
    demo_server: SiteServer, demo_site: Path, opened: Callable[..., Page]
) -> None:
    # WCAG 2.2, success criterion 2.4.1 Bypass Blocks.
    page = opened()
    for kind, address in one_of_each_kind(demo_site).items():
        page.goto(demo_server.url + address, wait_until="load")
        bar = page.locator("nav.urgent a, nav.urgent button").count()
        for _ in range(bar + 1):
            page.keyboard.press("Tab")
        skip = page.locator(":focus")
        assert skip.inner_text().lower().startswith("skip to"), kind
        expect(skip).to_be_in_viewport()
        page.keyboard.press("Enter")
        page.keyboard.press("Tab")
        assert page.evaluate("document.activeElement.closest('main, .urgent, footer') !== null"), kind


def test_focus_is_never_behind_the_bar_on_the_way_down_or_up(
    demo_server: SiteServer, opened: Callable[..., Page]
) -> None:
    # WCAG 2.2, success criterion 2.4.11 Focus Not Obscured, in its stricter form (2.4.12): no part is hidden.
    page = opened()
    page.goto(demo_server.url + QUESTION, wait_until="load")
    hidden = []
    for key, steps in (("Tab", 90), ("Shift+Tab", 90)):
        for _ in range(steps):
            page.keyboard.press(key)
            under = page.evaluate(
                """() => {
                    const part = document.activeElement;
                    const bar = document.querySelector(".urgent").getBoundingClientRect();
                    const box = part.getBoundingClientRect();
                    const isSeen = part.closest(".urgent") || part === document.body || box.bottom <= bar.top + 1;
                    return isSeen ? null : part.outerHTML.slice(0, 90) + " " + box.top;
                }"""
            )
            if under:
                hidden.append(f"{key}: {under}")
    assert hidden == []


def test_focus_is_seen(demo_server: SiteServer, opened: Callable[..., Page]) -> None:
    page = opened()
    page.goto(demo_server.url + QUESTION, wait_until="load")
    for _ in range(25):
        page.keyboard.press("Tab")
        width = page.evaluate("parseFloat(getComputedStyle(document.activeElement).outlineWidth)")
        assert width >= 2, page.evaluate("document.activeElement.outerHTML")


def test_choices_are_switches_that_say_whether_they_are_on(
    demo_server: SiteServer, opened: Callable[..., Page]
) -> None:
    page = opened()
    page.goto(demo_server.url + QUESTION, wait_until="load")
    choice = page.get_by_role("button", name="over 3 mm")
    expect(choice).to_have_attribute("aria-pressed", "false")
    choice.focus()
    page.keyboard.press("Enter")
    expect(page.get_by_role("button", name="over 3 mm", pressed=True)).to_be_focused()
    # What has changed is told without moving the focus (WCAG 2.2, success criterion 4.1.3).
    expect(page.locator('.answers[aria-live="polite"]:has(#known-hole-size-large)')).to_be_visible()


Node = dict[str, object]


def heard(page: Page) -> list[tuple[str, str, str]]:
    """Role, name and description of everything in the accessibility tree, as Chromium hands it to a screen reader."""
    nodes = page.context.new_cdp_session(page).send("Accessibility.getFullAXTree")["nodes"]

    def said(node: Node, field: str) -> str:
        value = node.get(field)
        return str(value.get("value", "")) if isinstance(value, dict) else ""

    return [(said(node, "role"), said(node, "name"), said(node, "description")) for node in nodes]


@pytest.mark.parametrize("width", [360, 1280])
@pytest.mark.parametrize("address", ["root-perforation/hole-size/", "root-perforation/over-time/"])
def test_tables_and_charts_are_heard_with_their_names(
    demo_server: SiteServer, opened: Callable[..., Page], address: str, width: int
) -> None:
    page = opened(viewport={"width": width, "height": 740})
    page.goto(demo_server.url + address, wait_until="load")
    page.evaluate("document.querySelectorAll('details').forEach((part) => (part.open = true))")
    tree = heard(page)
    tables = page.locator("table").count()
    regions = [name for role, name, _ in tree if role == "region"]
    assert tables > 0
    # A table stays a table where a narrow screen sets its cells one below the other.
    assert [role for role, name, _ in tree if role == "table" and name] == ["table"] * tables
    assert sum(role == "columnheader" for role, *_ in tree) == page.locator("th[scope=col]").count()
    assert sum(role == "rowheader" for role, *_ in tree) == page.locator("th[scope=row]").count()
    assert len(set(regions)) == len(regions) == tables
    charts = [(name, says) for role, name, says in tree if role == "group" and name]
    assert len(charts) == page.locator("svg[role=group]").count()
    assert all(name and len(says) > len(name) for name, says in charts)
    lists = [name for role, name, _ in tree if role == "list" and name]
    assert len(set(lists)) == len(lists) == page.locator(".studies > ul").count() > 0


def test_headings_never_skip_a_level(demo_server: SiteServer, demo_site: Path, opened: Callable[..., Page]) -> None:
    page = opened()
    skipped = []
    for address in one_of_each_kind(demo_site).values():
        page.goto(demo_server.url + address, wait_until="load")
        levels = page.evaluate("[...document.querySelectorAll('h1,h2,h3,h4,h5,h6')].map((part) => +part.localName[1])")
        if levels[0] != 1 or levels.count(1) != 1 or any(b - a > 1 for a, b in itertools.pairwise(levels)):
            skipped.append((address, levels))
    assert skipped == []


def test_text_of_twice_the_size_still_fits(
    demo_server: SiteServer, demo_site: Path, opened: Callable[..., Page]
) -> None:
    # WCAG 2.2, success criterion 1.4.4 Resize Text: 200 per cent, here on a phone.
    page = opened()
    wide = []
    for kind, address in one_of_each_kind(demo_site).items():
        page.goto(demo_server.url + address, wait_until="load")
        page.evaluate("document.documentElement.style.fontSize = '200%'")
        if page.evaluate("document.documentElement.scrollWidth") > 360:
            wide.append(kind)
    assert wide == []


@pytest.mark.parametrize("width", [320, 360, 1280])
def test_the_bar_is_low_and_covers_nothing_at_the_end_of_a_page(
    demo_server: SiteServer, demo_site: Path, opened: Callable[..., Page], width: int
) -> None:
    page = opened(viewport={"width": width, "height": 740})
    for kind, address in one_of_each_kind(demo_site).items():
        page.goto(demo_server.url + address, wait_until="networkidle")
        bar = page.locator("nav.urgent").bounding_box()
        assert bar is not None
        assert round(bar["y"] + bar["height"]) == 740, kind
        assert bar["height"] <= 60, kind
        page.evaluate("scrollTo(0, document.documentElement.scrollHeight)")
        last = page.locator("footer p").last.bounding_box()
        assert last is not None
        assert last["y"] + last["height"] <= 740 - bar["height"], kind
        page.evaluate("document.documentElement.style.fontSize = '200%'")
        bar = page.locator("nav.urgent").bounding_box()
        assert bar is not None
        assert bar["height"] <= 740 / 4, kind


def test_the_bar_is_not_printed(demo_server: SiteServer, opened: Callable[..., Page]) -> None:
    page = opened()
    page.goto(demo_server.url + QUESTION, wait_until="load")
    page.emulate_media(media="print")
    assert not page.locator("nav.urgent").is_visible()


def test_spaced_text_loses_nothing(demo_server: SiteServer, opened: Callable[..., Page]) -> None:
    # WCAG 2.2, success criterion 1.4.12 Text Spacing, its four values.
    page = opened()
    page.goto(demo_server.url + QUESTION, wait_until="load")
    page.evaluate(
        """() => { for (const part of document.querySelectorAll("body *")) Object.assign(part.style,
            { lineHeight: "1.5", letterSpacing: ".12em", wordSpacing: ".16em" }) }"""
    )
    cut = page.evaluate(
        """() => [...document.querySelectorAll(".target, summary, .do, h1, h2, h3")]
            .filter((part) => part.getClientRects().length && part.scrollHeight > part.clientHeight + 2
                && getComputedStyle(part).overflow !== "visible").map((part) => part.outerHTML.slice(0, 90))"""
    )
    assert cut == []
    assert page.evaluate("document.documentElement.scrollWidth") == 360


def test_own_colours_of_the_reader_keep_what_is_chosen_and_drawn(
    demo_server: SiteServer, opened: Callable[..., Page]
) -> None:
    page = opened(forced_colors="active")
    page.goto(f"{demo_server.url}{QUESTION}#hole-size=large", wait_until="load")
    outline = "(part) => getComputedStyle(part).outlineStyle + parseFloat(getComputedStyle(part).outlineWidth)"
    assert page.get_by_role("button", name="over 3 mm").evaluate(outline) == "solid4"
    assert page.get_by_role("button", name="up to 1 mm").evaluate(outline).startswith("none")
    page.goto(f"{demo_server.url}{QUESTION}hole-size/", wait_until="load")
    paper = page.evaluate("getComputedStyle(document.body).backgroundColor")
    assert page.locator(".studies line").first.evaluate("(part) => getComputedStyle(part).stroke") != paper


def test_nothing_moves_by_itself(demo_server: SiteServer, demo_site: Path, opened: Callable[..., Page]) -> None:
    page = opened(reduced_motion="reduce")
    for kind, address in one_of_each_kind(demo_site).items():
        page.goto(demo_server.url + address, wait_until="load")
        assert page.evaluate("document.getAnimations().length") == 0, kind


# House rule: what is open are the answer and the comparison, the drawing or the list that leads.
SCREENS = {"factor": 6, "over-time": 6, "conference": 8, "source": 5}


@pytest.mark.parametrize("with_script", [True, False])
def test_pages_of_evidence_are_closed_a_few_screens_long(
    demo_server: SiteServer, demo_site: Path, opened: Callable[..., Page], with_script: bool
) -> None:
    page = opened(viewport={"width": 360, "height": 740}, java_script_enabled=with_script)
    long, kinds = [], set()
    for file in sorted(demo_site.glob("*/*/index.html")):
        text = file.read_text(encoding="utf-8")
        kind = next((name for name in SCREENS if f'data-page="{name}"' in text), "")
        if kind:
            kinds.add(kind)
            page.goto(f"{demo_server.url}{file.parent.relative_to(demo_site).as_posix()}/", wait_until="load")
            screens = page.evaluate("document.documentElement.scrollHeight") / 740
            if screens > SCREENS[kind]:
                long.append((kind, file.parent.name, screens))
    assert kinds == set(SCREENS)
    assert long == []


@pytest.mark.parametrize(
    "anchor",
    ["ratios-large-site-healed-strict", "levels-site-healed-strict", "way-middle-site-healed-strict", "how-sure"],
)
def test_the_way_to_a_closed_part_of_a_factor_opens_it(
    demo_server: SiteServer, opened: Callable[..., Page], anchor: str
) -> None:
    page = opened()
    page.goto(f"{demo_server.url}{QUESTION}hole-size/", wait_until="load")
    part = page.locator("details").filter(has=page.locator(f"#{anchor}")).or_(page.locator(f"details#{anchor}")).last
    assert part.get_attribute("open") is None
    page.goto(f"{demo_server.url}{QUESTION}hole-size/#{anchor}", wait_until="load")
    expect(part).to_have_attribute("open", "")


@pytest.mark.parametrize("script", [True, False], ids=["script", "no script"])
def test_a_link_to_a_claim_opens_it(demo_server: SiteServer, opened: Callable[..., Page], script: bool) -> None:
    page = opened(java_script_enabled=script)
    page.goto(f"{demo_server.url}sources/kvistmoen2021margin/#claim-sound-24", wait_until="load")
    expect(page.get_by_text("risk difference -2.0 percentage points", exact=False).last).to_be_visible()
    expect(page.locator("#claim-sound-24 .invented")).to_be_visible()
    other = page.locator("details.claim:not(#claim-sound-24) .invented").first
    expect(other).to_be_hidden()
