"""A wide screen: the parts of a page at its side, and two of them beside each other; a phone waits for none of it."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from playwright.sync_api import Page
from site_server import SiteServer, serving

pytestmark = pytest.mark.browser

DESK = {"width": 1280, "height": 800}


@pytest.mark.parametrize("address", ["exposed-pulp/", "root-perforation/hole-size/", "root-perforation/over-time/"])
def test_the_parts_of_a_page_stand_at_its_side(
    demo_server: SiteServer, opened: Callable[..., Page], address: str
) -> None:
    page = opened(viewport=DESK)
    page.goto(demo_server.url + address, wait_until="load")
    beside = page.get_by_role("navigation", name="On this page")
    beside.wait_for()
    box, text = beside.bounding_box(), page.locator(".guide").bounding_box()
    assert box is not None
    assert text is not None
    assert box["x"] + box["width"] <= text["x"]
    names = [" ".join(name.split()) for name in beside.get_by_role("link").all_text_contents()]
    heads = page.locator(".guide h2:visible").all_text_contents()
    assert names == [" ".join(name.split()) for name in heads]
    last = beside.get_by_role("link").last.bounding_box()
    assert last is not None
    assert last["y"] + last["height"] <= DESK["height"] - 54
    beside.get_by_role("link").last.click()
    page.wait_for_function("location.hash.length > 1 && document.querySelector(location.hash) !== null")


@pytest.mark.parametrize("kind", ["recall", "patient", "conference"])
def test_a_page_whose_headings_have_no_place_of_their_own_is_quiet(
    demo_server: SiteServer, opened: Callable[..., Page], kind: str
) -> None:
    page = opened(viewport=DESK)
    faults: list[str] = []
    page.on("pageerror", lambda fault: faults.append(str(fault)))
    page.goto(f"{demo_server.url}exposed-pulp/{kind}/", wait_until="networkidle")
    assert faults == []
    for link in page.locator(".contents a").all():
        target = link.get_attribute("href") or ""
        assert page.locator(f'[id="{target.removeprefix("#")}"]').count() == 1, target


def test_what_not_to_do_and_what_to_do_stand_beside_each_other(
    demo_server: SiteServer, opened: Callable[..., Page]
) -> None:
    page = opened(viewport=DESK)
    page.goto(f"{demo_server.url}exposed-pulp/", wait_until="load")
    stop, now = page.locator("section.stop").bounding_box(), page.locator("section.now").bounding_box()
    assert stop is not None
    assert now is not None
    assert stop["y"] == now["y"]
    assert stop["x"] + stop["width"] < now["x"]
    order = page.locator(".guide > section > h2").all_text_contents()
    assert order[:4] == ["Do not", "Do now", "Call", "Is it really this?"]


@pytest.mark.parametrize("width", [320, 360, 768])
def test_a_narrow_screen_has_one_column_and_no_parts_at_its_side(
    demo_server: SiteServer, opened: Callable[..., Page], width: int
) -> None:
    page = opened(viewport={"width": width, "height": 740})
    page.goto(f"{demo_server.url}exposed-pulp/", wait_until="networkidle")
    assert page.locator(".contents").count() == 0
    assert not page.locator("table.ways").is_visible()
    lefts = page.locator(".guide > *:visible").evaluate_all(
        "(parts) => parts.map((part) => part.getBoundingClientRect().left)"
    )
    assert len(set(lefts)) == 1


def test_a_wide_screen_asks_for_no_file_more_than_a_phone(demo_site: Path, opened: Callable[..., Page]) -> None:
    def asked(width: int) -> list[str]:
        with serving(demo_site) as server:
            page = opened(viewport={"width": width, "height": 800})
            page.goto(f"{server.url}exposed-pulp/", wait_until="networkidle")
            return sorted(entry.path for entry in server.asked if not entry.path.endswith("favicon.ico"))

    assert asked(1280) == asked(360)


@pytest.mark.parametrize("question", ["root-perforation", "exposed-pulp", "broken-instrument"])
def test_two_columns_have_no_holes_between_their_parts(
    demo_server: SiteServer, opened: Callable[..., Page], question: str
) -> None:
    page = opened(viewport=DESK)
    page.goto(f"{demo_server.url}{question}/", wait_until="networkidle")
    for parts in (".guide > *", ".situation > *"):
        boxes = page.locator(f"{parts}:visible").evaluate_all(
            "(parts) => parts.map((part) => part.getBoundingClientRect().toJSON())"
        )
        assert len(boxes) >= 5
        for box in boxes:
            # What stands in the same column above it, or across both.
            above = [
                other["bottom"] for other in boxes
                if other["bottom"] <= box["top"] + 1 and other["left"] < box["right"] and box["left"] < other["right"]
            ]  # fmt: skip
            assert not above or box["top"] - max(above) <= 90, (question, parts, box)
