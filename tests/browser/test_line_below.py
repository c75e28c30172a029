"""What a number of a sentence counts stands below it, large enough, with a script and without, and is copied."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from playwright.sync_api import Page
from site_server import SiteServer

pytestmark = pytest.mark.browser

# Front, question, and a hand-written page, which wears the frame of those for contributors.
ADDRESSES = ("", "root-perforation/", "about/")
BELOW = "still so 10 years after healing (95% CI 57% to 81%); 85 teeth at the start, 29 still followed then"


@pytest.mark.parametrize("address", ADDRESSES)
@pytest.mark.parametrize("script", [True, False], ids=["script", "no script"])
def test_it_stands_below_its_sentence_in_sixteen_pixels(
    demo_server: SiteServer, opened: Callable[..., Page], address: str, script: bool
) -> None:
    page = opened(java_script_enabled=script)
    page.goto(demo_server.url + address, wait_until="load")
    line = page.locator("small", has_text=BELOW)
    assert line.count() == 1
    assert line.is_visible()
    sentence = line.locator("xpath=..")
    assert sentence.evaluate("(part) => part.tagName") == "P"
    looks = line.evaluate(
        "(part) => { const style = getComputedStyle(part); return [style.display, style.fontSize, part.scrollWidth] }"
    )
    assert looks[0] == "block"
    assert float(looks[1].removesuffix("px")) >= 16
    assert looks[2] <= 360
    above, below = sentence.bounding_box(), line.bounding_box()
    assert above is not None
    assert below is not None
    assert above["y"] + 20 < below["y"]


@pytest.mark.parametrize("address", ADDRESSES)
def test_whoever_copies_the_sentence_copies_what_it_counts(
    demo_server: SiteServer, opened: Callable[..., Page], address: str
) -> None:
    page = opened()
    page.goto(demo_server.url + address, wait_until="load")
    copied = page.locator("p:has(> small)", has_text=BELOW).evaluate(
        """(part) => {
            const range = document.createRange();
            range.selectNodeContents(part);
            getSelection().removeAllRanges();
            getSelection().addRange(range);
            return getSelection().toString();
        }"""
    )
    assert "71%" in copied.partition("\n")[0]
    assert BELOW in copied.partition("\n")[2]


@pytest.mark.parametrize("address", ADDRESSES)
def test_on_paper_no_page_ends_between_a_sentence_and_what_it_counts(
    demo_server: SiteServer, opened: Callable[..., Page], address: str
) -> None:
    page = opened()
    page.goto(demo_server.url + address, wait_until="load")
    page.emulate_media(media="print")
    kept = page.locator("p:has(> small)", has_text=BELOW).evaluate("(part) => getComputedStyle(part).breakInside")
    assert kept == "avoid"
