"""What a reader is told by shape: what not to do stands behind a gate, a chosen answer is weighted at its foot."""

from __future__ import annotations

from collections.abc import Callable
from typing import cast

import pytest
from playwright.sync_api import Locator, Page
from site_server import SiteServer

pytestmark = pytest.mark.browser

BOX = (
    "(part) => [part.offsetLeft, part.offsetTop - part.closest('.ask').offsetTop, part.offsetWidth, part.offsetHeight]"
)


def style(part: Locator, name: str, pseudo: str = "") -> str:
    return cast("str", part.evaluate("(part, [name, pseudo]) => getComputedStyle(part, pseudo)[name]", [name, pseudo]))


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("address", ["root-perforation/", "urgent/#irrigant-extruded"])
def test_what_not_to_do_stands_behind_a_double_rule_and_each_line_behind_a_bar(
    demo_server: SiteServer, opened: Callable[..., Page], address: str, scheme: str
) -> None:
    page = opened(color_scheme=scheme)
    page.goto(demo_server.url + address)
    gate = page.locator("ul.stop:visible").first
    assert style(gate, "borderTopStyle") == style(gate, "borderBottomStyle") == "double"
    for line in gate.locator(":scope > li").all():
        assert style(line, "borderLeftWidth") == "0px"
        assert style(line, "backgroundColor") == "rgba(0, 0, 0, 0)"
        # Drawn as a border: it stays where a reader's own colours replace every ground.
        assert style(line, "borderTopWidth", "::before") == "9px"
        assert style(line, "borderTopColor", "::before") == style(gate, "borderTopColor")


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_a_chosen_answer_is_told_by_its_frame_and_moves_nothing(
    demo_server: SiteServer, opened: Callable[..., Page], scheme: str
) -> None:
    page = opened(color_scheme=scheme)
    page.goto(f"{demo_server.url}root-perforation/")
    ask = page.locator('.ask[data-field="bleeding-control"]')
    buttons = ask.locator(".choices button")
    before = [button.evaluate(BOX) for button in buttons.all()]
    # WCAG 2.2, success criterion 2.5.5: 44 CSS pixels.
    assert all(box[3] >= 44 for box in before)
    buttons.first.click()
    assert [button.evaluate(BOX) for button in buttons.all()] == before
    chosen, other = buttons.first, buttons.nth(1)
    assert style(other, "boxShadow") == "none"
    # As dark as the words, and so told apart in grey: a frame, and a weight at the foot.
    ink = style(chosen, "color")
    assert style(chosen, "boxShadow") == f"{ink} 0px 0px 0px 2px inset, {ink} 0px -8px 0px 0px inset"
    assert style(chosen, "color") == style(other, "color")


def test_nothing_is_struck_through_in_the_chosen_number_of_a_chart(
    demo_server: SiteServer, opened: Callable[..., Page]
) -> None:
    page = opened()
    page.goto(f"{demo_server.url}root-perforation/#tooth=46")
    chosen = page.locator('.bows [data-value="46"]')
    assert chosen.get_attribute("aria-pressed") == "true"
    assert style(chosen, "textDecorationLine") == "none"
    # Nothing lies across its two lines.
    assert style(chosen, "boxShadow").count("inset") == 1


def test_the_ground_of_an_emergency_that_was_asked_for_is_that_of_the_page(
    demo_server: SiteServer, opened: Callable[..., Page]
) -> None:
    page = opened()
    page.goto(f"{demo_server.url}urgent/#irrigant-extruded")
    assert style(page.locator("#irrigant-extruded"), "backgroundColor") == "rgba(0, 0, 0, 0)"
