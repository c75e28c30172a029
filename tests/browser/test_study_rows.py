"""One row a study in a real browser: a tap anywhere on it opens all that is told of it, with and without a script."""

from __future__ import annotations

import itertools
from collections.abc import Callable

import pytest
from playwright.sync_api import Locator, Page, expect
from site_server import SiteServer

pytestmark = pytest.mark.browser

FACTOR = "root-perforation/hole-size/"


def row_of(page: Page, name: str) -> Locator:
    return page.locator(".comparison .studies li").filter(has_text=name).first


@pytest.mark.parametrize("with_script", [True, False])
@pytest.mark.parametrize("width", [320, 360, 1280])
def test_a_tap_beside_the_figures_opens_the_row_and_a_tap_on_a_figure_follows_it(
    demo_server: SiteServer, opened: Callable[..., Page], width: int, with_script: bool
) -> None:
    page = opened(viewport={"width": width, "height": 740}, java_script_enabled=with_script)
    page.goto(demo_server.url + FACTOR, wait_until="load")
    row = row_of(page, "Ehlvik 2019")
    expect(row.locator("details")).not_to_have_attribute("open", "")
    row.scroll_into_view_if_needed()
    # The words below the name are no text of its own, and yet the row is the door.
    box = row.bounding_box()
    assert box is not None
    page.mouse.click(box["x"] + 20, box["y"] + box["height"] - 8)
    expect(row.get_by_text("Which way: fewer healed at the site")).to_be_visible()
    row.get_by_role("link", name="14 of 25").first.click()
    page.wait_for_url("**/sources/ehlvik2019teaching/#*")


@pytest.mark.parametrize("width", [320, 360, 1280])
def test_every_row_is_high_enough_for_a_thumb_and_none_lies_over_another(
    demo_server: SiteServer, opened: Callable[..., Page], width: int
) -> None:
    page = opened(viewport={"width": width, "height": 740})
    page.goto(demo_server.url + FACTOR, wait_until="load")
    boxes = page.evaluate(
        """() => [...document.querySelectorAll(".comparison .studies li")].map((row) => {
            const box = row.getBoundingClientRect();
            const parts = [...row.children].map((part) => part.getBoundingClientRect());
            const last = Math.max(...parts.map((part) => part.bottom));
            const tops = [box.top, box.bottom, last].map((place) => place + scrollY);
            row.scrollIntoView({block: "center"});
            const at = row.getBoundingClientRect();
            const edges = [[4, 4], [4, at.height - 4], [at.width / 2, at.height - 4], [at.width - 4, at.height - 4]];
            const doors = edges.map(([x, y]) => document.elementFromPoint(at.left + x, at.top + y).localName);
            return [...tops, doors];
        })"""
    )
    assert len(boxes) >= 7
    assert any(bottom - top <= 44 for top, bottom, _, _ in boxes) is (width >= 360)
    for top, bottom, last, doors in boxes:
        assert bottom - top >= 44
        assert last <= bottom + 1
        assert set(doors) == {"summary"}
    assert all(before[1] <= after[0] + 1 for before, after in itertools.pairwise(boxes))


def test_a_closed_row_is_two_lines_of_readable_text(demo_server: SiteServer, opened: Callable[..., Page]) -> None:
    page = opened(viewport={"width": 360, "height": 740})
    page.goto(demo_server.url + FACTOR, wait_until="load")
    row = row_of(page, "Ehlvik 2019")
    assert row.evaluate("(part) => part.getBoundingClientRect().height") == 44
    assert row.evaluate("(part) => parseFloat(getComputedStyle(part).fontSize)") >= 13
    # Words and drawing lie beside one another, and neither below the other.
    words, drawing = row.evaluate(
        """(row) => {
            const second = row.lastElementChild;
            const range = document.createRange();
            range.selectNodeContents(second.lastChild);
            return [range, second.querySelector("svg")].map((part) => part.getBoundingClientRect().toJSON());
        }"""
    )
    assert words["right"] <= drawing["left"]
    assert words["top"] < drawing["bottom"]
    assert drawing["top"] < words["bottom"]


@pytest.mark.parametrize("with_script", [True, False])
def test_a_tap_on_the_bracket_over_time_opens_the_studies_it_stands_for(
    demo_server: SiteServer, opened: Callable[..., Page], with_script: bool
) -> None:
    page = opened(viewport={"width": 360, "height": 740}, java_script_enabled=with_script)
    page.goto(f"{demo_server.url}root-perforation/over-time/", wait_until="load")
    study = page.locator("details[id^='every-'] .studies li").filter(has_text="Ehlvik 2019").first
    expect(study).not_to_be_visible()
    page.get_by_role("link", name="Every study at this time").first.click()
    expect(study).to_be_visible()


def test_the_strip_of_no_difference_stands_at_one_place_down_the_page(
    demo_server: SiteServer, opened: Callable[..., Page]
) -> None:
    page = opened(viewport={"width": 360, "height": 740})
    page.goto(demo_server.url + FACTOR, wait_until="load")
    places = page.evaluate(
        """() => [...document.querySelectorAll(".comparison .studies")].map((list) =>
            [...list.querySelectorAll(".same")].map((strip) => Math.round(strip.getBoundingClientRect().left)))"""
    )
    assert all(len(set(found)) == 1 for found in places)
    assert sum(len(found) for found in places) > 7


def test_the_drawing_over_time_keeps_its_text_inside_the_screen(
    demo_server: SiteServer, opened: Callable[..., Page]
) -> None:
    page = opened(viewport={"width": 320, "height": 740})
    for question in ("root-perforation", "exposed-pulp", "broken-instrument"):
        page.goto(f"{demo_server.url}{question}/over-time/", wait_until="load")
        page.evaluate("document.querySelectorAll('details').forEach((part) => (part.open = true))")
        outside = page.evaluate(
            """() => [...document.querySelectorAll(".plot svg text")].filter((text) => {
                const box = text.getBoundingClientRect();
                return box.left < -1 || box.right > innerWidth + 1;
            }).map((text) => text.textContent)"""
        )
        assert outside == [], question


@pytest.mark.parametrize("width", [320, 360, 1280])
@pytest.mark.parametrize("address", ["root-perforation/hole-size/", "exposed-pulp/pulp-treatment/"])
def test_labels_of_a_scale_stand_apart_and_below_its_rows(
    demo_server: SiteServer, opened: Callable[..., Page], address: str, width: int
) -> None:
    page = opened(viewport={"width": width, "height": 740})
    page.goto(demo_server.url + address, wait_until="load")
    page.evaluate("document.querySelectorAll('details.part').forEach((part) => (part.open = true))")
    scales = page.evaluate(
        """() => [...document.querySelectorAll(".studies > svg.ends")].map((scale) => {
            const box = (part) => { const at = part.getBoundingClientRect(); return [at.left, at.right]; };
            const drawn = scale.parentElement.querySelector("li svg");
            const labels = [...scale.querySelectorAll("text")].map(box).sort((a, b) => a[0] - b[0]);
            return [labels, box(scale), drawn && box(drawn)];
        })"""
    )
    assert len(scales) > 4
    for labels, scale, drawn in scales:
        assert all(one[1] <= other[0] for one, other in itertools.pairwise(labels)), labels
        # What a scale says of a row is read straight down.
        assert drawn is None or all(abs(one - other) < 1 for one, other in zip(scale, drawn, strict=True))
